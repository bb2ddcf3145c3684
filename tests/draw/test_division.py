"""A large system in parts: sides of the aircraft stay together, few ties are cut, halves are of about one size; and a
small change of the files moves little on a sheet."""

from itertools import combinations
from pathlib import Path

import pytest

from cutaway.draw.division import LARGEST_SHARE, halves
from cutaway.draw.plan import Extract, Plan, make_plan, plan_of
from cutaway.draw.sheet import drafts
from cutaway.handbook.load import load_folder
from cutaway.handbook.records import Folder
from cutaway.machine.subjects import subjects
from cutaway.parts.library import KINDS
from tests.draw import by_hand

TURNSTONE, _ = load_folder(Path(__file__).parents[2] / "demo" / "turnstone", KINDS)
assert TURNSTONE is not None
MK_4 = next(s for s in subjects(TURNSTONE) if s.name == "Mk 4")
SYSTEMS = [one.name for one in TURNSTONE.systems]


def plan(system: str) -> Plan:
    assert TURNSTONE is not None
    return make_plan(TURNSTONE, MK_4, system, KINDS)


def own(of: Plan) -> list[str]:
    return [item.key for item in of.items if not item.reference]


def cut(of: Plan, side: frozenset[str]) -> int:
    here = set(own(of))
    return sum((t.start.item in side) != (t.end.item in side) for t in of.ties if {t.start.item, t.end.item} <= here)


@pytest.mark.parametrize("system", SYSTEMS)
def test_every_part_is_in_one_half_and_neither_is_nearly_the_whole(system: str) -> None:
    whole = plan(system)
    found = halves(whole, dict.fromkeys(own(whole), 1.0))
    assert found is not None
    one, other = found
    assert one | other == set(own(whole)) and not one & other
    assert max(len(one), len(other)) / len(own(whole)) <= LARGEST_SHARE + 0.01
    assert found == halves(plan(system), dict.fromkeys(own(whole), 1.0))


def test_sides_of_the_aircraft_stay_together() -> None:
    whole = plan("Engines")
    found = halves(whole, dict.fromkeys(own(whole), 1.0))
    assert found is not None
    assert [{name.split()[0] for name in half} for half in found] == [{"port"}, {"starboard"}]
    assert cut(whole, found[0]) == 0


def test_no_single_part_moved_across_cuts_fewer_ties_and_keeps_the_balance() -> None:
    """On a system without sides, where nothing but ties and size count."""
    whole = make_plan(by_hand.FUEL, subjects(by_hand.FUEL)[0], "Fuel", KINDS)
    found = halves(whole, dict.fromkeys(own(whole), 1.0))
    assert found is not None
    most = LARGEST_SHARE * len(own(whole))
    for name in own(whole):
        moved = found[0] ^ {name}
        if max(len(moved), len(own(whole)) - len(moved)) <= most:
            assert cut(whole, moved) >= cut(whole, found[0]) - 1  # one tie may buy a better balance


def test_what_cannot_be_divided() -> None:
    one = by_hand.folder((by_hand.part("tank", "tank"),), ())
    whole = make_plan(one, subjects(one)[0], "Fuel", KINDS)
    assert halves(whole, {"tank": 1.0}) is None
    two = by_hand.folder((by_hand.part("tank", "tank"), by_hand.part("cock", "cock")), ())
    whole = make_plan(two, subjects(two)[0], "Fuel", KINDS)
    assert halves(whole, {"tank": 1.0, "cock": 1.0}) == (frozenset({"tank"}), frozenset({"cock"}))


def test_each_sheet_tells_on_which_the_rest_is() -> None:
    subject = subjects(by_hand.FUEL)[0]
    elsewhere = (("carburettor", "Fuel, sheet 2"), ("engine pump", "Fuel, sheet 1"))
    extract = Extract("Fuel, sheet 1 of 2", frozenset({"filter", "engine pump"}), elsewhere)
    found = plan_of(by_hand.FUEL, subject, extract, KINDS)
    sheets = {label: item.sheet for item in found.items if item.reference for label in item.labels}
    assert sheets == {
        "tank selector": "Fuel",
        "hand pump": "Fuel",
        "carburettor": "Fuel, sheet 2",
        "engine": "Engine",
    }


def corners(folder: Folder, cache: Path) -> dict[str, tuple[float, float]]:
    (draft,), problems = drafts(folder, by_hand.MK, "Fuel", KINDS, cache)
    assert problems == ()
    return dict(draft.layout.corners)


def test_a_small_change_moves_little(layouts: Path) -> None:
    """Of any two parts, which is to the left and which above stays as it was when a gauge or a cock is added."""
    folder = by_hand.FUEL
    before = corners(folder, layouts)
    gauge = by_hand.part(
        "starboard contents gauge", "contents gauge", reads="starboard tank", fed_by="instrument bus.any"
    )
    with_gauge = by_hand.folder((*folder.parts, gauge), folder.lines, "Hallam & Reeve <Gannet>")
    lines = (
        *(line for line in folder.lines if line.end.part != "carburettor"),
        by_hand.line("engine pump.outlet", "drain cock.inlet"),
        by_hand.line("drain cock.outlet", "carburettor.inlet"),
        by_hand.line("hand pump.outlet", "carburettor.inlet"),
    )
    with_cock = by_hand.folder((*folder.parts, by_hand.part("drain cock", "cock")), lines, "Hallam & Reeve <Gannet>")
    for changed in (with_gauge, with_cock):
        after = corners(changed, layouts)
        kept = [
            (before[a][axis] < before[b][axis]) == (after[a][axis] < after[b][axis])
            for a, b in combinations(sorted(before.keys() & after.keys()), 2)
            for axis in (0, 1)
            if abs(before[a][axis] - before[b][axis]) > 40 and abs(after[a][axis] - after[b][axis]) > 40
        ]
        assert sum(kept) >= 0.9 * len(kept) > 0, f"{sum(kept)} of {len(kept)}"
