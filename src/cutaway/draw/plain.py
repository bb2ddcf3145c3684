"""A simple layout of our own for when the layout library is not there: columns in flow order, wires in lanes below.

It is plain: wires are right-angled and never pass through a box, but they cross more than they need to.
"""

from cutaway.draw.layout import Box, Layout, Pin, Request
from cutaway.draw.shapes import Point

GAP = 60.0
LANE = 14.0
ROWS = 3


def plain_layout(request: Request) -> Layout:
    """Place boxes in columns of up to three, with room between for each wire to have a lane of its own."""
    lanes = LANE * (len(request.wires) + 2)
    columns = [request.boxes[i : i + ROWS] for i in range(0, len(request.boxes), ROWS)]
    corners: dict[str, Point] = {}
    x = lanes
    bottom = 0.0
    for column in columns:
        y = 4.0
        for box in column:
            corners[box.name] = (x, y)
            y += full_size(box)[1] + GAP
        bottom = max(bottom, y)
        x += max(full_size(box)[0] for box in column) + lanes
    boxes = {box.name: box for box in request.boxes}
    routes = []
    for i, wire in enumerate(request.wires):
        step = LANE * (i + 1)
        start = _leave(boxes[wire.start[0]], wire.start[1], corners, step, columns)
        end = _leave(boxes[wire.end[0]], wire.end[1], corners, step, columns)
        floor = bottom + step
        routes.append((wire.name, (*start, (start[-1][0], floor), (end[-1][0], floor), *reversed(end))))
    size = (x, bottom + lanes + LANE)
    return Layout(size, tuple(corners.items()), tuple(routes), (), "plain")


def _leave(
    box: Box, name: str, corners: dict[str, Point], step: float, columns: list[tuple[Box, ...]]
) -> tuple[Point, ...]:
    """From a pin to a lane beside its column that is clear all the way down."""
    x, y = corners[box.name]
    column = next(c for c in columns if box in c)
    right = x + max(full_size(b)[0] for b in column)
    pin = next(p for p in box.pins if p.name == name)
    at = pin_at(box, pin)
    here = (x + at[0], y + at[1])
    if pin.side == "west":
        return here, (x - step / 2, here[1])
    if pin.side == "east":
        return here, (right + step / 2, here[1])
    outside = y - GAP / 4 - step / 8 if pin.side == "north" else y + full_size(box)[1] + GAP / 4 + step / 8
    return here, (here[0], outside), (right + step / 2, outside)


def full_size(box: Box) -> Point:
    """A box with the words below it."""
    width, height = box.below or (0.0, 0.0)
    return max(box.size[0], width), box.size[1] + height


def pin_at(box: Box, pin: Pin) -> Point:
    """Where a pin is on its box; pins that are free stand evenly along their side."""
    if pin.at is not None:
        return pin.at
    mates = [p for p in box.pins if p.side == pin.side and p.at is None]
    part = (mates.index(pin) + 1) / (len(mates) + 1)
    width, height = box.size
    return {
        "west": (0.0, height * part),
        "east": (width, height * part),
        "north": (width * part, 0.0),
        "south": (width * part, height),
    }[pin.side]
