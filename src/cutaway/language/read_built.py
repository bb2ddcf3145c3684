"""From the parse tree of a predicate to a statement of how something is built. One function a predicate."""

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Literal

from cutaway.language.name_index import key
from cutaway.language.predicates import is_negated, whole_part
from cutaway.language.read_doing import so
from cutaway.language.said import Said, choose
from cutaway.language.subjects import Subject
from cutaway.language.syntax import And, Built, Statement
from cutaway.language.trees import Branch, first_token, names_in
from cutaway.problems.span import Span

Reader = Callable[[Subject, Branch, Said, Span], Statement | None]
What = Literal["at", "marked", "worked by", "feeds", "works", "driven by"]


def _fitted(subject: Subject, predicate: Branch, said: Said, span: Span) -> Statement | None:
    part = whole_part(subject, said)
    return None if part is None else Built("fitted", part.name, (), 0, None, "", is_negated(predicate), span)


def _at(subject: Subject, predicate: Branch, said: Said, span: Span) -> Statement | None:
    """Where a part is; or, if the words are one of its positions, where it is put."""
    words = first_token(predicate, "TEXT")
    control = subject.control
    if control is not None and any(key(position) == key(words) for position in control.positions):
        return so(
            Subject(subject.name, subject.token, None, control, None, ""), words, is_negated(predicate), said, span
        )
    return _text("at", subject, predicate, said, span)


def _text(what: What, subject: Subject, predicate: Branch, said: Said, span: Span) -> Statement | None:
    part = whole_part(subject, said)
    words = " ".join(first_token(predicate, "TEXT").split()).rstrip(".")
    return None if part is None else Built(what, part.name, (words,), 0, None, "", is_negated(predicate), span)


def _marked(subject: Subject, predicate: Branch, said: Said, span: Span) -> Statement | None:
    return _text("marked", subject, predicate, said, span)


def _worked_by(subject: Subject, predicate: Branch, said: Said, span: Span) -> Statement | None:
    return _text("worked by", subject, predicate, said, span)


def _listed(what: What, subject: Subject, predicate: Branch, negated: bool, said: Said, span: Span) -> Statement | None:
    """One statement for each part that is named, since each is so or not by itself."""
    part, names = whole_part(subject, said), _part_names(predicate, said)
    if part is None or names is None:
        return None
    return _all(tuple(Built(what, part.name, (name,), 0, None, "", negated, span) for name in names), span)


def _all(made: tuple[Built, ...], span: Span) -> Statement:
    return made[0] if len(made) == 1 else And(made, span)


def _part_names(predicate: Branch, said: Said) -> tuple[str, ...] | None:
    found: list[str] = []
    for name in names_in(predicate):
        parts = said.parts(name)
        if parts is None:
            return None
        found.extend(part.name for part in parts)
    return tuple(dict.fromkeys(found))


def _feeds(subject: Subject, predicate: Branch, said: Said, span: Span) -> Statement | None:
    return _listed("feeds", subject, predicate, predicate.data == "does_not_feed", said, span)


def _works(subject: Subject, predicate: Branch, said: Said, span: Span) -> Statement | None:
    return _listed("works", subject, predicate, predicate.data == "does_not_work", said, span)


def _driven_by(subject: Subject, predicate: Branch, said: Said, span: Span) -> Statement | None:
    return _listed("driven by", subject, predicate, is_negated(predicate), said, span)


def _fed_by(subject: Subject, predicate: Branch, said: Said, span: Span) -> Statement | None:
    """'A is fed by B' is 'B feeds A'."""
    part, names = whole_part(subject, said), _part_names(predicate, said)
    if part is None or names is None:
        return None
    negated = is_negated(predicate)
    return _all(tuple(Built("feeds", name, (part.name,), 0, None, "", negated, span) for name in names), span)


def _set_at(subject: Subject, predicate: Branch, said: Said, span: Span) -> Statement | None:
    part = whole_part(subject, said)
    if part is None:
        return None
    amount = first_token(predicate, "QUANTITY", "NUMBER")
    if not part.wants:
        said.note("L216", amount, f"Nothing of {part.name} is set at a figure.", "Name a part that has one.")
        return None
    quantity = said.quantity(amount, dict.fromkeys(dimension for _, dimension in part.wants))
    if quantity is None:
        return None
    return Built("set at", part.name, (), 0, quantity, "", is_negated(predicate), span)


def _has_figure(subject: Subject, predicate: Branch, said: Said, span: Span) -> Statement | None:
    part, name = whole_part(subject, said), first_token(predicate, "VALUE", "NAME", "UNKNOWN")
    if part is None:
        return None
    want = next((want for want in part.wants if key(want[0]) == key(name)), None)
    if want is None:
        hint = choose(str(name), (want for want, _ in part.wants)).replace("It can be", "It has")
        said.note("L216", name, f"{part.name} has no {name}.", hint)
        return None
    quantity = said.quantity(
        first_token(predicate, "QUANTITY", "NUMBER"), (want[1],), usual=part.usual[part.wants.index(want)]
    )
    return None if quantity is None else Built("set at", part.name, (), 0, quantity, want[0], False, span)


def _has_positions(subject: Subject, predicate: Branch, said: Said, span: Span) -> Statement | None:
    """The positions of a control, in order. A word that is no name at all is told; a position of something else is
    kept, since the claim is then understood, and wrong."""
    control = subject.control or said.control(subject.token)
    if control is None:
        return None
    words: list[str] = []
    for name in names_in(predicate):
        known = next((p for p in control.positions if key(p) == key(name)), None)
        if known is None and name.type == "UNKNOWN":
            said.position(control, name)
            return None
        words.append(known or said.words.complements.get(key(name), str(name)))
    # Which of a part's controls is meant stands where 'set at' has the name of the figure.
    return Built("positions", control.ref.part, tuple(words), 0, None, control.ref.control, False, span)


BUILT: Mapping[str, Reader] = MappingProxyType(
    {
        "is_fitted": _fitted,
        "is_at": _at,
        "is_marked": _marked,
        "is_worked_by": _worked_by,
        "is_driven_by": _driven_by,
        "is_fed_by": _fed_by,
        "is_set_at": _set_at,
        "has_figure": _has_figure,
        "has_positions": _has_positions,
        "feeds": _feeds,
        "does_not_feed": _feeds,
        "works": _works,
        "does_not_work": _works,
    }
)
"""From the grammar's name of a predicate to its reader."""
