"""A photograph with what is to be seen on it named: labels in its margins, leaders to the points, credit and rights.

A label lies on the photograph itself, on a plate of paper, where the author asks for it or the margins are full. The
photograph itself comes in as text (`data:…`), so that nothing is read here and the drawing needs no other file.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from cutaway.draw.callout_labels import (
    BESIDE,
    COLUMN,
    GUTTER,
    HIGHEST,
    LARGEST,
    LEADING,
    MOST_NAME_LINES,
    MOST_NOTE_LINES,
    NAME,
    NOTE,
    PAGE,
    PLATE,
    TITLE,
    WORDS,
    Label,
    label_of,
    notes_of,
    part_shown,
    parted,
)
from cutaway.draw.laid_over import Over, leader_of
from cutaway.draw.margins import Placed
from cutaway.draw.measure import text_width, wrapped
from cutaway.draw.shapes import Circle, Group, Image, Line, Picture, Rect, Shape, Text
from cutaway.handbook.records import Folder, Photograph, Point
from cutaway.problems.diagnostic import Diagnostic, Problems

STYLE = ".sheet .leader .halo{stroke-width:6}\n"
"""The rule that a drawing of call-outs has beyond those of sheets: a narrow edge along the leaders."""

_DOT = 6.5

DRAFT = "Draft only, not for publication: nobody has said by what right this photograph is shown."


@dataclass(frozen=True, slots=True)
class Frame:
    """Where things are on the drawing: the photograph's corner and size."""

    corner: tuple[float, float]
    size: tuple[float, float]

    def at(self, point: Point) -> tuple[float, float]:
        """A point of the photograph on the drawing."""
        return (self.corner[0] + point.at[0] * self.size[0], self.corner[1] + point.at[1] * self.size[1])


def callouts_picture(folder: Folder, photograph: Photograph, href: str) -> tuple[Picture, Problems]:
    """The photograph with its labels; what does not fit is told and drawn as well as it goes."""
    labels = [label_of(folder, photograph, point) for point in photograph.points]
    size = _fitted(photograph.size)
    beside, over = parted(labels, size)
    left = PAGE + (COLUMN + GUTTER if any(place.side == "left" for _, place in beside) else 0.0)
    right = (COLUMN + GUTTER if any(place.side == "right" for _, place in beside) else 0.0) + PAGE
    # Whole numbers: renderers differ in what they make of a page of half a dot.
    width = float(math.ceil(left + size[0] + right))
    head, top = _head(folder, photograph, width)
    frame = Frame((left, top), size)
    shapes: list[Shape] = [*head, Image(frame.corner, frame.size, href)]
    shapes += [_leader(one, place, frame) for one, place in beside]
    shapes += [_plate_leader(one, corner, frame) for one, corner in over]
    shapes += [_words(one, place, frame) for one, place in beside]
    shapes += [_plate(one, corner, frame) for one, corner in over]
    ends = [place.middle + one.height / 2 for one, place in beside]
    foot, bottom = _foot(folder, photograph, width, top + max([size[1], *ends]))
    picture = Picture(
        (width, float(math.ceil(bottom))),
        (*shapes, *foot),
        f"{photograph.name} call-outs",
        _title(folder, photograph),
        alternative(folder, photograph),
    )
    return picture, _told(labels, photograph, bottom)


def _fitted(size: tuple[int, int]) -> tuple[float, float]:
    scale = min(LARGEST[0] / size[0], LARGEST[1] / size[1])
    return (round(size[0] * scale, 2), round(size[1] * scale, 2))


def _leader(label: Label, place: Placed, frame: Frame) -> Group:
    at = frame.at(label.point)
    end = (_edge(place, frame), frame.corner[1] + place.middle)
    half = label.height / 2
    bar = Line((end[0], end[1] - half), (end[0], end[1] + half), "rule")
    dot = Circle(at, _DOT, "glass out")
    return Group((Line(at, end, "halo"), Line(at, end, "thin"), bar, dot), "leader")


def _plate_leader(label: Label, corner: tuple[float, float], frame: Frame) -> Group:
    """The leader of a label on the photograph, from its point to the nearest of its plate."""
    at = frame.at(label.point)
    plate = (frame.corner[0] + corner[0], frame.corner[1] + corner[1])
    end = leader_of(Over(at, label.plate), plate)[1]
    return Group((Line(at, end, "halo"), Line(at, end, "thin"), Circle(at, _DOT, "glass out")), "leader")


def _plate(label: Label, corner: tuple[float, float], frame: Frame) -> Group:
    """A label on the photograph: a plate that hides what is under it, so that its words can be read on anything."""
    x, y = frame.corner[0] + corner[0], frame.corner[1] + corner[1]
    return _lines(label, (x + PLATE, y + PLATE), "start", (Rect((x, y), label.plate, "flag", 4.0),))


def _edge(place: Placed, frame: Frame) -> float:
    return frame.corner[0] - GUTTER if place.side == "left" else frame.corner[0] + frame.size[0] + GUTTER


def _words(label: Label, place: Placed, frame: Frame) -> Group:
    beside = -BESIDE if place.side == "left" else BESIDE
    corner = _edge(place, frame) + beside, frame.corner[1] + place.middle - label.height / 2
    return _lines(label, corner, "end" if place.side == "left" else "start")


def _lines(
    label: Label, at: tuple[float, float], align: Literal["start", "end"], under: tuple[Shape, ...] = ()
) -> Group:
    """The words of a label from a corner downwards."""
    (x, y), shapes = at, list(under)
    for lines, role, size in ((label.name, "name", NAME), (label.notes, "note", NOTE)):
        for line in lines:
            y += size * LEADING
            width = min(text_width(line, size, bold=role == "name"), WORDS)
            shapes.append(Text((x, y - 0.25 * size), line, role, size, align, width))
    part = str(label.point.parts[0]) if len(label.point.parts) == 1 else ""
    return Group(tuple(shapes), "label", name=f"label {label.point.name}", part=part)


# --- words round it ------------------------------------------------------------------------------------------------


def _title(folder: Folder, photograph: Photograph) -> str:
    return f"{folder.type.name}: {photograph.name}"


def _head(folder: Folder, photograph: Photograph, width: float) -> tuple[list[Shape], float]:
    y = PAGE
    shapes: list[Shape] = []
    rows = [("title", TITLE, line) for line in wrapped(_title(folder, photograph), TITLE, width - 2 * PAGE, bold=True)]
    rows += [("note", NAME, line) for line in wrapped(photograph.says, NAME, width - 2 * PAGE)]
    for role, size, line in rows:
        y += size * LEADING
        wide = min(text_width(line, size, bold=role == "title"), width - 2 * PAGE)
        shapes.append(Text((PAGE, y - 0.25 * size), line, role, size, "start", wide))
    return shapes, y + 22.0


def credit_of(photograph: Photograph) -> str:
    """The line of credit and rights; of one without rights, that it is a draft."""
    shows = ", ".join(word for word in (photograph.on.words, photograph.station) if word)
    rows = (
        ("Photograph", photograph.credit),
        ("Rights", photograph.rights),
        ("Taken", photograph.taken),
        ("Shows", shows),
    )
    told = " ".join(f"{name}: {words.rstrip('.')}." for name, words in rows if words)
    return told if photograph.rights else f"{DRAFT} {told}".strip()


def _foot(folder: Folder, photograph: Photograph, width: float, y: float) -> tuple[list[Shape], float]:
    y += 14.0
    shapes: list[Shape] = []
    words = (credit_of(photograph), books_of(folder, photograph))
    for line in [line for one in words for line in wrapped(one, NOTE, width - 2 * PAGE)]:
        y += NOTE * LEADING
        wide = min(text_width(line, NOTE), width - 2 * PAGE)
        shapes.append(Text((PAGE, y - 0.25 * NOTE), line, "quiet", NOTE, "start", wide))
    return shapes, y + PAGE * 0.6


def books_of(folder: Folder, photograph: Photograph) -> str:
    """What the keys of books beside the points stand for; '' where no label has one."""
    parts = [part for point in photograph.points if (part := part_shown(folder, photograph, point)) is not None]
    keys = dict.fromkeys(cite.source for part in parts for cite in part.cites)
    titles = {source.key: source.title or source.key for source in folder.sources}
    named = [titles[key] if len(folder.sources) < 2 else f"{key}: {titles[key]}" for key in keys if key in titles]
    return f"Paragraphs (§) are of {'; '.join(named)}." if named else ""


def alternative(folder: Folder, photograph: Photograph) -> tuple[str, ...]:
    """The text alternative: what is to be seen, what is pointed at and whereabouts, credit, notice."""
    ordered = sorted(photograph.points, key=lambda one: (round(one.at[1], 1), one.at[0]))
    told = "; ".join(
        ", ".join((f"{one.name} ({whereabouts(one.at)})", *(n.rstrip(".") for n in notes_of(folder, photograph, one))))
        for one in ordered
    )
    return tuple(
        line
        for line in (
            f"{_title(folder, photograph)}. {photograph.says}".strip(),
            f"Pointed at: {told}." if told else "Nothing is pointed at.",
            credit_of(photograph),
            books_of(folder, photograph),
            folder.type.notice,
        )
        if line
    )


def whereabouts(at: tuple[float, float]) -> str:
    """A place on a picture in words.

    >>> whereabouts((0.1, 0.5)), whereabouts((0.9, 0.9)), whereabouts((0.5, 0.5))
    ('left, half-way up', 'lower right', 'in the middle')
    """
    across = "left" if at[0] < 1 / 3 else "right" if at[0] > 2 / 3 else ""
    down = "upper" if at[1] < 1 / 3 else "lower" if at[1] > 2 / 3 else ""
    if across and down:
        return f"{down} {across}"
    if across:
        return f"{across}, half-way up"
    return f"{down} middle" if down else "in the middle"


# --- what does not fit ---------------------------------------------------------------------------------------------


def _told(labels: Sequence[Label], photograph: Photograph, bottom: float) -> Problems:
    problems: list[Diagnostic] = []
    for label in labels:
        wide = [word for word in label.point.name.split() if text_width(word, NAME, bold=True) > WORDS]
        if wide or len(label.name) > MOST_NAME_LINES:
            what = f"'{wide[0]}' is wider than a label and is broken" if wide else f"it takes {len(label.name)} lines"
            message = f"The name {label.point.name} is too long for its label: {what}."
            hint = "Point at it with a shorter name, and write the rest under says:."
            problems.append(Diagnostic("D111", label.point.span, message, hint))
        elif len(label.notes) > MOST_NOTE_LINES:
            message = f"What is said of {label.point.name} takes {len(label.notes)} lines beside the photograph."
            problems.append(Diagnostic("D111", label.point.span, message, "Write a shorter says:."))
    if bottom > HIGHEST:
        message = f"The {len(labels)} labels of {photograph.name} do not fit on a page in letters that can be read."
        hint = "Make two entries of the same file, each with some of the points."
        problems.append(Diagnostic("D112", photograph.span, message, hint))
    return tuple(problems)
