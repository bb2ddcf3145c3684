"""What stands on a sheet: the parts of one system, references to parts of others, and the ties between them."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Literal

from cutaway.handbook.records import Folder, Link, Part
from cutaway.machine.fitting import fitted
from cutaway.machine.names import node_name
from cutaway.machine.subjects import Subject, lines_of, parts_of
from cutaway.machine.wiring import Wiring, wire
from cutaway.parts.kind import Kind
from cutaway.parts.recipe import Medium


@dataclass(frozen=True, slots=True)
class Item:
    """Something with a place on the sheet. key: unique on it.

    reference: a flag for parts of another system: for all of one system that are joined to the same place in the same
    way, with the first of them as `part` and the others as `mates`. labels: what the flag says of each. sheet: where
    they are drawn.
    """

    key: str
    part: Part
    reference: bool = False
    mates: tuple[Part, ...] = ()
    labels: tuple[str, ...] = ()
    sheet: str = ""

    @property
    def parts(self) -> tuple[Part, ...]:
        """All that it stands for."""
        return (self.part, *self.mates)


@dataclass(frozen=True, slots=True)
class End:
    """One end of a tie. item: its key. port: the port's name, '' where the part as a whole is meant."""

    item: str
    part: str
    port: str

    @property
    def node(self) -> str:
        """The port's full name, '' where there is none."""
        return node_name(self.part, self.port) if self.port else ""


@dataclass(frozen=True, slots=True)
class Tie:
    """A pipe or wire (sort 'line') or a coupling that carries nothing ('link'), from `start` to `end`."""

    sort: Literal["line", "link"]
    start: End
    end: End
    medium: Medium | None = None
    words: str = ""
    giver: str = ""
    """Of a coupling: the part that it names, wherever the drawing begins it."""
    along: str = ""
    """Of a tie to a flag for several parts: the name of the one whose line it shares; '' for one with its own line."""
    whose: str = ""
    """Where ties of two standards stand on one sheet: the one whose this is, if both have one of the same words."""

    @property
    def told(self) -> str:
        """A coupling in words: 'engine pump driven by engine'."""
        if self.words in ACTS:
            return f"{self.start.part} {self.words} {self.end.part}"
        return f"{self.end.part} {self.words} {self.giver or self.start.part}"

    @property
    def name(self) -> str:
        """What it joins, in words."""
        ends = [f"{end.part}.{end.port}" if end.port else end.part for end in (self.start, self.end)]
        told = ", ".join(words for words in (self.words, self.whose) if words)
        return f"{ends[0]} > {ends[1]}" + (f" ({told})" if told else "")


@dataclass(frozen=True, slots=True)
class Plan:
    """All that a sheet shows, in flow order, and how the whole subject is wired.

    held: at what pressure the whole subject holds a medium, Pa, where that is known.
    """

    items: tuple[Item, ...]
    ties: tuple[Tie, ...]
    all_ties: tuple[Tie, ...]
    wiring: Wiring
    held: tuple[tuple[Medium, float], ...] = ()


@dataclass(frozen=True, slots=True)
class Extract:
    """What of an aircraft one sheet shows. name: of the sheet. own: names of the parts that it shows. elsewhere: by the
    name of a part the sheet that it is found on, where that is not named like its system. folded, columns: as in
    `layout.Request`. zones: whether the stations of the parts are shown. hidden: parts that are left out with all that
    joins them, each with the reason."""

    name: str
    own: frozenset[str]
    elsewhere: tuple[tuple[str, str], ...] = ()
    columns: tuple[tuple[str, ...], ...] = ()
    folded: bool = False
    zones: bool = True
    hidden: tuple[tuple[str, str], ...] = ()


def whole_system(folder: Folder, subject: Subject, system: str) -> Extract:
    """All parts of one system on one sheet."""
    return Extract(system, frozenset(str(p.name) for p in parts_of(folder, subject) if p.system == system))


def make_plan(folder: Folder, subject: Subject, system: str, kinds: Mapping[str, Kind]) -> Plan:
    """The plan of one system on one standard or airframe."""
    return plan_of(folder, subject, whole_system(folder, subject, system), kinds)


def plan_of(folder: Folder, subject: Subject, extract: Extract, kinds: Mapping[str, Kind]) -> Plan:
    """The plan of what one sheet shows of a standard or airframe."""
    parts = tuple(p for p in parts_of(folder, subject) if p.kind in kinds)
    wiring = wire(parts, lines_of(folder, subject), kinds, subject)
    ties = tuple(_ties(folder, subject, parts, kinds, wiring))
    return replace(extracted(extract, parts, ties, wiring, kinds), held=_held(parts, kinds, subject))


INTERLOCKED = "interlocked with"
"""What a part is with another that must stand so or so before it may be moved."""

ACTS = frozenset({"cuts", "regulates"})
"""Couplings by which a part acts on what it names: they lead from it, where all others lead to it."""

HOLDING = ("cut-out", "set at")
"""The quantities by which a part holds the pressure of a system."""


def _held(parts: Iterable[Part], kinds: Mapping[str, Kind], subject: Subject) -> tuple[tuple[Medium, float], ...]:
    """The highest pressure that a cut-out or a relief valve holds the oil at; of other media none is told."""
    found: list[float] = []
    for part in parts:
        kind = kinds[part.kind]
        names = [w.name for w in kind.wants if w.name in HOLDING]
        if names and any(port.medium == "oil" for port in kind.ports):
            fit = fitted(part, kind, subject.standard)[0] or {}
            found += [fit[name] for name in names if name in fit]
    return (("oil", max(found)),) if found else ()


def extracted(
    extract: Extract, parts: tuple[Part, ...], ties: tuple[Tie, ...], wiring: Wiring, kinds: Mapping[str, Kind]
) -> Plan:
    """What one sheet shows of all parts and ties."""
    own: dict[str, Part] = {p.name: p for p in parts if p.name in extract.own}
    every: dict[str, Part] = {p.name: p for p in parts}
    sheets = {p.name: p.system for p in parts} | dict(extract.elsewhere)
    flags: dict[str, Item] = {}
    leading: dict[str, str] = {}
    shown: list[Tie] = []
    hidden = {part for part, _ in extract.hidden}
    ties_shown = [tie for tie in ties if not {tie.start.part, tie.end.part} & hidden]
    lines = [tie for tie in ties_shown if tie.sort == "line" and tie.start.part in own]
    for tie in (_tapped(tie, lines, wiring, own, kinds) for tie in ties_shown):
        if tie.start.part not in own and tie.end.part not in own:
            continue
        if tie.start.part not in own or tie.end.part not in own:
            tie = _flagged(tie, own, every, sheets, flags, kinds)
            flag = tie.end.item if tie.start.part in own else tie.start.item
            tie = replace(tie, along=leading.get(flag, ""))
            leading.setdefault(flag, tie.name)
        shown.append(tie)
    items = [*(Item(name, part) for name, part in own.items()), *flags.values()]
    return Plan(flow_order(items, shown), tuple(shown), ties, wiring)


def _flagged(
    tie: Tie,
    own: Mapping[str, Part],
    every: Mapping[str, Part],
    sheets: Mapping[str, str],
    flags: dict[str, Item],
    kinds: Mapping[str, Kind],
) -> Tie:
    """A tie that leaves the sheet, led to the flag of the other sheet at its own end; the flag gets a further name."""
    leaving = tie.start.part in own
    here, there = (tie.start, tie.end) if leaving else (tie.end, tie.start)
    other = every[there.part]
    sheet = sheets[other.name]
    key = f"{sheet} {'from' if leaving else 'to'} {here.part}.{here.port} ({tie.sort})"
    flag, label = flags.get(key), _label(tie, there, other, kinds[other.kind])
    if flag is None:
        flags[key] = Item(key, other, reference=True, labels=(label,), sheet=sheet)
    elif label not in flag.labels:
        flags[key] = replace(flag, mates=(*flag.mates, other), labels=(*flag.labels, label))
    moved = replace(there, item=key)
    return replace(tie, end=moved) if leaving else replace(tie, start=moved)


def _label(tie: Tie, there: End, other: Part, kind: Kind) -> str:
    """The name of a part of another sheet, with its port where it has several on that side: 'lock switch: locked'."""
    port = next((p for p in kind.ports if p.name == there.port), None)
    several = port is not None and sum(p.side == port.side and p.medium == port.medium for p in kind.ports) > 1
    each = port is None and any(p.each for p in kind.ports)
    return f"{other.name}: {there.port}" if tie.sort == "line" and (several or (each and there.port)) else other.name


def _ties(
    folder: Folder, subject: Subject, parts: tuple[Part, ...], kinds: Mapping[str, Kind], wiring: Wiring
) -> Iterable[Tie]:
    """Every tie of the subject: lines as written, then couplings from the part that gives to the part that takes."""
    here = {p.name: p for p in parts}
    for line in lines_of(folder, subject):
        if line.start.part in here and line.end.part in here:
            start, end = (End(e.part, e.part, e.inner) for e in (line.start, line.end))
            yield Tie("line", start, end, wiring.media.get(wiring.joined.get(start.node, "")))
    for part in parts:
        for link in part.links:
            target = link.target.part
            gone = subject.cut | subject.missing
            if subject.standard in link.on.names and target in here and not {part.name, target} & gone:
                yield _coupling(part, kinds[part.kind], link, wiring)
        for other in _locks(part, here):
            yield Tie("link", End(other, other, ""), End(part.name, part.name, ""), None, INTERLOCKED)


def _locks(part: Part, here: Iterable[str]) -> Iterable[str]:
    """The parts that the rules of a part ask about before it may be moved."""
    asked = " ".join(rule.only_when.text for rule in part.rules if rule.only_when is not None)
    for name in here if asked else ():
        if name in asked and name != part.name and re.search(rf"(?<![\w-]){re.escape(name)}(?![\w-])", asked):
            yield name


def _coupling(part: Part, kind: Kind, link: Link, wiring: Wiring) -> Tie:
    """What a coupling looks like: a wire for one that joins ports, else a thin link."""
    to = next((c for c in kind.couplings if c.name == link.name), None)
    target = str(link.target.part)
    if to is not None and to.to == "port":
        start = End(target, target, link.target.inner)
        medium = wiring.media.get(wiring.joined.get(start.node, ""))
        return Tie("line", start, End(part.name, part.name, to.port), medium, link.name)
    if link.name in ACTS:
        return Tie("link", End(part.name, part.name, ""), End(target, target, ""), None, link.name)
    sensed = link.target.inner if to is not None and to.to == "node" else ""
    return Tie("link", End(target, target, sensed), End(part.name, part.name, ""), None, link.name)


def _tapped(tie: Tie, lines: Iterable[Tie], wiring: Wiring, own: Mapping[str, Part], kinds: Mapping[str, Kind]) -> Tie:
    """A link that senses a port, taken from the upstream end of a line of the same node where there is one: a gauge is
    then drawn tapped into the pipe, not hung on the far side of the part that the pipe leads to."""
    if tie.sort == "line" or not tie.start.port or tie.end.part not in own:
        return tie
    node = wiring.joined.get(tie.start.node)
    for line in lines:
        start = line.start
        if wiring.joined.get(start.node) == node:
            sides = {p.side for p in kinds[own[start.part].kind].ports if p.name == start.port or p.each}
            if "east" in sides:
                return replace(tie, start=start, giver=tie.giver or tie.start.part)
    return tie


def flow_order(items: list[Item], ties: list[Tie]) -> tuple[Item, ...]:
    """The items, each after those that feed it; where they go in a circle, the first in the files begins."""
    before: dict[str, set[str]] = {item.key: set() for item in items}
    for tie in ties:
        if tie.start.item != tie.end.item:
            before[tie.end.item].add(tie.start.item)
    waiting = {item.key: item for item in items}
    ordered: list[Item] = []
    while waiting:
        key = next((k for k in waiting if not before[k] & waiting.keys()), next(iter(waiting)))
        ordered.append(waiting.pop(key))
    return tuple(ordered)
