"""Parts made as `machine.bind` makes them, from quantities spelled as an author would."""

import math

from cutaway.parts.kind import Fit, Kind, Want
from cutaway.parts.recipe import Medium, Recipe
from cutaway.problems.span import TextFile, whole
from cutaway.quantities.quantity import Quantity
from cutaway.quantities.reading import read_quantity
from cutaway.quantities.si import to_si

WAYS = ("port tank", "starboard tank")

# What must be given, by kind: figures of a small trainer. A kind that is not here is given the middle of what is usual.
GIVEN: dict[str, dict[str, str]] = {
    "tank": {"capacity": "11 gal"},
    "fuel relief valve": {"set at": "5 lb/sq in"},
    "low-pressure lamp": {"lights below": "2 lb/sq in"},
    "battery": {"capacity": "25 Ah", "voltage": "12 V"},
    "fuse": {"rating": "5 A"},
    "electrical load": {"current": "8 A"},
    "reservoir": {"capacity": "3 pint"},
    "oil relief valve": {"set at": "300 lb/sq in"},
    "jack": {"area": "1.2 sq in", "stroke": "7 in"},
    "flaps": {"full angle": "40 deg"},
    "air bottle": {"volume": "0.5 cu ft"},
    "air charging connection": {"pressure": "300 lb/sq in"},
    "brake relay valve": {"full pressure": "80 lb/sq in"},
    "charging regulator": {"cut-out": "300 lb/sq in", "cut-in": "270 lb/sq in"},
    "pressure-maintaining valve": {"set at": "130 lb/sq in"},
    "pressure-reducing valve": {"set at": "80 lb/sq in"},
    "ram": {"area": "3 sq in", "stroke": "4 in"},
}


def quantity(text: str) -> Quantity:
    """A quantity of the library, read."""
    read, problems = read_quantity(text, whole(TextFile("library", text)))
    assert read is not None and not problems, (text, problems)
    return read


def spelled_for(kind: Kind, want: Want) -> str:
    """A figure for a quantity: its default, what is in the table above, or the middle of what is usual."""
    if want.default or want.name in GIVEN.get(kind.name, {}):
        return want.default or GIVEN[kind.name][want.name]
    usual = quantity(want.usual)
    return f"{math.sqrt(usual.low * usual.high):.6g} {usual.unit.name}"


def fit_of(
    kind: Kind, given: dict[str, str] | None = None, coupled: frozenset[str] | None = None, medium: Medium | None = None
) -> Fit:
    """The kind with its defaults and what it must be given, all its couplings made unless said otherwise."""
    spelled = {want.name: spelled_for(kind, want) for want in kind.wants} | (given or {})
    si = {want.name: to_si(quantity(spelled[want.name]), want.datum) for want in kind.wants}
    if coupled is None:
        coupled = frozenset(coupling.name for coupling in kind.couplings)
    if medium is None and any(port.medium is None for port in kind.ports):
        medium = "petrol"
    return Fit(si, dict.fromkeys(kind.lists, WAYS), coupled, medium)


def recipe_of(kind: Kind, given: dict[str, str] | None = None, coupled: frozenset[str] | None = None) -> Recipe:
    """What the kind builds from that."""
    return kind.build(fit_of(kind, given, coupled))
