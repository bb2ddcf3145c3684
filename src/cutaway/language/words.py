"""All names of a folder that a statement can use, each with what it stands for."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import TypeVar

from cutaway.handbook import world
from cutaway.handbook.doubts import usual_quantity
from cutaway.handbook.records import Folder, Part, PartName
from cutaway.language.name_index import NameIndex, key, name_index
from cutaway.language.syntax import ControlRef, ReadingRef
from cutaway.parts.kind import Kind, State
from cutaway.parts.recipe import Medium
from cutaway.problems.counting import plural
from cutaway.quantities.quantity import Dimension, Quantity

T = TypeVar("T")

CONDITIONS: Mapping[str, Dimension] = {one.name: one.dimension for one in world.CONDITIONS}
"""The conditions of the world, with what they are measured in."""

_ACROSS: Mapping[Medium | None, tuple[Dimension, ...]] = {
    "petrol": ("pressure",),
    "oil": ("pressure",),
    "air": ("pressure",),
    "current": ("voltage",),
    "heat": ("temperature",),
}


@dataclass(frozen=True, slots=True)
class ControlWords:
    """A control and where it can be put; ranged if it moves through a range."""

    ref: ControlRef
    positions: tuple[str, ...]
    ranged: bool


@dataclass(frozen=True, slots=True)
class ReadingWords:
    """A reading and what it can be measured in: one dimension as a rule, more where marks differ. units: those in which
    its kinds show it, for hints."""

    ref: ReadingRef
    dimensions: tuple[Dimension, ...]
    units: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class PartWords:
    """What can be said of a part, over all standards that have it. usual: what is usual for each of its wants."""

    name: PartName
    controls: tuple[ControlWords, ...]
    states: tuple[State, ...]
    readings: tuple[ReadingWords, ...]
    main: ReadingWords | None
    failures: tuple[str, ...]
    contents: tuple[Dimension, ...]
    wants: tuple[tuple[str, Dimension], ...]
    usual: tuple[Quantity | None, ...] = ()


@dataclass(frozen=True, slots=True)
class Collection:
    """Several parts under one name: a group, or the plural of what their kinds or names end in ('tanks').

    counted: the group's or kind's own name, or again the plural where it is neither.
    """

    name: str
    members: tuple[PartName, ...]
    counted: str


@dataclass(frozen=True, slots=True, eq=False, repr=False)
class Words:
    """The names of one folder. Every mapping goes from the name as it is compared (`key`) to what it stands for.

    complements: states, their opposites and positions, as first written. left_out: names of things that were written
    wrongly elsewhere, about which nothing more is said. index: all names that can stand in a sentence; values:
    the names of the parts' quantities, which can stand only after 'has'.
    """

    folder: Folder
    parts: Mapping[str, PartWords]
    controls: Mapping[str, ControlWords]
    readings: Mapping[str, ReadingWords]
    collections: Mapping[str, Collection]
    situations: Mapping[str, str]
    services: Mapping[str, str]
    conditions: Mapping[str, str]
    complements: Mapping[str, str]
    failures: Mapping[str, str]
    left_out: frozenset[str]
    index: NameIndex
    values: NameIndex


def words_of(folder: Folder, kinds: Mapping[str, Kind]) -> Words:
    """The words of a folder, whose parts are of the given kinds; a part of an unknown kind can only be named."""
    by_name = _parts_by_name(folder)
    parts = {key(name): _part_words(blocks, kinds) for name, blocks in by_name.items()}
    controls = dict(_control_names(parts.values()))
    readings = dict(_reading_names(by_name, parts, kinds))
    collections = {
        name: one
        for name, one in _collections(folder, by_name, kinds).items()
        if name not in parts or name in {key(g.name) for g in folder.groups}
    }
    situations = {key(s.name): s.name for s in folder.situations}
    services = {key(s.name): s.name for s in folder.services}
    conditions = {key(name): name for name in CONDITIONS}
    complements = dict(_complements(parts.values()))
    failures = {key(f): f for part in parts.values() for f in part.failures}
    left_out = _left_out(folder, kinds)
    names: tuple[Iterable[str], ...] = (
        parts, controls, readings, collections, situations, services, conditions, complements, failures, left_out,
    )  # fmt: skip
    return Words(
        folder,
        parts,
        controls,
        readings,
        collections,
        situations,
        services,
        conditions,
        complements,
        failures,
        left_out,
        name_index((*(name for group in names for name in group), *_words_of_lost(folder, kinds))),
        name_index(key(want) for want in _wants(folder, parts, kinds)),
    )


def _wants(folder: Folder, parts: Mapping[str, PartWords], kinds: Mapping[str, Kind]) -> Iterator[str]:
    """The names of the parts' quantities; of all kinds where a part was left out, of which it may be any."""
    yield from (want for part in parts.values() for want, _ in part.wants)
    if folder.left_out:
        yield from (want.name for kind in kinds.values() for want in kind.wants)


def _left_out(folder: Folder, kinds: Mapping[str, Kind]) -> frozenset[str]:
    """What was written wrongly elsewhere; of a part among it also all that it may have and that may go wrong in it."""
    inner = {name for kind in kinds.values() for name in _inner(kind) if name}
    names = {f"{name}{joint}{one}" for name in folder.left_out for one in inner for joint in (" ", ".")}
    return frozenset(key(name) for name in names | folder.left_out)


def _words_of_lost(folder: Folder, kinds: Mapping[str, Kind]) -> Iterator[str]:
    """States and positions of all kinds, where a part was left out: it may be of any of them, and what is said of it is
    not told for a second mistake."""
    for kind in kinds.values() if folder.left_out else ():
        yield from (key(word) for state in kind.states for word in (state.words, state.opposite) if word)
        yield from (key(position) for control in kind.controls for position in control.positions)


def _inner(kind: Kind) -> Iterator[str]:
    """All that is named of a part besides the part."""
    yield from (control.name for control in kind.controls)
    yield from (reading.name for reading in kind.readings)
    yield from (port.name for port in kind.ports)
    yield from (failure.name for failure in kind.failures)


def _parts_by_name(folder: Folder) -> dict[str, tuple[Part, ...]]:
    found: dict[str, tuple[Part, ...]] = {}
    spelled: dict[str, str] = {}
    for part in folder.parts:
        name = spelled.setdefault(key(part.name), part.name)
        found[name] = (*found.get(name, ()), part)
    return found


def _part_words(blocks: tuple[Part, ...], kinds: Mapping[str, Kind]) -> PartWords:
    name = blocks[0].name
    known = [(block, kinds[block.kind]) for block in blocks if block.kind in kinds]
    readings = _merged_readings((name, kind) for _, kind in known)
    wants: dict[tuple[str, Dimension], Quantity | None] = {}
    for want in (want for _, kind in known for want in kind.wants):
        wants.setdefault((want.name, want.dimension), usual_quantity(want))
    return PartWords(
        name,
        _merged_controls(name, known),
        _once(state for _, kind in known for state in kind.states),
        readings,
        _main_reading(name, [kind for _, kind in known], readings),
        _once(f.name for _, kind in known for f in kind.failures),
        _once(c.dimension for _, kind in known for c in kind.contents),
        tuple(wants),
        tuple(wants.values()),
    )


def _once(items: Iterable[T]) -> tuple[T, ...]:
    return tuple(dict.fromkeys(items))


def _merged_controls(name: PartName, known: list[tuple[Part, Kind]]) -> tuple[ControlWords, ...]:
    found: dict[str, ControlWords] = {}
    for block, kind in known:
        lists = dict(block.lists)
        for control in kind.controls:
            positions = (*control.positions, *lists.get(control.each, ()))
            before = found.get(control.name)
            found[control.name] = ControlWords(
                ControlRef(name, control.name),
                _once((*(before.positions if before else ()), *positions)),
                control.ranged or bool(before and before.ranged),
            )
    return tuple(found.values())


def _merged_readings(of: Iterable[tuple[PartName, Kind]]) -> tuple[ReadingWords, ...]:
    found: dict[str, ReadingWords] = {}
    for name, kind in of:
        for reading in kind.readings:
            before = found.get(reading.name)
            dimensions = _once((*(before.dimensions if before else ()), reading.dimension))
            units = _once((*(before.units if before else ()), reading.unit))
            found[reading.name] = ReadingWords(ReadingRef(name, reading.name, ""), dimensions, units)
    return tuple(found.values())


def _main_reading(name: PartName, kinds: list[Kind], readings: tuple[ReadingWords, ...]) -> ReadingWords | None:
    """What is meant where the part alone is named. Where its kinds call it by different names it has none, '', which
    is the main reading of whichever kind the part is on a standard."""
    mains = [r for kind in kinds for r in kind.readings if r.main or len(kind.readings) == 1]
    if len({one.name for one in mains}) > 1:
        return ReadingWords(
            ReadingRef(name, "", ""), _once(one.dimension for one in mains), _once(one.unit for one in mains)
        )
    return next((one for one in readings if mains and one.ref.reading == mains[0].name), None)


def _control_names(parts: Iterable[PartWords]) -> Iterator[tuple[str, ControlWords]]:
    for part in parts:
        for control in part.controls:
            if not control.ref.control or len(part.controls) == 1:
                yield key(part.name), control
            if control.ref.control:
                for joint in (" ", "."):
                    yield key(f"{part.name}{joint}{control.ref.control}"), control


def _reading_names(
    by_name: Mapping[str, tuple[Part, ...]], parts: Mapping[str, PartWords], kinds: Mapping[str, Kind]
) -> Iterator[tuple[str, ReadingWords]]:
    for name, blocks in by_name.items():
        part = parts[key(name)]
        for reading in part.readings:
            for joint in (" ", "."):
                yield key(f"{name}{joint}{reading.ref.reading}"), reading
        for port, dimensions in _ports(blocks, kinds).items():
            reading = ReadingWords(ReadingRef(part.name, "", port), dimensions)
            yield key(f"{name}.{port}"), reading
            if key(f"{name} {port}") not in parts:
                yield key(f"{name} {port}"), reading


def _ports(blocks: tuple[Part, ...], kinds: Mapping[str, Kind]) -> dict[str, tuple[Dimension, ...]]:
    found: dict[str, tuple[Dimension, ...]] = {}
    for block in blocks:
        lists = dict(block.lists)
        for port in kinds[block.kind].ports if block.kind in kinds else ():
            # A port without a medium of its own is measured in whatever the line that joins it carries.
            dimensions = _ACROSS.get(port.medium, ("pressure", "voltage", "temperature"))
            for name in lists.get(port.each, ()) if port.each else (port.name,):
                found[name] = _once((*found.get(name, ()), *dimensions))
    return found


def _collections(
    folder: Folder, by_name: Mapping[str, tuple[Part, ...]], kinds: Mapping[str, Kind]
) -> dict[str, Collection]:
    """Groups first, then kinds in the plural, then what kinds end in ('lamps'), then what names end in."""
    found: dict[str, Collection] = {}
    names = [blocks[0].name for blocks in by_name.values()]
    kinds_of = {blocks[0].name: {b.kind for b in blocks} for blocks in by_name.values()}
    for group in folder.groups:
        for name in (group.name, plural(group.name)):
            found.setdefault(key(name), Collection(name, group.members, group.name))
    for kind in kinds:
        members = tuple(name for name in names if kind in kinds_of[name])
        _add(found, plural(kind), members, kind)
    _add_endings(found, names, lambda name: sorted(kinds_of[name]))
    _add_endings(found, names, lambda name: [name])
    return found


def _add(found: dict[str, Collection], name: str, members: tuple[PartName, ...], counted: str = "") -> None:
    found.setdefault(key(name), Collection(name, members, counted or name))


def _add_endings(found: dict[str, Collection], names: list[PartName], texts: Callable[[PartName], list[str]]) -> None:
    ending: dict[str, list[PartName]] = {}
    for name in names:
        for text in texts(name):
            words = text.split()
            for at in range(len(words)):
                ending.setdefault(" ".join(words[at:]).casefold(), []).append(name)
    for text, members in ending.items():
        if len(set(members)) > 1:
            _add(found, plural(text), _once(members))


def _complements(parts: Iterable[PartWords]) -> Iterator[tuple[str, str]]:
    for part in parts:
        for state in part.states:
            for word in (state.words, state.opposite):
                if word:
                    yield key(word), word
        for control in part.controls:
            for position in control.positions:
                yield key(position), position
