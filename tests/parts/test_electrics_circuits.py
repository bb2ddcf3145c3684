"""Relays, breakers, motors, dynamos and their cut-out, lamps and remote indicators, at work and failing."""

import math

import pytest

from cutaway.parts.kind import Control, Fit, Kind
from cutaway.parts.recipe import Across, Element, Node, Recipe, apply
from tests.parts.stand import RATED, TURN, TURNER, Stand, supply

Part = tuple[str | Kind, dict[str, str]]
VOLTS: Part = (supply("current", 24.0), {})


def on_volts(parts: dict[str, Part], lines: tuple[str, ...], *couplings: str) -> Stand:
    """A stand whose supply stands at its control times 24 V."""
    return Stand({"volts": VOLTS, **parts}, lines, couplings)


# --- lamps: figures by the filament law, solved by hand


def lit_circuit() -> Stand:
    """A lamp of 24 V and 0.12 A behind a dimmer of 30 ohm, as in behaviour 4."""
    return on_volts(
        {"dimmer": ("dimmer", {"resistance": "30 ohm"}), "lamp": ("filament lamp", {"current": "0.12 A"})},
        ("volts.outlet > dimmer.inlet", "dimmer.outlet > lamp.feed"),
    )


def dimmed(volts: float, ohm: float) -> float:
    """Volts at a lamp of 24 V and 0.12 A behind a resistor: V + R k √V = E, a quadratic in √V."""
    k = ohm * 0.12 / math.sqrt(24.0)
    return ((-k + math.sqrt(k * k + 4.0 * volts)) / 2.0) ** 2


def test_a_dimmer_takes_the_volts_that_the_filament_law_says() -> None:
    s = lit_circuit().run(20.0, (0.0, "volts", 24.5 / 24.0), (10.0, "dimmer", 1.0))
    assert s.at(9.0, "lamp.feed") == pytest.approx(dimmed(24.5, 0.01), rel=1e-3)
    # The leak of every wire, 1e-5 S, costs 6 mV behind 30 ohm.
    assert s.end("lamp.feed") == pytest.approx(dimmed(24.5, 30.0) - 0.006, abs=0.002)
    assert s.end("lamp.feed") == pytest.approx(21.1137, abs=0.01)  # brentq and a circuit simulator, with switches
    assert s.at(9.0, "lamp: brightness") == pytest.approx(1.0622, abs=0.003)
    assert s.end("lamp: brightness") == pytest.approx(0.6809, abs=0.002)
    assert s.end("lamp: lit") == 1.0


@pytest.mark.parametrize("failure", ["dimmer: open", "lamp: filament"])
def test_a_dimmer_or_a_filament_that_is_broken_leaves_it_dark(failure: str) -> None:
    for way in (0.0, 1.0):
        s = lit_circuit().run(20.0, (0.0, "volts", 1.0), (0.0, "dimmer", way), (10.0, failure, 1.0))
        assert s.at(9.0, "lamp: lit") == 1.0 and s.end("lamp: lit") == 0.0 and s.end("lamp: brightness") < 1e-9


def test_one_filament_of_two_is_enough() -> None:
    s = on_volts({"lamp": ("twin-filament lamp", {})}, ("volts.outlet > lamp.first", "volts.outlet > lamp.second")).run(
        30.0, (0.0, "volts", 1.0), (10.0, "lamp: first filament", 1.0), (20.0, "lamp: second filament", 1.0)
    )
    assert [s.at(t, "lamp: lit") for t in (9.0, 19.0, 29.0)] == [1.0, 1.0, 0.0]
    assert s.at(9.0, "lamp: current") == pytest.approx(0.24, rel=1e-3)
    assert s.at(19.0, "lamp: current") == pytest.approx(0.12, rel=1e-3) and s.end("lamp: current") == 0.0


def test_a_horn_needs_three_quarters_of_its_voltage() -> None:
    s = on_volts({"horn": ("horn", {})}, ("volts.outlet > horn.feed",)).run(
        40.0, (0.0, "volts", 1.0), (10.0, "volts", 0.7), (20.0, "volts", 0.8), (30.0, "horn: no note", 1.0)
    )
    assert [s.at(t, "horn: sounding") for t in (9.0, 19.0, 29.0, 39.0)] == [1.0, 0.0, 1.0, 0.0]
    assert s.end("horn: current") == 0.0


# --- contacts


def relay_circuit() -> Stand:
    return on_volts(
        {
            "coil": (supply("current", 24.0), {}),
            "relay": ("relay", {}),
            "load": ("electrical load", {"current": "20 A", "voltage": "24 V"}),
        },
        ("coil.outlet > relay.feed", "volts.outlet > relay.inlet", "relay.outlet > load.feed"),
    )


def test_a_relay_pulls_in_at_one_voltage_and_lets_go_at_another() -> None:
    s = relay_circuit().run(
        60.0, (0.0, "volts", 1.0), (10.0, "coil", 15.0 / 24.0), (20.0, "coil", 17.0 / 24.0), (30.0, "coil", 7.0 / 24.0),
        (40.0, "coil", 5.0 / 24.0),
    )  # fmt: skip
    assert [s.at(t, "relay: made") for t in (9.0, 19.0, 29.0, 39.0, 59.0)] == [0.0, 0.0, 1.0, 1.0, 0.0]
    assert s.at(29.0, "relay: current") == pytest.approx(20.0, rel=0.02) and s.end("relay: current") == 0.0
    assert s.at(29.0, "relay.feed flow") == pytest.approx(0.1 * 17.0 / 24.0, rel=1e-3)


def test_a_relay_fails_open_by_its_coil_and_closed_by_its_contacts() -> None:
    s = relay_circuit().run(
        60.0, (0.0, "volts", 1.0), (10.0, "coil", 1.0), (20.0, "relay: coil open", 1.0),
        (40.0, "relay: contacts stuck", 1.0),
    )  # fmt: skip
    assert [s.at(t, "load: working") for t in (9.0, 19.0, 39.0, 59.0)] == [0.0, 1.0, 0.0, 1.0]
    assert s.at(39.0, "relay.feed flow") == 0.0


def test_a_solenoid_moves_with_its_current() -> None:
    s = on_volts({"catch": ("solenoid", {})}, ("volts.outlet > catch.feed",)).run(
        50.0, (10.0, "volts", 1.0), (20.0, "volts", 0.5), (30.0, "volts", 0.2), (40.0, "volts", 1.0),
        (45.0, "catch: coil open", 1.0),
    )  # fmt: skip
    assert [s.at(t, "catch: position") for t in (9.0, 19.0, 29.0, 39.0, 44.0, 49.0)] == [0.0, 1.0, 1.0, 0.0, 1.0, 0.0]


def breaker(amps: float) -> Stand:
    return on_volts(
        {
            "breaker": ("circuit breaker", {"rating": "5 A"}),
            "load": ("electrical load", {"current": f"{amps} A", "voltage": "24 V"}),
        },
        ("volts.outlet > breaker.inlet", "breaker.outlet > load.feed"),
    )


def test_a_breaker_trips_as_a_fuse_melts_and_is_reset_by_hand() -> None:
    s = breaker(10.0).run(60.0, (10.0, "volts", 1.0), (30.0, "breaker", 1.0), (50.0, "breaker", 0.0))
    carried = 10.0 / (1.0 + 0.01 * 10.0 / 24.0) / 5.0
    assert s.when("breaker: tripped") - 10.0 == pytest.approx(-5.0 * math.log(1.0 - 2.25 / carried**2), rel=0.03)
    assert s.at(29.0, "load: working") == 0.0 and s.at(49.0, "breaker: tripped") == 0.0
    assert s.at(51.0, "load: working") == 1.0 and s.end("breaker: tripped") == 1.0  # the load is what it was


def test_a_breaker_holds_what_it_is_rated_for() -> None:
    s = breaker(5.0).run(3600.0, (0.0, "volts", 1.0))
    assert not s.ever("breaker: tripped") and s.end("breaker: current") == pytest.approx(5.0, rel=0.01)


def test_an_interlocked_switch_is_made_by_either() -> None:
    s = on_volts(
        {
            "switch": ("interlocked switch", {}),
            "magnetos": ("magneto switch", {}),
            "lamp": ("filament lamp", {}),
        },
        ("volts.outlet > switch.inlet", "switch.outlet > lamp.feed"),
        "switch: made with > magnetos",
    ).run(
        60.0, (0.0, "volts", 1.0), (10.0, "magnetos", 1.0), (20.0, "magnetos", 0.0), (30.0, "switch", 1.0),
        (40.0, "switch: open", 1.0),
    )  # fmt: skip
    assert [s.at(t, "lamp: lit") for t in (9.0, 19.0, 29.0, 39.0, 59.0)] == [0.0, 1.0, 0.0, 1.0, 0.0]


# --- the ground/flight switch and the supply outside


def test_the_ground_flight_switch_never_joins_battery_and_trolley() -> None:
    s = Stand(
        {
            "battery": ("battery", {"capacity": "20 Ah", "voltage": "24 V"}),
            "socket": ("external supply socket", {"voltage": "28 V"}),
            "switch": ("ground/flight switch", {}),
            "bus": ("bus", {"voltage": "24 V"}),
            "load": ("electrical load", {"current": "12 A", "voltage": "24 V"}),
        },
        ("battery.positive > switch.battery", "socket.outlet > switch.external", "switch.bus > bus.any"),
        ("load: fed by > bus.any",),
    ).run(
        60.0, (10.0, "socket", 1.0), (20.0, "switch", 1.0), (30.0, "switch: open", 1.0), (40.0, "switch: open", 0.0),
        (40.0, "switch", 0.0), (50.0, "socket: no supply", 1.0),
    )  # fmt: skip
    assert [s.at(t, "bus: alive") for t in (9.0, 19.0, 29.0, 39.0, 49.0, 59.0)] == [0.0, 1.0, 1.0, 0.0, 1.0, 0.0]
    assert s.at(19.0, "battery: current") < 1e-3 and s.at(19.0, "socket: current") > 12.0
    assert s.at(29.0, "battery: current") > 11.0 and s.at(29.0, "socket: current") < 1e-3
    assert s.end("battery: charge") < 20.0 * 3600.0


# --- motors


def test_a_motor_runs_at_its_speed_and_takes_six_times_its_current_when_held() -> None:
    s = on_volts(
        {"motor": ("electric motor", {"current": "10 A", "speed": "3000 rpm"})}, ("volts.outlet > motor.feed",)
    ).run(60.0, (10.0, "volts", 1.0), (30.0, "motor: stalled", 1.0), (45.0, "motor: burnt out", 1.0))
    assert s.at(10.05, "motor: current") > 45.0
    assert s.at(29.0, "motor: speed") == pytest.approx(1.0, rel=1e-3)
    assert s.at(29.0, "motor: current") == pytest.approx(10.0, rel=1e-3)
    # V = k ω + R I with k ω = 20 V: 1 - 1/e of its speed after its run-up time.
    assert s.at(10.5, "motor: speed") == pytest.approx(1.0 - math.exp(-1.0), abs=0.02)
    assert s.at(44.0, "motor: current") == pytest.approx(60.0, rel=0.01) and s.at(44.0, "motor: running") == 0.0
    assert s.end("motor: current") == 0.0


def test_an_inverter_needs_time_and_volts() -> None:
    s = on_volts({"inverter": ("inverter", {})}, ("volts.outlet > inverter.feed",)).run(
        40.0, (10.0, "volts", 1.0), (20.0, "volts", 0.5), (30.0, "volts", 1.0), (35.0, "inverter: no output", 1.0)
    )
    assert s.when("inverter: turning") == pytest.approx(12.0, abs=0.01)
    assert [s.at(t, "inverter: running") for t in (11.9, 19.0, 25.0, 34.0, 39.0)] == [0.0, 1.0, 0.0, 1.0, 0.0]
    assert s.at(19.0, "inverter: voltage") == pytest.approx(115.0, rel=0.01) and s.end("inverter: voltage") < 1.0


# --- the dynamo


def generating() -> Stand:
    return Stand(
        {
            "battery": ("battery", {"capacity": "20 Ah", "voltage": "24 V", "resistance": "0.05 ohm"}),
            "bus": ("bus", {"voltage": "24 V"}),
            "engine": (TURNER, {}),
            "dynamo": ("dynamo", {}),
            "regulator": ("voltage regulator", {}),
            "cut-out": ("generator cut-out", {}),
            "load": ("electrical load", {"current": "12 A", "voltage": "24 V"}),
            "lamp": ("charging lamp", {"voltage": "24 V"}),
        },
        ("battery.positive > bus.any", "dynamo.output > cut-out.generator", "cut-out.bus > bus.any"),
        (
            "dynamo: driven by > engine",
            "dynamo: regulator > regulator",
            "regulator: regulates > dynamo",
            "load: fed by > bus.any",
            "lamp: watches > cut-out",
            "lamp: fed by > bus.any",
        ),
    )


def test_the_dynamo_charges_through_its_cut_out() -> None:
    s = generating().run(120.0, (20.0, "engine", 0.3), (60.0, "engine", 1.0), starts={"battery.cells": 15.0 * 3600.0})
    assert s.when("cut-out: closed") == pytest.approx(60.0, abs=0.1) and s.at(59.0, "lamp: lit") == 1.0
    assert s.end("battery: current") < -1.0 and s.end("lamp: lit") == 0.0
    assert 26.0 < s.end("bus: voltage") < 28.0
    assert s.end("dynamo: current") == pytest.approx(s.end("load: current") - s.end("battery: current"), abs=0.2)


@pytest.mark.parametrize("failure", ["dynamo: no field", "dynamo: sheared", "dynamo: short", "regulator: open"])
def test_a_dead_dynamo_conducts_backwards_until_its_cut_out_opens(failure: str) -> None:
    s = generating().run(120.0, (0.0, "engine", 1.0), (60.0, failure, 1.0))
    assert s.when("cut-out: closed", False) == pytest.approx(60.0, abs=0.1)
    assert s.end("lamp: lit") == 1.0 and s.end("cut-out: current") == 0.0
    assert 11.0 < s.end("battery: current") < 13.5


@pytest.mark.parametrize("failure", ["dynamo: no field", "dynamo: sheared", "dynamo: short"])
def test_it_is_the_cut_out_that_saves_the_battery(failure: str) -> None:
    s = generating().run(120.0, (0.0, "engine", 1.0), (0.0, "cut-out: stuck closed", 1.0), (60.0, failure, 1.0))
    assert s.end("battery: current") > 80.0 and s.end("cut-out: current") < -70.0


def _running_up(fit: Fit) -> Recipe:
    """Comes up to speed within two seconds, as an engine does; its speed is the voltage of a wire of its own."""
    nodes = (Node("asked", "current", boundary=TURN), Node("speed", "current", store=2.0))
    turn = ("rate of turn", apply("mul", RATED, Across("speed")))
    return Recipe(nodes, (Element("lag", "LIN", ("asked", "speed"), (1.0,)),), signals=(turn,))


RUNNING_UP = Kind("engine running up", "A test part.", (), _running_up, (Control("", ranged=True),))


def steps_of_a_run_up(source: tuple[str, dict[str, str]], current: str) -> int:
    """How many steps ten seconds take in which a generator comes up to speed, closes its cut-out and charges."""
    s = generating()
    s.parts |= {"engine": (RUNNING_UP, {}), "dynamo": source}
    if source[0] == "generator":
        del s.parts["regulator"], s.parts["cut-out"]
        s.lines = ("battery.positive > bus.any", "dynamo.output > bus.any")
        s.couplings = ("dynamo: driven by > engine", "load: fed by > bus.any", "lamp: watches > dynamo",
                       "lamp: fed by > bus.any")  # fmt: skip
    s.run(10.0, (1.0, "engine", 1.0))
    assert s.at(1.0, current) == pytest.approx(0.0, abs=1e-3) and s.end(current) > 10.0
    assert s.ran is not None
    return len(s.ran.times)


@pytest.mark.parametrize(
    "source",
    [("generator", {"voltage": "28 V", "current limit": "40 A"}), ("dynamo", {})],
    ids=["generator", "dynamo"],
)
def test_an_armature_follows_its_speed_in_time(source: tuple[str, dict[str, str]]) -> None:
    """It does not jump by what the step before was long: a generator once took 1,096 steps here, a dynamo 14,000."""
    assert steps_of_a_run_up(source, "dynamo: current") < 800


def test_a_cut_out_stuck_open_lets_nothing_through_and_a_regulator_may_be_too_high() -> None:
    s = generating().run(120.0, (0.0, "engine", 1.0), (60.0, "cut-out: stuck open", 1.0))
    assert s.at(59.0, "dynamo: current") > 10.0 and s.end("dynamo: current") < 1e-3 and s.end("battery: current") > 11.0
    high = generating().run(120.0, (0.0, "engine", 1.0), (60.0, "regulator: too high", 1.0))
    assert high.end("bus: voltage") - high.at(59.0, "bus: voltage") == pytest.approx(4.2, abs=0.6)


def test_two_generators_of_different_speed_do_not_chatter() -> None:
    """The slower one stands below the bus that the other holds: it stays off, and does not come and go."""
    s = Stand(
        {
            "battery": ("battery", {"capacity": "20 Ah", "voltage": "24 V"}),
            "bus": ("bus", {"voltage": "24 V"}),
            "first": (TURNER, {}),
            "second": (TURNER, {}),
            "port": ("generator", {"voltage": "28 V"}),
            "starboard": ("generator", {"voltage": "28 V"}),
        },
        ("battery.positive > bus.any", "port.output > bus.any", "starboard.output > bus.any"),
        ("port: driven by > first", "starboard: driven by > second"),
    ).run(120.0, (0.0, "first", 1.0), (30.0, "second", 0.4))
    assert s.ran is not None and sum(e.mode == "starboard: cut-out" for e in s.ran.events) <= 2
    assert s.end("port: charging") == 1.0


# --- what is shown at a distance


def test_a_remote_indicator_stays_where_it_was_without_current() -> None:
    parts: dict[str, Part] = {
        "lever": ("throttle", {}),
        "sender": ("transmitter", {}),
        "pointer": ("remote indicator", {}),
    }
    for what in (("volts", 0.0), ("sender: open", 1.0), ("pointer: open", 1.0)):
        s = on_volts(
            parts,
            ("volts.outlet > sender.feed", "volts.outlet > pointer.feed"),
            "sender: moved by > lever",
            "pointer: shows > sender",
        ).run(60.0, (0.0, "volts", 1.0), (10.0, "lever", 0.6), (30.0, *what), (40.0, "lever", 1.0))
        assert s.at(29.0, "pointer: shown") == pytest.approx(0.6, abs=0.001) and s.at(29.0, "pointer: working") == 1.0
        assert s.end("pointer: shown") == pytest.approx(0.6, abs=0.001) and s.end("pointer: working") == 0.0


def test_an_ammeter_shows_both_ways() -> None:
    s = Stand(
        {
            "battery": ("battery", {"capacity": "20 Ah", "voltage": "24 V"}),
            "meter": ("ammeter", {}),
            "volts": VOLTS,
            "load": ("electrical load", {"current": "12 A", "voltage": "24 V"}),
            "switch": ("switch", {}),
        },
        ("battery.positive > meter.inlet", "volts.outlet > switch.inlet", "switch.outlet > meter.outlet"),
        ("load: fed by > meter.outlet",),
    ).run(
        60.0, (0.0, "volts", 28.0 / 24.0), (20.0, "switch", 1.0), (40.0, "meter: open", 1.0),
        starts={"battery.cells": 10.0 * 3600.0},
    )  # fmt: skip
    assert s.at(19.0, "meter: current") > 10.0 > 0.0 > s.at(39.0, "meter: current")
    assert s.end("meter: current") == 0.0 and s.end("battery: current") < 0.0


def test_an_extinguisher_is_fired_once() -> None:
    s = on_volts({"bottle": ("fire extinguisher bottle", {})}, ("volts.outlet > bottle.feed",)).run(
        40.0, (10.0, "volts", 0.4), (20.0, "volts", 1.0), (30.0, "volts", 0.0)
    )
    assert [s.at(t, "bottle: fired") for t in (9.0, 19.0, 25.0, 39.0)] == [0.0, 0.0, 1.0, 1.0]
    dead = on_volts({"bottle": ("fire extinguisher bottle", {})}, ("volts.outlet > bottle.feed",)).run(
        40.0, (0.0, "bottle: cartridge dead", 1.0), (20.0, "volts", 1.0)
    )
    assert dead.end("bottle: fired") == 0.0
