"""Petrol parts at work and failing, on a test stand."""

import pytest

from tests.parts.stand import TURNER, Stand

GALLON = 4.54609e-3
POUND = 6894.757
GALLONS_AN_HOUR = GALLON / 3600.0


def engine_feed() -> Stand:
    """A tank, a cock and an engine-driven pump to a carburettor that takes 12 gal/h at full demand."""
    return Stand(
        {
            "tank": ("tank", {"capacity": "2 gal"}),
            "cock": ("cock", {}),
            "engine": (TURNER, {}),
            "pump": ("engine-driven fuel pump", {"pressure": "4 lb/sq in"}),
            "carburettor": ("carburettor", {"full flow": "12 gal/h"}),
            "gauge": ("fuel pressure gauge", {}),
        },
        ("tank.outlet > cock.inlet", "cock.outlet > pump.inlet", "pump.outlet > carburettor.inlet"),
        ("pump: driven by > engine", "carburettor: engine > engine", "gauge: senses > carburettor.inlet"),
    )


def test_a_tank_empties_in_its_volume_over_the_flow() -> None:
    stand = engine_feed().run(700.0, (0.0, "cock", 1.0), (0.0, "engine", 1.0))
    # 2 gal at 12 gal/h: ten minutes, less the moments before the carburettor was fed.
    empty = stand.when("tank: empty") / 0.99
    assert empty == pytest.approx(600.0, abs=3.0)
    assert stand.at(300.0, "tank: contents") == pytest.approx(1.0 * GALLON, rel=0.01)
    assert stand.when("carburettor: fed", False) == pytest.approx(600.0, abs=5.0)
    assert stand.end("tank: contents") == 0.0


def test_the_engine_driven_pump_keeps_its_pressure_at_all_speeds() -> None:
    stand = engine_feed().run(60.0, (0.0, "cock", 1.0), (0.0, "engine", 1.0), (30.0, "engine", 0.3))
    assert stand.at(29.0, "gauge: pressure") == pytest.approx(4.0 * POUND, rel=0.06)
    assert stand.at(59.0, "gauge: pressure") == pytest.approx(4.0 * POUND, rel=0.1)
    assert stand.at(29.0, "carburettor: draw") == pytest.approx(12.0 * GALLONS_AN_HOUR, rel=1e-6)


def test_pressure_falls_within_a_minute_of_stopping() -> None:
    stand = engine_feed().run(90.0, (0.0, "cock", 1.0), (0.0, "engine", 1.0), (30.0, "engine", 0.0))
    assert stand.at(31.0, "carburettor.inlet") > 3.0 * POUND
    assert stand.at(90.0, "carburettor.inlet") < 1.0 * POUND


def test_a_sheared_pump_starves_the_carburettor_and_so_does_a_shut_cock() -> None:
    sheared = engine_feed().run(60.0, (0.0, "cock", 1.0), (0.0, "engine", 1.0), (30.0, "pump: seized", 1.0))
    assert 30.0 < sheared.when("carburettor: fed", False) < 32.0
    shut = engine_feed().run(60.0, (0.0, "cock", 1.0), (0.0, "engine", 1.0), (30.0, "cock", 0.0))
    assert 30.0 < shut.when("carburettor: fed", False) < 40.0
    blocked = engine_feed().run(60.0, (0.0, "cock", 1.0), (0.0, "engine", 1.0), (30.0, "cock: blocked", 1.0))
    assert blocked.when("carburettor: fed", False) == pytest.approx(shut.when("carburettor: fed", False), abs=0.01)


def test_no_suction_stays_before_a_float_chamber_that_is_not_kept_filled() -> None:
    """The cock is shut on a running engine, which draws the pipe down and stops: air comes in by the open needle."""
    turning = ((0.0, "cock", 1.0), (0.0, "engine", 1.0), (30.0, "cock", 0.0), (40.0, "engine", 0.0))
    s = engine_feed().run(640.0, *turning)
    assert s.at(40.0, "pump.inlet") < -5_000.0
    for pipe in ("pump.inlet", "carburettor.inlet"):
        assert -10.0 < s.end(pipe) <= 0.0
    assert s.end("tank: contents") == s.at(50.0, "tank: contents")
    # A needle that is stuck shut keeps the air out.
    s = engine_feed().run(640.0, *turning, (39.0, "carburettor: float stuck", 1.0))
    assert s.end("carburettor.inlet") < -1_000.0


def test_a_pipe_shut_in_before_a_full_float_chamber_keeps_its_pressure() -> None:
    changes = ((0.0, "cock", 1.0), (0.0, "engine", 1.0), (30.0, "engine", 0.0), (150.0, "cock", 0.0))
    s = engine_feed().run(3000.0, *changes)
    held = s.at(149.0, "carburettor.inlet")
    assert held > 1_000.0 and s.end("carburettor.inlet") == pytest.approx(held, rel=1e-3)


def test_no_engine_runs_on_the_air_that_comes_in() -> None:
    """Two carburettors on one pipe, one with its own pump: its tank is shut, and the air that the other's open float
    chamber lets in does not keep it fed."""
    s = engine_feed()
    s.parts |= {"other": ("carburettor", {"full flow": "12 gal/h"}), "idling": (TURNER, {})}
    s.lines += ("cock.outlet > other.inlet",)
    s.couplings = (*s.couplings, "other: engine > idling")
    # It asks for a tenth of its full flow, as an engine that idles does.
    s.run(240.0, (0.0, "cock", 1.0), (0.0, "engine", 1.0), (30.0, "cock", 0.0), (30.0, "engine", 0.1))
    assert s.at(29.0, "carburettor: fed") == 1.0 and s.at(60.0, "carburettor: fed") == 0.0
    assert s.end("carburettor: draw") < 0.03 * 12.0 * GALLONS_AN_HOUR


def test_by_pass_lets_petrol_forwards_and_never_back() -> None:
    for by_pass, feeds in (("60 gal/h", True), ("0 gal/h", False)):
        stand = engine_feed()
        stand.parts["tank"] = ("tank", {"capacity": "2 gal", "head": "1.5 m"})
        stand.parts["pump"] = ("engine-driven fuel pump", {"by-pass": by_pass})
        stand.run(30.0, (0.0, "cock", 1.0))
        # Without a by-pass only the slip past the vanes is left, which also ends at the tank's head.
        early = stand.at(1.0, "carburettor.inlet")
        assert (early > 0.9 * 10_591.0) is feeds
        assert stand.end("carburettor.inlet") <= 10_600.0


def test_a_float_stuck_shut_takes_nothing() -> None:
    stand = engine_feed().run(60.0, (0.0, "cock", 1.0), (0.0, "engine", 1.0), (30.0, "carburettor: float stuck", 1.0))
    assert stand.when("carburettor: fed", False) == pytest.approx(30.0, abs=1e-3)
    assert stand.end("carburettor: draw") == 0.0
    assert stand.end("carburettor.inlet") > 3.5 * POUND


def test_a_broken_pipe_shows_nothing() -> None:
    stand = engine_feed().run(60.0, (0.0, "cock", 1.0), (0.0, "engine", 1.0), (30.0, "gauge: pipe broken", 1.0))
    assert stand.at(29.0, "gauge: pressure") > 3.5 * POUND
    assert stand.end("gauge: pressure") == 0.0 and stand.end("carburettor.inlet") > 3.5 * POUND


def test_a_leaking_tank_loses_its_petrol() -> None:
    stand = Stand({"tank": ("tank", {"capacity": "10 gal"})}).run(1200.0, (600.0, "tank: leaking", 1.0))
    assert stand.at(599.0, "tank: contents") == pytest.approx(10.0 * GALLON, rel=1e-9)
    lost = 10.0 * GALLON - stand.at(660.0, "tank: contents")
    assert 0.002 < lost < 0.004  # 6 mm across, under half a metre: about 3 l in the first minute
    assert stand.end("tank: contents") < 0.5 * 10.0 * GALLON


def test_the_selector_draws_on_one_tank_and_never_joins_two() -> None:
    stand = Stand(
        {
            "port": ("tank", {"capacity": "10 gal"}),
            "starboard": ("tank", {"capacity": "10 gal", "head": "1 m"}),
            "selector": ("selector cock", {}),
            "engine": (TURNER, {}),
            "carburettor": ("carburettor", {"lowest pressure": "0.2 lb/sq in"}),
        },
        (
            "port.outlet > selector.port tank",
            "starboard.outlet > selector.starboard tank",
            "selector.outlet > carburettor.inlet",
        ),
        ("carburettor: engine > engine",),
    ).run(400.0, (0.0, "engine", 1.0), (100.0, "selector", 1.0), (200.0, "selector", 2.0), (300.0, "selector", 0.0))
    assert stand.at(99.0, "carburettor: fed") == 0.0
    port, starboard = stand.at(200.0, "port: contents"), stand.at(300.0, "starboard: contents")
    assert port == pytest.approx(10.0 * GALLON - 100.0 * 12.0 * GALLONS_AN_HOUR, rel=1e-3)
    assert stand.end("port: contents") == pytest.approx(port, rel=1e-5)
    assert stand.at(200.0, "starboard: contents") == pytest.approx(10.0 * GALLON, rel=1e-9)
    assert stand.end("starboard: contents") == pytest.approx(starboard, rel=1e-5)
    blocked = stand.run(20.0, (0.0, "engine", 1.0), (0.0, "selector", 1.0), (10.0, "selector: blocked", 1.0))
    assert blocked.at(9.0, "carburettor: fed") == 1.0 and blocked.end("carburettor: fed") == 0.0


def hand_feed() -> Stand:
    return Stand(
        {
            "tank": ("tank", {"capacity": "10 gal", "head": "0.2 m"}),
            "pump": ("hand fuel pump", {"stroke": "50 cc", "rate": "40 strokes/min", "pressure": "6 lb/sq in"}),
            "engine": (TURNER, {}),
            "carburettor": ("carburettor", {"full flow": "12 gal/h"}),
        },
        ("tank.outlet > pump.inlet", "pump.outlet > carburettor.inlet"),
        ("carburettor: engine > engine",),
    )


def test_a_hand_pump_feeds_while_somebody_pumps() -> None:
    stand = hand_feed().run(60.0, (0.0, "engine", 1.0), (20.0, "pump", 1.0), (40.0, "pump", 0.0))
    assert stand.at(19.0, "carburettor: fed") == 0.0
    assert stand.when("carburettor: fed") == pytest.approx(20.0, abs=1.0)
    assert stand.when("carburettor: fed", False) == pytest.approx(40.0, abs=1.0)
    drawn = stand.at(39.0, "pump.inlet flow")
    assert drawn == pytest.approx(12.0 * GALLONS_AN_HOUR, rel=0.01)


def test_a_hand_pump_stalls_at_the_arms_limit_and_holds_it() -> None:
    stand = hand_feed().run(60.0, (20.0, "pump", 1.0), (40.0, "pump", 0.0))
    assert stand.at(39.0, "carburettor.inlet") == pytest.approx(6.0 * POUND, rel=0.05)
    assert stand.end("carburettor.inlet") == pytest.approx(stand.at(40.0, "carburettor.inlet"), rel=1e-3)


def test_a_leaking_washer_delivers_less_than_the_engine_takes() -> None:
    stand = hand_feed().run(60.0, (0.0, "engine", 1.0), (0.0, "pump", 1.0), (30.0, "pump: leaking washer", 1.0))
    assert stand.at(29.0, "carburettor: fed") == 1.0
    assert stand.when("carburettor: fed", False) < 35.0


def test_a_filter_costs_its_drop_at_full_flow_and_starves_when_choked() -> None:
    stand = Stand(
        {
            "tank": ("tank", {"capacity": "10 gal", "head": "1.5 m"}),
            "filter": ("fuel filter", {"drop": "0.5 lb/sq in", "full flow": "12 gal/h"}),
            "engine": (TURNER, {}),
            "carburettor": ("carburettor", {"full flow": "12 gal/h", "lowest pressure": "0.5 lb/sq in"}),
        },
        ("tank.outlet > filter.inlet", "filter.outlet > carburettor.inlet"),
        ("carburettor: engine > engine",),
    ).run(60.0, (0.0, "engine", 1.0), (30.0, "filter: choked", 1.0))
    drop = stand.at(29.0, "filter.inlet") - stand.at(29.0, "filter.outlet")
    assert drop == pytest.approx(0.5 * POUND, rel=0.01)
    assert stand.at(29.0, "carburettor: fed") == 1.0 and stand.end("carburettor: fed") == 0.0


def test_a_non_return_valve_holds_and_a_stuck_one_does_not() -> None:
    stand = Stand(
        {
            "tank": ("tank", {"capacity": "10 gal", "head": "0.2 m"}),
            "pump": ("hand fuel pump", {}),
            "valve": ("fuel non-return valve", {}),
            "lower": ("tank", {"capacity": "10 gal", "head": "0.2 m"}),
            "cock": ("cock", {}),
        },
        (
            "tank.outlet > pump.inlet",
            "pump.outlet > valve.inlet",
            "valve.outlet > cock.inlet",
            "valve.inlet > lower.outlet",
        ),
    )
    stand.parts["lower"] = ("carburettor", {})
    stand.lines = (*stand.lines[:3], "valve.inlet > lower.inlet")
    stand.couplings = ("lower: engine > turner",)
    stand.parts["turner"] = (TURNER, {})
    after = ((0.0, "pump", 1.0), (20.0, "pump", 0.0), (20.0, "turner", 1.0))
    held = stand.run(30.0, *after)
    assert held.end("valve.inlet") < 0.5 * POUND and held.end("valve.outlet") > 5.0 * POUND
    stuck = stand.run(30.0, *after, (25.0, "valve: stuck open", 1.0))
    assert stuck.at(24.9, "valve.outlet") > 5.0 * POUND and stuck.end("valve.outlet") < 0.5 * POUND


def test_a_relief_valve_opens_at_its_setting_and_at_half_of_it_when_weak() -> None:
    stand = Stand(
        {
            "tank": ("tank", {"capacity": "10 gal", "head": "0.2 m"}),
            "pump": ("hand fuel pump", {"pressure": "10 lb/sq in"}),
            "valve": ("fuel relief valve", {"set at": "5 lb/sq in"}),
        },
        ("tank.outlet > pump.inlet", "pump.outlet > valve.inlet", "valve.outlet > tank.outlet"),
    ).run(60.0, (0.0, "pump", 1.0), (30.0, "valve: weak spring", 1.0))
    across = stand.at(29.0, "valve.inlet") - stand.at(29.0, "valve.outlet")
    assert 5.0 * POUND < across < 5.25 * POUND and stand.at(29.0, "valve: open") == 1.0
    weak = stand.end("valve.inlet") - stand.end("valve.outlet")
    assert 2.5 * POUND < weak < 3.0 * POUND and stand.end("valve: open") == 1.0


def test_a_junction_is_a_pipe_of_its_medium() -> None:
    stand = Stand(
        {
            "tank": ("tank", {"capacity": "2 gal", "head": "1.5 m"}),
            "tee": ("junction", {}),
            "first": ("carburettor", {"full flow": "12 gal/h", "lowest pressure": "0.2 lb/sq in"}),
            "second": ("carburettor", {"full flow": "6 gal/h", "lowest pressure": "0.2 lb/sq in"}),
            "engine": (TURNER, {}),
        },
        ("tank.outlet > tee.any", "tee.any > first.inlet", "tee.any > second.inlet"),
        ("first: engine > engine", "second: engine > engine"),
    ).run(100.0, (0.0, "engine", 1.0))
    lost = 2.0 * GALLON - stand.end("tank: contents")
    assert lost == pytest.approx(100.0 * 18.0 * GALLONS_AN_HOUR, rel=1e-3)
