"""handouts.yaml: what the pack has on paper; without the file, or with none listed in it, the usual two."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import get_args

from cutaway.handbook.door import admit, block_of, several_of
from cutaway.handbook.head import Head, read_on
from cutaway.handbook.names import did_you_mean, fold, listed, missing_situation, one_line
from cutaway.handbook.nodes import Block, Entry, Faulty, Node, Words
from cutaway.handbook.records import AskedHandout, HandoutKind, Situation, System
from cutaway.handbook.shapes import HandoutShape, HandoutsShape
from cutaway.problems.diagnostic import Diagnostic, Problems, has_error
from cutaway.quantities.which import StandardName, Which

KINDS: tuple[HandoutKind, ...] = get_args(HandoutKind)
PAPERS = ("A4", "Letter")
USUAL_KINDS: tuple[HandoutKind, ...] = ("visitor", "large")
"""What is made where nothing is asked: a page to take away, and the same for who reads large print. A booklet is long,
so that it is made where somebody wants it."""


@dataclass(frozen=True, slots=True)
class _Known:
    """What a handout can name. papers: those of a handout that names none."""

    head: Head
    systems: tuple[str, ...]
    situations: tuple[str, ...]
    lost: frozenset[str]
    papers: tuple[str, ...] = PAPERS[:1]


def read_handouts(
    root: Node | None,
    head: Head,
    systems: Iterable[System],
    situations: Iterable[Situation],
    lost: frozenset[str],
) -> tuple[tuple[AskedHandout, ...], Problems]:
    """The handouts in order; one with a mistake is left out.

    lost: names of systems and situations that could not be read, of which nobody is told again.
    """
    if isinstance(root, Faulty):
        return (), ()
    block, problems = block_of(root, "handouts.yaml")
    if block is not None:
        _, problems = admit(HandoutsShape, block, "handouts.yaml")
    papers, more = _chosen(block.get("paper") if block else None, "paper", PAPERS)
    known = _Known(
        head,
        tuple(one.name for one in systems),
        tuple(one.name for one in situations),
        lost,
        papers or PAPERS[:1],
    )
    problems += more
    entry = block.entry("handouts") if block else None
    if entry is None:
        return (AskedHandout("", USUAL_KINDS, known.papers, "", None, "", None),), problems
    listed_here, more = block_of(entry.value, "'handouts'")
    problems = tuple(dict.fromkeys(problems + more))
    found: list[AskedHandout] = []
    for one in listed_here.entries if listed_here else ():
        handout, more = _handout(one, known)
        problems += more
        found += [] if handout is None else [handout]
    return tuple(found), problems


def _handout(entry: Entry, known: _Known) -> tuple[AskedHandout | None, Problems]:
    name = one_line(entry.key.text)
    if isinstance(entry.value, Words) and entry.value.empty:
        return AskedHandout(name, KINDS[:1], known.papers, "", None, "", entry.key.span), ()
    shape, problems = admit(HandoutShape, entry.value, f"the handout {name}")
    if shape is None or not isinstance(entry.value, Block):
        return None, problems
    block = entry.value
    kinds, more = _chosen(block.get("kind"), "kind of handout", KINDS)
    papers, again = _chosen(block.get("paper"), "paper", PAPERS)
    problems += more + again
    system, more = _named(block.get("system"), "system", known.systems, known.lost)
    situation, again = _named(block.get("in"), "situation", known.situations, known.lost)
    problems += more + again
    on, more = _on(block.get("on"), known.head) if block.get("on") is not None else (None, ())
    problems += more
    if has_error(problems) or system is None or situation is None:
        return None, problems
    wanted = tuple(kind for kind in KINDS if kind in kinds) or KINDS[:1]
    return AskedHandout(name, wanted, papers or known.papers, system, on, situation, entry.key.span), problems


def _on(node: Node | None, head: Head) -> tuple[Which | None, Problems]:
    """The standards and airframes that are named; one by its own name means no other, so that 'Mk 4' is one sheet and
    not another for 'Mk 4 with mod 57'."""
    on, problems = read_on(node, head, airframes=True)
    names = [*(one.name for one in head.type.standards), *(StandardName(one.name) for one in head.type.airframes)]
    named = {fold(name): name for name in names}
    words = [one.text for one in several_of(node) if isinstance(one, Words)]
    if on is not None and all(fold(one) in named for one in words):
        on = Which(on.words, frozenset(named[fold(one)] for one in words))
    return on, problems


def _chosen(node: Node | None, what: str, known: tuple[str, ...]) -> tuple[tuple[str, ...], Problems]:
    """Which of a few words are named."""
    spelt: Mapping[str, str] = {fold(one): one for one in known}
    found: list[str] = []
    problems: Problems = ()
    for one in several_of(node):
        if not isinstance(one, Words) or one.empty:
            continue
        if fold(one.text) in spelt:
            found.append(spelt[fold(one.text)])
            continue
        message = f"There is no {what} '{one_line(one.text)}'."
        problems += (Diagnostic("H950", one.span, message, f"Write {listed(known, 'or')}."),)
    return tuple(dict.fromkeys(found)), problems


def _named(node: Node | None, what: str, known: tuple[str, ...], lost: frozenset[str]) -> tuple[str | None, Problems]:
    """The system or situation that is named, '' where none is; None where it is not there."""
    if not isinstance(node, Words) or node.empty:
        return "", ()
    found = next((one for one in known if fold(one) == fold(node.text)), None)
    if found is not None or fold(node.text) in lost:
        return found, ()
    own = missing_situation(one_line(node.text)) if what == "situation" else f"The folder has no {what} yet."
    message = f"A handout is to show '{one_line(node.text)}', but there is no such {what}."
    return None, (Diagnostic("H951", node.span, message, did_you_mean(node.text, known) or own),)
