"""Each item of a plan as the block that is drawn of it, at rest or in a state."""

from collections.abc import Mapping
from dataclasses import replace

from cutaway.draw.about import About, about
from cutaway.draw.blocks import (
    NAME_SIZE,
    NAME_WIDTH,
    NOTE_SIZE,
    STATION_SIZE,
    UNNAMED,
    Block,
    Label,
    part_block,
    reference_block,
)
from cutaway.draw.measure import text_width, wrapped
from cutaway.draw.plan import Item, Plan
from cutaway.draw.seen import Values, look_of, wants_of, widest_notes
from cutaway.draw.symbols.symbol import Look
from cutaway.draw.symbols.table import symbol_of
from cutaway.handbook.records import Folder, Part
from cutaway.machine.subjects import Subject
from cutaway.parts.kind import Kind


def looks_of(plan: Plan, kinds: Mapping[str, Kind], subject: Subject, values: Values | None) -> Mapping[str, Look]:
    """What is known of each item."""
    return {item.key: _look(item, plan, kinds, subject, values) for item in plan.items}


def blocks_of(
    folder: Folder,
    subject: Subject,
    plan: Plan,
    kinds: Mapping[str, Kind],
    stations: Mapping[str, str],
    values: Values | None,
) -> Mapping[str, Block]:
    """Each item as it is drawn; its box is the same in every state."""
    house = dict(folder.type.house_units)
    looks = looks_of(plan, kinds, subject, values)
    return {
        item.key: _block(
            item,
            plan,
            kinds[item.part.kind],
            looks[item.key],
            house,
            stations.get(item.key, ""),
            about(item.part, kinds[item.part.kind], looks[item.key], plan.ties, subject.standard, values is not None),
        )
        for item in plan.items
    }


def _look(item: Item, plan: Plan, kinds: Mapping[str, Kind], subject: Subject, values: Values | None) -> Look:
    lines = [t for t in plan.ties if t.sort == "line"]
    joined = (sum(t.end.item == item.key for t in lines), sum(t.start.item == item.key for t in lines))
    look = look_of(item.part, kinds[item.part.kind], subject, values, joined)
    return replace(look, wants={**_wants_of_coupled(item.part, plan, kinds, subject), **look.wants})


def _wants_of_coupled(part: Part, plan: Plan, kinds: Mapping[str, Kind], subject: Subject) -> dict[str, float]:
    """The quantities of what a part is coupled to: a contents gauge's scale ends at its tank's capacity."""
    others = {t.start.part for t in plan.all_ties if t.sort == "link" and t.end.part == part.name}
    found: dict[str, float] = {}
    for other in (item.part for item in plan.items if item.part.name in others):
        found |= wants_of(other, kinds[other.kind], subject)
    return found


def _block(
    item: Item, plan: Plan, kind: Kind, look: Look, house: Mapping[str, str], station: str, said: About
) -> Block:
    if item.reference:
        tie = next(t for t in plan.ties if item.key in (t.start.item, t.end.item))
        return reference_block(item, tie)
    symbol = symbol_of(kind, look)
    if max(symbol.size) < UNNAMED:
        station = ""
    names = wrapped(item.part.name, NAME_SIZE, NAME_WIDTH, bold=True, even=True)
    lines = widest_notes(kind, look, house)
    widest = [text_width(n, NAME_SIZE, bold=True) for n in names]
    widest += [text_width(w, NOTE_SIZE) for line in lines for w in line]
    widest += [text_width(station, STATION_SIZE), said.width]
    return part_block(item, symbol, Label(names, len(lines), max(widest), station, said), plan.ties)
