"""What readers of predicates share: negation, the reading that is meant, the part that is meant."""

from cutaway.handbook.names import listed
from cutaway.language.said import Said, reading_name
from cutaway.language.subjects import Subject
from cutaway.language.trees import Branch, branches, has_token
from cutaway.language.words import PartWords, ReadingWords


def is_negated(predicate: Branch) -> bool:
    """Whether the predicate says 'not'."""
    return has_token(predicate, "DOES_NOT", "CANNOT_MOVE") or any(
        child.data in ("is_", "reads", "becomes") and has_token(child, "NOT", "DOES_NOT")
        for child in branches(predicate)
    )


def reading_of(subject: Subject, said: Said) -> ReadingWords | None:
    """The number that the subject gives; the main one where it gives several."""
    if subject.reading is not None:
        return subject.reading
    part = subject.part
    if part is not None and part.main is not None:
        return part.main
    if part is not None and part.readings:
        names = [reading_name(reading) for reading in part.readings]
        said.note("L210", subject.token, f"{subject.name} gives several readings.", f"Write {listed(names, 'or')}.")
    else:
        said.note("L211", subject.token, f"{subject.name} gives no reading.", what_can_be(subject))
    return None


def what_can_be(subject: Subject) -> str:
    """A hint: what can be said of the subject with 'is'."""
    if subject.service:
        return f"Write {subject.service} is served, or is not served."
    words = complements(subject)
    if words:
        return f"{subject.name} can be {listed(words, 'or')}."
    if subject.reading is not None or (subject.part is not None and subject.part.readings):
        return f"Say what it reads: {subject.name} is above, is below, is at least, is at most or reads a figure."
    return ""


def complements(subject: Subject) -> list[str]:
    """The states and positions that the subject can be in."""
    part = subject.part
    states = [w for state in (part.states if part else ()) for w in (state.words, state.opposite) if w]
    controls = part.controls if part is not None else (subject.control,) if subject.control else ()
    positions = [position for control in controls for position in control.positions]
    return list(dict.fromkeys([*states, *positions]))


def whole_part(subject: Subject, said: Said) -> PartWords | None:
    """The part that the subject is, where nothing less than a part will do."""
    if subject.part is None:
        what = "a service" if subject.service else "one place of a part"
        hint = ""
        ref = subject.control.ref if subject.control else subject.reading.ref if subject.reading else None
        if ref is not None:
            hint = f"Write {ref.part}."
        said.note("L212", subject.token, f"{subject.name} is {what}, and this can be said only of a part.", hint)
    return subject.part
