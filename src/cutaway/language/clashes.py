"""Names that claims cannot speak of, since they are taken for words of the language: told where they are given.

A name that holds such a word is put into the plainest claim about it; where that is not understood as meant, the name
is at fault and not the claim.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from cutaway.handbook.names import fold, listed
from cutaway.handbook.records import Folder
from cutaway.language.keywords import FOREIGN, KEYWORDS, NUMBERS, SCOPE_STARTS
from cutaway.language.name_index import key, name_index, words_in
from cutaway.language.parse import parse_claim
from cutaway.language.said import name_of
from cutaway.language.syntax import And, Built, Claim, Move, Served
from cutaway.language.words import Words
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import Span, TextFile, whole

_FIXED = name_index((*KEYWORDS, *FOREIGN))
_OTHER = re.compile(r"[^\w .'’&/+-]|\d[\w.]*")
# Nobody writes 'in in the hangar', and without the first 'in' a claim says something else. 'on' is not among them: 'in
# on the water' can be borne, and no standard is called 'the water'.
_STARTS = (SCOPE_STARTS - {"ON"}) | {"NOT", "IF", "ONLY_IF"}


@dataclass(frozen=True, slots=True)
class _Named:
    """A name with where it is given, and the plainest claims about it. sort: of what sort it is, and of which part."""

    name: str
    sort: str
    span: Span
    claims: tuple[str, ...]
    meant: object


def clashes(folder: Folder, words: Words) -> Problems:
    """A warning for each name of a situation, service, part or position that claims cannot use as it stands."""
    found: dict[tuple[str, str], Diagnostic] = {}
    for one in _named(folder, words):
        if (one.sort, one.name) in found:
            continue
        begins = _first(one.name) if one.sort == "situation" else ""
        if begins or (_suspect(one.name) and not all(_understood(claim, one, words) for claim in one.claims)):
            found[(one.sort, one.name)] = _told(one, begins)
    return tuple(found.values())


def _named(folder: Folder, words: Words) -> Iterator[_Named]:
    plain = next((p.name for p in words.parts.values() if not _suspect(p.name)), "")
    if not plain:  # the first part of a folder has such a name itself; it is told once there are others
        return
    claims: tuple[str, ...]
    for situation in folder.situations:
        claims = (f"in {situation.name}: {plain} is fitted",)
        yield _Named(situation.name, "situation", situation.span, claims, situation.name)
    for service in folder.services:
        claims = (f"{service.name} is served", f"{plain} is fitted and {service.name} is served")
        yield _Named(service.name, "service", service.span, claims, service.name)
    for part in folder.parts:
        words_of_it = words.parts[key(part.name)]
        claims = (f"{part.name} is fitted", f"{plain} is fitted and {part.name} is fitted")
        claims += tuple(f"with {part.name} {failure}: {plain} is fitted" for failure in words_of_it.failures[:1])
        yield _Named(str(part.name), "part", part.span, claims, str(part.name))
        items = {fold(item) for _, several in part.lists for item in several}
        for control in words_of_it.controls:
            for position in (p for p in control.positions if fold(p) in items):
                claims = (f"after {name_of(control.ref)} to {position}: {plain} is fitted",)
                yield _Named(position, f"position of {part.name}", part.span, claims, (control.ref, position))


def _suspect(name: str) -> bool:
    """Whether a name holds anything that the language has for itself: a fixed word, a figure, a mark."""
    said = tuple(words_in(name, 0, len(name)))
    return bool(_OTHER.search(name)) or any(_FIXED.longest(said, at) or w.said in NUMBERS for at, w in enumerate(said))


def _first(name: str) -> str:
    """The words with which a name begins as a scope or a clause does, '' where it does not."""
    said = tuple(words_in(name, 0, len(name)))
    length = _FIXED.longest(said, 0)
    text = " ".join(word.said for word in said[:length])
    return text if length < len(said) and KEYWORDS.get(text) in _STARTS else ""


def _understood(text: str, one: _Named, words: Words) -> bool:
    claim, problems = parse_claim(whole(TextFile("claim", text)), words)
    return claim is not None and not problems and one.meant in _spoken_of(claim)


def _spoken_of(claim: Claim) -> tuple[object, ...]:
    """The situation, parts, services and movements that one of these claims speaks of."""
    scope = claim.scope
    stated = claim.statement.of if isinstance(claim.statement, And) else (claim.statement,)
    return (
        scope.situation,
        *(str(failure.part) for choice in scope.failures for failure in choice.options),
        *((action.control, action.position) for action in scope.actions if isinstance(action, Move)),
        *(one.service for one in stated if isinstance(one, Served)),
        *(str(one.subject) for one in stated if isinstance(one, Built)),
    )


def _told(one: _Named, begins: str) -> Diagnostic:
    if begins == "in":
        rest = " ".join(one.name.split()[1:])
        message = f"The situation '{one.name}' has the 'in' of a claim in its name."
        return Diagnostic("L221", one.span, message, f"Call it {rest}; a claim then begins: in {rest}")
    if begins:
        message = f"The situation '{one.name}' begins with '{begins}', which begins something else in a claim."
        return Diagnostic("L221", one.span, message, f"Call it by a name that does not begin with '{begins}'.")
    proposed = _proposed(one.name)
    hint = f"Call it {proposed}." if proposed else "Call it otherwise."
    sort, _, of = one.sort.partition(" of ")
    called = f"{sort} '{one.name}'" + (f" of {of}" if of else "")
    return Diagnostic("L221", one.span, f"Claims cannot speak of the {called}: {_why(one.name)}.", hint)


def _why(name: str) -> str:
    said = tuple(words_in(name, 0, len(name)))
    fixed = [" ".join(w.said for w in said[at : at + n]) for at in range(len(said)) if (n := _FIXED.longest(said, at))]
    marks = list(dict.fromkeys(_OTHER.findall(name)))
    quoted = [f"'{one}'" for one in dict.fromkeys((*fixed, *marks))]
    return f"{listed(quoted)} in it {'means' if len(quoted) == 1 else 'mean'} something else there"


def _proposed(name: str) -> str:
    """The name without what is at fault, '' where too little is left of it."""
    rest = [word for word in re.sub(r"[^\w .'’&/+-]+", " ", name).split() if key(word) not in (*KEYWORDS, *FOREIGN)]
    return " ".join(rest) if len(rest) > 1 else ""
