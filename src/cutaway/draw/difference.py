"""One system on two standards as one sheet: what both have, and what only one of them has, marked as such.

No state is shown. What is only on the first standard has a heavy frame and full lines, what is only on the second a
dashed frame and dashed lines; each has its colour, its mark and its words, so that no one of these has to be seen.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from cutaway.draw.blocks import Block, part_shapes, reference_shapes
from cutaway.draw.cautions import cautions_on
from cutaway.draw.division import halves
from cutaway.draw.filled import blocks_of
from cutaway.draw.frame import Around, better_beside, framed
from cutaway.draw.laying import choose_layout, request_of
from cutaway.draw.layout import Layout, cache_folder
from cutaway.draw.pages import LEAST_POINTS, SHAPE, smallest_points
from cutaway.draw.pipes import Routes, joint_shapes, link_shapes, pipe_shapes
from cutaway.draw.plan import plan_of, whole_system
from cutaway.draw.routes import routes_of
from cutaway.draw.shapes import Circle, Group, Picture, Point, Polyline, Rect, Shape
from cutaway.draw.signs import signs_on
from cutaway.draw.strip import SAMPLE, keys_for
from cutaway.draw.surroundings import NOTICE, SYMBOLS_REMARK, who_is
from cutaway.draw.symbols.strokes import triangle
from cutaway.draw.theme import MEDIA
from cutaway.draw.union import Side, Union, united
from cutaway.handbook.records import Folder
from cutaway.machine.subjects import Subject, subjects
from cutaway.parts.kind import Kind
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.quantities.which import StandardName

FRAME = 4.0
"""How far a frame stands from what it marks."""

PART = "Only what differs and what it is joined to is drawn; the rest is as on the sheets of the system."
MOST_SHEETS = 6
"""What differs is divided over no more sheets than this."""

MARK = 8.0
"""Half of the size of a mark."""


@dataclass(frozen=True, slots=True, eq=False)
class _Task:
    """What is drawn. name: what ids begin with."""

    folder: Folder
    first: Subject
    second: Subject
    system: str
    kinds: Mapping[str, Kind]
    cache: Path
    name: str
    shape: float


def difference_pictures(
    folder: Folder,
    on: StandardName,
    against: StandardName,
    system: str,
    kinds: Mapping[str, Kind],
    cache: Path | None = None,
    name: str = "",
    shape: float = SHAPE,
) -> tuple[tuple[Picture, ...], Problems]:
    """The sheet of a system with what is only on one of two standards marked; none where neither has the system.

    Where the whole would have to be made too small to read, what differs is drawn with what it is joined to; on several
    sheets if that is still too much for one. on, against: standards or airframes. name: what ids begin with.
    """
    every = {s.name: s for s in subjects(folder)}
    for wanted in (on, against):
        if wanted not in every:
            hint = f"Write one of {', '.join(every)}."
            return (), (Diagnostic("D103", None, f"There is no standard '{wanted}' to draw.", hint),)
    if system not in {s.name for s in folder.systems}:
        hint = f"Write one of {', '.join(s.name for s in folder.systems)}."
        return (), (Diagnostic("D104", None, f"There is no system '{system}' to draw.", hint),)
    task = _Task(folder, every[on], every[against], system, kinds, cache or cache_folder(), name, shape)
    union = _union_of(task, None)
    if not union.plan.items:
        words = f"The system '{system}' has no parts on {on} or {against}, so there is no sheet of it."
        return (), (Diagnostic("D105", None, words, "Draw it for a standard that has it."),)
    picture, problems = _picture(task, union)
    near = _near(union)
    if not near or smallest_points(picture) >= LEAST_POINTS:
        return (picture,), problems
    unions = _divided(task, near)
    drawn = [_picture(task, one, f"{i} of {len(unions)}") for i, one in enumerate(unions, 1)]
    if min(smallest_points(one) for one, _ in drawn) <= smallest_points(picture):
        return (picture,), problems
    return tuple(one for one, _ in drawn), tuple(dict.fromkeys(problem for _, more in drawn for problem in more))


def _divided(task: _Task, near: frozenset[str]) -> list[Union]:
    """What differs, on as many sheets as it needs to be read."""
    waiting, done = [near], list[Union]()
    while waiting:
        some = waiting.pop(0)
        union = _union_of(task, some)
        weights = {i.key: 1.0 for i in union.plan.items if not i.reference}
        small = smallest_points(_picture(task, union, "1 of 2")[0]) < LEAST_POINTS
        parts = halves(union.plan, weights) if small and len(waiting) + len(done) + 2 <= MOST_SHEETS else None
        if parts is None:
            done.append(union)
            continue
        names = {i.key: str(i.part.name) for i in union.plan.items}
        first = frozenset(names[key] for key in parts[0])
        waiting = [first, some - first, *waiting]
    return done


def _union_of(task: _Task, only: frozenset[str] | None) -> Union:
    """Both plans of the system as one. only: the parts that are drawn, None for all; the others are flags."""
    plans = []
    for subject in (task.first, task.second):
        extract = whole_system(task.folder, subject, task.system)
        if only is not None:
            elsewhere = tuple((part, task.system) for part in sorted(extract.own - only))
            extract = replace(extract, own=extract.own & only, elsewhere=elsewhere)
        plans.append(plan_of(task.folder, subject, extract, task.kinds))
    return united(plans[0], plans[1], str(task.second.name))


def _near(union: Union) -> frozenset[str]:
    """The parts that only one of the two has, and those at the ends of what only one of them has."""
    parts = {item.key: str(item.part.name) for item in union.plan.items if not item.reference}
    found = {name for key, name in parts.items() if union.side[key] != "both"}
    apart = {tie.name for tie in union.plan.ties if union.side[tie.name] != "both"}
    for tie in union.plan.ties:
        if tie.name in apart or tie.along in apart:
            found |= {parts[end.item] for end in (tie.start, tie.end) if end.item in parts}
    return frozenset(found)


def _picture(task: _Task, union: Union, part: str = "") -> tuple[Picture, Problems]:
    """The sheet of two plans. part: which sheet of how many it is, where not all of the system is drawn."""
    folder, first, second, kinds = task.folder, task.first, task.second, task.kinds
    on, against = str(first.name), str(second.name)
    blocks = _blocks(folder, (first, second), union, kinds)
    around = _around(folder, first, second, task.system, union, kinds, signs_on(union.plan, blocks, kinds))
    several = part and not part.endswith(" of 1")
    if part:
        title = f"{around.title}, sheet {part}" if several else around.title
        around = replace(around, title=title, says=f"{PART} {around.says}")
    request = request_of(whole_system(folder, first, task.system), union.plan, blocks)
    layout, problems = choose_layout(request, union.plan, blocks, task.shape, around, task.cache)
    routes = routes_of(union.plan, blocks, layout)
    inside = _drawing(union, blocks, layout, routes, (on, against))
    around = replace(around, beside=better_beside(layout.size, task.shape, around))
    size, shapes = framed(inside, layout.size, task.shape, around)
    told = _told(union, task.system, on, against, around)
    told = (told[0], PART, *told[1:]) if part else told
    name = task.name or f"{task.system} {on} and {against}"
    return Picture(size, shapes, f"{name} {part.split()[0]}" if several else name, around.title, told), problems


# --- drawing -----------------------------------------------------------------------------------------------------


def _blocks(
    folder: Folder, pair: tuple[Subject, Subject], union: Union, kinds: Mapping[str, Kind]
) -> Mapping[str, Block]:
    """Each item as the standard that has it draws it. The line of a station is used for whose it is."""
    words = {
        item.key: f"only on {pair[0].name if union.side[item.key] == 'first' else pair[1].name}"
        for item in union.plan.items
        if not item.reference and union.side[item.key] != "both"
    }
    first = blocks_of(folder, pair[0], union.plan, kinds, words, None)
    second = blocks_of(folder, pair[1], union.plan, kinds, words, None)
    return {key: second[key] if union.side[key] == "second" else block for key, block in first.items()}


def _drawing(
    union: Union, blocks: Mapping[str, Block], layout: Layout, routes: Routes, names: tuple[str, str]
) -> tuple[Shape, ...]:
    plan, corners = union.plan, dict(layout.corners)
    shapes: list[Shape] = []
    for tie in plan.ties:
        if union.side[tie.name] != "both" and tie.sort == "line" and not tie.along and routes.get(tie.name):
            shapes.append(Polyline(routes[tie.name], f"only {union.side[tie.name]} under"))
    shapes += link_shapes(plan, routes)
    for tie in plan.ties:
        if union.side[tie.name] != "both" and tie.sort == "link" and not tie.along and routes.get(tie.name):
            shapes.append(Polyline(routes[tie.name], f"only {union.side[tie.name]}"))
    shapes += [*pipe_shapes(plan, routes, {}), *joint_shapes(plan, routes, layout.joints)]
    for item in plan.items:
        block, corner, side = blocks[item.key], corners[item.key], union.side[item.key]
        if side != "both":
            shapes.append(_frame(block, corner, side))
        if item.reference:
            shapes.append(reference_shapes(block, corner))
        else:
            notes = (block.label.station,) if side != "both" and block.label.station else ()
            shapes.append(part_shapes(block, corner, notes))
    return tuple(shapes)


def _frame(block: Block, corner: Point, side: Side) -> Group:
    """A frame about what only one standard has, with its mark on the upper left corner."""
    below = block.box.below or (0.0, 0.0)
    hang = max(0.0, (below[0] - block.box.size[0]) / 2)
    x, y = corner[0] - hang - FRAME, corner[1] - FRAME
    size = (block.box.size[0] + 2 * hang + 2 * FRAME, block.box.size[1] + below[1] + 2 * FRAME)
    return Group((Rect((x, y), size, f"only {side}", 5.0), *_mark((x, y), side)), "only")


def _mark(at: Point, side: Side) -> tuple[Shape, ...]:
    """A full triangle for the first, an open ring for the second."""
    x, y = at
    if side == "first":
        return (triangle((x + MARK, y), 0.0, 2 * MARK, 2 * MARK, "only first mark"),)
    return (Circle(at, MARK, "only second mark"),)


def _around(
    folder: Folder,
    first: Subject,
    second: Subject,
    system: str,
    union: Union,
    kinds: Mapping[str, Kind],
    signs: tuple[str, ...],
) -> Around:
    media = [m for m in MEDIA if any(t.medium == m for t in union.plan.ties)]
    links = any(t.sort == "link" for t in union.plan.ties)
    flags = any(i.reference for i in union.plan.items)
    keys = keys_for(media, False, links, flags)
    sides = set(union.side.values())
    pair: tuple[tuple[Side, Subject], ...] = (("first", first), ("second", second))
    keys += tuple((_sample(side), f"only on {one.name}") for side, one in pair if side in sides)
    title = f"{who_is(folder, first)} and {second.name}: {system}"
    says = "What only one of the two has is framed and named. Without a state: every control in its first position."
    if sides == {"both"}:
        says = "Both have the same parts, joined in the same way. Figures may still differ."
    remarks = (*signs, SYMBOLS_REMARK)
    return Around(title, says, keys, remarks, cautions_on(union.plan, kinds), folder.type.notice or NOTICE)


def _sample(side: Side) -> tuple[Shape, ...]:
    frame = Rect((4.0, -9.0), (SAMPLE - 8.0, 18.0), f"only {side}", 4.0)
    return (frame, *_mark((8.0, 0.0), side))


def _told(union: Union, system: str, on: str, against: str, around: Around) -> tuple[str, ...]:
    """The sheet in words: what only one has first."""
    told = [f"Sheet of the system {system} on {on} and on {against}."]
    pair: tuple[tuple[Side, str], ...] = (("first", on), ("second", against))
    for side, name in pair:
        parts = [str(i.part.name) for i in union.plan.items if not i.reference and union.side[i.key] == side]
        lines = [t.name for t in union.plan.ties if t.sort == "line" and union.side[t.name] == side]
        links = [t.told for t in union.plan.ties if t.sort == "link" and union.side[t.name] == side]
        for what, found in (("Parts", parts), ("Lines", lines), ("Couplings", links)):
            told += [f"{what} only on {name}: {'; '.join(found)}."] if found else []
    if set(union.side.values()) == {"both"}:
        told.append("Nothing on this sheet is on one of them only.")
    both = [str(i.part.name) for i in union.plan.items if not i.reference and union.side[i.key] == "both"]
    told += [f"Parts on both: {', '.join(both)}."] if both else []
    return (*told, *(f"Caution: {caution}" for caution in around.cautions), around.notice)
