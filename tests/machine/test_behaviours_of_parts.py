"""The same behaviours of hydraulic systems, made of parts of the library instead of bare elements.

Each is held against the reference of the bare network: the order of events exactly, landmarks within 1 % of travel or
set-point or 0.05 s, slow progress within 2.5 %. The accumulator begins just short of the cut-out pressure.
"""

from itertools import pairwise

import pytest

from tests.machine import references
from tests.parts.stand import TURNER, Stand

NEAR = 0.05  # s
STROKE = 0.30
TRAVEL = 0.01 * STROKE
TEN_POUNDS = 0.6894757  # bar: the drop at which selectors are rated
FULL = 84.0  # bar
Lever = tuple[tuple[float, int], ...]


def hydraulic_jack(accumulator: float, cut_in: float, k: float, load: float, spring: float, **_: float) -> Stand:
    """Engine pump, automatic cut-out, accumulator, selector and a jack of 12 and 8 sq cm."""
    newton = 1.0 / 4.4482216152605
    return Stand(
        {
            "engine": (TURNER, {}),
            "reservoir": ("reservoir", {"capacity": "10 l"}),
            "pump": ("engine-driven hydraulic pump", {"delivery": "0.1 l/s", "pressure": "200 bar"}),
            "cut-out": ("automatic cut-out", {"cut-out": f"{FULL} bar", "cut-in": f"{cut_in} bar", "flow": "0.3 l/s"}),
            "accumulator": ("accumulator", {"volume": f"{accumulator * 1e3} l", "air pressure": "35 bar"}),
            "selector": ("selector valve", {"flow": f"{k * TEN_POUNDS**0.5} l/s"}),
            "jack": ("jack", {
                "area": f"{12.0 / 2.54**2} sq in", "rod area": f"{4.0 / 2.54**2} sq in",
                "stroke": f"{STROKE / 0.0254} in", "friction": f"{300.0 * newton} lbf",
                "spring load": f"{load * newton} lbf", "spring rise": f"{spring * STROKE * newton} lbf",
            }),
        },
        ("reservoir.outlet > pump.inlet", "pump.outlet > cut-out.pump", "cut-out.return > reservoir.return",
         "cut-out.system > accumulator.oil", "accumulator.oil > selector.pressure",
         "selector.return > reservoir.return", "selector.down > jack.extend", "selector.up > jack.retract"),
        ("pump: driven by > engine",),
    )  # fmt: skip


def ran(lever: Lever, seconds: float, **numbers: float) -> Stand:
    """The system with the engine turning and its accumulator all but full, after these movements of the lever."""
    held = numbers["accumulator"] * (1.0 - 35.0 / (FULL - 0.1))
    moves = ((t, "selector", float(way)) for t, way in lever)
    return hydraulic_jack(**numbers).run(seconds, (0.0, "engine", 1.0), *moves, starts={"accumulator.air": held})


def idles(s: Stand, after: float) -> list[tuple[float, bool]]:
    """When the pump began and ceased to idle, from a time on."""
    assert s.ran is not None
    return [(e.time, e.now) for e in s.ran.events if e.mode == "cut-out: idling" and e.time > after]


def same(found: list[tuple[float, bool]], expected: list[references.Happening]) -> None:
    """The pump cuts in and out as in the reference, in the same order and at nearly the same times."""
    wanted = [(time, now) for time, name, now in expected if name == "idle"]
    assert [now for _, now in found] == [now for _, now in wanted]
    for (time, _), (at, _) in zip(wanted, found, strict=True):
        assert at == pytest.approx(time, abs=NEAR)


def test_a_jack_stalls_until_a_reversal_brings_the_pump_in() -> None:
    lever: Lever = ((0.5, 1), (4.0, 2), (4.4, 1))
    numbers = {"accumulator": 1.5e-3, "cut_in": 64.0, "k": 0.03, "load": 7000.0, "spring": 5000.0}
    events, places = references.hydraulic_jack(lever, 14.0, (3.9, 4.4), start=FULL, **numbers)
    s = ran(lever, 14.0, **numbers)
    same(idles(s, 0.4), events)
    assert [now for _, now in idles(s, 0.4)] == [False, True]
    for time, (travel, pressure) in places.items():
        assert s.at(time, "jack: travel") == pytest.approx(travel, abs=TRAVEL)
        assert s.at(time, "accumulator: pressure") == pytest.approx(pressure, rel=0.01)
    full = next(time for time, name, _ in events if name == "extended")
    assert s.at(full, "jack: travel") == pytest.approx(STROKE, abs=TRAVEL)


def test_repeated_reversals_gain_a_little_each() -> None:
    lever: Lever = ((0.1, 1), *((t, way) for k in range(2, 11) for t, way in ((float(k), 2), (k + 0.05, 1))))
    numbers = {"accumulator": 0.15e-3, "cut_in": 66.0, "k": 0.02, "load": 7900.0, "spring": 2000.0}
    at = tuple(k + 0.9 for k in range(1, 11))
    events, places = references.hydraulic_jack(lever, 11.0, at, start=FULL, **numbers)
    s = ran(lever, 11.0, **numbers)
    same(idles(s, 0.1), events)
    gained = [s.at(t, "jack: travel") for t in at]
    assert all(after > before + 0.005 for before, after in pairwise(gained))
    for value, t in zip(gained, at, strict=True):
        assert value == pytest.approx(places[t][0], rel=0.025, abs=1.0e-3)


def test_with_its_usual_load_it_goes_all_the_way_once_selected() -> None:
    lever: Lever = ((0.1, 1),)
    numbers = {"accumulator": 0.15e-3, "cut_in": 66.0, "k": 0.02, "load": 4500.0, "spring": 2000.0}
    events, places = references.hydraulic_jack(lever, 6.0, (1.0, 2.0, 3.0), start=FULL, **numbers)
    s = ran(lever, 6.0, **numbers)
    same(idles(s, 0.1), events)
    for time, (travel, _) in places.items():
        assert s.at(time, "jack: travel") == pytest.approx(travel, abs=TRAVEL)
    full = next(time for time, name, _ in events if name == "extended")
    assert s.at(full, "jack: travel") == pytest.approx(STROKE, abs=TRAVEL)
    assert s.at(full - 0.2, "jack: travel") < STROKE - TRAVEL


@pytest.mark.parametrize("legs", [1, 2])
def test_a_hand_pump_raises_the_legs_in_its_time(legs: int) -> None:
    newton = 1.0 / 4.4482216152605
    jack = {
        "area": f"{38.0 / 2.54**2} sq in", "rod area": f"{8.0 / 2.54**2} sq in", "stroke": f"{0.5 / 0.0254} in",
        "friction": f"{300.0 * newton} lbf", "spring load": f"{2000.0 * newton} lbf",
        "spring rise": f"{4500.0 * newton} lbf",
    }  # fmt: skip
    names = [f"jack {leg}" for leg in range(legs)]
    s = Stand(
        {
            "reservoir": ("reservoir", {"capacity": "10 l"}),
            "pump": ("hydraulic hand pump", {"stroke": "25 cc", "rate": "40 strokes/min", "pressure": "90 bar"}),
            "selector": ("two-position selector", {"flow": f"{0.05 * TEN_POUNDS**0.5} l/s"}),
            **dict.fromkeys(names, ("jack", jack)),
        },
        ("reservoir.outlet > pump.inlet", "pump.outlet > selector.pressure", "selector.return > reservoir.return",
         *(f"selector.up > {name}.extend" for name in names), *(f"selector.down > {name}.retract" for name in names)),
    )  # fmt: skip
    s.run(300.0, (0.0, "pump", 1.0))
    expected = references.raised(legs, 0.0)
    for share in (0.25, 0.5, 0.75):
        assert s.at(share * expected, "jack 0: travel") == pytest.approx(0.5 * share, rel=0.02)
    assert s.when("jack 0: extended") == pytest.approx(0.98 * expected, rel=0.01)
    assert s.end("jack 0: travel") == pytest.approx(0.5, abs=0.005)
