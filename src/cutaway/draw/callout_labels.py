"""The labels of a photograph: what they say, and whether each stands in a margin or lies on the photograph."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from cutaway.draw.laid_over import Ground, Over, lay_over
from cutaway.draw.margins import Margins, Placed, Wanted, place_labels
from cutaway.draw.measure import text_width, wrapped
from cutaway.handbook.records import Folder, Part, Photograph, Point

PAGE = 40.0
TITLE, NAME, NOTE = 26.0, 17.0, 15.0
LEADING = 1.22
COLUMN = 240.0
"""Width of a label; with two columns and the widest photograph, `NOTE` is then of 7 points on A4 turned sideways."""
BESIDE = 8.0
WORDS = COLUMN - BESIDE
GUTTER = 36.0
LARGEST = (1000.0, 760.0)
GAP = 14.0
MOST_NAME_LINES, MOST_NOTE_LINES = 3, 5
HIGHEST = 1150.0
"""A drawing higher than this has letters under 7 points on A4."""
AROUND = 190.0
"""About what head and foot take up of that."""
PLATE = 6.0
"""What is left between the words of a label on the photograph and the edge of its plate."""


@dataclass(frozen=True, slots=True)
class Label:
    """What stands beside a point. name, notes: line by line."""

    point: Point
    name: tuple[str, ...]
    notes: tuple[str, ...]

    @property
    def height(self) -> float:
        """From the top of its first line to the foot of its last."""
        return (len(self.name) * NAME + len(self.notes) * NOTE) * LEADING

    @property
    def plate(self) -> tuple[float, float]:
        """How wide and high it is with the plate that it lies on."""
        widths = [text_width(line, NAME, bold=True) for line in self.name]
        widths += [text_width(line, NOTE) for line in self.notes]
        return (min(max(widths), WORDS) + 2 * PLATE, self.height + 2 * PLATE)


def label_of(folder: Folder, photograph: Photograph, point: Point) -> Label:
    """The words that stand beside a point, line by line."""
    notes = [line for note in notes_of(folder, photograph, point) for line in wrapped(note, NOTE, WORDS)]
    name = [piece for line in wrapped(point.name, NAME, WORDS, bold=True) for piece in _broken(line)]
    return Label(point, tuple(name), tuple(notes))


def _broken(line: str) -> list[str]:
    """A line; a word that is wider than a label in pieces, since pressed together it could not be read."""
    if text_width(line, NAME, bold=True) <= WORDS:
        return [line]
    fits = max(i for i in range(1, len(line)) if text_width(f"{line[:i]}-", NAME, bold=True) <= WORDS)
    return [f"{line[:fits]}-", *_broken(line[fits:])]


def notes_of(folder: Folder, photograph: Photograph, point: Point) -> tuple[str, ...]:
    """What is said of a point beside its name: the author's words, what is painted on the part, its paragraphs."""
    part = part_shown(folder, photograph, point)
    if part is None:
        return (point.says,) if point.says else ()
    several = len(folder.sources) > 1
    cites = ", ".join(dict.fromkeys(c.key if several else c.number for c in part.cites))
    marked = f"marked {part.marked}" if part.marked else ""
    return tuple(note for note in (point.says, marked, cites) if note)


def part_shown(folder: Folder, photograph: Photograph, point: Point) -> Part | None:
    """The part at a point as it is on what the photograph shows; None for groups and for words of the author's own."""
    if len(point.parts) != 1:
        return None
    blocks = [part for part in folder.parts if part.name == point.parts[0]]
    built = {airframe.name: airframe.standard for airframe in folder.type.airframes}
    names = {built.get(name, name) for name in photograph.on.names}
    return next((part for part in blocks if names & part.on.names), blocks[0] if blocks else None)


# --- where they go --------------------------------------------------------------------------------------------------

Beside = list[tuple[Label, Placed]]
OnIt = list[tuple[Label, tuple[float, float]]]


def parted(labels: Sequence[Label], size: tuple[float, float]) -> tuple[Beside, OnIt]:
    """The labels in the margins and those on the photograph, each with its place there.

    One that is asked for and has no place on the photograph stands in a margin after all. Where the margins are full
    the labels in the middle are laid over, as long as there is room.
    """
    asked = [one.point.side == "over" for one in labels]
    kept = {i for i, one in enumerate(labels) if one.point.side}
    room = max(size[1], HIGHEST - AROUND)
    _move(labels, asked, kept, sum(one.height + GAP for i, one in enumerate(labels) if not asked[i]) - 2 * room)
    while True:
        beside, over, left_out = _placed(labels, asked, size)
        for number in left_out:
            asked[number] = False
        if left_out:
            kept.update(range(len(labels)))  # the photograph is full too
            continue
        lowest = max((place.middle + one.height / 2 for one, place in beside), default=0.0)
        if lowest <= room or not _move(labels, asked, kept, lowest - room):
            return beside, over


def _move(labels: Sequence[Label], asked: list[bool], kept: set[int], over: float) -> bool:
    """Ask for labels to be laid over until the margins have so much less to hold, those first whose points are the
    furthest from both, so that their leaders would be the longest; whether there was one to move."""
    free = [i for i in range(len(labels)) if not asked[i] and i not in kept]
    free.sort(key=lambda i: abs(labels[i].point.at[0] - 0.5))
    for i in free:
        if over <= 0.0:
            break
        asked[i] = True
        over -= labels[i].height + GAP
    return bool(free)


def _placed(
    labels: Sequence[Label], asked: Sequence[bool], size: tuple[float, float]
) -> tuple[Beside, OnIt, list[int]]:
    """The same for a choice of labels that are to be laid over; and those of them that find no place, by number."""
    points = [(one.point.at[0] * size[0], one.point.at[1] * size[1]) for one in labels]
    margin = [i for i in range(len(labels)) if not asked[i]]
    wanted = [Wanted(points[i], labels[i].height, _margin(labels[i].point)) for i in margin]
    placed = place_labels(wanted, Margins(-GUTTER, size[0] + GUTTER, 0.0, _room(wanted, size), GAP))
    ends = [(-GUTTER if place.side == "left" else size[0] + GUTTER, place.middle) for place in placed]
    ground = Ground(size, tuple(points), tuple((points[i], end) for i, end in zip(margin, ends, strict=True)))
    on_it = [i for i in range(len(labels)) if asked[i]]
    corners = lay_over([Over(points[i], labels[i].plate) for i in on_it], ground)
    over = [(labels[i], corner) for i, corner in zip(on_it, corners, strict=True) if corner is not None]
    left_out = [i for i, corner in zip(on_it, corners, strict=True) if corner is None]
    return [(labels[i], place) for i, place in zip(margin, placed, strict=True)], over, left_out


def _margin(point: Point) -> Literal["", "left", "right"]:
    return "" if point.side == "over" else point.side


def _room(wanted: Sequence[Wanted], size: tuple[float, float]) -> float:
    """How far down the margins reach: as far as the photograph, or further where the labels need it."""
    heights = {side: sum(one.height + GAP for one in wanted if one.side == side) for side in ("", "left", "right")}
    tallest = max((one.height for one in wanted), default=0.0)
    half = (sum(heights.values()) + tallest) / 2
    return max(size[1], half, heights["left"], heights["right"])
