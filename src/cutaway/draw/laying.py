"""What is asked of the layout library for one sheet, and the layouts that come of it: kept, found or plain."""

from collections.abc import Mapping, Sequence
from pathlib import Path

from cutaway.draw.blocks import Block, pin_of
from cutaway.draw.elk import SECONDS, elk_layouts
from cutaway.draw.elk_engine import NoLayout
from cutaway.draw.frame import Around, rooms_on
from cutaway.draw.lanes import in_lanes
from cutaway.draw.layout import Layout, Request, Wire, keep, recalled
from cutaway.draw.pages import Room, choose, fits, least_on
from cutaway.draw.plain import plain_layout
from cutaway.draw.plan import Extract, Plan
from cutaway.draw.straight import straightened
from cutaway.problems.diagnostic import Diagnostic, Problems

PIPES_APART, WIRES_APART = 20.0, 14.0
"""How far the middles of two lines side by side are apart: those of pipes are drawn wide."""


def request_of(extract: Extract, plan: Plan, blocks: Mapping[str, Block]) -> Request:
    """What is asked of the layout library."""
    wires = tuple(
        Wire(
            tie.name,
            (tie.start.item, pin_of(blocks[tie.start.item], tie)),
            (tie.end.item, pin_of(blocks[tie.end.item], tie)),
            tie.sort == "line",
        )
        for tie in plan.ties
        if not tie.along
    )
    boxes = tuple(blocks[item.key].box for item in plan.items)
    pipes = any(tie.medium not in (None, "current") for tie in plan.ties)
    return Request(boxes, wires, extract.columns, extract.folded, PIPES_APART if pipes else WIRES_APART)


def laid_out(
    request: Request, rooms: Sequence[Room], cache: Path, seconds: float = SECONDS
) -> tuple[tuple[Layout, ...], Problems]:
    """The layouts of a request: kept from before, by the library, or a plain one with a problem that says why."""
    kept = recalled(request, cache)
    for number, layout in enumerate(kept, 1):
        if any(fits(layout, room) for room in rooms):
            return kept[:number], ()  # no more than would be found anew: pages of other shapes may have wanted others
    found = elk_layouts(request, rooms, kept, seconds)
    if not isinstance(found, NoLayout):
        if len(found) > len(kept):
            keep(request, found, cache)
        return found, ()
    if kept:
        return kept, ()
    if found.missing:
        words = "The layout library is not in this installation, so sheets are laid out plainly, with more crossings."
        hint = "Install the package again with a network, or run `python hatch_build.py` in its source folder."
        return (plain_layout(request),), (Diagnostic("D101", None, words, hint),)
    words = f"The layout library could not lay out this sheet ({found.words}), so it is laid out plainly."
    hint = "Split the system into two files of `systems/`."
    return (plain_layout(request),), (Diagnostic("D102", None, words, hint),)


def in_own_lanes(layout: Layout, request: Request, plan: Plan) -> Layout:
    """A layout in which no two lines share a column, so that each is followed without a doubt."""
    if layout.manner == "plain":
        return layout
    return in_lanes(layout, request.boxes, request.wires, nets_of(plan), request.apart)


def without_steps(layout: Layout, request: Request, plan: Plan, blocks: Mapping[str, Block]) -> Layout:
    """A layout without the small steps in lines that should be straight; it is as large as before."""
    if layout.manner == "plain":
        return layout
    stationed = frozenset(key for key, block in blocks.items() if block.label.station)
    return straightened(layout, request.boxes, request.wires, nets_of(plan), stationed)


def nets_of(plan: Plan) -> Mapping[str, str]:
    """By the name of each tie, what it carries: ties of one net may lie on each other."""
    joined = plan.wiring.joined
    return {tie.name: joined.get(tie.start.node, "") or f"from {tie.start.item}" for tie in plan.ties}


def choose_layout(
    request: Request, plan: Plan, blocks: Mapping[str, Block], shape: float, around: Around, cache: Path
) -> tuple[Layout, Problems]:
    """The layout that suits a page best."""
    rooms = rooms_on(shape, around)
    layouts, problems = laid_out(request, rooms, cache)
    chosen = choose([in_own_lanes(layout, request, plan) for layout in layouts], rooms, least_on(shape))
    return without_steps(chosen, request, plan, blocks), problems
