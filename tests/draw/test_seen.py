"""Live or dead, and what flows where."""

import pytest

from cutaway.draw.pipes import strokes
from cutaway.draw.plan import End, Tie, make_plan
from cutaway.draw.seen import is_live, line_flows, lines_seen, look_of, notes_of
from cutaway.machine.subjects import subjects
from cutaway.parts.library import KINDS
from tests.draw import by_hand

SUBJECT = subjects(by_hand.FUEL)[0]
PLAN = make_plan(by_hand.FUEL, SUBJECT, "Fuel", KINDS)


def tie(start: str, end: str) -> Tie:
    ends = [End(words.split(".")[0], *words.split(".")) for words in (start, end)]
    return Tie("line", ends[0], ends[1], "petrol")


def test_flow_divides_where_lines_meet() -> None:
    ties = (tie("a.out", "b.in"), tie("a.out", "c.in"), tie("c.out", "d.in"))
    values = {"a.out flow": -5.0, "b.in flow": 2.0, "c.out flow": -3.0}
    assert line_flows(ties, values) == {"a.out > b.in": 2.0, "a.out > c.in": 3.0, "c.out > d.in": 3.0}


def test_flow_against_the_way_a_line_is_written() -> None:
    ties = (tie("bus.any", "battery.positive"),)
    assert line_flows(ties, {"battery.positive flow": -8.0}) == {"bus.any > battery.positive": -8.0}


def test_flow_in_a_ring_stays_unknown() -> None:
    ties = (tie("a.x", "b.x"), tie("b.x", "c.x"), tie("c.x", "a.x"))
    assert line_flows(ties, {"a.x flow": 0.0, "b.x flow": 1.0, "c.x flow": -1.0}) == {}


@pytest.mark.parametrize(
    ("medium", "across", "live"),
    [
        ("petrol", 4.0e3, False),
        ("petrol", 2.0e4, True),
        ("oil", 4.0e4, False),
        ("oil", 6.0e4, True),
        ("current", 1.0, False),
        ("current", 1.3, True),
        ("air", 101325.0, False),
        ("air", 97000.0, True),
        ("air", None, None),
    ],
)
def test_thresholds(medium: str, across: float | None, live: bool | None) -> None:
    assert is_live(medium, across, {}, 12.0) is live


def test_suction_is_against_the_air_outside() -> None:
    assert is_live("air", 70000.0, {"set height": 3012.0}, 12.0) is False


def test_lines_of_the_running_engine() -> None:
    seen = lines_seen(PLAN, by_hand.RUNNING, 12.0)
    assert seen["engine pump.outlet > carburettor.inlet"].live is True
    assert seen["engine pump.outlet > carburettor.inlet"].flow == 1
    assert seen["hand pump.outlet > carburettor.inlet"].live is True
    assert seen["hand pump.outlet > carburettor.inlet"].flow == 0
    assert seen["port tank.outlet > tank selector.port tank"].live is False
    assert seen["port tank.outlet > tank selector.port tank"].flow == 1
    assert seen["starboard tank.outlet > tank selector.starboard tank"].flow == 0
    assert seen["instrument bus.any > fuel lamp.feed (fed by)"].live is True


def test_what_is_not_known_is_not_dead() -> None:
    seen = lines_seen(PLAN, {"set tank selector": 0.0}, 12.0)
    assert {s.live for s in seen.values()} == {None}


def test_words_under_the_parts() -> None:
    house = {"pressure": "lb/sq in"}
    words = {
        item.key: notes_of(
            KINDS[item.part.kind], look_of(item.part, KINDS[item.part.kind], SUBJECT, by_hand.STARVED), house
        )
        for item in PLAN.items
    }
    assert words["tank selector"] == ("set to off",)
    assert words["fuel lamp"] == ("lit",)
    assert words["fuel pressure gauge"] == ("0.2 lb/sq in",)
    assert words["carburettor"] == ("starved", "0 gal/h")
    assert words["port contents gauge"] == ("6.6 gal",)


def test_a_dead_instrument_has_no_reading() -> None:
    values = by_hand.RUNNING | {"port contents gauge: working": 0.0}
    gauge = next(i.part for i in PLAN.items if i.key == "port contents gauge")
    look = look_of(gauge, KINDS["contents gauge"], SUBJECT, values)
    assert notes_of(KINDS["contents gauge"], look, {}) == ("dead",)
    assert look.readings == {}


OIL = by_hand.folder(
    (
        by_hand.part("reservoir", "reservoir", "Oil"),
        by_hand.part("oil pump", "engine-driven hydraulic pump", "Oil", driven_by="engine"),
        by_hand.part(
            "cut-out", "automatic cut-out", "Oil", values={"cut-out": "800 lb/sq in", "cut-in": "600 lb/sq in"}
        ),
        by_hand.part("accumulator", "accumulator", "Oil"),
        by_hand.part("engine", "engine", "Engine"),
    ),
    (by_hand.line("oil pump.outlet", "cut-out.pump", "Oil"), by_hand.line("cut-out.system", "accumulator.oil", "Oil")),
)


@pytest.mark.parametrize(
    ("pressure", "live", "low"), [(0.0, False, False), (20.0, True, True), (190.0, True, True), (210.0, True, False)]
)
def test_oil_behind_an_idling_pump_is_under_low_pressure_only(pressure: float, live: bool, low: bool) -> None:
    plan = make_plan(OIL, subjects(OIL)[0], "Oil", KINDS)
    values = {"oil pump.outlet": pressure * by_hand.PSI, "cut-out.system": 700 * by_hand.PSI}
    seen = lines_seen(plan, values, 12.0)
    behind, held = seen["oil pump.outlet > cut-out.pump"], seen["cut-out.system > accumulator.oil"]
    assert (behind.live, behind.low) == (live, low) and (held.live, held.low) == (True, False)
    assert len({strokes("oil", one.live, False, one.low) for one in (behind, held)}) == (1 if pressure > 200 else 2)


def test_petrol_is_never_told_to_be_low() -> None:
    """What petrol pumps give hangs on the engine, and no part holds it: there is nothing to compare it with."""
    assert not any(one.low for one in lines_seen(PLAN, by_hand.RUNNING, 12.0).values())
