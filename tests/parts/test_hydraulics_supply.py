"""Oil under pressure from the engine: pump, cut-out, accumulator, filter; normal work and what goes wrong."""

import pytest

from cutaway.parts.kind import Fit, Kind, Port
from cutaway.parts.recipe import ZERO, Element, Node, Recipe
from tests.parts.stand import TURNER, Stand

POUND = 6894.757293168362
GALLON = 4.54609e-3
MINUTE = 60.0
DOWN, UP = 1.0, 2.0


def steady_leak(flow: float) -> Kind:
    """A test part: takes the same flow at any pressure."""

    def build(fit: Fit) -> Recipe:
        nodes = (Node("inlet", "oil"), Node("away", "oil", boundary=ZERO))
        return Recipe(nodes, (Element("leak", "DRAW", ("inlet", "away"), (flow, 1e4, 1e4)),))

    return Kind("steady leak", "A test part.", (Port("inlet", "oil", "west", "in"),), build)


def stand(leak: float = 0.25 * GALLON / MINUTE, **given: dict[str, str]) -> Stand:
    """A pump, its cut-out with a bottle, a relief valve and a consumer."""
    return Stand(
        {
            "engine": (TURNER, {}),
            "reservoir": ("reservoir", {"capacity": "60 gal"}),
            "pump": ("engine-driven hydraulic pump",
                     {"delivery": "1 gal/min", "pressure": "4000 lb/sq in"} | given.get("pump", {})),
            "cut-out": ("automatic cut-out", {"cut-out": "3000 lb/sq in", "cut-in": "1200 lb/sq in"}),
            "bottle": ("accumulator", {"volume": "10 gal", "air pressure": "1000 lb/sq in"}),
            "relief": ("oil relief valve", {"set at": "3400 lb/sq in"}),
            "leak": (steady_leak(leak), {}),
        },
        ("reservoir.outlet > pump.inlet", "pump.outlet > cut-out.pump", "cut-out.return > reservoir.return",
         "cut-out.system > bottle.oil", "bottle.oil > leak.inlet", "pump.outlet > relief.inlet",
         "relief.outlet > reservoir.return"),
        ("pump: driven by > engine",),
    )  # fmt: skip


def times(s: Stand, mode: str, now: bool) -> list[float]:
    assert s.ran is not None
    return [event.time for event in s.ran.events if event.mode == mode and event.now is now]


def test_the_cut_out_cycles_by_volume_over_net_flow() -> None:
    """The trade's bottle sum: 10 gal at 1000, 5 gal between 1200 and 3000 lb/sq in. The pump charges it in 5 gal over
    1 less a quarter of a gallon a minute, the leak empties it in 5 gal over a quarter."""
    s = stand().run(70.0 * MINUTE, (0.0, "engine", 1.0))
    off, on = times(s, "cut-out: idling", True), times(s, "cut-out: idling", False)
    assert len(off) == 3 and len(on) == 2
    for filled, emptied, again in zip(off, on, off[1:], strict=False):
        assert emptied - filled == pytest.approx(5.0 / 0.25 * MINUTE, rel=0.01)
        assert again - emptied == pytest.approx(5.0 / 0.75 * MINUTE, rel=0.01)


def test_an_idling_pump_works_against_little_and_the_system_keeps_its_pressure() -> None:
    s = stand(leak=0.0).run(40.0 * MINUTE, (0.0, "engine", 1.0))
    assert s.end("cut-out: idling") == 1.0
    assert s.end("pump.outlet") < 15.0 * POUND and s.end("pump: delivery") == pytest.approx(GALLON / MINUTE, rel=0.01)
    assert s.end("cut-out.system") == pytest.approx(3000.0 * POUND, rel=1e-4)
    # Ten gallons of air at 1000 have gone to a third of that under 3000.
    assert s.end("bottle: pressure") == pytest.approx(3000.0 * POUND, rel=1e-3) and s.end("bottle: charged") == 1.0


def test_half_speed_takes_twice_as_long() -> None:
    full = stand(leak=0.0).run(60.0 * MINUTE, (0.0, "engine", 1.0)).when("cut-out: idling")
    half = stand(leak=0.0).run(60.0 * MINUTE, (0.0, "engine", 0.5)).when("cut-out: idling")
    assert half == pytest.approx(2.0 * full, rel=0.01)


def test_a_sheared_pump_leaves_what_the_bottle_holds() -> None:
    s = stand().run(80.0 * MINUTE, (0.0, "engine", 1.0), (11.0 * MINUTE, "pump: sheared", 1.0))
    assert s.end("pump: delivery") == pytest.approx(0.0, abs=1e-9)
    assert s.at(11.0 * MINUTE, "bottle: charged") == 1.0 and s.end("bottle: charged") == 0.0
    # The air's own pressure is all that is left to show.
    assert s.end("bottle: pressure") == pytest.approx(1000.0 * POUND, rel=0.01)


def test_a_worn_pump_gives_the_less_the_higher_the_pressure_and_may_never_cut_out() -> None:
    s = stand().run(60.0 * MINUTE, (0.0, "engine", 1.0), (0.0, "pump: worn", 1.0))
    # Three quarters of its delivery slip back at three quarters of its greatest pressure; the leak wants the rest.
    assert not s.ever("cut-out: idling")
    assert s.end("cut-out.system") == pytest.approx(3000.0 * POUND, rel=0.03)
    assert s.end("pump: delivery") == pytest.approx(0.25 * GALLON / MINUTE, rel=0.1)


def test_stuck_idling_never_charges() -> None:
    s = stand().run(20.0 * MINUTE, (0.0, "engine", 1.0), (0.0, "cut-out: stuck idling", 1.0))
    assert s.end("cut-out: idling") == 1.0 and s.end("cut-out.system") < 20.0 * POUND


def test_stuck_charging_goes_to_the_relief_valve() -> None:
    s = stand(leak=0.0).run(20.0 * MINUTE, (0.0, "engine", 1.0), (0.0, "cut-out: stuck charging", 1.0))
    assert s.end("relief: open") == 1.0 and s.end("cut-out: idling") == 0.0
    assert 3390.0 * POUND < s.end("cut-out.system") < 3600.0 * POUND


def test_a_bottle_without_air_fills_with_oil_and_holds_nothing_in_hand() -> None:
    s = stand(leak=0.0).run(60.0 * MINUTE, (0.0, "engine", 1.0), (0.0, "bottle: air lost", 1.0))
    before = 60.0 * GALLON
    assert before - s.end("reservoir: contents") == pytest.approx(10.0 * GALLON, rel=0.01)
    assert s.end("bottle: charged") == 0.0 == s.end("bottle: pressure")
    # Losing its air under pressure, it draws oil until it is full: the pressure goes at once.
    late = stand(leak=0.0).run(30.0 * MINUTE, (0.0, "engine", 1.0), (20.0 * MINUTE, "bottle: air lost", 1.0),
                               (19.0 * MINUTE, "engine", 0.0))  # fmt: skip
    assert late.at(20.0 * MINUTE - 1.0, "cut-out.system") > 2900.0 * POUND
    assert late.end("cut-out.system") < 60.0 * POUND


def test_a_bottle_may_be_started_at_a_pressure() -> None:
    held = 10.0 * GALLON * (1.0 - 1000.0 / 2000.0)
    s = stand(leak=0.25 * GALLON / MINUTE).run(12.0 * MINUTE, starts={"bottle.air": held})
    assert s.at(1.0, "bottle: pressure") == pytest.approx(2000.0 * POUND, rel=0.01)
    # 2.5 gal have gone after 10 min: 10 gal of air at 1000 spread to 7.5.
    assert s.at(10.0 * MINUTE, "bottle: pressure") == pytest.approx(1000.0 / 0.75 * POUND, rel=0.01)


def filtered(choked: float) -> float:
    s = Stand(
        {
            "engine": (TURNER, {}),
            "reservoir": ("reservoir", {"capacity": "2 gal"}),
            "pump": ("engine-driven hydraulic pump", {"delivery": "1.5 gal/min"}),
            "filter": ("oil filter", {}),
            "relief": ("oil relief valve", {"set at": "1000 lb/sq in"}),
        },
        ("reservoir.outlet > pump.inlet", "pump.outlet > filter.inlet", "filter.outlet > reservoir.return",
         "pump.outlet > relief.inlet", "relief.outlet > reservoir.return"),
        ("pump: driven by > engine",),
    ).run(60.0, (0.0, "engine", 1.0), (0.0, "filter: choked", choked))  # fmt: skip
    return s.end("filter.inlet") - s.end("filter.outlet")


def test_a_filter_costs_its_drop_and_a_choked_one_all_there_is() -> None:
    assert filtered(0.0) == pytest.approx(3.0 * POUND, rel=0.05)
    assert filtered(1.0) > 1000.0 * POUND
