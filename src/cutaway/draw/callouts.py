"""A photograph with what is to be seen on it named: labels in its margins, leaders to the points, credit and rights.

The photograph itself comes in as text (`data:…`), so that nothing is read here and the drawing needs no other file.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from cutaway.draw.margins import Margins, Placed, Wanted, place_labels
from cutaway.draw.measure import text_width, wrapped
from cutaway.draw.shapes import Circle, Group, Image, Line, Picture, Shape, Text
from cutaway.handbook.records import Folder, Part, Photograph, Point
from cutaway.problems.diagnostic import Diagnostic, Problems

STYLE = ".sheet .leader .halo{stroke-width:6}\n"
"""The rule that a drawing of call-outs has beyond those of sheets: a narrow edge along the leaders."""

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
_DOT = 6.5

DRAFT = "Draft only, not for publication: nobody has said by what right this photograph is shown."


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
    labels = [_label(folder, photograph, point) for point in photograph.points]
    size = _fitted(photograph.size)
    middles = [(one.point.at[0] * size[0], one.point.at[1] * size[1]) for one in labels]
    wanted = [Wanted(at, one.height, one.point.side) for at, one in zip(middles, labels, strict=True)]
    placed = place_labels(wanted, Margins(-GUTTER, size[0] + GUTTER, 0.0, _room(wanted, size), GAP))
    left = PAGE + (COLUMN + GUTTER if any(one.side == "left" for one in placed) else 0.0)
    right = (COLUMN + GUTTER if any(one.side == "right" for one in placed) else 0.0) + PAGE
    width = left + size[0] + right
    head, top = _head(folder, photograph, width)
    frame = Frame((left, top), size)
    shapes: list[Shape] = [*head, Image(frame.corner, frame.size, href)]
    shapes += [_leader(one, place, frame) for one, place in zip(labels, placed, strict=True)]
    shapes += [_words(one, place, frame) for one, place in zip(labels, placed, strict=True)]
    ends = [place.middle + one.height / 2 for one, place in zip(labels, placed, strict=True)]
    foot, bottom = _foot(photograph, width, top + max([size[1], *ends]))
    picture = Picture(
        (width, bottom),
        (*shapes, *foot),
        f"{photograph.name} call-outs",
        _title(folder, photograph),
        alternative(folder, photograph),
    )
    return picture, _told(labels, photograph, bottom)


def _fitted(size: tuple[int, int]) -> tuple[float, float]:
    scale = min(LARGEST[0] / size[0], LARGEST[1] / size[1])
    return (round(size[0] * scale, 2), round(size[1] * scale, 2))


def _room(wanted: Sequence[Wanted], size: tuple[float, float]) -> float:
    """How far down the margins reach: as far as the photograph, or further where the labels need it."""
    heights = {side: sum(one.height + GAP for one in wanted if one.side == side) for side in ("", "left", "right")}
    tallest = max((one.height for one in wanted), default=0.0)
    half = (sum(heights.values()) + tallest) / 2
    return max(size[1], half, heights["left"], heights["right"])


# --- labels --------------------------------------------------------------------------------------------------------


def _label(folder: Folder, photograph: Photograph, point: Point) -> Label:
    notes = [line for note in notes_of(folder, photograph, point) for line in wrapped(note, NOTE, WORDS)]
    return Label(point, wrapped(point.name, NAME, WORDS, bold=True), tuple(notes))


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


def _leader(label: Label, place: Placed, frame: Frame) -> Group:
    at = frame.at(label.point)
    end = (_edge(place, frame), frame.corner[1] + place.middle)
    half = label.height / 2
    bar = Line((end[0], end[1] - half), (end[0], end[1] + half), "rule")
    dot = Circle(at, _DOT, "glass out")
    return Group((Line(at, end, "halo"), Line(at, end, "thin"), bar, dot), "leader")


def _edge(place: Placed, frame: Frame) -> float:
    return frame.corner[0] - GUTTER if place.side == "left" else frame.corner[0] + frame.size[0] + GUTTER


def _words(label: Label, place: Placed, frame: Frame) -> Group:
    beside = -BESIDE if place.side == "left" else BESIDE
    x, y = _edge(place, frame) + beside, frame.corner[1] + place.middle - label.height / 2
    align = "end" if place.side == "left" else "start"
    shapes: list[Shape] = []
    for lines, role, size in ((label.name, "name", NAME), (label.notes, "note", NOTE)):
        for line in lines:
            y += size * LEADING
            width = min(text_width(line, size, bold=role == "name"), WORDS)
            shapes.append(Text((x, y - 0.25 * size), line, role, size, "end" if align == "end" else "start", width))
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


def _foot(photograph: Photograph, width: float, y: float) -> tuple[list[Shape], float]:
    y += 14.0
    shapes: list[Shape] = []
    for line in wrapped(credit_of(photograph), NOTE, width - 2 * PAGE):
        y += NOTE * LEADING
        wide = min(text_width(line, NOTE), width - 2 * PAGE)
        shapes.append(Text((PAGE, y - 0.25 * NOTE), line, "quiet", NOTE, "start", wide))
    return shapes, y + PAGE * 0.6


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
        wide = [line for line in label.name if text_width(line, NAME, bold=True) > WORDS]
        if wide or len(label.name) > MOST_NAME_LINES:
            what = f"'{wide[0]}' is wider than a label" if wide else f"takes {len(label.name)} lines"
            message = f"The name {label.point.name} is too long for its label: it {what}."
            if wide:
                message = f"The name {label.point.name} is too long for its label: {what} and is pressed together."
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
