"""A second small book, of another aeroplane, on which nothing was tuned: what was found on the Whinchat is tried here.

The sentences and what is wrong in them were written before the comparison was run on them. That first run found the
right paragraph for all, all ten differences and all three turned cautions, with one false alarm (85 °C said as
degrees), which was then mended.
"""

TYPE = """\
name: Sandpiper
says: An invented flying boat of 1941.
marks: [Mk 1, Mk 3]
notice: On the ground only.
"""

BOOK = """\
---
title: The Sandpiper Flying Boat
date: June 1941
---

## 101 Hydraulic accumulator
The accumulator is charged with air to 400 lb./sq. in. before oil is pumped in. A full charge lowers the floats twice.

## 102 Hydraulic pump
The hydraulic pump on the port engine delivers 5 gal./min. at 1,500 r.p.m. A cut-out relieves it when the pressure
reaches 1,100 lb./sq. in. and brings it in again at 850 lb./sq. in.

## 103 Wing floats
The wing floats are lowered by hydraulic jacks in 12 seconds. They must be down and locked before alighting.

> Caution: The float lever must not be moved while the boat is afloat.

## 104 Bilge pump
{on: Mk 3}
An electric bilge pump of 20 amp. stands under the floor of the galley and lifts 15 gallons a minute.

## 105 Hand bilge pump
{on: Mk 1}
A hand bilge pump with a canvas hose is stowed beside the anchor locker.

## 106 Oil cooler
The shutters of the oil cooler are to be open at oil temperatures above 85 °C. and shut below 60 °C.

## 107 Oil tanks
Each engine has an oil tank of 9 gallons in its nacelle. The oil level is read on a dipstick.

## 108 Generator
A generator of 1,000 watts on the starboard engine charges two accumulators of 24 volts and 40 amp. hr.

## 109 Drogues
Two drogues are carried, one at each galley hatch. Stream them before the engines are stopped.

## 110 Flare chute
{on: Mk 3}
The flare chute is in the floor aft of the rear step. Its cover is to be shut at all times on the water.

## 111 Air bottle
An air bottle of 200 cu. in. at 450 lb./sq. in. works the engine starters. It is filled by a compressor on the port
engine.

## 112 Slipping
The boat may be left at moorings for 48 hours without a watch if the wind is below 15 knots.
"""

# (sentence, paragraph that is right)
TRUE = (
    ("Air at four hundred pounds waits in the accumulator before any oil goes in.", "§101"),
    ("A cut-out lets the pump run free once eleven hundred pounds are reached.", "§102"),
    ("Both floats come down in about twelve seconds.", "§103"),
    ("On the Mk 3 you had an electric pump under the galley floor for the bilges.", "§104"),
    ("On the Mk 1 the crew did it by hand, with a canvas hose from beside the anchor.", "§105"),
    ("Above eighty-five degrees the shutters of the cooler must be open.", "§106"),
    ("Nine gallons of oil hang in each nacelle.", "§107"),
    ("The starboard engine turns a generator of a thousand watts.", "§108"),
    ("Before the engines are stopped the drogues go out, one at each hatch.", "§109"),
    ("The starters work on air from a bottle that a compressor fills.", "§111"),
    ("At moorings she might lie two days without a watch, if there was no wind to speak of.", "§112"),
)

# (sentence, what is wrong, paragraph)
PLANTED = (
    ("The accumulator is charged with air to 500 lb./sq. in. before oil is pumped in.", "figure", "§101"),
    ("The hydraulic pump on the port engine delivers 5 pints a minute.", "unit", "§102"),
    ("The floats are lowered by their jacks in twenty seconds.", "figure", "§103"),
    ("On the Mk 1 an electric bilge pump stands under the floor of the galley.", "mark", "§104"),
    ("The Mark Three had a hand bilge pump stowed beside the anchor locker.", "mark", "§105"),
    ("The oil cooler's shutters are to be open above 95 °C.", "figure", "§106"),
    ("Each engine has its own oil tank of nine pints.", "unit", "§107"),
    ("The generator charges two accumulators of 12 volts.", "figure", "§108"),
    ("The flare chute of the Mk 1 is in the floor aft of the rear step.", "mark", "§110"),
    ("The air bottle works the engine starters at 450 in. Hg.", "unit", "§111"),
)

TURNED = (
    ("The wing floats may be down and locked before alighting.", "§103"),
    ("The float lever must be moved while the boat is afloat.", "§103"),
    ("Stream the drogues after the engines are stopped.", "§109"),
)
