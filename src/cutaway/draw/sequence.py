"""One sheet at several moments of a run: as stills, each with its moment, and as one drawing that moves.

What is the same at every moment stands once in the moving drawing; of the rest each look stands once, with the moments
at which it is seen. A reader who asked for less motion sees the first moment, and steps with the numbered links.
"""

import itertools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from cutaway.draw.measure import text_width
from cutaway.draw.shapes import Circle, Group, Picture, Point, Rect, Shape, Text, placed
from cutaway.draw.strip import TITLE_SIZE
from cutaway.draw.svg import Ground, slug, write_svg
from cutaway.draw.theme import Manner

LABEL_SIZE = 26.0
STEP_SIZE = 15.0
STEP_RADIUS = 14.0
STEP_APART = 36.0
LEAST_TITLE = 15.0
"""As small as a title may be set to leave room for its moment."""
MOST_STEPS = 12
"""With more moments than this they are counted in words, since dots for all would fill the head of the sheet."""


@dataclass(frozen=True, slots=True)
class Moment:
    """A sheet at one moment. words: when that is, as it stands on the sheet: 'at 10 s'."""

    words: str
    picture: Picture


def stills(moments: Sequence[Moment]) -> tuple[Picture, ...]:
    """Each moment as a picture of its own, with its words and its place in the sequence in the upper right corner."""
    return tuple(_named(_with_moment(moments, number, False), moments, number) for number in range(len(moments)))


def _named(picture: Picture, moments: Sequence[Moment], number: int) -> Picture:
    """The picture with its moment in its title and in its words, which stand where it cannot be seen."""
    words = moments[number].words
    if not words:
        return picture
    place = f"Moment {number + 1} of {len(moments)}: {words}." if len(moments) > 1 else _capital(f"{words}.")
    head, *rest = picture.description
    return replace(picture, title=f"{picture.title}, {words}", description=(head, place, *rest))


def write_moving_svg(moments: Sequence[Moment], manner: Manner, seconds: float, ground: Ground = "paper") -> str:
    """The whole sequence as one SVG file that shows each moment for `seconds`, over and over.

    Where motion is not wanted it shows the first moment; a numbered link in the head holds its moment.
    """
    pictures = [_with_moment(moments, number, True) for number in range(len(moments))]
    first = pictures[0]
    ident = slug(first.name)
    counter = _Counter()
    marks = tuple(Group((), name=_step(number)) for number in (*range(len(moments)), -1))
    shapes = (*marks, *_merged([picture.shapes for picture in pictures], counter))
    title = f"{first.title}, {len(moments)} moments"
    picture = replace(first, title=title, shapes=shapes, description=told(moments))
    style = _style(ident, len(moments), seconds, counter.sets)
    return write_svg(picture, manner, ground, style, "group" if len(moments) <= MOST_STEPS else "img")


def told(moments: Sequence[Moment]) -> tuple[str, ...]:
    """The sequence in words: the first moment whole, then of each what is otherwise than at the one before."""
    words = [f"A sequence of {len(moments)} moments.", _capital(f"{moments[0].words}.")]
    words += moments[0].picture.description
    for before, after in itertools.pairwise(moments):
        new = _changed(before.picture.description, after.picture.description)
        words.append(_capital(f"{after.words}: {' '.join(new) if new else 'all is as before.'}"))
    return tuple(words)


# --- the head ----------------------------------------------------------------------------------------------------


def _with_moment(moments: Sequence[Moment], number: int, links: bool) -> Picture:
    picture = moments[number].picture
    count = len(moments)
    edge, y, scale = _title_line(picture)
    right = picture.size[0] / scale - edge
    widest = max(text_width(moment.words, LABEL_SIZE, bold=True) for moment in moments)
    dots = STEP_APART * (count - 1) + 2 * STEP_RADIUS + 24.0 if 1 < count <= MOST_STEPS else 0.0
    words = moments[number].words if count <= MOST_STEPS else f"{moments[number].words} · {number + 1} of {count}"
    room = right - edge - dots - max(widest, text_width(words, LABEL_SIZE, bold=True)) - 24.0
    label = Text((right, y), words, "title", LABEL_SIZE, "end", text_width(words, LABEL_SIZE, bold=True))
    shapes: list[Shape] = [label]
    if dots:
        left = right - widest - 24.0 - STEP_APART * (count - 1) - STEP_RADIUS
        for step, moment in enumerate(moments):
            centre = (left + STEP_APART * step, y - 9.0)
            shapes.append(_dot(centre, step, step == number, moment.words, count, links))
    below = _beside(picture.shapes, room * scale)
    return replace(picture, shapes=(*below, Group(placed(shapes, (0.0, 0.0), scale), "moment")))


def _beside(shapes: tuple[Shape, ...], room: float) -> tuple[Shape, ...]:
    """The sheet with its title set smaller where it would reach under the moment, as small as it can still be read."""
    head = next(shape for shape in shapes if isinstance(shape, Group) and shape.role == "head")
    lines = [shape for shape in head.shapes if isinstance(shape, Text) and shape.role == "title"]
    widest = max(line.width for line in lines)
    if widest <= room:
        return shapes
    share = max(LEAST_TITLE / TITLE_SIZE, room / widest)
    if share * widest > room:
        short = {line: _shortened(line, share, room) for line in lines}
        head_short = tuple(short.get(shape, shape) if isinstance(shape, Text) else shape for shape in head.shapes)
        return tuple(replace(head, shapes=head_short) if shape is head else shape for shape in shapes)
    smaller = tuple(
        replace(shape, size=shape.size * share, width=shape.width * share)
        if isinstance(shape, Text) and shape.role == "title" else shape
        for shape in head.shapes
    )  # fmt: skip
    return tuple(replace(head, shapes=smaller) if shape is head else shape for shape in shapes)


def _shortened(line: Text, share: float, room: float) -> Text:
    """A line of a title, smaller, and cut where even so it would reach too far; the sheet in words has it whole."""
    size, words = line.size * share, line.words
    while len(words) > 1 and text_width(f"{words}…", size, bold=True) > room:
        words = words[:-1].rstrip()
    if words == line.words or line.width * share <= room:
        return replace(line, size=size, width=line.width * share)
    return replace(line, words=f"{words}…", size=size, width=text_width(f"{words}…", size, bold=True))


def _title_line(picture: Picture) -> tuple[float, float, float]:
    """Where the title of a sheet begins, its base line, and how much larger than usual its head is drawn."""
    head = next(shape for shape in picture.shapes if isinstance(shape, Group) and shape.role == "head")
    title = next(shape for shape in head.shapes if isinstance(shape, Text) and shape.role == "title")
    scale = title.size / TITLE_SIZE
    return title.at[0] / scale, title.at[1] / scale, scale


def _dot(centre: Point, step: int, here: bool, words: str, count: int, link: bool) -> Group:
    x, y = centre
    circle = Circle(centre, STEP_RADIUS, "glass lit" if here else "glass out")
    figure = Text((x, y + STEP_SIZE * 0.36), str(step + 1), "mark on" if here else "mark", STEP_SIZE, "middle")
    if not link:
        return Group((circle, figure), "step")
    reach = Rect((x - STEP_APART / 2, y - STEP_APART / 2), (STEP_APART, STEP_APART), "reach")
    title = f"Moment {step + 1} of {count}: {words}"
    return Group((reach, circle, figure), "step", title=title, link=_step(-1 if here else step))


def _step(number: int) -> str:
    return f"moment {number + 1}" if number >= 0 else "all moments"


# --- what is the same and what is not ----------------------------------------------------------------------------


class _Counter:
    """Counts the looks that were written, so that their ids differ, and keeps at which moments looks are seen."""

    def __init__(self) -> None:
        self.looks = 0
        self.sets: dict[tuple[int, ...], None] = {}


def _merged(shapes: Sequence[tuple[Shape, ...]], counter: _Counter) -> tuple[Shape, ...]:
    """The shapes of every moment as one list: what is equal once, else each look with its moments, in place."""
    if len({len(one) for one in shapes}) > 1:
        return tuple(_looks([Group(one) for one in shapes], counter))
    out: list[Shape] = []
    for same_place in zip(*shapes, strict=True):
        first = same_place[0]
        if all(shape == first for shape in same_place):
            out.append(first)
        elif all(_opens_alike(shape, first) for shape in same_place):
            groups = [shape for shape in same_place if isinstance(shape, Group)]
            out.append(replace(groups[0], shapes=_merged([group.shapes for group in groups], counter)))
        else:
            out.extend(_looks(same_place, counter))
    return tuple(out)


def _opens_alike(shape: Shape, first: Shape) -> bool:
    """Whether two groups differ by what is in them alone, and are none of a part or line, which is kept whole."""
    if not isinstance(shape, Group) or not isinstance(first, Group) or shape.part or shape.line or shape.link:
        return False
    return replace(shape, shapes=()) == replace(first, shapes=())


def _looks(same_place: Iterable[Shape], counter: _Counter) -> Iterable[Group]:
    """Each look of what differs, in the order of its first moment."""
    moments: dict[Shape, list[int]] = {}
    for number, shape in enumerate(same_place):
        moments.setdefault(shape, []).append(number)
    for shape, numbers in moments.items():
        counter.looks += 1
        seen = tuple(numbers)
        counter.sets[seen] = None
        roles = " ".join(("seen", *(f"at{n}" for n in seen), _name(seen)))
        yield Group((_renamed(shape, counter.looks),), roles)


def _renamed(shape: Shape, look: int) -> Shape:
    """The shape with ids that no other look of it has."""
    if not isinstance(shape, Group):
        return shape
    name = f"{shape.name} look {look}" if shape.name else ""
    return replace(shape, name=name, shapes=tuple(_renamed(one, look) for one in shape.shapes))


# --- the style ---------------------------------------------------------------------------------------------------


def _name(seen: tuple[int, ...]) -> str:
    return "in-" + "-".join(map(str, seen))


def _style(ident: str, count: int, seconds: float, sets: Iterable[tuple[int, ...]]) -> str:
    """Still at the first moment; moving where that is welcome; held where a moment was chosen."""
    every = tuple(sets)
    lines = [".sheet .seen{visibility:hidden}", ".sheet .at0{visibility:visible}", ".sheet .reach{fill:transparent}"]
    # Opened by itself it is no wider than the window.
    lines += [".sheet a{cursor:pointer}", "svg.sheet{max-width:100%;height:auto}"]
    lines.append("@media (prefers-reduced-motion:no-preference){")
    lines.append(f".sheet .seen{{animation:{seconds * count:g}s step-end infinite}}")
    lines += [f".sheet .{_name(seen)}{{animation-name:{ident}-{_name(seen)}}}" for seen in every]
    lines.append("}")
    lines += [_keyframes(f"{ident}-{_name(seen)}", seen, count) for seen in every]
    for number in range(count if count <= MOST_STEPS else 0):
        held = f".sheet:has(#{ident}-{slug(_step(number))}:target)"
        lines.append(f"{held} .seen{{animation:none;visibility:hidden}}")
        lines.append(f"{held} .at{number}{{visibility:visible}}")
    return "\n".join(lines) + "\n"


def _keyframes(name: str, seen: tuple[int, ...], count: int) -> str:
    frames = [
        f"{100 * n / count:.4g}%{{visibility:{'visible' if n in seen else 'hidden'}}}"
        for n in range(count)
        if n == 0 or (n in seen) != (n - 1 in seen)
    ]
    return f"@keyframes {name}{{{''.join(frames)}100%{{visibility:{'visible' if count - 1 in seen else 'hidden'}}}}}"


# --- in words ----------------------------------------------------------------------------------------------------


def _changed(before: Sequence[str], after: Sequence[str]) -> list[str]:
    """The sentences that are new, of lists only the items that are."""
    old = set(before)
    items = {item for sentence in before for item in _items(sentence)[1]}
    out = []
    for sentence in after:
        if sentence in old:
            continue
        head, parts = _items(sentence)
        new = [part for part in parts if part not in items]
        if new:
            out.append(f"{head}{'; '.join(new)}.")
    return out


def _items(sentence: str) -> tuple[str, tuple[str, ...]]:
    """A list in a sentence: its head with the colon, and each item with that head before it, for comparing."""
    head, colon, rest = sentence.rstrip(".").partition(": ")
    if not colon:
        return "", (sentence.rstrip("."),)
    return f"{head}: ", tuple(rest.split("; "))


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
