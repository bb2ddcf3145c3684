"""What a series has spoken of and what it has left out: parts of each system, controls, paragraphs."""

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from cutaway.handbook.records import Folder
from cutaway.language.claims import Done, ParsedClaims
from cutaway.language.syntax import Action, Claim, ControlRef, Held, Move
from cutaway.machine.names import control_name
from cutaway.narrate.naming import parts_named, pattern_of
from cutaway.parts.kind import Kind


@dataclass(frozen=True, slots=True)
class SystemCovered:
    """A system: the parts that a sentence or a claim speaks of, and those that none does."""

    system: str
    spoken_of: tuple[str, ...]
    left_out: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ControlCovered:
    """A control: the positions that a claim or a drill puts it to, and whether it is spoken of at all."""

    control: str
    positions: tuple[str, ...]
    spoken_of: bool


@dataclass(frozen=True, slots=True)
class Covered:
    """cited: paragraphs that sentences cite. behind: those behind a part that is claimed about. silent: the others."""

    systems: tuple[SystemCovered, ...]
    controls: tuple[ControlCovered, ...]
    cited: tuple[str, ...]
    behind: tuple[str, ...]
    silent: tuple[str, ...]


def covered(folder: Folder, parsed: ParsedClaims, kinds: Mapping[str, Kind], script: str = "") -> Covered:
    """What the scripts cover, or one of them. Drills count for the controls when the whole series is asked about."""
    sentences = tuple(one for one in parsed.sentences if script in ("", one.script))
    names = tuple(dict.fromkeys(str(part.name) for part in folder.parts))
    known = frozenset(names)
    claimed = {part for one in sentences for claim in one.claims for part in parts_named(claim, known)}
    short = _short_names(names)
    spoken = {
        name
        for name in names
        if any(pattern_of((name, *short.get(name, ()))).search(one.sentence.text) for one in sentences)
    }
    actions = tuple(action for one in sentences for claim in one.claims for action in _doings(claim))
    if not script:
        actions += tuple(
            (move.control, _put(move))
            for step in parsed.steps
            for mark in step.marks
            if isinstance(mark, Done)
            for move in _moves(mark.actions)
        )
    cited = {cite.key for one in sentences for cite in one.sentence.cites}
    behind = {
        cite.key
        for part in folder.parts
        if part.name in claimed
        for cite in (*part.cites, *(cite for value in part.values for given in value.givens for cite in given.cites))
    } - cited
    keys = tuple(f"{p.source} {p.number}" for source in folder.sources for p in source.paragraphs)
    return Covered(
        tuple(_system(system.name, folder, claimed | spoken) for system in folder.systems),
        _controls(folder, kinds, actions, claimed | spoken),
        tuple(key for key in keys if key in cited),
        tuple(key for key in keys if key in behind),
        tuple(key for key in keys if key not in cited | behind),
    )


def _short_names(names: tuple[str, ...]) -> dict[str, tuple[str, ...]]:
    """The last word of each name of several, where it means no other part: 'the jack' for the one flap jack."""
    last = Counter(name.rpartition(" ")[2] for name in names)
    return {
        name: (word,) for name in names if " " in name and last[word := name.rpartition(" ")[2]] == 1 and len(word) > 2
    }


def _system(name: str, folder: Folder, named: set[str]) -> SystemCovered:
    parts = tuple(dict.fromkeys(str(part.name) for part in folder.parts if part.system == name))
    return SystemCovered(
        name, tuple(part for part in parts if part in named), tuple(part for part in parts if part not in named)
    )


def _controls(
    folder: Folder, kinds: Mapping[str, Kind], actions: tuple[tuple[ControlRef, str], ...], named: set[str]
) -> tuple[ControlCovered, ...]:
    done: dict[str, list[str]] = {}
    for moved, position in actions:
        done.setdefault(control_name(str(moved.part), moved.control), []).append(position)
    found: dict[str, ControlCovered] = {}
    for part in folder.parts:
        for control in kinds[part.kind].controls:
            name = control_name(str(part.name), control.name)
            positions = tuple(dict.fromkeys(done.get(name, ())))
            found[name] = ControlCovered(name, positions, bool(positions) or str(part.name) in named)
    return tuple(found.values())


def _doings(claim: Claim) -> Iterator[tuple[ControlRef, str]]:
    """What a claim puts where, before or while it is to be true."""
    for held in claim.scope.held:
        yield held.control, _put(held)
    for move in _moves(claim.scope.actions):
        yield move.control, _put(move)


def _put(one: Move | Held) -> str:
    """Where it is put: a named position, or how far a ranged control is opened."""
    return one.position or ("" if one.level is None else f"{one.level * 100.0:g} %")


def _moves(actions: tuple[Action, ...]) -> Iterator[Move]:
    return (action for action in actions if isinstance(action, Move))
