"""Which paragraphs of the Whinchat's handbook are right for the sentences of `script.md`: labelled by hand.

Keyed by how a sentence begins. Sentences that no paragraph is behind (what a run shows, what a guide remembers) have
no label; they are in the script because false alarms are counted over all of it. The demo's own scripts gave the first
42; the last 18 were invented, and both were labelled, before any ranking was tried on them.
"""

RIGHT: dict[str, tuple[str, ...]] = {
    "She is a Whinchat": ("§1",),
    "Her petrol is carried": ("§21",),
    "Each of them holds": ("§21",),
    "On the left wall of the front cockpit": ("§22",),
    "Whichever tank you choose": ("§22",),
    "From the cock the petrol": ("§23",),
    "The pump holds about five": ("§24",),
    "And since the tanks lie lower": ("§21",),
    "The engine runs on for a little": ("§24a",),
    "The lamp on the left of the board": ("§25",),
    "That is why the drill says": ("§43",),
    "On the Mk 1 the lamp lights": ("§25", "§26"),
    "On the Mk 2 the gauge has gone": ("§25a",),
    "A lamp, though, must have current": ("§25", "§16"),
    "Standing here with the two switches": ("§25", "§42"),
    "Some Mk 2 aeroplanes had mod 12": ("§25b",),
    "So on those aeroplanes a dark lamp": ("§25b",),
    "On the Mk 1 there was nothing": ("§46",),
    "On the Mk 2 they fitted": ("§27",),
    "Work it, and in less": ("§27",),
    "On the ground it had another use": ("§27",),
    "People ask me whether": ("§47", "§7"),
    "The sparks come from": ("§7",),
    "Nor does she need it": ("§8",),
    "What the battery does": ("§12",),
    "With its switch off": ("§13",),
    "Switch on, and the main bus": ("§13", "§16"),
    "Then the red lamp marked CHARGE": ("§15",),
    "Once the engine is opened up": ("§14", "§15"),
    "Throttle back to idle": ("§15",),
    "In flight you may put": ("§13",),
    "On the Mk 1 you read the petrol": ("§28",),
    "On the Mk 2 there are electrical gauges": ("§29",),
    "Turn off the instrument switch": ("§29",),
    "The horizon and the direction indicator": ("§31",),
    "A valve holds the suction": ("§32",),
    "They want three minutes": ("§34",),
    "Current has nothing to do": ("§31",),
    "Only in a long glide": ("§34",),
    "The flaps are worked by nobody": ("§36", "§37a"),
    "When the jack reaches its end": ("§38a",),
    "Leave the lever at neutral": ("§38",),
    "The throttle is on the left wall": ("§6",),
    "With the lever right back": ("§6",),
    "The Tamar has four cylinders": ("§5",),
    "Whatever you do on the ground": ("§5",),
    "Only the throttle has a twin": ("§3",),
    "The landing light sits": ("§18",),
    "The voltmeter ought to show": ("§17",),
    "A fuse of five amps": ("§16",),
    "The strainer wants washing": ("§23",),
    "The generator cannot give": ("§14",),
    "Under the floor a single jack": ("§36",),
    "Three pints of oil": ("§37",),
    "One double stroke": ("§37a",),
    "On the Mk 1 a wire": ("§39",),
    "On the Mk 2 an oil gauge": ("§40",),
    "You wait for the answer": ("§42",),
    "After refuelling leave": ("§21",),
    "Take the lead off": ("§12",),
}

# A sentence that is right in every word but one, the sort of what is wrong in it, and the paragraphs that it may be
# held against.
PLANTED: tuple[tuple[str, str, tuple[str, ...]], ...] = (
    ("Each tank holds 12 gallons.", "figure", ("§21",)),
    ("The suction relief valve is set at five inches of mercury.", "figure", ("§32",)),
    ("The generator begins to charge when the engine passes 1,200 r.p.m.", "figure", ("§14",)),
    ("The flaps go down fifty degrees.", "figure", ("§36",)),
    ("The flap relief valve at the pump is set at 300 in. Hg.", "unit", ("§38a",)),
    ("The oil reservoir behind the front seat holds 3 gallons.", "unit", ("§37",)),
    ("The engine pump delivers 24 gal./min. at 2,350 r.p.m.", "unit", ("§24",)),
    ("On the Mk 1 a hand pump is fitted on the left wall for use when the engine pump fails.", "mark", ("§27",)),
    ("On the Mk 2 each tank has a float with a rod which stands up in a glass tube.", "mark", ("§28",)),
    ("On the Mk 1 the switch of the fuel lamp is set so that the lamp lights below 3 lb./sq. in.", "mark", ("§25a",)),
)

# Cautions of the book turned round by a small word.
TURNED: tuple[tuple[str, str], ...] = (
    (
        "On aeroplanes with mod 12 the lamp switch may be put at OFF at all times except by order of the instructor.",
        "§25b",
    ),
    ("Take the lead off the battery after working on any part of the wiring.", "§12"),
    ("Change tanks after the one in use is empty.", "§43"),
    ("An engine that has been switched off may not still fire.", "§8"),
    ("The needles at the bottom of the scale are to be taken for empty tanks.", "§29"),
    ("Call 'clear of propeller' and wait for the answer after pressing the knob.", "§42"),
)
