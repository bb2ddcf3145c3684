"""The codes of the room(s): machine."""

from cutaway.problems.entry import Entry

# A small fuel system of the sample folder, with two indicators of its flaps.
_INDICATORS = """\
system: Fuel
source: hb
parts:
  fuel tank: {kind: tank, capacity: 20 gal, cite: §1}
  fuel cock: {kind: cock, cite: §2}
  flap jack: {kind: jack, area: 1 sq in, stroke: 6 in}
  flaps: {kind: flaps, moved by: flap jack, full angle: 40 degrees}
  port indicator: {kind: position indicator, shows: <this>}
  starboard indicator: {kind: position indicator, shows: <that>}
lines:
  - fuel tank > fuel cock
"""

ENTRIES: dict[str, Entry] = {
    "M101": Entry(
        "warning",
        "two levels at one joint",
        why="Two tanks, bottles or batteries with nothing between them share one level from the first moment, so they "
        "cannot begin with different ones.",
        wrong="Two tanks are joined by a plain line, and a situation starts one full and the other empty.",
        right="A cock or a non-return valve stands between them, or both start alike.",
        tested_by="tests/machine/test_kernel.py",
    ),
    "M111": Entry(
        "warning",
        "parts joined to no supply",
        why="Pipes or wires lead from part to part, but none of them to a tank, a bottle, a battery or a generator, so "
        "nothing can ever flow.",
        wrong="A switch and a lamp are joined to each other and to no battery.",
        right="A line leads from the battery to the switch.",
        tested_by="tests/machine/test_loose_ends.py",
    ),
    "M112": Entry(
        "warning",
        "a pump with nothing to draw",
        why="A pump moves what its inlet gets. No line leads from a tank to this one's inlet.",
        wrong="A hand pump's outlet is joined to the carburettor and its inlet to nothing.",
        right="A line leads from a tank through the pump.",
        tested_by="tests/machine/test_loose_ends.py",
    ),
    "M113": Entry(
        "warning",
        "a control that does nothing",
        why="No state, reading or rule hangs on the control, or the part is joined on one side only: as a rule a line "
        "or a name was forgotten.",
        wrong="A switch is joined to the bus on one side and to nothing on the other.",
        right="A line leads from the switch to what it feeds.",
        tested_by="tests/machine/test_loose_ends.py",
    ),
    "M114": Entry(
        "warning",
        "two figures that defeat each other",
        why="A cut-out above the setting of the relief valve beside it never lets its pump off; a lamp set above the "
        "pump's pressure never goes out. As a rule one of the two figures is for another mark, or was copied wrongly.",
        wrong="A cut-out is set at 1000 lb/sq in, and the relief valve that is joined to it at 850 lb/sq in.",
        right="The cut-out is set at 850 lb/sq in, and the relief valve at 1000 lb/sq in.",
        tested_by="tests/machine/test_out_of_reach.py",
    ),
    "M203": Entry(
        "error",
        "parts that wait for each other",
        "Each of the parts would need the other's answer at the same instant, so neither can be worked out; what they "
        "show is left at nothing.",
        _INDICATORS.replace("<this>", "starboard indicator").replace("<that>", "port indicator"),
        _INDICATORS.replace("<this>", "flaps").replace("<that>", "flaps"),
        "systems/fuel.yaml",
    ),
}
