"""A third lot: the book of an invented biplane and what a user who had not seen the project wrote over it.

WRONG: what the book does not support, so that none may be called stated. RIGHT: what it does say, so that none may be
told as a difference. By the rules as they were, 33 of 107 wrong ones were called stated, and 12 of the 36 right
ones told as differences. All of it is mended now, and measures nothing any more.
"""

TYPE = """\
name: Dabchick
maker: Marlow Aircraft Works
says: An invented two-seat biplane of 1936.
marks: [Mk 1, Mk 2]
mods:
  mod 12: {fitted to: Mk 2, says: Tail wheel in place of the skid.}
standards: [Mk 1, Mk 2, Mk 2 with mod 12]
notice: Interpretation only.
"""

BOOK = """\
---
title: 'Dabchick handbook'
date: 'May 1936'
amendments:
  A.L. 1: {date: August 1937, says: New oil pressure on Mk 2.}
  A.L. 2: {date: March 1938, says: Lower diving speed.}
rights: ''
---

## 0 Before the first paragraph
{page: 1}

THE MARLOW DABCHICK MK. I AND II PILOT'S AND RIGGER'S HANDBOOK First edition, May 1936. Marlow Aircraft Works.

## 1 General
{page: 1}

The Dabchick is a two-seat biplane for training and communication. It is powered by one Severn III engine of 130
b.h.p. at 2,100 r.p.m.

## 2 Petrol tank (Mk. I)
{on: Mk 1, page: 1}

One tank of 22 gallons is fitted in the centre section of the upper wing. Petrol reaches the carburettor by gravity.

## 3 Petrol tanks (Mk. II)
{on: Mk 2, page: 1}

Two tanks, each of 15 gallons, are fitted in the lower wing roots. An engine-driven pump delivers petrol at a pressure
of 2½ lb. per sq. in.

## 4 Petrol cock
{page: 1}

The petrol cock is on the left side of the front cockpit. It has the positions off, on and reserve. The cock must be
turned off before the engine is primed.

## 5 Reserve
{page: 1}

With the cock at reserve the last 3 gallons are available. This is enough for about 20 minutes at cruising speed.

## 6 Petrol gauge
{page: 1}

A float gauge is fitted below the tank on Mk. I. On Mk. II an electrical gauge is fitted on the dashboard; it reads
only while the gauge button is pressed.

## 7 Hand pump (Mk. II)
{on: Mk 2, page: 1}

A hand pump is fitted to the right of the pilot's seat. It must be used if the pressure falls below 1½ lb. per sq. in.
It may be used to prime the engine.

## 8 Oil tank
{page: 1}

The oil tank holds 3½ gallons. It must not be filled with more than 3 gallons, so as to leave an air space.

## 9 Oil pressure
{page: 1}

Normal oil pressure is 45 lb. per sq. in. The engine must be stopped if the pressure falls below 30 lb. per sq. in.

## 9a Oil pressure (Mk. II)
{on: Mk 2, page: 1, amendment: A.L. 1}

A.L. 1. For paragraph 9: normal oil pressure is 60 lb. per sq. in.

## 10 Oil temperature
{page: 1}

The oil inlet temperature must not exceed 80 deg. C. Before take-off it must be at least 15 deg. C.

## 11 Starting
{page: 1}

The engine is started by swinging the airscrew. Chocks must be in position before the airscrew is swung. The pilot may
wave the chocks away only after the oil pressure has risen.

## 12 Warming up
{page: 1}

After starting, the engine is run at 800 r.p.m. for 4 minutes. It must not be opened up before the oil pressure is
steady.

## 13 Magnetos
{page: 1}

Two magnetos are fitted. Each is tested at 1,600 r.p.m.; the drop must not be more than 80 r.p.m.

## 14 Airspeed
{page: 1}

The speed in a dive must not exceed 170 m.p.h. The aeroplane stalls at 42 m.p.h.

## 14a Airspeed
{page: 1, amendment: A.L. 2}

A.L. 2. In para. 14 delete "170 m.p.h." and substitute "155 m.p.h."

## 15 Climb
{page: 1}

The best climbing speed is 65 m.p.h. The initial rate of climb is 700 feet per minute.

## 16 Slats (Mk. II)
{on: Mk 2, page: 1}

Automatic slats are fitted to the upper wing. They may be locked by a lever in the front cockpit. The slats must be
locked before aerobatics.

## 17 Brakes
{page: 1}

No wheel brakes are fitted on Mk. I. On Mk. II the brakes are worked by air from a bottle at 200 lb. per sq. in.

## 18 Tyres
{page: 1}

The tyres are inflated to 18 lb. per sq. in.

## 19 Tail wheel
{page: 1}

A tail skid is fitted on Mk. I. On Mk. II with mod. 12 a tail wheel replaces the skid.

## 20 Electrical system (Mk. II)
{on: Mk 2, page: 1}

A 12-volt accumulator of 25 ampere-hours is fitted behind the rear seat. It is charged by a windmill generator.

## 21 Navigation lamps (Mk. II)
{on: Mk 2, page: 1}

The navigation lamps take 1½ amperes each. They must not be left on for more than 2 hours without the engine running.

## 22 Fire extinguisher
{page: 1}

A hand fire extinguisher is clipped to the back of the front seat. It may be reached from both cockpits.

## 23 Solo flying
{page: 1}

When flown solo, the pilot must sit in the rear cockpit. Ballast is not carried.

## 24 Weights
{page: 1}

The weight empty is 1,080 lb. The maximum permitted weight is 1,700 lb. on Mk. I and 1,820 lb. on Mk. II.

## 25 Picketing
{page: 1}

The aeroplane is picketed at the wing rings and the tail. The controls must be locked after the engine covers are on.

## 26 Amendments
{page: 1}

A.L. 1, August 1937: paragraph 9a added. A.L. 2, March 1938: paragraph 14a added.

"""

RIGGING = """\
---
title: 'rigging'
date: ''
rights: ''
---

## 1 rigging
{page: 1}

| Item | Mk. I | Mk. II |
| --- | --- | --- |
| Incidence upper wing | 3 degrees | 2.5 degrees |
| Dihedral lower wing | 3.5 degrees | 4 degrees |
| Stagger | 18 in | 18 in |
| Flying wire tension | 900 lb | 1100 lb |
| Aileron travel up | 22 degrees | 24 degrees |

"""

WRONG: tuple[str, ...] = (
    "Its Severn III engine gives 140 horsepower at 2,100 revs.",
    "On the Mk 1 one tank of 22 litres is fitted in the centre section.",
    "On the Mk 2 petrol reaches the carburettor by gravity.",
    "The Mk 1 has two tanks of 15 gallons each in the lower wing roots.",
    "On the Mk 2 the tanks hold 15 gallons altogether.",
    "The pump delivers petrol at two and a half pounds on the Mk 1.",
    "The petrol cock is on the right side of the front cockpit.",
    "The cock may be turned off before the engine is primed.",
    "The cock must be turned off after the engine is primed.",
    "The cock must be turned on before the engine is primed.",
    "With the cock at reserve the last 5 gallons are available.",
    "The reserve is enough for about twenty minutes at full throttle.",
    "On the Mk 1 an electrical gauge is fitted on the dashboard.",
    "On the Mk 2 the gauge reads always, even while the gauge button is not pressed.",
    "The hand pump is to the left of the pilot's seat.",
    "The hand pump may be used if the pressure falls below one and a half pounds.",
    "The hand pump must be used to prime the engine.",
    "The hand pump must be used if the pressure rises above 1½ lb. per sq. in.",
    "The oil tank may be filled with three and a half gallons.",
    "Normal oil pressure on the Mk 2 is 45 pounds per square inch.",
    "Normal oil pressure on the Mk 1 is 60 pounds per square inch.",
    "The engine must be stopped if the oil pressure falls below 45 pounds per square inch.",
    "The oil inlet temperature must exceed 80 degrees centigrade.",
    "The oil inlet temperature must not exceed 80 degrees Fahrenheit.",
    "Before take-off the oil must be at most 15 degrees centigrade.",
    "After take-off the oil must be at least 15 degrees centigrade.",
    "Chocks must be in position after the airscrew is swung.",
    "The pilot must wave the chocks away before the oil pressure has risen.",
    "The engine is run at 800 revs for 4 hours after starting.",
    "The engine is run at 4 revs for 800 minutes.",
    "Each magneto is tested at 1,600 revs and the drop must be more than 80 revs.",
    "Each magneto is tested at 80 revs; the drop must not be more than 1,600 revs.",
    "The speed in a dive must not exceed 170 miles an hour.",
    "The aeroplane stalls at 65 miles an hour.",
    "The aeroplane stalls at 42 knots.",
    "The best climbing speed is 65 feet per minute.",
    "Automatic slats are fitted to the lower wing on the Mk 2.",
    "The slats may be locked before aerobatics.",
    "The slats must be unlocked before aerobatics.",
    "Wheel brakes are fitted on the Mk 1.",
    "The Mk 2 has no wheel brakes.",
    "On the Mk 2 the brakes are worked by oil from a bottle at 200 pounds per square inch.",
    "The Mk 2 without mod 12 has a tail wheel.",
    "On the Mk 3 the brakes are worked by air.",
    "With mod 14 the Mk 2 has a tail wheel.",
    "The accumulator is charged by an engine-driven generator.",
    "The accumulator is a 24-volt one behind the rear seat.",
    "The lamps must be left on for more than two hours without the engine running.",
    "The navigation lamps take one and a half volts each.",
    "When flown solo, the pilot must sit in the front cockpit.",
    "When flown solo, the pilot may sit in the rear cockpit.",
    "When flown solo, ballast is carried.",
    "The maximum permitted weight is 1,820 pounds on the Mk 1.",
    "The weight empty is 1,700 pounds.",
    "The controls must be locked before the engine covers are on.",
    "The upper wing has an incidence of 2.5 degrees on the Mk 1.",
    "The flying wire tension is 900 pounds on the Mk 2.",
    "The dihedral of the lower wing is 18 inches.",
    "The stagger is 18 degrees.",
    "The fire extinguisher may not be reached from the rear cockpit.",
    "The fire extinguisher is clipped to the front of the back seat.",
    "The Mk 1 has a tail wheel.",
    "The Mk 2 has no navigation lamps.",
    "The Mk 1 has slats.",
    "The Mk 1 has a hand pump.",
    "The Mk 2 has a float gauge.",
    "Every Dabchick has slats.",
    "There are no wheel brakes on the Mk 2.",
    "On the Mk 2 no wheel brakes are fitted.",
    "The lamps must not be left on for less than two hours without the engine running.",
    "The navigation lamps must not be left on for more than two hours with the engine running.",
    "Three magnetos are fitted.",
    "The tanks of the Mk 2 are in the upper wing roots.",
    "The slats are locked from the rear cockpit.",
    "The slats are locked by a pedal in the front cockpit.",
    "The tyres are deflated to 18 pounds.",
    "The engine is stopped by swinging the airscrew.",
    "The initial rate of descent is 700 feet per minute.",
    "The engine must be opened up before the oil pressure is steady.",
    "Two crew cannot reach the fire extinguisher.",
    "The minimum permitted weight is 1,700 pounds on the Mk 1.",
    "The Mk 1 weighs at most 1,820 pounds and the Mk 2 at most 1,700 pounds.",
    "The first 3 gallons are available at reserve.",
    "The Dabchick is a single-seat monoplane for training.",
    "The Dabchick is a three-seat biplane.",
    "The Dabchick is powered by two Severn III engines.",
    "The Dabchick is powered by one Severn II engine of 130 b.h.p.",
    "The brakes of the Mk 2 are worked by cables.",
    "The tail skid is fitted on all marks.",
    "The accumulator is under the front seat.",
    "The oil tank must be filled with at least 3 gallons.",
    "Never put the chocks in position before the airscrew is swung.",
    "You need not stop the engine if the oil pressure falls below 30 lb per sq in.",
    "The controls are unlocked after the engine covers are on.",
    "The engine covers are put on after the controls are locked.",
    "Ballast is carried only when flown solo.",
    "The aileron travels down 24 degrees on the Mk 2.",
    "The landing wire tension is 1,100 pounds on the Mk 2.",
    "The incidence of the lower wing is 3 degrees on the Mk 1.",
    "The stagger is eighteen inches on the Mk 1 only.",
    "Petrol reaches the carburettor by gravity.",
    "The slats on the Mk 2 lock by hydraulic pressure.",
    "The Mk 1 has a tail skid, the Mk 2 too.",
    "The Mk 2 has one tank of 15 gallons.",
    "The Mk 1 has three tanks of 22 gallons.",
    "The accumulator has a capacity of 12 ampere-hours.",
    "Two navigation lamps take one ampere.",
    "On the Mk 2 the navigation lamps must be left on without the engine running.",
)

RIGHT: tuple[str, ...] = (
    "The Dabchick is a two-seat biplane for training and communication.",
    "Its Severn III engine gives 130 horsepower at 2,100 revolutions per minute.",
    "On the Mk 1 petrol reaches the carburettor by gravity.",
    "The Mk 2 has two tanks, each of 15 gallons, in the lower wing roots.",
    "On the Mk 2 the tanks hold 30 gallons altogether.",
    "The pump delivers petrol at two and a half pounds on the Mk 2.",
    "The cock must be off before the engine is primed.",
    "The reserve of three gallons is enough for about twenty minutes at cruising speed.",
    "On the Mk 2 the gauge reads only while its button is pressed.",
    "The oil tank holds three and a half gallons but must not be filled with more than three.",
    "Normal oil pressure on the Mk 2 is 60 pounds per square inch.",
    "Each magneto is tested at 1,600 revs and the drop must not be more than 80.",
    "The speed in a dive must not exceed 155 miles an hour.",
    "The Mk 1 has no wheel brakes.",
    "With mod 12 the Mk 2 has a tail wheel in place of the skid.",
    "No ballast is carried when she is flown solo.",
    "The maximum permitted weight is 1,820 pounds on the Mk 2.",
    "The controls must be locked once the engine covers are on.",
    "The upper wing has an incidence of three degrees on the Mk 1.",
    "The fire extinguisher may be reached from both cockpits.",
    "The extinguisher is clipped to the back of the front seat.",
    "Never swing the airscrew before the chocks are in position.",
    "The Mk 2 has wheel brakes.",
    "The Mk 2 with mod 12 has no tail skid.",
    "The stagger is 18 inches on the Mk 1 and on the Mk 2.",
    "The stagger is eighteen inches on both marks.",
    "The oil inlet temperature must not exceed 80 deg. C.",
    "The maximum permitted weight is 1,700 pounds on the Mk 1.",
    "The brakes of the Mk 2 are worked by air from a bottle at 200 lb per sq in.",
    "The oil pressure must be steady before the engine is opened up.",
    "The drop at 1,600 revs must not exceed eighty revs.",
    "The diving speed must not exceed 155 m.p.h.",
    "The engine must be stopped if the oil pressure falls below 30 lb per sq in.",
    "The Severn engine gives 130 brake horsepower.",
    "The empty weight is 1,080 pounds.",
    "The aileron travels up 24 degrees on the Mk 2.",
)
