"""The codes of the room: quantities. Q101 on: a figure and its unit. Q120 on: which standards."""

from cutaway.problems.entry import Entry, Severity


def _fuel(capacity: str = "20 gal", on: str = "Mk 2") -> str:
    """The fuel system of the sample folder with one figure, or one `on`, as a user might write it."""
    return f"""\
system: Fuel
source: hb

parts:
  fuel tank:
    kind: tank
    capacity: {capacity}
    cite: §1
  fuel cock:
    kind: cock
    cite: §2

lines:
  - {{run: fuel tank > fuel cock, on: {on}}}
"""


def _entry(severity: Severity, title: str, why: str, wrong: str) -> Entry:
    return Entry(severity, title, why, wrong, right=_fuel(), where="systems/fuel.yaml")


ENTRIES: dict[str, Entry] = {
    "Q101": _entry(
        "error",
        "no figure",
        "A quantity is a figure with its unit. Words alone can be compared with nothing.",
        _fuel(capacity="full"),
    ),
    "Q102": _entry(
        "error",
        "two figures",
        "Where one figure is wanted, two cannot both hold. Two ends are joined with 'to'.",
        _fuel(capacity="20 gal 24 gal"),
    ),
    "Q103": _entry(
        "error",
        "no unit",
        "22 gallons and 22 litres are not the same, so a bare figure says nothing.",
        _fuel(capacity="20"),
    ),
    "Q104": _entry(
        "error",
        "unknown unit",
        "A quantity without a known unit can be compared with nothing.",
        _fuel(capacity="20 galons"),
    ),
    "Q105": _entry(
        "error",
        "wrong kind of quantity",
        "The kind of part says what is measured; a pressure cannot stand where a volume is wanted.",
        _fuel(capacity="20 lb/sq in"),
    ),
    "Q106": _entry(
        "error",
        "not a figure",
        "A figure must be a number that can be reckoned with; it is neither endless nor undefined.",
        _fuel(capacity="1e999 gal"),
    ),
    "Q107": _entry(
        "error",
        "range runs backwards",
        "A range is written from its lower to its upper end, so that a slip is noticed.",
        _fuel(capacity="24 to 20 gal"),
    ),
    "Q108": _entry(
        "error",
        "comma in a figure",
        "A comma parts thousands, as in 1,800. Elsewhere it could be a decimal point or a new item.",
        _fuel(capacity="'4,5 gal'"),
    ),
    "Q109": _entry(
        "error",
        "tolerance below nothing",
        "A tolerance is how far the figure may be off on either side, so it has no sign.",
        _fuel(capacity="20 ± -1 gal"),
    ),
    "Q110": _entry(
        "error",
        "words behind a figure",
        "Only 'absolute' or 'gauge' may follow a figure and its unit. What else there is to say belongs to `says`.",
        _fuel(capacity="20 gal when full"),
    ),
    "Q120": _entry(
        "error",
        "no such mark, mod or airframe",
        "What belongs to a mark that the type does not have belongs to nothing.",
        _fuel(on="Mk 3"),
    ),
    "Q121": _entry(
        "error",
        "expression not understood",
        "The standards are named by marks, mods and airframes, joined by to, or, with, without and not.",
        _fuel(on="Mk 2 only"),
    ),
    "Q122": _entry(
        "warning",
        "nothing matches",
        "An `on` that no standard answers to takes its part out of every standard, which is seldom meant.",
        _fuel(on="Mk 1 with mod 12"),
    ),
    "Q123": _entry(
        "error",
        "range of marks runs backwards",
        "A range of marks goes in the order in which type.yaml lists them.",
        _fuel(on="Mk 2 to Mk 1"),
    ),
}
