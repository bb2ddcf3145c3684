"""Sentences over the Whinchat's book with its marks, written before the comparison was run on them.

WRONG: what the book does not support, so that none may be called stated. RIGHT: what it does say, so that none may be
told as a difference. The sentences of the first session were others; what these showed was mended in general ways. One
was labelled wrong at first and is right by §24, whatever §45 prints for the Mk 1 only; it stands last.
"""

# (sentence, the paragraphs that are against it)
WRONG: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("The Mk 2 has a fuel pressure gauge beside the lamp.", ("§2", "§25a", "§26")),
    ("On the Mk 2 the lamp comes on when the pressure falls below two pounds.", ("§25", "§25a")),
    ("There is no hand pump for petrol on the Mk 2.", ("§2", "§27")),
    ("The Mk 3 carries electrical contents gauges.", ()),
    ("On the Mk 1 a voltmeter on the instrument board should read fourteen volts in flight.", ("§17",)),
    ("The Mk 1 has an oil pressure gauge and a hand pump.", ("§2", "§27", "§40")),
    ("On the Mk 1 the flap indicator is fed from the instrument bus bar.", ("§16", "§40")),
    ("On the Mk 1, if the engine pump fails, work the hand pump at once.", ("§46", "§27")),
    ("With mod 12 the lamp still gives its warning when the lamp switch is off.", ("§25b",)),
    ("On the Mk 2 you read the petrol from the floats in their glass tubes.", ("§28",)),
    ("The tank selector has a position in which it draws on both tanks.", ("§22",)),
    ("Every Mk 2 carries mod 12.", ("§2",)),
)

RIGHT: tuple[str, ...] = (
    "The Mk 1 has a fuel pressure gauge.",
    "The Mk 2 has no fuel pressure gauge.",
    "On the Mk 1 the lamp lights below two pounds.",
    "On the Mk 2 the fuel lamp lights below three pounds.",
    "The Mk 2 has a hand pump, a voltmeter and electrical contents gauges.",
    "There is no second pump on the Mk 1.",
    "On both marks the fuel lamp will be dead when the current fails.",
    "The flap selector is a lever with 3 positions.",
    "On the Mk 2 the fuel pressure in flight should be 5 lb./sq. in.",
)

# A second lot, written after the first had been mended and before it was run on them: of the wrong ones four were
# called stated then, and of the right ones the two first were told as differences.
WRONG_LATER: tuple[str, ...] = (
    "On the Mk 1 the lamp lights at three pounds and on the Mk 2 at two pounds.",
    "The fuel lamp lights below three pounds.",
    "On the Mk 2 the fuel pressure gauge stands beside the lamp.",
    "On the Mk 1 the voltmeter reads fourteen volts.",
    "On the Mk 2 the flap pointer is worked by a wire from the flaps.",
    "The generator gives more than 20 amp.",
    "The landing light is fed through the instrument switch.",
    "The instruments are worked by current.",
    "Petrol can run back through the hand pump when the handle is still.",
    "Petrol will run to the engine by its own weight.",
    "The engine will not start with the battery taken out.",
    "The tank selector draws on both tanks.",
    "The gauge of the Mk 1 needs current.",
    "The lamp switch is to be ON at all times except by order of the instructor.",
)

RIGHT_LATER: tuple[str, ...] = (
    "On the Mk 2 the lamp lights at three pounds; on the Mk 1 at two.",
    "On the Mk 1 the lamp lights at two pounds and on the Mk 2 at three pounds.",
    "The generator gives not more than 20 amp.",
    "Nothing that keeps the aeroplane in the air depends on the battery.",
    "The gauge of the Mk 1 needs no current.",
    "On a Mk 2 with mod 12 a switch stands beside the lamp.",
)
