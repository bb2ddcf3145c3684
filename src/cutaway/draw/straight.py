"""Small steps taken out of lines: the library sets boxes a little off from what they are joined to, and a line with a
step of a few points looks as if something were meant by it. The boxes are moved instead, if nothing comes too near."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from cutaway.draw.layout import Box, Layout, Wire, runs_through
from cutaway.draw.lines import Place, Routes, Run, beside, covered, runs_of, stretch, without_idle_points
from cutaway.draw.shapes import Point
from cutaway.draw.stretches import Segment, crossing

STEP, HUMP = 13.0, 60.0
"""A step as high as this or less is taken out; a higher one up to the second if another goes with it, as where a line
goes up to a box and down behind it."""

AREAS_APART, BOXES_APART = 14.0, 8.5
LINES_APART = 11.0
LINE_FROM_BOX, LINE_FROM_AREA = 8.0, 12.5
"""How near things may come that are moved: two that each stand in an area, any other two, lines, a line and a box, a
line and a box in an area."""

MOST_MOVED = 3
"""Boxes that are moved for one step at most."""

BAR_END = 6.0
"""How near to the end of a bar a line may join it."""

ROUNDS = 40


@dataclass(frozen=True, slots=True, eq=False)
class _Sheet:
    """A layout with all that is asked of it."""

    layout: Layout
    boxes: Mapping[str, Box]
    wires: Sequence[Wire]
    nets: Mapping[str, str]
    stationed: frozenset[str]
    routes: Routes

    def pin_is_free(self, box: str, pin: str) -> bool:
        """Whether a line may join a box anywhere along that side."""
        return next(p for p in self.boxes[box].pins if p.name == pin).at is None

    def side(self, box: str, pin: str) -> str:
        """On which side of its box a pin is."""
        return next(p for p in self.boxes[box].pins if p.name == pin).side


@dataclass(frozen=True, slots=True)
class _Move:
    """Level runs and boxes that go up or down together."""

    runs: tuple[Run, ...]
    boxes: frozenset[str]
    by: float


def straightened(
    layout: Layout,
    boxes: Sequence[Box],
    wires: Sequence[Wire],
    nets: Mapping[str, str],
    stationed: frozenset[str] = frozenset(),
) -> Layout:
    """The layout without those small steps that can be taken out. nets: by wire, what it carries. stationed: boxes
    that an area is drawn about."""
    sheet = _Sheet(layout, {box.name: box for box in boxes}, wires, nets, stationed, dict(layout.routes))
    tried: set[tuple[str, int, int, int]] = set()
    for _ in range(ROUNDS):
        better = next((done for done in _tries(sheet, tried) if done is not None), None)
        if better is None:
            return sheet.layout
        sheet = better
    return sheet.layout


def steps_in(routes: Mapping[str, tuple[Point, ...]], most: float = STEP) -> list[tuple[str, int]]:
    """The steps of all routes up to a height: the name of each, and the number of the stretch that is the step."""
    found = []
    for name, points in routes.items():
        for i in range(1, len(points) - 2):
            (ax, ay), (bx, by) = points[i], points[i + 1]
            level = abs(points[i - 1][1] - ay) < 0.5 and abs(points[i + 2][1] - by) < 0.5
            onward = (ax - points[i - 1][0]) * (points[i + 2][0] - bx) > 0
            if level and onward and abs(ax - bx) < 0.5 and 0.5 < abs(ay - by) <= most:
                found.append((name, i))
    return found


def _tries(sheet: _Sheet, tried: set[tuple[str, int, int, int]]) -> Iterator[_Sheet | None]:
    """What comes of taking out one step after another, by moving what is before it or what is after it."""
    runs = runs_of(sheet.routes, sheet.wires, sheet.nets)
    of = {one: run for run in runs for one in run.stretches}
    for name, i in steps_in(sheet.routes, HUMP):
        points = sheet.routes[name]
        high = points[i + 1][1] - points[i][1]
        for number, by, other in ((i - 1, high, i + 1), (i + 1, -high, i - 1)):
            key = (name, round(points[i][0]), round(points[number][1]), round(by * 10))
            if key in tried:
                continue
            tried.add(key)
            move = _move(sheet, runs, of[name, number], by)
            if move is not None and of[name, other] not in move.runs:
                yield _moved(sheet, move)


def _move(sheet: _Sheet, runs: Sequence[Run], first: Run, by: float) -> _Move | None:
    """All that has to go along when a run goes up or down: the boxes that it ends at, the runs that end at those."""
    taken, boxes, waiting = [first], set[str](), [first]
    while waiting:
        for box, pin in waiting.pop().ends:
            if box in boxes or sheet.pin_is_free(box, pin):
                continue
            boxes.add(box)
            if len(boxes) > MOST_MOVED:
                return None
            more = [r for r in runs if r.axis == 0 and r not in taken and any(e[0] == box for e in r.ends)]
            taken += more
            waiting += more
    return _Move(tuple(taken), frozenset(boxes), by)


def _moved(sheet: _Sheet, move: _Move) -> _Sheet | None:
    """The layout after a move; None where something would come too near, or nothing would be gained."""
    routes = dict(sheet.routes)
    for name, i in {one for run in move.runs for one in run.stretches}:
        points = list(routes[name])
        for at in (i, i + 1):
            points[at] = (points[at][0], sheet.routes[name][at][1] + move.by)
        routes[name] = tuple(points)
    for wire in sheet.wires:
        for at, (box, pin) in ((0, wire.start), (-1, wire.end)):
            if routes.get(wire.name) and box in move.boxes and sheet.side(box, pin) in ("north", "south"):
                points = list(routes[wire.name])
                points[at] = (points[at][0], sheet.routes[wire.name][at][1] + move.by)
                routes[wire.name] = tuple(points)
    corners = tuple((n, (x, y + move.by * (n in move.boxes))) for n, (x, y) in sheet.layout.corners)
    changed = frozenset(name for name in routes if routes[name] != sheet.routes[name])
    clean = {name: without_idle_points(points) if name in changed else points for name, points in routes.items()}
    layout = replace(sheet.layout, corners=corners, routes=tuple(clean.items()), joints=_joints(sheet, clean, changed))
    after = replace(sheet, layout=layout, routes=clean)
    return after if _gained(sheet.routes, clean, move) and _clear(sheet, after, move, changed) else None


def _gained(before: Routes, after: Routes, move: _Move) -> bool:
    """Whether there are fewer steps than before; by a high move two at once, and no small one for it."""
    small, high = (len(steps_in(before, most)) - len(steps_in(after, most)) for most in (STEP, HUMP))
    return small > 0 if abs(move.by) <= STEP else high > 1 and small >= 0


def _joints(sheet: _Sheet, routes: Routes, changed: frozenset[str]) -> tuple[Point, ...]:
    """Where lines may meet: as they were told, and at every corner and end of the nets that were changed."""
    nets = {sheet.nets[name] for name in changed}
    corners = {point for name, points in routes.items() if sheet.nets[name] in nets for point in points}
    return tuple(sorted({*sheet.layout.joints, *corners}))


def _clear(before: _Sheet, after: _Sheet, move: _Move, changed: frozenset[str]) -> bool:
    """Whether what was moved keeps off all else, on the page too, and crosses no more than it did."""
    now = covered(after.layout, after.boxes.values())
    for name in move.boxes:
        left, top, right, bottom = now[name]
        if top < 0 or bottom > after.layout.size[1]:
            return False
        for other, place in now.items():
            least = AREAS_APART if {name, other} <= after.stationed else BOXES_APART
            if other not in move.boxes and _gap((left, top, right, bottom), place) < least:
                return False
    if not _bars_hold(after) or not _lines_clear(before, after, changed, move.boxes, now):
        return False
    return not runs_through(after.layout, tuple(after.boxes.values()))


def _gap(one: Place, other: Place) -> float:
    across = max(one[0], other[0]) - min(one[2], other[2])
    down = max(one[1], other[1]) - min(one[3], other[3])
    return max(across, down)


def _bars_hold(sheet: _Sheet) -> bool:
    """Whether every line that may join a bar anywhere joins it between its ends."""
    corners = dict(sheet.layout.corners)
    for wire in sheet.wires:
        for at, (box, pin) in ((0, wire.start), (-1, wire.end)):
            points = sheet.routes.get(wire.name)
            if points and sheet.pin_is_free(box, pin):
                top = corners[box][1]
                if not top + BAR_END <= points[at][1] <= top + sheet.boxes[box].size[1] - BAR_END:
                    return False
    return True


def _lines_clear(
    before: _Sheet, after: _Sheet, changed: frozenset[str], moved: frozenset[str], boxes: Mapping[str, Place]
) -> bool:
    ends = {wire.name: {wire.start[0], wire.end[0]} for wire in after.wires}
    for wire in after.wires:
        for one in _stretches(after.routes.get(wire.name, ())):
            for box in boxes if wire.name in changed else moved:
                least = -1.0 if box in ends[wire.name] else LINE_FROM_AREA if box in after.stationed else LINE_FROM_BOX
                if _gap(_box_of(one, least), boxes[box]) < 0:
                    return False
    (crossed, near), (crossed_now, near_now) = _met(before, changed), _met(after, changed)
    return crossed_now <= crossed and near_now <= near


def _met(sheet: _Sheet, changed: frozenset[str]) -> tuple[int, int]:
    """How often lines that were changed cross those of other nets, and how often they run close beside them."""
    crossed = near = 0
    for name in changed:
        for other, points in sheet.routes.items():
            if sheet.nets[other] == sheet.nets[name] or (other in changed and other < name):
                continue
            for one in _stretches(sheet.routes[name]):
                for two in _stretches(points):
                    crossed += crossing(one, two) is not None
                    near += beside(one, two) < LINES_APART
    return crossed, near


def _stretches(points: tuple[Point, ...]) -> list[Segment]:
    return [stretch(points, i) for i in range(len(points) - 1)]


def _box_of(one: Segment, wider: float) -> Place:
    (ax, ay), (bx, by) = one
    return min(ax, bx) - wider, min(ay, by) - wider, max(ax, bx) + wider, max(ay, by) + wider
