"""Captions, departures, repairs and imports as text for a person and as records for a program."""

from cutaway.api.recording import Captioned
from cutaway.handbook.records import Script
from cutaway.narrate.alignment import Absent, Alignment, Departure
from cutaway.problems.counting import counted
from cutaway.problems.diagnostic import Problems
from cutaway.problems.printing import as_records

_SAYS = {
    "not heard": "not heard",
    "differs": "sounds different",
    "left out": "words not heard",
    "added": "more is said",
}


def captioned_text(done: Captioned) -> str:
    """What was written, and what is to be checked."""
    lines: list[str] = []
    if done.alignment is not None:
        lines += _recording_lines(done, done.alignment)
    count = len(done.cues)
    if done.unchanged:
        lines.append(f"Nothing differs: {counted(count, 'caption')} as the files there have them. Nothing was written.")
        return "\n".join(lines)
    lines.append(f"{counted(count, 'caption')} written:")
    lines += [f"  {path}" for path in done.files]
    return "\n".join(lines)


def _recording_lines(done: Captioned, alignment: Alignment) -> list[str]:
    heard = sum(1 for one in alignment.sentences if one.words)
    lines = [
        f"{clock(done.seconds)} of sound; {heard} of {counted(len(alignment.sentences), 'sentence')} found, "
        f"{100 * alignment.share:.0f} % of the words made out."
    ]
    if alignment.absent:
        lines.append("Not in this recording:")
        lines += [f"  {absent_text(one, done.script)}" for one in alignment.absent]
    if alignment.departures:
        lines.append("To check by listening; a machine that mishears looks just like this:")
        lines += [f"  {departure_text(one, done.script)}" for one in alignment.departures]
    lines.append("")
    return lines


def absent_text(one: Absent, script: Script) -> str:
    """Sentences that are not in a recording, as a line."""
    sentences = script.sentences
    chapters = ", ".join(_chapters(one, script))
    which = f"sentences {one.first + 1} to {one.last + 1}{f' ({chapters})' if chapters else ''}"
    return f"{which}: from '{sentences[one.first].text}' to '{sentences[one.last].text}'"


def _chapters(one: Absent, script: Script) -> tuple[str, ...]:
    within = script.sentences[one.first : one.last + 1]
    return tuple(dict.fromkeys(sentence.chapter for sentence in within if sentence.chapter))


def departure_text(one: Departure, script: Script) -> str:
    """One departure as a line."""
    place = f"{clock(one.start)}  {_SAYS[one.kind]}"
    if one.kind == "not heard":
        said = f"; instead something like '{one.said}'" if one.said else ""
        return f"{place}: '{script.sentences[one.sentence].text}'{said}"
    if one.kind == "added":
        return f"{place} that is not written: '{one.said}'"
    if one.kind == "left out":
        return f"{place}: '{one.written}', in '{script.sentences[one.sentence].text}'"
    return f"{place}: '{one.said}' for '{one.written}', in '{script.sentences[one.sentence].text}'"


def clock(seconds: float) -> str:
    """Minutes and seconds, hours if need be.

    >>> clock(61.25), clock(3725.0)
    ('1:01.2', '1:02:05.0')
    """
    tenths = round(seconds * 10)
    minutes, tenths = divmod(tenths, 600)
    hours, minutes = divmod(minutes, 60)
    rest = f"{tenths // 10:02d}.{tenths % 10}"
    return f"{hours}:{minutes:02d}:{rest}" if hours else f"{minutes}:{rest}"


def captioned_record(done: Captioned | None, found: Problems) -> dict[str, object]:
    """The same for a program."""
    problems = as_records(found)
    if done is None:
        return {"problems": problems}
    record: dict[str, object] = {
        "script": done.script.name,
        "files": [str(path) for path in done.files],
        "unchanged": done.unchanged,
        "captions": [
            {"id": cue.identifier, "start": cue.start, "end": cue.end, "lines": list(cue.lines)} for cue in done.cues
        ],
        "problems": problems,
    }
    if done.alignment is not None:
        record["recording"] = _alignment_record(done, done.alignment)
    return record


def _alignment_record(done: Captioned, alignment: Alignment) -> dict[str, object]:
    return {
        "seconds": round(done.seconds, 3),
        "share heard": round(alignment.share, 4),
        "sentences": [
            {
                "text": done.script.sentences[one.sentence].text,
                "found": bool(one.words),
                "start": round(one.start, 3),
                "end": round(one.end, 3),
                "share heard": round(one.share, 4),
                "words": [
                    {"word": w.said.word, "start": round(w.start, 3), "end": round(w.end, 3), "heard": w.heard}
                    for w in one.words
                ],
            }
            for one in alignment.sentences
        ],
        "not in this recording": [
            {"from sentence": one.first + 1, "to sentence": one.last + 1, "chapters": list(_chapters(one, done.script))}
            for one in alignment.absent
        ],
        "to check": [departure_record(one) for one in alignment.departures],
    }


def departure_record(one: Departure) -> dict[str, object]:
    """One departure for a program; sentences are counted from 1, 0 is before the first."""
    return {
        "kind": one.kind,
        "sentence": one.sentence + 1,
        "start": round(one.start, 3),
        "end": round(one.end, 3),
        "written": one.written,
        "said": one.said,
    }
