"""A sheet in words, for those who cannot see it: every position, lamp, gauge and line, from the same records."""

from collections.abc import Mapping, Sequence

from cutaway.draw.plan import Plan
from cutaway.draw.seen import LineSeen

MEDIUM_WORDS = {"petrol": "Petrol", "oil": "Oil", "air": "Air", "current": "Current", "heat": "Heat", "shaft": "Shafts"}
LIVE = {"petrol": "under pressure", "oil": "under pressure", "air": "under pressure", "current": "live"}
DEAD = {"petrol": "without pressure", "oil": "without pressure", "air": "as outside", "current": "dead"}


def description(
    head: str,
    says: str,
    plan: Plan,
    notes: Mapping[str, Sequence[str]],
    seen: Mapping[str, LineSeen],
    cautions: Sequence[str],
    remarks: Sequence[str],
    notice: str,
) -> tuple[str, ...]:
    """The whole text alternative, sentence by sentence: what is shown, the parts, the lines, the couplings."""
    sentences = [head, says] if says else [head]
    own = [item for item in plan.items if not item.reference]
    if notes:
        told = [f"{item.part.name}: {', '.join(notes[item.key])}" for item in own if notes.get(item.key)]
        mute = [str(item.part.name) for item in own if not notes.get(item.key)]
        sentences += [f"Parts: {'; '.join(told)}."] if told else []
        sentences += [f"Also shown: {', '.join(mute)}."] if mute else []
    else:
        sentences.append(f"Parts: {', '.join(item.part.name for item in own)}. No state is shown.")
    sentences += _lines(plan, seen)
    links = [t.told for t in plan.ties if t.sort == "link"]
    sentences += [f"Couplings: {'; '.join(links)}."] if links else []
    sentences += [f"Caution: {caution}" for caution in cautions]
    return (*sentences, *remarks, notice)


def _lines(plan: Plan, seen: Mapping[str, LineSeen]) -> list[str]:
    lines = [t for t in plan.ties if t.sort == "line"]
    if not seen:
        return [f"Lines: {'; '.join(f'{t.start.part} to {t.end.part}' for t in lines)}."] if lines else []
    sentences = []
    for medium, name in MEDIUM_WORDS.items():
        here = [(t, seen.get(t.name, LineSeen())) for t in lines if t.medium == medium]
        groups = (
            (LIVE.get(medium, "live"), [(t, s) for t, s in here if s.live is True and not s.low and not s.suction]),
            ("under suction", [(t, s) for t, s in here if s.live is True and s.suction]),
            ("under low pressure", [(t, s) for t, s in here if s.low]),
            (DEAD.get(medium, "dead"), [(t, s) for t, s in here if s.live is False]),
            ("not known", [(t, s) for t, s in here if s.live is None]),
        )
        for words, those in groups:
            told = [_line_words(t.start.part, t.end.part, s.flow) for t, s in those]
            sentences += [f"{name}, {words}: {'; '.join(told)}."] if told else []
    return sentences


def _line_words(start: str, end: str, flow: int) -> str:
    if flow:
        first, last = (start, end) if flow > 0 else (end, start)
        return f"{first} to {last}, flowing"
    return f"{start} to {end}"
