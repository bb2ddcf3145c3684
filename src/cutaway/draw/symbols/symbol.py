"""What a symbol is, and what it is told of the part that it shows."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from cutaway.draw.shapes import Point, Shape
from cutaway.parts.kind import Side

UNIT = 64.0
"""Size of the unit square on a sheet."""

LINK_IN, LINK_OUT = "link in", "link out"
"""Names of anchors for couplings that carry nothing, where a symbol wants them at a place of its own."""


@dataclass(frozen=True, slots=True)
class Anchor:
    """Where a line reaches the symbol for one port, and from which side. A port may have one on each of two sides.

    lead: where it goes from there within the symbol, in the colours of the line.
    """

    port: str
    at: Point
    side: Side
    lead: tuple[Point, ...] = ()


@dataclass(frozen=True, slots=True)
class Symbol:
    """A drawing in unit squares, its upper left corner at 0, 0.

    size and anchors never depend on the state, so that a sheet looks the same in every state. spread: lines join by
    points of their own along the sides, as on a bus bar. top: how far down a coupling reaches that comes from above.
    axis: how far from the left the words below have their middle, None for the middle of the whole. signs: sentences
    about what in it does not explain itself.
    """

    size: Point
    anchors: tuple[Anchor, ...]
    shapes: tuple[Shape, ...]
    spread: bool = False
    top: float = 0.0
    axis: float | None = None
    signs: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Setting:
    """A control. place: the index of its position, 0 to 1 for a ranged one, or None where that is not known."""

    positions: tuple[str, ...]
    place: float | None
    ranged: bool = False


@dataclass(frozen=True, slots=True)
class Look:
    """What is known of a part where it is drawn, in SI. What is not in a mapping is not known.

    lists: the entry's lists. controls: by name. states: by their first word or words. readings: by name, only of an
    instrument that works. wants: the kind's quantities. joined: how many lines come from the west and go to the east.
    moved: how far what moves in it has gone, 0 to 1, by the part's own signal `position`.
    """

    lists: Mapping[str, tuple[str, ...]]
    controls: Mapping[str, Setting]
    states: Mapping[str, bool]
    readings: Mapping[str, float]
    wants: Mapping[str, float]
    joined: tuple[int, int] = (1, 1)
    moved: float | None = None

    @property
    def over(self) -> bool | None:
        """Whether what moves in it has gone over."""
        return None if self.moved is None else self.moved > 0.5


Draw = Callable[[Look], Symbol]


def position(look: Look, control: str = "") -> str:
    """The word of a control's position; '' where it is not known or lies between named ones."""
    setting = look.controls.get(control)
    if setting is None or setting.place is None or setting.ranged:
        return ""
    index = round(setting.place)
    return setting.positions[index] if 0 <= index < len(setting.positions) else ""


def fraction(look: Look, reading: str, full: str) -> float | None:
    """A reading as a part of the quantity `full`, held to 0 to 1; None where either is not known."""
    value, most = look.readings.get(reading), look.wants.get(full)
    if value is None or not most:
        return None
    return min(1.0, max(0.0, value / most))
