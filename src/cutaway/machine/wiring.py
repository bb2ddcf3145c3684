"""Which ports are one node, and which part each coupling reaches, for one subject."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from cutaway.handbook.records import Line, Part
from cutaway.machine.names import node_name
from cutaway.machine.subjects import Subject
from cutaway.parts.kind import Kind
from cutaway.parts.recipe import Medium


@dataclass(frozen=True, slots=True)
class Wiring:
    """joined: every port's full name to the name of the node it shares. media: by node. coupled: by (part, coupling)
    the part at the other end and its port's or control's name."""

    joined: Mapping[str, str]
    media: Mapping[str, Medium]
    coupled: Mapping[tuple[str, str], tuple[str, str]]


def ports_of(part: Part, kind: Kind) -> tuple[tuple[str, Medium | None], ...]:
    """Names and media of the part's ports, those that a list gives included."""
    lists = dict(part.lists)
    out: list[tuple[str, Medium | None]] = []
    for port in kind.ports:
        names = lists.get(port.each, ()) if port.each else (port.name,)
        out.extend((name, port.medium) for name in names)
    return tuple(out)


def wire(parts: Sequence[Part], lines: Sequence[Line], kinds: Mapping[str, Kind], subject: Subject) -> Wiring:
    """Join the ports that lines and couplings connect. A coupling to a part that the subject lacks is left out; where a
    standard's part cannot do without it the reader of the folder has said so."""
    here = {part.name: part for part in parts}
    root: dict[str, str] = {}
    media: dict[str, Medium] = {}
    for part in parts:
        for name, medium in ports_of(part, kinds[part.kind]):
            root[node_name(part.name, name)] = node_name(part.name, name)
            if medium is not None:
                media[node_name(part.name, name)] = medium

    def find(name: str) -> str:
        while root[name] != name:
            name = root[name]
        return name

    def join(a: str, b: str) -> None:
        ra, rb = sorted((find(a), find(b)))
        root[rb] = ra
        medium = media.get(ra) or media.get(rb)
        if medium is not None:
            media[ra] = medium

    for line in lines:
        a, b = (node_name(end.part, end.inner) for end in (line.start, line.end))
        if a in root and b in root:
            join(a, b)
    coupled: dict[tuple[str, str], tuple[str, str]] = {}
    for part in parts:
        if part.name in subject.cut:
            continue
        kind = kinds[part.kind]
        given = {link.name: link for link in part.links if subject.standard in link.on.names}
        for coupling in kind.couplings:
            link = given.get(coupling.name)
            if link is None:
                continue
            if link.target.part not in here or link.target.part in subject.cut:
                continue
            coupled[(part.name, coupling.name)] = (link.target.part, link.target.inner)
            if coupling.back:
                coupled[(link.target.part, coupling.back)] = (part.name, "")
            if coupling.to == "port":
                a, b = node_name(part.name, coupling.port), node_name(link.target.part, link.target.inner)
                if a in root and b in root:
                    join(a, b)
    joined = {name: find(name) for name in root}
    node_media = {find(name): media[find(name)] for name in root if find(name) in media}
    return Wiring(joined, node_media, coupled)
