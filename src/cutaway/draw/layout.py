"""Where everything goes: boxes with pins in, places and right-angled routes out. Kept between runs by content."""

import hashlib
import json
import os
from dataclasses import asdict, dataclass
from itertools import pairwise
from pathlib import Path
from typing import Any, Literal

from cutaway.draw.shapes import Point
from cutaway.parts.kind import Side

VERSION = "5"


@dataclass(frozen=True, slots=True)
class Pin:
    """Where a wire joins a box. at: from the box's corner, or None where the layout may choose along the side."""

    name: str
    side: Side
    at: Point | None


@dataclass(frozen=True, slots=True)
class Box:
    """Something to be placed: nothing may cover it and no wire passes through it.

    below: size of the words that hang below it, with nothing to join them.
    """

    name: str
    size: Point
    pins: tuple[Pin, ...]
    below: Point | None = None


@dataclass(frozen=True, slots=True)
class Wire:
    """From (box, pin) to (box, pin). firm: should be straight and lead from left to right before others."""

    name: str
    start: tuple[str, str]
    end: tuple[str, str]
    firm: bool = True


@dataclass(frozen=True, slots=True)
class Request:
    """What is to be laid out; boxes in flow order.

    columns: names of boxes by columns from left to right, where somebody has said so; in a column from top to bottom.
    folded: whether a long flow is to be broken into rows, like lines of writing. apart: how far wires stand apart.
    """

    boxes: tuple[Box, ...]
    wires: tuple[Wire, ...]
    columns: tuple[tuple[str, ...], ...] = ()
    folded: bool = False
    apart: float = 14.0


@dataclass(frozen=True, slots=True)
class Layout:
    """Where everything went. manner: 'layered' by the layout library, 'plain' by our own simple rule.

    sound: that no wire runs through a box.
    """

    size: Point
    corners: tuple[tuple[str, Point], ...]
    routes: tuple[tuple[str, tuple[Point, ...]], ...]
    joints: tuple[Point, ...]
    manner: Literal["layered", "plain"]
    sound: bool = True


def cache_folder() -> Path:
    """The user's folder for layouts that were found before."""
    base = os.environ.get("XDG_CACHE_HOME") or str(Path.home() / ".cache")
    return Path(base) / "cutaway" / "layout"


def digest(request: Request) -> str:
    """What names a request: the hash of its content."""
    words = json.dumps([VERSION, asdict(request)], sort_keys=True, ensure_ascii=True)
    return hashlib.sha256(words.encode()).hexdigest()[:32]


def recalled(request: Request, folder: Path) -> tuple[Layout, ...]:
    """The layouts kept for a request, the usual one first; a cache that cannot be read is no cache."""
    try:
        kept = json.loads((folder / f"{digest(request)}.json").read_text(encoding="utf-8"))
        return tuple(_layout(one) for one in kept["layouts"])
    except (OSError, ValueError, KeyError, TypeError):
        return ()


def _layout(kept: dict[str, Any]) -> Layout:
    return Layout(
        _point(kept["size"]),
        tuple((name, _point(at)) for name, at in kept["corners"]),
        tuple((name, tuple(_point(p) for p in points)) for name, points in kept["routes"]),
        tuple(_point(p) for p in kept["joints"]),
        "layered",
        bool(kept["sound"]),
    )


def keep(request: Request, layouts: tuple[Layout, ...], folder: Path) -> None:
    """Keep layouts for the next time; a full or locked disk does no harm."""
    path = folder / f"{digest(request)}.json"
    part = path.with_suffix(f".{os.getpid()}.part")
    try:
        folder.mkdir(parents=True, exist_ok=True)
        part.write_text(json.dumps({"layouts": [asdict(one) for one in layouts]}), encoding="utf-8")
        part.replace(path)
    except OSError:
        return


def runs_through(layout: Layout, boxes: tuple[Box, ...]) -> bool:
    """Whether any wire runs through a box, which the layout library lets happen now and then."""
    corners = dict(layout.corners)
    at = [(*corners[box.name], *box.size) for box in boxes]
    for _, points in layout.routes:
        for (ax, ay), (bx, by) in pairwise(points):
            left, right, top, bottom = min(ax, bx), max(ax, bx), min(ay, by), max(ay, by)
            for x, y, width, height in at:
                if left < x + width - 1 and right > x + 1 and top < y + height - 1 and bottom > y + 1:
                    return True
    return False


def _point(pair: list[float]) -> Point:
    x, y = pair
    return float(x), float(y)
