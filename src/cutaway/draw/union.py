"""The plans of one system on two standards as one, and who has what of it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from cutaway.draw.plan import Item, Plan, Tie, flow_order
from cutaway.machine.wiring import Wiring

Side = Literal["both", "first", "second"]


@dataclass(frozen=True, slots=True, eq=False)
class Union:
    """Two plans as one. side: by the key of an item or the name of a tie, who has it."""

    plan: Plan
    side: Mapping[str, Side]


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
