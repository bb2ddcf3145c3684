"""Which ports are one node, and which part each coupling reaches, for one subject."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from cutaway.handbook.ports import ports_of
from cutaway.handbook.records import Line, Part
from cutaway.machine.names import node_name
from cutaway.machine.subjects import Subject
from cutaway.parts.kind import Kind
from cutaway.parts.recipe import Medium


@dataclass(frozen=True, slots=True)
class Wiring:
    """joined: every port's full name to the name of the node it shares. media: by node. coupled: by (part, coupling)
    the part at the other end and its port's or control's name. left_open: sensing points whose other end the subject
    lacks, with the medium that was there, None where that is not known. owners: the part of each port, by full name."""

    joined: Mapping[str, str]
    media: Mapping[str, Medium]
    coupled: Mapping[tuple[str, str], tuple[str, str]]
    left_open: Mapping[tuple[str, str], Medium | None] = field(default_factory=dict)
    owners: Mapping[str, str] = field(default_factory=dict)


def wire(parts: Sequence[Part], lines: Sequence[Line], kinds: Mapping[str, Kind], subject: Subject) -> Wiring:
    """Join the ports that lines and couplings connect. A coupling to a part that the subject lacks is left out; where a
    standard's part cannot do without it the reader of the folder has said so."""
    ports = _Ports(parts, kinds)
    for line in lines:
        ports.join(node_name(line.start.part, line.start.inner), node_name(line.end.part, line.end.inner))
    here = {part.name for part in parts} - subject.cut
    coupled: dict[tuple[str, str], tuple[str, str]] = {}
    for part in parts:
        for coupling in kinds[part.kind].couplings if part.name in here else ():
            link = next((x for x in part.links if x.name == coupling.name and subject.standard in x.on.names), None)
            if link is None or link.target.part not in here:
                continue
            coupled[(part.name, coupling.name)] = (link.target.part, link.target.inner)
            if coupling.back:
                coupled[(link.target.part, coupling.back)] = (part.name, "")
            if coupling.to == "port":
                ports.join(node_name(part.name, coupling.port), node_name(link.target.part, link.target.inner))
    return ports.wiring(coupled)


def alone(parts: Sequence[Part], kinds: Mapping[str, Kind], wiring: Wiring) -> tuple[str, ...]:
    """The parts none of whose ports is joined to anything, which is as a rule a line forgotten. A part that needs no
    line, such as a gauge that is read where it stands, is not among them."""
    shared = Counter(wiring.joined.values())
    found: list[str] = []
    for part in parts:
        kind = kinds[part.kind]
        optional = {c.port for c in kind.couplings if c.to == "port" and not c.required}
        ports = [port.name for port in ports_of(part, kind) if port.name not in optional]
        if ports and all(shared[wiring.joined[node_name(part.name, name)]] == 1 for name in ports):
            found.append(str(part.name))
    return tuple(found)


class _Ports:
    """The ports of all parts, joined one pair at a time; each set of joined ports goes by the first of their names."""

    def __init__(self, parts: Sequence[Part], kinds: Mapping[str, Kind]) -> None:
        self._root: dict[str, str] = {}
        self._media: dict[str, Medium] = {}
        self._owners: dict[str, str] = {}
        for part in parts:
            for port in ports_of(part, kinds[part.kind]):
                full = node_name(part.name, port.name)
                self._root[full], self._owners[full] = full, part.name
                if port.medium is not None:
                    self._media[full] = port.medium

    def _find(self, name: str) -> str:
        while self._root[name] != name:
            name = self._root[name]
        return name

    def join(self, a: str, b: str) -> None:
        """Make two ports one node; a port that the subject does not have is passed over."""
        if a not in self._root or b not in self._root:
            return
        first, second = sorted((self._find(a), self._find(b)))
        self._root[second] = first
        medium = self._media.get(first) or self._media.get(second)
        if medium is not None:
            self._media[first] = medium

    def wiring(self, coupled: Mapping[tuple[str, str], tuple[str, str]]) -> Wiring:
        """All that was joined."""
        joined = {name: self._find(name) for name in self._root}
        media = {name: self._media[name] for name in joined.values() if name in self._media}
        return Wiring(joined, media, coupled, owners=self._owners)
