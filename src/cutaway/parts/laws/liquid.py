"""Laws of liquid between two nodes: pipes, cocks, valves, pumps and what an engine draws.

Every law takes the across values of its two ends, a gate and a drive, then its parameters, and gives the flow from
the first end to the second with its slopes by either. Petrol and oil: Pa gauge and m³/s. The first two laws serve
every medium.
"""

from cutaway.parts.laws.shapes import clamp, hinge, opening, root

Flow = tuple[float, float, float]


def linear(a: float, b: float, gate: float, drive: float, conductance: float) -> Flow:
    """Flow in proportion to the drop (LIN): a resistance, a seal leak, a wall that heat passes.

        flow = gate · G (a - b)

    a, b: Pa, V or K. gate: 0 shut to 1 open. drive: not used. conductance: G, flow per unit of drop, 0 or above.
    Range: laminar leaks; any resistance. Source: Ohm's law, Hagen-Poiseuille, Newton's law of cooling.

    A 250 Ω coil on 24 V:
    >>> linear(24.0, 0.0, 1.0, 1.0, 1.0 / 250.0)
    (0.096, 0.004, -0.004)
    """
    slope = gate * conductance
    return slope * (a - b), slope, -slope


def orifice(a: float, b: float, gate: float, drive: float, k: float, core: float) -> Flow:
    """Turbulent flow through a cock, a filter, a pipe or a hole (ROOT); also the current of a hot filament.

        flow = gate · K root(a - b)

    a, b: Pa (lamp: V). k: K, m³/s per √Pa (lamp: A per √V), 0 or above. core: drop below which the flow is laminar,
    Pa. drive: not used. Range: incompressible, |a - b| well above the core. Source: orifice relation, flow = Cd ·
    area · √(2 drop / density).

    A 5 mm hole in oil of 870 kg/m³ (Cd 0.6) under 100 kPa passes about 0.18 l/s:
    >>> round(1000 * orifice(1.0e5, 0.0, 1.0, 1.0, 0.6 * 1.9635e-5 * (2 / 870) ** 0.5, 5.0e3)[0], 3)
    0.179
    """
    value, slope = root(a - b, core)
    return gate * k * value, gate * k * slope, -gate * k * slope


def one_way(a: float, b: float, gate: float, drive: float, k: float, core: float, crack: float, creep: float) -> Flow:
    """A non-return valve (ONEWAY): opens against its spring, lets nothing back but what creeps past the seat.

        flow = gate · K root(hinge(a - b - crack)) + creep (a - b)

    crack: drop at which it begins to lift, Pa. creep: m³/s per Pa, 0 for a tight seat. core: Pa, also the corner of
    the hinge. k, gate: as for an orifice. drive: not used. Range: as for an orifice. Source: orifice relation; the
    toe is ours.

    >>> one_way(0.0, 5.0e4, 1.0, 1.0, 1.5e-6, 200.0, 100.0, 0.0)[0]
    0.0
    >>> round(1000 * one_way(1.0e4, 0.0, 1.0, 1.0, 1.5e-6, 200.0, 100.0, 0.0)[0], 4)
    0.1485
    """
    lifted, by_drop = hinge(a - b - crack, core)
    value, slope = root(lifted, core)
    slope = gate * k * slope * by_drop + creep
    return gate * k * value + creep * (a - b), slope, -slope


def relief(a: float, b: float, gate: float, drive: float, k: float, core: float, setting: float, band: float) -> Flow:
    """A relief valve (RELIEF): shut below its setting, fully open a band above it.

        flow = gate · K opening((a - b - drive · setting) / band) · root(hinge(a - b))

    setting: drop at which it begins to open, Pa. band: further drop to full opening, Pa, above 0. drive: multiplies
    the setting (a weak spring is below 1). k, core, gate: as for an orifice. Range: as for an orifice. Source:
    orifice relation; the opening curve is ours.

    >>> relief(1.0e5, 0.0, 1.0, 1.0, 1.0e-6, 1.0e3, 1.0e5, 2.0e4)[0]
    0.0
    >>> round(1000 * relief(1.2e5, 0.0, 1.0, 1.0, 1.0e-6, 1.0e3, 1.0e5, 2.0e4)[0], 3)
    0.346
    """
    lift, lift_slope = opening((a - b - drive * setting) / band)
    forward, by_drop = hinge(a - b, core)
    value, slope = root(forward, core)
    by = gate * k * (lift_slope / band * value + lift * slope * by_drop)
    return gate * k * lift * value, by, -by


def reduce(a: float, b: float, gate: float, drive: float, k: float, core: float, setting: float, band: float) -> Flow:
    """A reducing valve (REDUCE): feeds its outlet up to a set pressure and no further.

        flow = gate · K opening((drive · setting - b) / band) · root(hinge(a - b))

    setting: outlet pressure at which it is shut, Pa, times the drive (a brake lever). band: below that to full
    opening, Pa. Air too: Pa absolute and m³/s of free air. k, core, gate: as for an orifice. Source: orifice
    relation; the opening curve is ours.

    >>> reduce(2.0e6, 7.0e5, 1.0, 1.0, 1.0e-7, 1.0e3, 7.0e5, 5.0e4)[0]
    0.0
    >>> reduce(2.0e6, 5.0e5, 1.0, 1.0, 1.0e-7, 1.0e3, 7.0e5, 5.0e4)[0] > 1.2e-4
    True
    """
    lift, lift_slope = opening((drive * setting - b) / band)
    forward, by_drop = hinge(a - b, core)
    value, slope = root(forward, core)
    by_a = gate * k * lift * slope * by_drop
    return gate * k * lift * value, by_a, -by_a - gate * k * lift_slope / band * value


def maintain(a: float, b: float, gate: float, drive: float, k: float, core: float, setting: float, band: float) -> Flow:
    """A pressure-maintaining valve (MAINTAIN): passes on only what its inlet has above a set pressure.

        flow = gate · K opening((a - drive · setting) / band) · root(hinge(a - b))

    setting: inlet pressure below which it is shut, Pa, times the drive. band: above that to full opening, Pa. Air
    too: Pa absolute and m³/s of free air. k, core, gate: as for an orifice. Source: orifice relation; the opening
    curve is ours.

    >>> maintain(1.1e6, 1.0e5, 1.0, 1.0, 1.0e-7, 1.0e3, 1.1e6, 1.0e5)[0]
    0.0
    >>> maintain(1.2e6, 1.0e5, 1.0, 1.0, 1.0e-7, 1.0e3, 1.1e6, 1.0e5)[0] > 1.0e-4
    True
    """
    lift, lift_slope = opening((a - drive * setting) / band)
    forward, by_drop = hinge(a - b, core)
    value, slope = root(forward, core)
    by_head = gate * k * lift * slope * by_drop
    return gate * k * lift * value, by_head + gate * k * lift_slope / band * value, -by_head


def pump(
    a: float, b: float, gate: float, drive: float, stall: float, slip: float, most: float,
    starved: float, band: float, corner: float,
) -> Flow:  # fmt: skip
    """A pump that moves a volume a turn (PDPUMP): full delivery up to its stall, and none from an empty inlet.

        flow = opening((a - starved) / band) · clamp(slip · (stall + a - b), 0, most · drive · gate)

    stall: rise at which slip takes everything, Pa. slip: m³/s per Pa. most: delivery at drive 1, m³/s. drive: speed
    over rated speed. starved: inlet pressure at which nothing is left to pump, Pa (below 0 where it can lift). band:
    above that to full delivery, Pa. corner: m³/s. Range: drive 0 or above. Source: the positive-displacement pump
    with a limit of pressure; rounding and starving curve are ours.

    A hand pump of 0.4 l/s that stalls at 9 MPa, against 3 MPa:
    >>> round(1000 * pump(0.0, 3.0e6, 1.0, 1.0, 9.0e6, 1.0e-9, 4.0e-4, -2.0e4, 1.0e4, 1.0e-6)[0], 4)
    0.4
    >>> pump(-2.0e4, 0.0, 1.0, 1.0, 9.0e6, 1.0e-9, 4.0e-4, -2.0e4, 1.0e4, 1.0e-6)[0]
    0.0
    """
    fed, fed_slope = opening((a - starved) / band)
    given, given_slope = clamp(slip * (stall + a - b), 0.0, most * drive * gate, corner)
    by_rise = fed * given_slope * slip
    return fed * given, by_rise + fed_slope / band * given, -by_rise


def draw(a: float, b: float, gate: float, drive: float, most: float, low: float, band: float) -> Flow:
    """What a consumer takes (DRAW): its full demand while it is fed well enough, nothing when it is not.

        flow = most · drive · gate · opening((a - b - low) / band)

    most: demand at drive 1, m³/s. low: drop at which it gets nothing, Pa. band: above that to full demand, Pa. Range:
    drive and gate 0 or above. Source: ours; a carburettor takes what the engine burns, not what the pressure would
    give.

    >>> draw(1.5e4, 0.0, 1.0, 0.5, 6.0e-5, 1.0e3, 4.0e3)[0], draw(1.0e3, 0.0, 1.0, 0.5, 6.0e-5, 1.0e3, 4.0e3)[0]
    (3.0e-5, 0.0)
    """
    fed, slope = opening((a - b - low) / band)
    by = most * drive * gate * slope / band
    return most * drive * gate * fed, by, -by
