"""Legs and their locks, what the locks and travels switch, plain signs: normal work and what goes wrong."""

import pytest

from tests.parts.stand import TURNER, Stand, supply

POUND = 6894.757293168362
INCH = 0.0254
FULL = 10.0 * INCH
MAIN = supply("oil", 1000.0 * POUND)
VOLTS = supply("current", 24.0)
UP, DOWN = 0.0, 1.0


def stand(weight: str = "-200 lbf") -> Stand:
    """A leg on its jack with both lock switches in the way of the trade, and a hand release for the up lock."""
    return Stand(
        {
            "main": (MAIN, {}),
            "reservoir": ("reservoir", {"capacity": "2 gal"}),
            "lever": ("two-position selector", {}),
            "jack": ("jack", {"area": "2 sq in", "stroke": "10 in", "rod area": "0.5 sq in", "spring load": weight}),
            "leg": ("leg", {}),
            "toggle": (TURNER, {}),
            "volts": (VOLTS, {}),
            "up switch": ("up-lock switch", {}),
            "down switch": ("down-lock switch", {}),
            "green": ("filament lamp", {}),
            "red": ("filament lamp", {}),
            "line": ("mechanical indicator", {}),
        },
        ("main.outlet > lever.pressure", "lever.return > reservoir.return", "lever.down > jack.extend",
         "lever.up > jack.retract", "volts.outlet > up switch.inlet", "up switch.unlocked > down switch.inlet",
         "down switch.locked > green.feed", "down switch.unlocked > red.feed"),
        ("leg: moved by > jack", "jack: held by > leg", "up switch: of > leg", "down switch: of > leg",
         "line: shows > leg"),
    )  # fmt: skip


def lights(s: Stand, time: float) -> str:
    """What the lamps show."""
    on = [name for name in ("green", "red") if s.at(time, f"{name}: lit") == 1.0]
    return " ".join(on) or "none"


LIVE = (0.0, "volts", 1.0)


def test_it_goes_down_and_up_and_locks_at_both_ends_and_the_lamps_follow() -> None:
    s = stand().run(60.0, LIVE, (0.0, "main", 1.0), (10.0, "lever", DOWN), (30.0, "lever", UP))
    assert s.at(9.0, "leg: locked up") == 1.0 and lights(s, 9.0) == "none"
    moving = s.when("leg: up lock drawn") + 0.2
    assert s.at(moving, "leg: unlocked") == 1.0 and lights(s, moving) == "red"
    assert s.at(29.0, "leg: locked down") == 1.0 and lights(s, 29.0) == "green"
    assert s.end("leg: locked up") == 1.0 and lights(s, 59.0) == "none"
    assert s.at(29.0, "line: shown") == pytest.approx(1.0, abs=0.01) == s.at(29.0, "leg: position")


@pytest.mark.parametrize(("lever", "held"), [(UP, "locked up"), (DOWN, "locked down")])
def test_a_locked_leg_does_not_move_when_the_pressure_is_lost(lever: float, held: str) -> None:
    for weight in ("-500 lbf", "500 lbf"):  # one helps it down, the other up
        s = stand(weight).run(3000.0, (0.0, "main", 1.0), (10.0, "lever", lever), (100.0, "main", 0.0))
        assert s.at(99.0, f"leg: {held}") == 1.0 == s.end(f"leg: {held}")
        assert s.end("jack: travel") == pytest.approx(s.at(99.0, "jack: travel"), abs=1e-7)


def test_it_needs_the_locks_to_stay() -> None:
    """The same jack without a leg on it falls out as soon as the pressure is lost."""
    s = stand("-500 lbf")
    del s.parts["leg"], s.parts["up switch"], s.parts["down switch"], s.parts["line"]
    s.parts |= {"selector": ("selector valve", {})}
    s.lines = ("main.outlet > lever.pressure", "lever.return > reservoir.return", "lever.down > jack.extend",
               "lever.up > jack.retract")  # fmt: skip
    s.couplings = ()
    s.run(100.0, (0.0, "main", 1.0), (50.0, "main", 0.0))
    assert s.at(49.0, "jack: retracted") == 1.0 and s.end("jack: extended") == 1.0


def test_too_little_pressure_draws_no_lock() -> None:
    s = stand("-500 lbf").run(60.0, (0.0, "main", 0.14), (10.0, "lever", DOWN))
    assert s.end("leg: locked up") == 1.0
    s = stand("-500 lbf").run(60.0, (0.0, "main", 0.16), (10.0, "lever", DOWN))
    assert s.end("leg: locked down") == 1.0


def test_what_a_pipe_still_holds_draws_no_lock() -> None:
    """The lever is moved up, the pump stopped: the oil between them is under pressure, but there is little of it."""
    s = stand("500 lbf")
    s.parts["valve"] = ("oil non-return valve", {})
    s.lines = ("main.outlet > valve.inlet", "valve.outlet > lever.pressure", *s.lines[1:])
    s.run(600.0, (0.0, "main", 1.0), (0.0, "lever", DOWN), (30.0, "main", 0.0), (40.0, "lever", UP))
    assert s.at(39.0, "lever.pressure") > 900.0 * POUND
    assert s.end("leg: locked down") == 1.0
    assert 10.0 * POUND < s.end("lever.pressure") < 100.0 * POUND


def test_the_toggle_lets_it_fall_without_pressure() -> None:
    s = stand("-500 lbf")
    s.couplings += ("leg: released by > toggle",)
    s.parts["toggle"] = ("safety bolt", {})
    s.run(60.0, (10.0, "lever", DOWN), (20.0, "toggle", 1.0), (22.0, "toggle", 0.0))
    assert s.at(19.0, "leg: locked up") == 1.0 and s.end("leg: locked down") == 1.0


def test_a_leg_that_stands_down_at_the_beginning_is_locked_there() -> None:
    s = stand().run(10.0, LIVE, (0.0, "lever", DOWN), starts={"jack.piston": FULL})
    assert s.ran is not None and not {"leg: down lock drawn", "leg: up lock drawn"} & {e.mode for e in s.ran.events}
    for time in (0.0, 1.0):
        assert s.at(time, "leg: locked down") == 1.0 and s.at(time, "leg: locked up") == 0.0
    assert s.at(0.0, "jack: extended") == 1.0 and lights(s, 9.0) == "green"


def test_a_leg_put_half_way_is_locked_nowhere_from_the_first_moment() -> None:
    s = stand().run(1.0, LIVE, (0.0, "lever", DOWN), starts={"jack.piston": 0.5 * FULL})
    assert s.at(0.0, "leg: unlocked") == 1.0 == s.at(0.1, "leg: unlocked")


def test_a_lock_that_fails_once_the_leg_stands_down_is_locked_all_the_same() -> None:
    s = stand().run(10.0, LIVE, (0.0, "leg: down lock stuck", 1.0), (0.0, "lever", DOWN), starts={"jack.piston": FULL})
    assert s.end("leg: locked down") == 1.0


def test_a_down_lock_stuck_out_leaves_it_down_but_red_and_it_folds_without_pressure() -> None:
    s = stand("500 lbf").run(60.0, LIVE, (0.0, "main", 1.0), (5.0, "leg: down lock stuck", 1.0), (10.0, "lever", DOWN),
                    (40.0, "main", 0.0))  # fmt: skip
    assert s.at(39.0, "jack: extended") == 1.0 and s.at(39.0, "leg: unlocked") == 1.0 and lights(s, 39.0) == "red"
    assert s.end("jack: extended") == 0.0


@pytest.mark.parametrize(("lock", "first", "then"), [("down lock", DOWN, UP), ("up lock", UP, DOWN)])
def test_a_lock_stuck_home_does_not_let_it_go(lock: str, first: float, then: float) -> None:
    s = stand().run(60.0, (0.0, "main", 1.0), (1.0, "lever", first), (30.0, f"leg: {lock} stuck", 1.0),
                    (40.0, "lever", then))  # fmt: skip
    assert s.end("leg: locked") == 1.0 and s.end("jack: travel") == pytest.approx(s.at(29.0, "jack: travel"), abs=1e-7)


def test_an_up_lock_stuck_out_lets_the_leg_hang_when_the_pressure_goes() -> None:
    s = stand("-500 lbf").run(60.0, (0.0, "main", 1.0), (0.0, "lever", DOWN), (15.0, "leg: up lock stuck", 1.0),
                    (20.0, "lever", UP), (40.0, "main", 0.0))  # fmt: skip
    assert s.at(39.0, "jack: retracted") == 1.0 and s.at(39.0, "leg: unlocked") == 1.0
    assert s.end("jack: retracted") == 0.0


def test_a_stuck_lock_switch_tells_what_was() -> None:
    s = stand().run(60.0, LIVE, (0.0, "main", 1.0), (5.0, "down switch: stuck", 1.0), (10.0, "lever", DOWN))
    assert s.end("leg: locked down") == 1.0 and lights(s, 59.0) == "red"
    s = stand().run(60.0, LIVE, (0.0, "main", 1.0), (5.0, "up switch: stuck", 1.0), (10.0, "lever", DOWN))
    assert s.end("leg: locked down") == 1.0 and lights(s, 59.0) == "none"


def test_a_broken_wire_shows_nothing() -> None:
    s = stand().run(10.0, (5.0, "line: broken", 1.0))
    assert s.at(4.0, "line: working") == 1.0 and s.end("line: working") == 0.0


def switched(position: float, *failures: str, **given: str) -> float:
    """Volts behind a microswitch whose lever stands there."""
    s = Stand(
        {"lever": ("throttle", {}), "volts": (VOLTS, {}),
         "switch": ("microswitch", {name.replace("_", " "): value for name, value in given.items()}),
         "lamp": ("filament lamp", {})},
        ("volts.outlet > switch.inlet", "switch.outlet > lamp.feed"),
        ("switch: moved by > lever",),
    )  # fmt: skip
    s.run(5.0, LIVE, (0.0, "lever", position), *((0.0, f"switch: {failure}", 1.0) for failure in failures))
    return s.end("switch.outlet")


@pytest.mark.parametrize(
    ("given", "position", "made"),
    [
        ({"makes_above": "70 %"}, 0.75, True),
        ({"makes_above": "70 %"}, 0.65, False),
        ({"makes_below": "30 %"}, 0.25, True),
        ({"makes_below": "30 %"}, 0.35, False),
        ({"makes_above": "90 %", "makes_below": "10 %"}, 0.5, False),
        ({"makes_above": "90 %", "makes_below": "10 %"}, 0.0, True),
        ({"makes_above": "90 %", "makes_below": "10 %"}, 1.0, True),
        ({}, 0.0, False),
        ({}, 1.0, False),
    ],
)
def test_a_microswitch_is_made_where_its_cam_says(given: dict[str, str], position: float, made: bool) -> None:
    assert switched(position, **given) == pytest.approx(24.0 if made else 0.0, abs=0.2)


def test_a_microswitch_sticks_either_way() -> None:
    assert switched(1.0, "stuck open", makes_above="50 %") == pytest.approx(0.0, abs=1e-3)
    assert switched(0.0, "stuck closed", makes_above="50 %") == pytest.approx(24.0, abs=0.2)


def test_a_cam_lets_go_a_little_way_back() -> None:
    s = Stand(
        {"lever": ("throttle", {}), "switch": ("microswitch", {"makes above": "50 %"})},
        (), ("switch: moved by > lever",),
    )  # fmt: skip
    s.run(10.0, (1.0, "lever", 0.505), (3.0, "lever", 0.495), (5.0, "lever", 0.485))
    assert [s.at(t, "switch: made") for t in (0.5, 2.0, 4.0, 6.0)] == [0.0, 1.0, 1.0, 0.0]
