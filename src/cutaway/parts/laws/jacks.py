"""Jacks and rams: the speed of the piston over one step, found inside the law.

Friction and end stops are solved here, not at a node: they are too sharp for the network's own solver.
"""

from cutaway.parts.laws.shapes import hinge


def glide(force: float, friction: float, damping: float) -> tuple[float, float]:
    """Speed of a piston under a force that must first overcome dry friction, m/s, and its slope.

        speed = (hinge(F - Fc) - hinge(-F - Fc)) / b,        corner Fc / 15 + 0.1 N

    force: F, N. friction: Fc, N, 0 or above. damping: b, N s/m, above 0. Range: no inertia. Source: ours.

    >>> glide(250.0, 300.0, 2000.0)[0], round(glide(2310.05, 300.0, 2000.0)[0], 6)
    (0.0, 1.0)
    """
    corner = friction / 15.0 + 0.1
    out, out_slope = hinge(force - friction, corner)
    back, back_slope = hinge(-force - friction, corner)
    return (out - back) / damping, (out_slope + back_slope) / damping


def stops(travel: float, low: float, high: float, stiffness: float) -> tuple[float, float]:
    """Force of the end stops against further travel, N, and its slope, N/m: stiff one-sided springs.

        force = k (hinge(z - high) - hinge(low - z)),        corner 10⁻⁴ of the stroke

    travel: z, m. low, high: ends, m, high above low. stiffness: k, N/m. Range: everywhere. Source: ours.

    >>> stops(0.15, 0.0, 0.3, 1.0e8)[0], round(stops(0.3001, 0.0, 0.3, 1.0e8)[0])
    (0.0, 8500)
    """
    corner = 1.0e-4 * (high - low)
    out, out_slope = hinge(travel - high, corner)
    back, back_slope = hinge(low - travel, corner)
    return stiffness * (out - back), stiffness * (out_slope + back_slope)


def pushed(
    push: float, travel: float, step: float, gate: float, friction: float, damping: float, spring: float,
    spring_from: float, low: float, high: float, stiffness: float,
) -> tuple[float, float]:  # fmt: skip
    """Speed over one step of a piston under a push, a spring and end stops, m/s, and its slope by the push, m/(s N).

        v = gate · glide(push - k (z - z0) - stops(z)),        z = travel + step · v

    push: N. travel: where it stands, m. step: s. gate: 0 jammed to 1 free. spring: k, N/m. spring_from: z0, m. The
    one root lies between 0 and the speed that the force at rest would give; it is found by Newton's rule kept inside
    that bracket. Source: ours (backward Euler).

    Free, 1300 N against 300 N of friction: half a metre a second, less what rounding takes. Jammed: nothing.
    >>> round(pushed(1300.0, 0.1, 0.01, 1.0, 300.0, 2000.0, 0.0, 0.0, 0.0, 0.3, 1e8)[0], 3)
    0.495
    >>> pushed(1300.0, 0.1, 0.01, 0.0, 300.0, 2000.0, 0.0, 0.0, 0.0, 0.3, 1e8)
    (0.0, 0.0)
    """
    end, end_slope = stops(travel, low, high, stiffness)
    speed, by_force = glide(push - spring * (travel - spring_from) - end, friction, damping)
    first = gate * speed
    low_speed, high_speed = min(0.0, first), max(0.0, first)
    v = first / (1.0 + gate * by_force * (spring + end_slope) * step)
    back = gate * by_force * (spring + end_slope) * step
    by_push = gate * by_force
    for _ in range(60):
        z = travel + step * v
        end, end_slope = stops(z, low, high, stiffness)
        speed, by_force = glide(push - spring * (z - spring_from) - end, friction, damping)
        by_push = gate * by_force
        back = by_push * (spring + end_slope) * step
        error = v - gate * speed
        if abs(error) <= (1.0 + back) * (1.0e-12 + 1.0e-12 * abs(v)):
            break
        if error > 0.0:
            high_speed = v
        else:
            low_speed = v
        v -= error / (1.0 + back)
        if not low_speed < v < high_speed:
            v = 0.5 * (low_speed + high_speed)
    return v, by_push / (1.0 + back)


def jack(
    cap: float, rod: float, travel: float, step: float, gate: float, drive: float, cap_area: float, rod_area: float,
    friction: float, damping: float, spring: float, spring_from: float, load: float, low: float, high: float,
    stiffness: float,
) -> tuple[float, float]:  # fmt: skip
    """Speed of a double-acting jack over one step (JACK), m/s, positive as it extends, and its slope by the push.

        push = A1 cap - A2 rod - F0 · drive;        flow in at the cap A1 v, at the rod -A2 v

    cap, rod: Pa gauge. travel: m. step: s. cap_area, rod_area: A1, A2, m². load: F0 at drive 1, N, against extending.
    The others as in `pushed`. Range: no inertia. Source: textbook balance of forces; rounding ours.

    12/8 cm² under 60 bar against 7000 N: 100 N of friction short of moving.
    >>> jack(6.0e6, 0.0, 0.1, 0.01, 1.0, 1.0, 1.2e-3, 8e-4, 300.0, 2000.0, 0.0, 0.0, 7000.0, 0.0, 0.3, 1e8)[0]
    0.0
    """
    push = cap_area * cap - rod_area * rod - load * drive
    return pushed(push, travel, step, gate, friction, damping, spring, spring_from, low, high, stiffness)


def ram(
    pressure: float, travel: float, step: float, gate: float, drive: float, area: float, friction: float,
    damping: float, spring: float, spring_from: float, load: float, low: float, high: float, stiffness: float,
) -> tuple[float, float]:  # fmt: skip
    """Speed of a single-acting air ram over one step (RAM), m/s, positive as it extends, and its slope by the push.

        push = A (p - 101325) - F0 · drive

    pressure: Pa absolute. area: A, m². load: F0 at drive 1, N, against extending. The others as in `pushed`. Range:
    the other side of the piston at standard sea-level pressure; what less there is at height belongs in the drive.
    Source: textbook.

    20 cm² under 2 bar above ambient beats a spring of 300 N:
    >>> round(ram(301325.0, 0.0, 0.001, 1.0, 1.0, 2e-3, 20.0, 500.0, 6000.0, -0.05, 0.0, 0.0, 0.08, 1e8)[0], 3)
    0.157
    """
    push = area * (pressure - 101325.0) - load * drive
    return pushed(push, travel, step, gate, friction, damping, spring, spring_from, low, high, stiffness)


def ram_content(pressure: float, travel: float, area: float, low: float, dead: float) -> tuple[float, float]:
    """Free air in a ram, m³, and its slope by the pressure with the piston held.

        content = p (dead + A (z - low)) / 101325

    pressure: Pa absolute. travel: z, m. area: A, m². dead: volume left at the low end, m³, above 0. Range:
    isothermal. Source: Boyle's law.

    >>> round(ram_content(202650.0, 0.05, 2e-3, 0.0, 1e-5)[0], 6)
    0.00022
    """
    volume = dead + area * (travel - low)
    return pressure * volume / 101325.0, volume / 101325.0
