"""What is joined carries one medium: followed through junctions, which take the medium of what they are joined to."""

from cutaway.handbook.names import fold
from cutaway.handbook.ports import port_named, ports_of
from cutaway.handbook.records import Line, Part, PortRef
from cutaway.handbook.whereabouts import Index
from cutaway.parts.recipe import Medium
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import Span

_Port = tuple[str, str]


def one_medium(lines: tuple[Line, ...], parts: tuple[Part, ...], index: Index) -> tuple[tuple[Line, ...], Problems]:
    """The lines without those that join two media through a junction."""
    joined = _Joined(index)
    kept: list[Line] = []
    problems: Problems = ()
    for part in parts:
        for link in part.links:
            port = next((c.port for c in index.kind(part).couplings if c.name == link.name and c.to == "port"), "")
            if port:
                joined.join(PortRef(part.name, port, link.span), link.target)
    for line in lines:
        problem = joined.join(line.start, line.end)
        if problem is None:
            kept.append(line)
        else:
            problems += (problem,)
    return tuple(kept), problems


class _Joined:
    """Ports in groups that are joined, each with its medium and the place that gave it. It lives for one check."""

    def __init__(self, index: Index) -> None:
        self.index = index
        self.above: dict[_Port, _Port] = {}
        self.medium: dict[_Port, tuple[Medium, Span]] = {}

    def join(self, start: PortRef, end: PortRef) -> Diagnostic | None:
        """Join two ports; where they carry different media they stay apart and that is told."""
        one, other = self._top(start), self._top(end)
        if one == other:
            return None
        a, b = self.medium.get(one), self.medium.get(other)
        if a and b and a[0] != b[0]:
            return Diagnostic(
                "H314",
                Span(start.span.file, min(start.span.start, end.span.start), max(start.span.end, end.span.end)),
                f"{start.part} carries {a[0]} here, but {end.part} carries {b[0]}.",
                "Make a junction for each medium.",
                ((a[1], f"{a[0]} comes from here:"), (b[1], f"{b[0]} comes from here:")),
            )
        self.above[other] = one
        medium = a or b
        if medium:
            self.medium[one] = medium
        return None

    def _top(self, ref: PortRef) -> _Port:
        # A kind's ports are nodes of their own; what flows between them is the kind's affair and has one medium.
        key = (fold(ref.part), fold(ref.inner))
        if key not in self.above:
            self.above[key] = key
            part = self.index.parts[key[0]][0]
            port = port_named(ref.inner, ports_of(part, self.index.kind(part)))
            if port is not None and port.medium is not None:
                self.medium[key] = (port.medium, ref.span)
        while self.above[key] != key:
            self.above[key] = self.above[self.above[key]]
            key = self.above[key]
        return key
