"""Repairs of captions as text for a person and as records for a program."""

from pathlib import Path

from cutaway.api.recording_text import clock, departure_record, departure_text
from cutaway.api.repairing import Repaired
from cutaway.narrate.repair import Repair
from cutaway.problems.counting import counted
from cutaway.problems.diagnostic import Problems
from cutaway.problems.printing import as_records


def repaired_text(done: Repaired, captions: Path) -> str:
    """The repairs, numbered, each with its reason; then where captions and script part."""
    if done.written is not None:
        made = [one for one in done.repairs if one.number in done.applied]
        lines = [_line(one, done) for one in made]
        return "\n".join((*lines, f"{len(made)} of {counted(len(done.repairs), 'repair')} made, in {done.written}"))
    lines = [_line(one, done) for one in done.repairs]
    if done.repairs:
        lines.append(f"Nothing was changed. To make some:  cutaway repair {captions} … --apply 1,3   (or all)")
    else:
        lines.append(f"Nothing to repair was found in {counted(len(done.cues), 'caption')}.")
    if done.departures and done.script is not None:
        lines.append(f"Said otherwise than {done.script.name} has it, to check:")
        lines += [f"  {departure_text(one, done.script)}" for one in done.departures]
    return "\n".join(lines)


def _line(one: Repair, done: Repaired) -> str:
    said = " ".join(one.said.split())
    return f"{one.number:3}  {clock(done.cues[one.cue].start)}  {said} → {one.written}\n     {one.reason}"


def repaired_record(done: Repaired | None, problems: Problems) -> dict[str, object]:
    """The same for a program. Offsets count characters of the captions' text with line feeds."""
    if done is None:
        return {"problems": as_records(problems)}
    return {
        "repairs": [
            {
                "number": one.number,
                "caption": one.cue + 1,
                "time": done.cues[one.cue].start,
                "start": one.start,
                "end": one.end,
                "said": one.said,
                "written": one.written,
                "reason": one.reason,
                "score": one.score,
                "applied": one.number in done.applied,
            }
            for one in done.repairs
        ],
        "script": done.script.name if done.script is not None else None,
        "to check": [departure_record(one) for one in done.departures],
        "written": str(done.written) if done.written is not None else None,
        "problems": as_records(problems),
    }
