"""One system on two standards as one sheet: what both have, and what only one of them has, marked as such.

No state is shown. What is only on the first standard has a heavy frame and full lines, what is only on the second a
dashed frame and dashed lines; each has its colour, its mark and its words, so that no one of these has to be seen.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Literal

from cutaway.draw.blocks import Block, part_shapes, reference_shapes
from cutaway.draw.cautions import cautions_on
from cutaway.draw.filled import blocks_of
from cutaway.draw.frame import Around, better_beside, framed
from cutaway.draw.laying import choose_layout, request_of
from cutaway.draw.layout import Layout, cache_folder
from cutaway.draw.pages import SHAPE
from cutaway.draw.pipes import Routes, joint_shapes, link_shapes, pipe_shapes
from cutaway.draw.plan import Item, Plan, Tie, flow_order, plan_of, whole_system
from cutaway.draw.routes import routes_of
from cutaway.draw.shapes import Circle, Group, Picture, Point, Polyline, Rect, Shape
from cutaway.draw.signs import signs_on
from cutaway.draw.strip import SAMPLE, keys_for
from cutaway.draw.surroundings import NOTICE, SYMBOLS_REMARK, who_is
from cutaway.draw.symbols.strokes import triangle
from cutaway.draw.theme import MEDIA
from cutaway.handbook.records import Folder
from cutaway.machine.subjects import Subject, subjects
from cutaway.machine.wiring import Wiring
from cutaway.parts.kind import Kind
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.quantities.which import StandardName

Side = Literal["both", "first", "second"]

FRAME = 4.0
"""How far a frame stands from what it marks."""

MARK = 8.0
"""Half of the size of a mark."""


@dataclass(frozen=True, slots=True, eq=False)
class Union:
    """Two plans as one. side: by the key of an item or the name of a tie, who has it."""

    plan: Plan
    side: Mapping[str, Side]


def difference_picture(
    folder: Folder,
    on: StandardName,
    against: StandardName,
    system: str,
    kinds: Mapping[str, Kind],
    cache: Path | None = None,
    name: str = "",
    shape: float = SHAPE,
) -> tuple[Picture | None, Problems]:
    """The sheet of a system with what is only on one of two standards marked; None where neither has the system.

    on, against: standards or airframes. name: what ids begin with.
    """
    every = {s.name: s for s in subjects(folder)}
    for wanted in (on, against):
        if wanted not in every:
            hint = f"Write one of {', '.join(every)}."
            return None, (Diagnostic("D103", None, f"There is no standard '{wanted}' to draw.", hint),)
    if system not in {s.name for s in folder.systems}:
        hint = f"Write one of {', '.join(s.name for s in folder.systems)}."
        return None, (Diagnostic("D104", None, f"There is no system '{system}' to draw.", hint),)
    first, second = every[on], every[against]
    plans = [plan_of(folder, subject, whole_system(folder, subject, system), kinds) for subject in (first, second)]
    union = united(plans[0], plans[1], str(second.name))
    if not union.plan.items:
        words = f"The system '{system}' has no parts on {on} or {against}, so there is no sheet of it."
        return None, (Diagnostic("D105", None, words, "Draw it for a standard that has it."),)
    blocks = _blocks(folder, (first, second), union, kinds)
    around = _around(folder, first, second, system, union, kinds, signs_on(union.plan, blocks, kinds))
    request = request_of(whole_system(folder, first, system), union.plan, blocks)
    layout, problems = choose_layout(request, union.plan, blocks, shape, around, cache or cache_folder())
    routes = routes_of(union.plan, blocks, layout)
    inside = _drawing(union, blocks, layout, routes, (str(on), str(against)))
    around = replace(around, beside=better_beside(layout.size, shape, around))
    size, shapes = framed(inside, layout.size, shape, around)
    told = _told(union, system, str(on), str(against), around)
    return Picture(size, shapes, name or f"{system} {on} and {against}", around.title, told), problems


# --- two plans as one --------------------------------------------------------------------------------------------


def united(first: Plan, second: Plan, against: str) -> Union:
    """All items and ties of two plans. A part that is of another kind on the second stands there twice."""
    here = {item.key: item for item in first.items}
    twice = {i.key for i in second.items if not i.reference and i.key in here and here[i.key].part.kind != i.part.kind}
    renamed = {key: f"{key} on {against}" for key in twice}
    items = {**here}
    side: dict[str, Side] = dict.fromkeys(here, "first")
    for item in second.items:
        key = renamed.get(item.key, item.key)
        side[key] = "both" if key in here else "second"
        items[key] = _merged(items.get(key), item, key)
    ties = {tie.name: tie for tie in first.ties}
    side |= dict.fromkeys(ties, "first")
    for tie in (_renamed(tie, renamed, against) for tie in second.ties):
        side[tie.name] = "both" if side.get(tie.name) in ("first", "both") else "second"
        ties.setdefault(tie.name, tie)
    shown = _led(tuple(ties.values()))
    used = {end.item for tie in shown for end in (tie.start, tie.end)}
    kept = [item for item in items.values() if not item.reference or item.key in used]
    joined = {**second.wiring.joined, **first.wiring.joined}
    wiring = Wiring(joined, {**second.wiring.media, **first.wiring.media}, {})
    return Union(Plan(flow_order(kept, list(shown)), shown, shown, wiring), side)


def _merged(one: Item | None, other: Item, key: str) -> Item:
    """An item of both plans: a flag tells of all parts that it stands for on either."""
    if one is None:
        return replace(other, key=key)
    labels = tuple(dict.fromkeys((*one.labels, *other.labels)))
    mates = tuple({p.name: p for p in (*one.mates, *other.parts) if p.name != one.part.name}.values())
    return replace(one, labels=labels, mates=mates) if one.reference else one


def _renamed(tie: Tie, renamed: Mapping[str, str], against: str) -> Tie:
    """A tie of the second plan, to the second of two parts of one name where there are two."""
    ends = [replace(end, item=renamed.get(end.item, end.item)) for end in (tie.start, tie.end)]
    whose = against if (tie.start, tie.end) != tuple(ends) else ""
    return replace(tie, start=ends[0], end=ends[1], whose=whose)


def _led(ties: Sequence[Tie]) -> tuple[Tie, ...]:
    """The ties, those to one flag sharing the line of the first of them."""
    leading: dict[tuple[str, str, str], str] = {}
    out = []
    for tie in ties:
        if not tie.along:
            leading.setdefault((tie.start.item, tie.end.item, tie.sort), tie.name)
    for tie in ties:
        lead = leading.get((tie.start.item, tie.end.item, tie.sort), "")
        out.append(replace(tie, along=lead if tie.along and lead != tie.name else ""))
    return tuple(out)


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
