"""Laws of what turns, heats and drives current: sources, motors, drag, and heat carried by a stream."""

import math

from cutaway.parts.laws.shapes import clamp

Flow = tuple[float, float, float]


def source(
    a: float, b: float, gate: float, drive: float, rise: float, slope: float, low: float, high: float, corner: float
) -> Flow:
    """A rise with a limit (SOURCE): a generator with its current limit, a ground supply, a compressor, a centrifugal
    pump.

        flow = clamp(G (E · drive + a - b), low, high · gate)

    a: must be a boundary (aircraft negative, ambient, reservoir). rise: E at drive 1, V or Pa. slope: G, flow per
    unit. low, high: limits of flow. corner: flow, above 0. Range: drive and gate 0 or above. Source: ours (Thevenin's
    source with a limit).

    A generator of 28 V, 20 S, 40 A: on 27 V it gives 20 A, on a flat bus no more than its limit.
    >>> [source(0.0, bus, 1.0, 1.0, 28.0, 20.0, 0.0, 40.0, 0.5)[0] for bus in (27.0, 5.0)]
    [20.0, 40.0]
    """
    value, by = clamp(slope * (rise * drive + a - b), low, high * gate, corner)
    return value, by * slope, -by * slope


def motor(a: float, b: float, shaft: float, gate: float, constant: float, resistance: float) -> tuple[float, float]:
    """Current of a direct-current motor (RATIO), and its slope by the terminal volts.

        current = gate (a - b - k · shaft) / R;        torque on the shaft = k · current

    a, b: V. shaft: rad/s. constant: k, V s/rad (also N m/A). resistance: R, Ω. Range: constant field. Source: textbook.

    >>> motor(24.0, 0.0, 300.0, 1.0, 0.06, 0.5)
    (12.0, 2.0)
    """
    return gate * (a - b - constant * shaft) / resistance, gate / resistance


def drag(a: float, b: float, gate: float, drive: float, dry: float, corner: float, viscous: float) -> Flow:
    """Torque that a turning shaft meets (DRAG).

        torque = gate (dry · w / √(w² + corner²) + viscous · w),        w = a - b

    a, b: rad/s. dry: N m. corner: rad/s, 2 % of the rated speed or more. viscous: N m s/rad. drive: not used. Range:
    for a shaft that turns; friction at rest belongs in a jack. Source: textbook; the rounding is ours.

    >>> round(drag(300.0, 0.0, 1.0, 1.0, 0.2, 6.0, 0.001)[0], 4)
    0.5
    """
    speed = a - b
    square = speed * speed + corner * corner
    size = math.sqrt(square)
    by = gate * (dry * corner * corner / (square * size) + viscous)
    return gate * (dry * speed / size + viscous * speed), by, -by


def advect(a: float, b: float, gate: float, drive: float, capacity: float) -> Flow:
    """Heat that a stream carries from the first node to the second (ADVECT).

        flow = c · drive · gate · a

    a: °C of the node it leaves. drive: the stream, m³/s, 0 or above. capacity: c, J/(m³ K). A stream that can turn
    wants two elements; round a loop the same stream must pass every element. Range: 0 °C is the zero of heat. Source:
    textbook.

    One litre a second of coolant (3.6 MJ/(m³ K)) at 90 °C:
    >>> advect(90.0, 60.0, 1.0, 0.001, 3.6e6)
    (324000.0, 3600.0, 0.0)
    """
    by = capacity * drive * gate
    return by * a, by, 0.0
