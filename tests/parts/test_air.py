"""Compressed air: parts against differential equations written here by themselves, with the plain laws.

References: Boyle's law for what a bottle holds; the isothermal nozzle (flow by the difference of the squares of the
pressures) for pipes; scipy's integrator. Figures are common practice, no source.
"""

import math

import pytest
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from tests.parts.stand import TURNER, Stand

SEA = 101_325.0
PSI = 6894.757
CUBIC_FOOT = 0.3048**3
MINUTE = 60.0


def nozzle(flow: float, drop: float = 10.0 * PSI, upstream: float = SEA + 100.0 * PSI) -> float:
    """The constant of a passage that passes `flow` (m³/s of free air) at a drop."""
    return flow / math.sqrt(upstream**2 - (upstream - drop) ** 2)


def test_a_bottle_fills_as_boyle_says() -> None:
    s = Stand(
        {
            "engine": (TURNER, {}),
            "compressor": ("air compressor", {"delivery": "2 cu ft/min", "pressure": "450 lb/sq in"}),
            "bottle": ("air bottle", {"volume": "0.2 cu ft"}),
        },
        ("compressor.outlet > bottle.any",),
        ("compressor: driven by > engine",),
    ).run(60.0, (0.0, "engine", 1.0))
    # Two cubic feet of free air in a fifth of a cubic foot: ten times the pressure outside.
    assert s.end("bottle: pressure") == pytest.approx(10.0 * SEA, rel=1e-3)


def test_a_compressor_gives_less_at_height() -> None:
    parts = {
        "engine": (TURNER, {}),
        "compressor": ("air compressor", {"delivery": "2 cu ft/min"}),
        "bottle": ("air bottle", {"volume": "1 cu ft"}),
    }
    s = Stand(parts, ("compressor.outlet > bottle.any",), ("compressor: driven by > engine",))
    low = s.run(60.0, (0.0, "engine", 1.0)).end("bottle.any") - s.at(0.0, "bottle.any")
    high = s.run(60.0, (0.0, "height", 5486.4), (0.0, "engine", 1.0)).end("bottle.any") - s.at(0.0, "bottle.any")
    # Pressure at 18,000 ft is just under half of that at sea level (0.4994, US Standard Atmosphere 1976).
    assert high / low == pytest.approx(0.4994, rel=5e-3)


def test_a_bottle_blows_down_through_a_maintaining_valve_to_its_setting() -> None:
    volume, setting, flow = 0.3 * CUBIC_FOOT, 130.0 * PSI, 12.0 * CUBIC_FOOT / MINUTE
    jets = nozzle(1.2 * CUBIC_FOOT / MINUTE, 35.0 * PSI, SEA + 35.0 * PSI)
    k, band = flow / math.sqrt(10.0 * PSI), 0.05 * setting + 1_000.0

    def passed(p: float) -> float:
        share = min(max((p - SEA - setting) / band, 0.0), 1.0)
        lift = share * share * (3.0 - 2.0 * share)

        def excess(between: float) -> float:
            return k * lift * math.sqrt(p - between) - jets * math.sqrt(between**2 - SEA**2)

        return 0.0 if lift == 0.0 else k * lift * math.sqrt(p - brentq(excess, SEA, p))

    s = Stand(
        {
            "bottle": ("air bottle", {"volume": "0.3 cu ft"}),
            "valve": ("pressure-maintaining valve", {"set at": "130 lb/sq in"}),
            "service": ("air service", {}),
        },
        ("bottle.any > valve.inlet", "valve.outlet > service.inlet"),
    ).run(600.0, starts={"bottle.air": (SEA + 300.0 * PSI) * volume / SEA})
    wanted = solve_ivp(
        lambda _, p: [-passed(p[0]) * SEA / volume], (0.0, 600.0), [SEA + 300.0 * PSI], rtol=1e-8, dense_output=True
    )
    for time in (10.0, 30.0, 60.0, 120.0, 300.0, 600.0):
        assert s.at(time, "bottle.any") == pytest.approx(float(wanted.sol(time)[0]), rel=0.01)
    assert s.end("bottle: pressure") > setting


def test_a_ram_goes_out_when_its_spring_gives_way_and_back_when_the_air_is_gone() -> None:
    s = Stand(
        {
            "bottle": ("air bottle", {"volume": "0.5 cu ft"}),
            "cock": ("air cock", {}),
            "ram": ("ram", {"area": "3 sq in", "stroke": "4 in", "spring": "60 lbf", "spring rate": "15 lbf"}),
        },
        ("bottle.any > cock.inlet", "cock.outlet > ram.chamber"),
    )
    full = s.run(60.0, (1.0, "cock", 1.0), starts={"bottle.air": (SEA + 60.0 * PSI) * 0.5 * CUBIC_FOOT / SEA})
    assert full.end("ram: travel") == pytest.approx(4 * 0.0254, rel=0.01)
    # Thirty pounds on three square inches is ninety: 60 of preload, 8 of friction, and 15 for each inch of travel.
    s.run(60.0, (1.0, "cock", 1.0), starts={"bottle.air": (SEA + 30.0 * PSI) * 0.5 * CUBIC_FOOT / SEA})
    pressure = (s.end("ram.chamber") - SEA) / PSI
    assert s.end("ram: travel") / 0.0254 == pytest.approx((3.0 * pressure - 60.0 - 8.0) / 15.0, abs=0.06)


def test_a_ram_feels_the_pressure_outside_not_that_at_sea_level() -> None:
    s = Stand({"ram": ("ram", {"area": "3 sq in", "stroke": "4 in", "spring": "20 lbf", "friction": "1 lbf"})})
    s.run(60.0, (0.0, "height", 6000.0))
    # Sealed at sea-level pressure and taken up, it is pushed out by what is missing outside: 472.2 mb are left at
    # 6,000 m (US Standard Atmosphere 1976), and its own air, kept at one temperature, thins as it goes.
    area, dead = 3.0 * 0.0254**2, 0.2 * 12.0 * 0.0254**3

    def push(x: float) -> float:
        inside = SEA * dead / (dead + area * x)
        return (inside - 47_220.0) * area / 4.448222 - (20.0 + 15.0 * x / 0.0254) - 1.0

    assert s.end("ram: travel") == pytest.approx(brentq(push, 0.0, 0.1), rel=0.02)


@pytest.mark.parametrize("lever", [0.25, 0.5, 1.0])
def test_the_brakes_follow_the_lever(lever: float) -> None:
    s = Stand(
        {
            "bottle": ("air bottle", {"volume": "0.5 cu ft"}),
            "valve": ("brake relay valve", {"full pressure": "80 lb/sq in"}),
            "port": ("brake", {}),
            "starboard": ("brake", {}),
        },
        (
            "bottle.any > valve.supply",
            "valve.port brake > port.air",
            "valve.starboard brake > starboard.air",
        ),
    )
    start = {"bottle.air": (SEA + 300.0 * PSI) * 0.5 * CUBIC_FOOT / SEA}
    s.run(40.0, (1.0, "valve.lever", lever), (20.0, "valve.rudder bar", 1.0), starts=start)
    assert s.at(15.0, "port: pressure") == pytest.approx(80.0 * lever * PSI, abs=3.0 * PSI)
    assert s.at(15.0, "starboard: pressure") == pytest.approx(80.0 * lever * PSI, abs=3.0 * PSI)
    assert s.end("starboard: pressure") < 6.0 * PSI
    assert s.end("port: pressure") == pytest.approx(80.0 * lever * PSI, abs=3.0 * PSI)


def test_a_bottle_loses_what_the_brakes_take_and_no_more() -> None:
    """Two bags of 15 cu in to 90 lb from a bottle of 600 cu in: 2 × 15 × 90 / 600 = 4.5 lb a time, by Boyle's law.

    The bags stand at the pressure outside before, so that they take air for the gauge pressure only.
    """
    brakes = {"volume": "15 cu in"}
    s = Stand(
        {
            "bottle": ("air bottle", {"volume": "600 cu in"}),
            "valve": ("brake relay valve", {"full pressure": "90 lb/sq in"}),
            "port": ("brake", brakes),
            "starboard": ("brake", brakes),
        },
        ("bottle.any > valve.supply", "valve.port brake > port.air", "valve.starboard brake > starboard.air"),
    )
    start = {"bottle.air": (SEA + 300.0 * PSI) * 600.0 * 0.0254**3 / SEA}
    s.run(30.0, (1.0, "valve.lever", 1.0), starts=start)
    assert (s.at(0.0, "bottle: pressure") - s.end("bottle: pressure")) / PSI == pytest.approx(4.5, rel=0.005)


def test_brakes_that_are_off_have_the_pressure_outside_after_a_descent() -> None:
    s = Stand(
        {
            "bottle": ("air bottle", {"volume": "0.5 cu ft"}),
            "valve": ("brake relay valve", {"full pressure": "80 lb/sq in"}),
            "port": ("brake", {}),
            "starboard": ("brake", {}),
        },
        ("bottle.any > valve.supply", "valve.port brake > port.air", "valve.starboard brake > starboard.air"),
    )
    s.run(120.0, (1.0, "height", 1524.0), (60.0, "height", 0.0))
    assert s.at(59.0, "port.air") == pytest.approx(84_300.0, rel=0.03)  # standard air at 5,000 ft
    assert s.end("port.air") == pytest.approx(SEA, rel=0.01)


def test_a_ram_goes_no_further_than_its_stroke() -> None:
    s = Stand(
        {"bottle": ("air bottle", {"volume": "0.5 cu ft"}), "ram": ("ram", {"area": "3 sq in", "stroke": "4 in"})},
        ("bottle.any > ram.chamber",),
    )
    s.run(20.0, starts={"bottle.air": (SEA + 300.0 * PSI) * 0.5 * CUBIC_FOOT / SEA})
    assert s.end("ram: travel") == 4 * 0.0254
