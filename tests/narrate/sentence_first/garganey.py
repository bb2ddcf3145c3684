"""A fourth lot: another invented book, of air, hydraulics and electrics, and thirty sentences over it.

Book and sentences were written, and the sentences sorted into right and wrong, before the comparison was run on them.
That first run called 2 of the 15 wrong ones stated, told 11 as differences and left 2 open; of the 15 right ones it
called 12 stated, left 2 open and told 1 as a difference. (By the rules before the third lot 6 wrong ones were stated
and 4 right ones told.)
"""

TYPE = """\
name: Garganey
maker: Quill and Sons
says: An invented twin-engined coastal aeroplane of 1941.
marks: [Mk 1, Mk 3]
mods:
  mod 7: {fitted to: Mk 3, says: A second compressor.}
standards: [Mk 1, Mk 3, Mk 3 with mod 7]
notice: On the ground only.
"""

BOOK = """\
---
title: The Garganey, Notes for Ground Crews
date: February 1941
amendments:
  A.L. 1: {date: June 1941, says: Lower charging pressure.}
  A.L. 2: {date: November 1941, says: Longer brush life.}
---

## 1 Air system
Compressed air is stored in two bottles behind the pilot's bulkhead. Each bottle is charged to 450 lb. per sq. in. by a
compressor on the starboard engine. On aeroplanes with Mod. 7 a second compressor is fitted on the port engine.

## 1a Air system
{amendment: A.L. 1}
In para. 1 for "450 lb. per sq. in." read "400 lb. per sq. in."

## 2 Wheel brakes
The wheel brakes are worked by air through a reducing valve set at 90 lb. per sq. in. The pressure at the two wheels
must not differ by more than 5 lb. per sq. in. With the parking catch on, the brakes must not be held for more than 12
hours.

## 3 Air gauges
A triple gauge on the left of the instrument panel shows the bottle pressure and the pressure at each brake.

## 4 Guns
{on: Mk 3}
The four guns are fired by air at 250 lb. per sq. in. The firing button must be set to SAFE before the bottles are
charged.

## 5 Hydraulic reservoir
The hydraulic reservoir is in the port nacelle and holds 2¼ gallons of mineral oil. It must be topped up with the
undercarriage lowered and the flaps raised.

## 6 Undercarriage
The undercarriage is raised in 14 seconds and lowered in 9 seconds. The selector lever cannot be moved to UP while the
weight is on the wheels. On Mk 1 the tail wheel is fixed. On Mk 3 the tail wheel retracts with the main wheels.

## 7 Hand pump
The hand pump is on the right of the pilot's seat. If both engine pumps fail, about 60 double strokes lower the
undercarriage. It will not raise the undercarriage.

## 8 Hydraulic relief valves

| Valve | Opens at (lb./sq. in.) | Closes at (lb./sq. in.) |
| --- | --- | --- |
| Flap circuit | 600 | 520 |
| Undercarriage circuit | 1,200 | 1,050 |
| Thermal | 1,500 | 1,400 |

## 9 Generators
A generator of 500 watts is driven by each engine. The voltage regulator is set at 28 volts on Mk 3 and 14 volts on
Mk 1.

## 10 Batteries
No battery is carried in the fuselage on Mk 1. On Mk 3 the battery is stowed below the navigator's floor and may be
removed through the lower hatch.

## 11 Brushes
The generator brushes are renewed every 100 hours. New brushes must be bedded in for 30 minutes before the generator is
put on load.

## 11a Brushes
{amendment: A.L. 2}
In the first line of para. 11 delete "100 hours" and substitute "160 hours".

## 12 Ground supply
The ground supply socket is under the port wing. The battery switch must be off before the plug is inserted. The plug
may be withdrawn only after an engine is running.

## 13 Lamps
The landing lamp is in the port wing and must not be lit for more than 3 minutes without an airspeed of 80 m.p.h. The
upper identification lamp is white; the lower lamps are red, green and amber.

## 14 Oil temperature
Oil inlet temperature must not fall below 40 deg. C. before the engine is run up. The maximum is 85 deg. C. in the
climb.
"""

RIGHT = (
    "Each air bottle is charged to four hundred pounds to the square inch.",
    "On the Mk 3 with mod 7 there is a second compressor on the port engine.",
    "The pressures at the two wheels may not differ by more than five pounds.",
    "The brakes are worked by air through a reducing valve set at ninety pounds.",
    "On the Mk 3 four guns are fired by air at 250 p.s.i.",
    "The hydraulic reservoir in the port nacelle holds two and a quarter gallons.",
    "It takes fourteen seconds to raise the undercarriage and nine to lower it.",
    "The Mk 1 has a fixed tail wheel.",
    "The hand pump will not raise the undercarriage.",
    "The relief valve of the flap circuit opens at 600 pounds per square inch.",
    "The Mk 1 has its voltage regulator set at 14 volts.",
    "The Mk 1 has no battery in the fuselage.",
    "Generator brushes are renewed every hundred and sixty hours.",
    "The plug must not be inserted until the battery switch is off.",
    "In the climb the oil inlet temperature has a maximum of 85 degrees centigrade.",
)

WRONG = (
    "Each air bottle is charged to 450 pounds to the square inch.",
    "On the Mk 1 a second compressor is fitted on the port engine.",
    "The compressor is on the port engine.",
    "There are three air bottles behind the pilot's bulkhead.",
    "With the parking catch off, the brakes must not be held for more than 12 hours.",
    "The firing button must be set to SAFE after the bottles are charged.",
    "The reservoir must be topped up with the undercarriage raised and the flaps lowered.",
    "The undercarriage is raised in 9 seconds.",
    "The tail wheel retracts on both marks.",
    "The undercarriage relief valve closes at 1,200 pounds per square inch.",
    "The Mk 3 has no battery in the fuselage.",
    "The voltage regulator of the Mk 3 is set at 14 volts.",
    "The landing lamp must not be lit for more than 3 minutes with an airspeed of 80 m.p.h.",
    "The upper identification lamp is red.",
    "The plug may be withdrawn only before an engine is running.",
)

# A second lot over the same book, written after the first had been mended and before it was run: of the wrong ones none
# was called stated, 9 were told and 6 left open; of the right ones 9 were stated and 1 was told as a difference.
RIGHT_LATER = (
    "The wheel brakes work on air at ninety pounds per square inch.",
    "On the Mk 1 the tail wheel does not retract.",
    "About sixty double strokes of the hand pump lower the undercarriage if both engine pumps fail.",
    "The thermal relief valve closes at 1,400 pounds per square inch.",
    "On the Mk 3 the battery may be removed through the lower hatch.",
    "A 500-watt generator is driven by each engine.",
    "New brushes must be bedded in for half an hour before the generator is put on load.",
    "The ground supply socket is under the port wing.",
    "The selector lever cannot be moved to UP while the weight is on the wheels.",
    "Never charge the bottles before the firing button is set to SAFE on the Mk 3.",
)

WRONG_LATER = (
    "The hand pump will raise the undercarriage.",
    "The selector lever can be moved to UP while the weight is on the wheels.",
    "The ground supply socket is under the starboard wing.",
    "The oil inlet temperature must not fall below 85 degrees centigrade before the engine is run up.",
    "The thermal relief valve opens at 1,400 pounds per square inch.",
    "On the Mk 3 the battery may be removed through the upper hatch.",
    "A generator of 500 watts is driven by the port engine.",
    "The lower lamps are red, green and white.",
    "The hydraulic reservoir is in the port nacelle and holds 2¼ gallons of castor oil.",
    "The flaps are lowered in 9 seconds.",
    "The plug must be inserted before the battery switch is off.",
    "The triple gauge shows the reservoir pressure.",
    "Each of the two guns is fired by air at 250 lb. per sq. in. on the Mk 3.",
    "On the Mk 3 the tail wheel is fixed.",
    "The main wheels retract with the tail wheel on the Mk 1.",
)
