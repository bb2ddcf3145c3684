"""The jack's loads: a weight that helps it, a spring that grows, ice that holds and drags; doors on it."""

import math

import pytest

from tests.parts.stand import Stand, supply

POUND = 6894.757293168362
INCH = 0.0254
FORCE = 4.4482216152605
MAIN = supply("oil", 1000.0 * POUND)
NEUTRAL, DOWN, UP = 0.0, 1.0, 2.0
KNOT = 1852.0 / 3600.0


def stand(**given: str) -> Stand:
    figures = {"area": "2 sq in", "stroke": "10 in", "rod area": "0.5 sq in", "friction": "40 lbf"} | {
        name.replace("_", " "): value for name, value in given.items()
    }
    return Stand(
        {"main": (MAIN, {}), "reservoir": ("reservoir", {"capacity": "2 gal"}), "selector": ("selector valve", {}),
         "jack": ("jack", figures), "doors": ("doors", {"full angle": "90 deg"})},
        ("main.outlet > selector.pressure", "selector.return > reservoir.return", "selector.down > jack.extend",
         "selector.up > jack.retract"),
        ("doors: moved by > jack",),
    )  # fmt: skip


def balance(s: Stand, time: float) -> float:
    """Thrust of the oil, lbf."""
    return (2.0 * s.at(time, "jack.extend") - 1.5 * s.at(time, "jack.retract")) / POUND


def test_a_weight_takes_it_out_without_pressure() -> None:
    s = stand(spring_load="-300 lbf").run(60.0, (1.0, "selector", DOWN))
    assert s.end("jack: extended") == 1.0
    assert stand(spring_load="-30 lbf").run(60.0, (1.0, "selector", DOWN)).end("jack: travel") < 1e-4


def test_a_jack_goes_no_further_than_its_stroke_and_what_it_moves_than_its_full_angle() -> None:
    s = stand().run(40.0, (0.0, "main", 1.0), (1.0, "selector", DOWN), (20.0, "selector", UP))
    assert s.at(19.0, "jack: travel") == 10.0 * INCH
    assert math.degrees(s.at(19.0, "doors: angle")) == pytest.approx(90.0, abs=1e-9)
    assert s.end("jack: travel") == 0.0 == s.end("doors: angle")


def test_an_air_load_may_help_it_out() -> None:
    s = stand(load="-300 lbf").run(60.0, (1.0, "selector", DOWN), (20.0, "airspeed", 100.0 * KNOT))
    assert s.at(19.0, "jack: travel") < 1e-4 and s.end("jack: extended") == 1.0


def test_a_spring_that_grows_stops_it_where_the_thrust_ends() -> None:
    """100 lbf at the start, 900 more at the end of ten inches, 40 of friction: 500 lbf of thrust goes 4.5 in."""
    s = stand(spring_load="100 lbf", spring_rise="900 lbf").run(60.0, (0.0, "main", 0.25), (1.0, "selector", DOWN))
    assert s.end("jack: travel") == pytest.approx((500.0 - 140.0) / 90.0 * INCH, rel=0.01)
    # Let go, it comes back until friction holds it.
    s = stand(spring_load="100 lbf", spring_rise="900 lbf").run(
        90.0, (0.0, "main", 0.25), (1.0, "selector", DOWN), (60.0, "main", 0.0)
    )
    assert s.end("jack: retracted") == 1.0


def test_ice_holds_it_until_ice_and_friction_are_overcome_and_then_drags() -> None:
    changes = tuple((float(k), "main", 0.01 * k) for k in range(1, 100))
    s = stand(ice_load="800 lbf").run(110.0, (0.0, "selector", DOWN), (0.0, "jack: iced", 1.0), *changes)
    began = s.when("jack: dragged out")
    assert balance(s, began) == pytest.approx(840.0, rel=0.02)
    assert s.at(began - 0.5, "jack: travel") < 1e-5
    assert s.at(began + 4.0, "jack: travel") > 1e-3
    free = stand(ice_load="800 lbf").run(110.0, (0.0, "selector", DOWN), *changes)
    assert not free.ever("jack: dragged out") and free.when("jack: extended") < began


def test_ice_holds_it_the_other_way_too_and_where_it_stands() -> None:
    iced = (20.0, "jack: iced", 1.0)
    held = stand(ice_load="800 lbf", spring_load="500 lbf").run(
        60.0, (0.0, "main", 1.0), (0.0, "selector", DOWN), iced, (30.0, "main", 0.0), (40.0, "selector", UP)
    )
    assert held.at(19.0, "jack: extended") == 1.0 == held.end("jack: extended")
    # 500 lbf of spring and 1.5 sq in at 300 lb/sq in are more than the ice.
    back = stand(ice_load="800 lbf", spring_load="500 lbf").run(
        60.0, (0.0, "main", 1.0), (0.0, "selector", DOWN), iced, (30.0, "main", 0.3), (40.0, "selector", UP)
    )
    assert back.at(39.0, "jack: extended") == 1.0 and back.end("jack: retracted") == 1.0
    assert back.ever("jack: dragged in")


def test_a_jack_that_ices_up_under_way_stops() -> None:
    s = stand(ice_load="1200 lbf").run(60.0, (0.0, "main", 0.5), (1.0, "selector", DOWN), (1.6, "jack: iced", 1.0))
    assert 0.05 < s.at(1.6, "jack: extension") < 0.95
    assert s.end("jack: travel") == pytest.approx(s.at(1.6, "jack: travel"), abs=1e-4)


def test_doors_go_with_their_jack() -> None:
    s = stand().run(60.0, (0.0, "main", 1.0), (10.0, "selector", DOWN))
    assert s.at(9.0, "doors: closed") == 1.0 and s.end("doors: open") == 1.0 and s.end("doors: closed") == 0.0
    assert s.end("doors: angle") == pytest.approx(math.pi / 2.0, rel=0.005)
    assert s.end("doors: position") == pytest.approx(1.0, rel=0.005)
