"""From what a handbook prints to what the element families take: conductances, heads, slopes and stiffnesses.

Every law here is a pure function of SI floats and calls `math` and nothing else.
"""

import math


def flow_conductance(flow: float, drop: float) -> float:
    """Conductance of an orifice, cock or valve for liquid, m³/s per √Pa.

        conductance = flow / √drop

    flow: volume flow at the stated drop, m³/s. drop: pressure lost at that flow, Pa. Both above 0.
    Range: turbulent flow, where drop goes with the square of flow. Source: orifice relation.

    A cock that passes 0.1 l/s at 400 Pa:
    >>> flow_conductance(1.0e-4, 400.0)
    5e-06
    """
    return flow / math.sqrt(drop)


def orifice_conductance(area: float, density: float, coefficient: float) -> float:
    """Conductance of a sharp hole for liquid, m³/s per √Pa.

        conductance = coefficient · area · √(2 / density)

    area: of the hole, m². density: of the liquid, kg/m³. coefficient: of discharge, 0.6 for a sharp edge.
    Range: turbulent flow. Source: Torricelli's theorem with a coefficient of discharge.

    A hole of 19.63 mm² (5 mm across) in petrol of 720 kg/m³:
    >>> round(orifice_conductance(19.63e-6, 720.0, 0.6) * 1e7, 3)
    6.208
    """
    return coefficient * area * math.sqrt(2.0 / density)


def circle_area(diameter: float) -> float:
    """Area of a circle, m².

        area = π · diameter² / 4

    diameter: m, above 0.
    Range: any. Source: geometry.

    >>> round(circle_area(0.005) * 1e6, 2)
    19.63
    """
    return math.pi * diameter * diameter / 4.0


def air_conductance(flow: float, pressure: float, suction: float) -> float:
    """Conductance of an air passage, m³/s of free air per Pa.

        conductance = flow / √(pressure² − (pressure − suction)²)

    flow: free air at the stated suction, m³/s. pressure: upstream, Pa absolute. suction: Pa below that, less than it.
    Range: not choked. Source: the nozzle relation with a critical ratio of 0 (ISO 6358 form).

    0.7 l/s of free air with 12 kPa of suction at sea level:
    >>> round(air_conductance(7.0e-4, 101325.0, 12000.0) * 1e8, 3)
    1.464
    """
    return flow / math.sqrt(suction * (2.0 * pressure - suction))


def displacement_conductance(displacement: float, pressure: float) -> float:
    """What a vacuum pump moves for each Pa (absolute) at its inlet, m³/s of free air per Pa.

        conductance = displacement / pressure

    displacement: swept volume a second at rated speed, m³/s. pressure: of free air, Pa absolute.
    Range: pump without slip; its swept volume holds less free air the lower its inlet pressure. Source: Boyle's law.

    >>> round(displacement_conductance(3.0e-3, 101325.0) * 1e8, 3)
    2.961
    """
    return displacement / pressure


def static_head(density: float, height: float) -> float:
    """Pressure under a column of liquid, Pa.

        pressure = density · g · height

    density: kg/m³. height: m.
    Range: any. Source: hydrostatics, g 9.80665 m/s².

    Half a metre of petrol:
    >>> round(static_head(720.0, 0.5), 1)
    3530.4
    """
    return density * 9.80665 * height


def vessel_capacitance(capacity: float, head: float, toe: float, foot: float) -> float:
    """Content of a vessel for each unit of head, so that it holds `capacity` at `head`.

        capacitance = (capacity − foot · head) / (head − toe / 2)

    capacity: m³ (or C for a battery). head: at full, Pa (or V). toe: width over which the head collapses near empty,
    in the unit of head. foot: content for each unit of head below empty. head above toe, capacity above foot · head.
    Range: straight-sided vessel. Source: the content law of the family TANK, solved for its slope.

    50 l at 3 530 Pa with a toe of 70 Pa:
    >>> round(vessel_capacitance(0.05, 3530.0, 70.0, 1.0e-9) * 1e6, 3)
    14.305
    """
    return (capacity - foot * head) / (head - 0.5 * toe)


def stroke_flow(stroke: float, rate: float) -> float:
    """What a reciprocating pump delivers, m³/s.

        flow = stroke · rate

    stroke: volume of one double stroke, m³. rate: double strokes a second, 1/s.
    Range: no slip. Source: definition.

    20 cc, 40 strokes a minute, in l/min:
    >>> round(stroke_flow(20.0e-6, 40.0 / 60.0) * 60e3, 3)
    0.8
    """
    return stroke * rate


def slope_to_stall(flow: float, stall: float, share: float) -> float:
    """How fast a pump's delivery falls towards its stall, m³/s per Pa.

        slope = flow / (share · stall)

    flow: full delivery, m³/s. stall: pressure rise at which nothing is delivered, Pa. share: the last part of that
    rise over which the delivery falls, 0 to 1.
    Range: share above 0, at most 1. Source: definition.

    0.8 l/min that begins to fall at 80 % of 30 bar:
    >>> round(slope_to_stall(1.3333e-5, 30.0e5, 0.2) * 1e11, 3)
    2.222
    """
    return flow / (share * stall)


def load_conductance(current: float, voltage: float) -> float:
    """Conductance of an electrical load, S.

        conductance = current / voltage

    current: A at the stated voltage, V. Both above 0.
    Range: a load whose resistance does not change. Source: Ohm's law.

    >>> round(load_conductance(5.0, 12.0), 4)
    0.4167
    """
    return current / voltage


def filament_conductance(current: float, voltage: float) -> float:
    """What a hot filament passes, A per √V.

        conductance = current / √voltage

    current: A at the stated voltage, V. Both above 0.
    Range: a glowing tungsten filament, whose current goes about with the square root of its voltage.
    Source: exponent 0.5 to 0.6, lighting practice.

    >>> round(filament_conductance(0.1, 12.0), 5)
    0.02887
    """
    return current / math.sqrt(voltage)


def battery_voltage(share: float, nominal: float) -> float:
    """Voltage of a lead battery that gives no current, V.

        voltage = nominal · (0.875 + 0.175 · share)

    share: of its charge, 0 to 1. nominal: V, 12 or 24.
    Range: share 0 to 1. Source: engineering judgement; 1.75 V a cell empty and 2.1 V full.

    >>> round(battery_voltage(1.0, 12.0), 2), round(battery_voltage(0.0, 12.0), 2)
    (12.6, 10.5)
    """
    return nominal * (0.875 + 0.175 * share)


def stop_stiffness(area: float, pressure: float, give: float) -> float:
    """Stiffness of a jack's end stop, N/m.

        stiffness = area · pressure / give

    area: of the piston, m². pressure: on it, Pa. give: how far the stop may yield under it, m.
    Range: any. Source: Hooke's law.

    >>> round(stop_stiffness(8.0e-4, 1.0e7, 2.0e-4))
    40000000
    """
    return area * pressure / give
