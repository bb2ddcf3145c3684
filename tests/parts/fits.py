"""Parts made as `machine.bind` makes them, from quantities spelled as an author would."""

from cutaway.parts.kind import Fit, Kind
from cutaway.parts.recipe import Medium, Recipe
from cutaway.problems.span import TextFile, whole
from cutaway.quantities.quantity import Quantity
from cutaway.quantities.reading import read_quantity
from cutaway.quantities.si import to_si

WAYS = ("port tank", "starboard tank")

# What must be given, by kind: figures of a small trainer.
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
}


def quantity(text: str) -> Quantity:
    """A quantity of the library, read."""
    read, problems = read_quantity(text, whole(TextFile("library", text)))
    assert read is not None and not problems, (text, problems)
    return read


def fit_of(
    kind: Kind, given: dict[str, str] | None = None, coupled: frozenset[str] | None = None, medium: Medium | None = None
) -> Fit:
    """The kind with its defaults and what it must be given, all its couplings made unless said otherwise."""
    spelled = {want.name: want.default for want in kind.wants} | GIVEN.get(kind.name, {}) | (given or {})
    si = {want.name: to_si(quantity(spelled[want.name]), want.datum) for want in kind.wants}
    if coupled is None:
        coupled = frozenset(coupling.name for coupling in kind.couplings)
    if medium is None and any(port.medium is None for port in kind.ports):
        medium = "petrol"
    return Fit(si, dict.fromkeys(kind.lists, WAYS), coupled, medium)


def recipe_of(kind: Kind, given: dict[str, str] | None = None, coupled: frozenset[str] | None = None) -> Recipe:
    """What the kind builds from that."""
    return kind.build(fit_of(kind, given, coupled))
