"""Units that machines mishear, told by what stands beside them: a table, one row a slip."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

_NUMBER = r"(?P<n>[0-9][0-9,.]*|(?:(?:a|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|" + (
    r"fourteen|fifteen|sixteen|seventeen|eighteen|nineteen|twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety|"
    r"hundred|thousand|and)[ -])*?(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|"
    r"fifteen|sixteen|seventeen|eighteen|nineteen|twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety|hundred|"
    r"thousand))"
)
_PER_INCH = r"(?=\s+(?:per|to\s+the|a)\s+square\s+inch)"


@dataclass(frozen=True, slots=True)
class UnitSlip:
    """heard: a pattern, its group `wrong` is what is replaced. right: what stands there instead, with the groups of
    the pattern. near: words of which one must stand in the same caption; none where the pattern says enough. never:
    words of which none may stand there, since with them it is right as it is."""

    heard: re.Pattern[str]
    right: str
    near: frozenset[str]
    because: str
    never: frozenset[str] = frozenset()


def _slip(heard: str, right: str, because: str, near: str = "", never: str = "") -> UnitSlip:
    return UnitSlip(re.compile(heard, re.IGNORECASE), right, frozenset(near.split()), because, frozenset(never.split()))


_CURRENT = "battery generator accumulator current volt volts charge charging lamp supply circuit bus magneto starter"
_SPEED = (
    "speed flew fly flies cruise cruises cruising wind stall stalls land lands knots airspeed climb climbs dive she"
)
_PETROL = "tank tanks petrol fuel oil coolant hold holds contents capacity water pump"
_PRESSURE = (
    "pressure boost lamp lamps light lights lit glows valve relief gauge gauges reads opens lifts blows needle pump "
    "hydraulic accumulator"
)
_MONEY = (
    "cost costs costing price priced prices paid pay pays bought buy sold sell sells worth fee fees wage wages ticket "
    "tickets budget fund funds raised bill bills auction donation donations bid week month year entry admission earned "
    "charge charged savings shop million pence shillings guineas"
)
_AT = (
    r"\b(?:at|below|above|under|over|past|to|of|about|around|near|than|until|reads?|reading|shows?|showing|reached|reaches|"
    r"exceeds?|between|and|or|only)\s+(?:about\s+|around\s+|some\s+|only\s+|just\s+)?"
)
_NO_MORE_MONEY = r"(?![0-9.,]*[0-9]|\s?(?:k|m|million|thousand|hundred)\b)"
_ENDS = (
    r"(?=\s*(?:[.,;:!?]|$)|\s+(?:per|and|or|the|when|while|it|on|in|to|by|with|then|so|if|as|below|above|before|after|"
    r"but|is|for)\b)"
)

SLIPS: tuple[UnitSlip, ...] = (
    _slip(
        r"(?P<wrong>£\s?(?P<n>[0-9][0-9,.]*))" + _PER_INCH, r"\g<n> lb", "pressure is in pounds of weight, not money"
    ),
    _slip(
        r"(?:boost|pressure)\s+(?:of|is|at|to|reads|was|falls\s+to|rises\s+to|below|above)\s+(?P<wrong>£\s?(?P<n>[0-9][0-9,.]*))",
        r"\g<n> lb",
        "a pressure is in pounds of weight, not money",
    ),
    _slip(
        _AT + r"(?P<wrong>[£$]\s?(?P<n>[0-9]+(?:[.,][0-9]+)?))" + _NO_MORE_MONEY,
        r"\g<n> lb",
        "a pressure is spoken of, not money",
        _PRESSURE,
        _MONEY,
    ),
    _slip(
        _AT + _NUMBER + r"\s+(?P<wrong>quid|dollars?|bucks?)\b",
        "pounds",
        "a pressure is spoken of, and no money",
        _PRESSURE,
        _MONEY,
    ),
    _slip(
        _AT + _NUMBER + r"\s+(?P<wrong>pound)\b" + _ENDS,
        "pounds",
        "a pressure is spoken of, in pounds",
        _PRESSURE,
        _MONEY,
    ),
    _slip(_NUMBER + r"\s+(?P<wrong>nots|notts|naughts|nats|knocks)\b", "knots", "a figure stands before it"),
    _slip(_NUMBER + r"\s+(?P<wrong>nuts|notes|nights|not)\b", "knots", "a speed is spoken of", _SPEED),
    _slip(_NUMBER + r"\s+(?P<wrong>degrees?\s+(?:sea|see|sees|seas))\b", "degrees C", "a figure stands before it"),
    _slip(_NUMBER + r"\s+(?P<wrong>gallants?|gallance|gal ons)\b", "gallons", "a figure stands before it"),
    _slip(_NUMBER + r"\s+(?P<wrong>galleons?|gallon's)\b", "gallons", "a quantity of liquid is spoken of", _PETROL),
    _slip(_NUMBER + r"\s+(?P<wrong>vaults?|vaulted)\b", "volts", "a figure stands before it"),
    _slip(_NUMBER + r"\s+(?P<wrong>votes|bolts|colts|faults)\b", "volts", "current is spoken of", _CURRENT),
    _slip(_NUMBER + r"\s+(?P<wrong>hams|aunts|lamps|ants|imps)\b", "amps", "current is spoken of", _CURRENT),
    _slip(
        _NUMBER + r"\s+(?P<wrong>(?:our|are|hour|r)\s+p\.?\s?m\.?|rpn|rpms|r\s?p\s?n|rp\s?m|arpm)(?![a-z])",
        "r.p.m.",
        "a figure stands before it",
    ),
    _slip(_NUMBER + r"\s+(?P<wrong>pants|pines|pint's)\b", "pints", "a quantity of liquid is spoken of", _PETROL),
    _slip(
        r"(?P<wrong>inches\s+of\s+(?:mercurial|merkury|mercy))\b", "inches of mercury", "inches of it measure suction"
    ),
    _slip(
        r"(?:pounds|lbs?\.?)\s+(?P<wrong>(?:per|a|for|purse)\s+(?:square|squared|squire|scare)\s+(?:itch|in|inches))\b",
        "per square inch",
        "pounds stand before it",
    ),
)


@dataclass(frozen=True, slots=True)
class FoundSlip:
    """A slip in a text: from where to where, and what is right."""

    start: int
    end: int
    right: str
    because: str


def slips_in(text: str) -> Iterator[FoundSlip]:
    """The slips of a caption's text.

    >>> [(s.right, s.because) for s in slips_in("a boost of £4 and a hull for £900")]
    [('4 lb', 'a pressure is in pounds of weight, not money')]
    """
    words = frozenset(re.findall(r"[a-z]+", text.lower()))
    seen: set[tuple[int, int]] = set()
    for slip in SLIPS:
        for found in slip.heard.finditer(text):
            around = words - set(found["wrong"].lower().split())
            if (not slip.near or slip.near & around) and not slip.never & around:
                if found.span("wrong") in seen:
                    continue
                seen.add(found.span("wrong"))
                yield FoundSlip(*found.span("wrong"), found.expand(slip.right), slip.because)
