"""Which ports and controls a part really has: a kind's, with those that its lists add; and which one is meant."""

from collections.abc import Mapping
from dataclasses import dataclass

from cutaway.handbook.names import fold
from cutaway.handbook.records import Part
from cutaway.parts.kind import Control, Kind
from cutaway.parts.recipe import Medium


@dataclass(frozen=True, slots=True)
class OwnPort:
    """A port of a part. medium None: takes the medium of what it is joined to. listed: named by the part's own list."""

    name: str
    medium: Medium | None
    default: str
    listed: bool


def ports_of(part: Part, kind: Kind) -> tuple[OwnPort, ...]:
    """The ports of a part, in the kind's order; a listed port once for each item of its list."""
    lists = dict(part.lists)
    ports: list[OwnPort] = []
    for port in kind.ports:
        names = lists.get(port.each, ()) if port.each else (port.name,)
        ports.extend(OwnPort(name, port.medium, port.default, bool(port.each)) for name in names)
    return tuple(ports)


def port_named(name: str, ports: tuple[OwnPort, ...]) -> OwnPort | None:
    """The port of that name."""
    return next((port for port in ports if fold(port.name) == fold(name)), None)


def default_port(ports: tuple[OwnPort, ...], way: str) -> OwnPort | None:
    """The port that a line means which names only the part: way 'out' where it begins, 'in' where it ends."""
    if len(ports) == 1:
        return ports[0]
    fitting = [port for port in ports if port.default in (way, "both")]
    if not fitting and way == "in":
        # A selector with a single way.
        fitting = [port for port in ports if port.listed]
    return fitting[0] if len(fitting) == 1 else None


def positions_of(control: Control, part: Part) -> tuple[str, ...]:
    """The named positions of a control, those of its list last."""
    return (*control.positions, *(dict(part.lists).get(control.each, ()) if control.each else ()))


def control_named(name: str, kind: Kind) -> Control | None:
    """The control of that name; '' is the only one there is."""
    if not name and len(kind.controls) == 1:
        return kind.controls[0]
    return next((control for control in kind.controls if fold(control.name) == fold(name)), None)


Kinds = Mapping[str, Kind]
