"""Who a statement is about: a part, a control, a reading, a service, or several of them together."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from lark import Token

from cutaway.language.name_index import key
from cutaway.language.said import Said
from cutaway.language.syntax import And, Not, Or, Statement
from cutaway.language.trees import Branch, name_in, names_in
from cutaway.language.words import ControlWords, PartWords, ReadingWords
from cutaway.problems.span import Span


@dataclass(frozen=True, slots=True)
class Subject:
    """All that one name can mean. name: as the folder spells it."""

    name: str
    token: Token
    part: PartWords | None
    control: ControlWords | None
    reading: ReadingWords | None
    service: str


@dataclass(frozen=True, slots=True)
class Subjects:
    """One subject, or several of which all, any or none are so."""

    which: Literal["all", "any", "none"]
    of: tuple[Subject, ...]


def read_subjects(tree: Branch, said: Said) -> Subjects | None:
    """The subjects that a tree names; what is unknown is noted."""
    if tree.data == "subject":
        return _named(name_in(tree), said)
    names = names_in(tree)
    if tree.data in ("all_of_them", "any_of_them"):
        found = [_named(name, said) for name in names]
    else:
        found = [_members(name, said) for name in names]
    if any(one is None for one in found):
        return None
    which: Literal["all", "any", "none"] = "all"
    if tree.data in ("any_of", "any_of_them"):
        which = "any"
    elif tree.data == "none_of":
        which = "none"
    return Subjects(which, tuple(subject for one in found if one is not None for subject in one.of))


def _named(name: Token, said: Said) -> Subjects | None:
    words, folded = said.words, key(name)
    part, control = words.parts.get(folded), words.controls.get(folded)
    reading, service = words.readings.get(folded), words.services.get(folded, "")
    if part or control or reading or service:
        return Subjects("all", (Subject(_spelled(name, said), name, part, control, reading, service),))
    if folded in words.collections:
        return _members(name, said)
    names = [p.name for p in words.parts.values()]
    said.unknown(name, "part or service", [*names, *words.services.values(), *_collections(said)])
    return None


def _collections(said: Said) -> list[str]:
    return [c.name for c in said.words.collections.values() if c.members]


def _spelled(name: Token, said: Said) -> str:
    folded = key(name)
    part, service = said.words.parts.get(folded), said.words.services.get(folded)
    return str(part.name) if part else service or str(name)


def _members(name: Token, said: Said) -> Subjects | None:
    many = said.words.collections.get(key(name))
    if many is None:
        return _named(name, said)
    parts = said.members(many, name)
    if parts is None:
        return None
    controls = said.words.controls
    of = tuple(Subject(str(p.name), name, p, controls.get(key(p.name)), None, "") for p in parts)
    return Subjects("all", of)


def join(subjects: Subjects, make: Callable[[Subject], Statement | None], span: Span) -> Statement | None:
    """What is said of the subjects, made for each and put together; None if it cannot be said of one of them."""
    made: list[Statement] = []
    for subject in subjects.of:
        one = make(subject)
        if one is None:
            return None
        made.append(one)
    if subjects.which == "all":
        return made[0] if len(made) == 1 else And(tuple(made), span)
    any_of_them = made[0] if len(made) == 1 else Or(tuple(made), span)
    return Not(any_of_them, span) if subjects.which == "none" else any_of_them
