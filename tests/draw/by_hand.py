"""A small type folder made by hand, without files, for drawings."""

from collections.abc import Iterable

from cutaway.handbook.records import (
    AircraftType,
    Folder,
    Given,
    Line,
    Link,
    Part,
    PartName,
    PortRef,
    System,
    Value,
)
from cutaway.parts.library import KINDS
from cutaway.problems.span import TextFile, whole
from cutaway.quantities.reading import read_quantity
from cutaway.quantities.which import Standard, StandardName, Which

MK = StandardName("Mk 1")
SPAN = whole(TextFile("by hand", "by hand"))
ON = Which("", frozenset({MK}))


def part(
    name: str,
    kind: str,
    system: str = "Fuel",
    *,
    ways: tuple[str, ...] = (),
    caution: str = "",
    values: dict[str, str] | None = None,
    **links: str,
) -> Part:
    """A part; couplings as keywords (`fed_by="instrument bus.any"`)."""
    ties = tuple(Link(key.replace("_", " "), _ref(target), "", ON, SPAN) for key, target in links.items())
    given = tuple(_value(key, words) for key, words in (values or {}).items())
    lists = (("ways", ways),) if ways else ()
    return Part(PartName(name), kind, system, ON, given, lists, ties, (), "", "", "", "", caution, "", (), SPAN)


def line(start: str, end: str, system: str = "Fuel") -> Line:
    """A line between two ports, both written out."""
    return Line(_ref(start), _ref(end), system, ON, (), SPAN)


def folder(parts: Iterable[Part], lines: Iterable[Line], name: str = "Gannet", notice: str = "") -> Folder:
    """A folder of one standard."""
    parts = tuple(parts)
    kind = AircraftType(
        name,
        "Hallam & Reeve",
        "",
        ("Mk 1",),
        (),
        (Standard(MK, "Mk 1"),),
        (),
        (("pressure", "lb/sq in"),),
        notice,
        SPAN,
    )
    systems = tuple(System(s, "", SPAN) for s in dict.fromkeys(p.system for p in parts))
    return Folder("by hand", kind, (), (), systems, parts, tuple(lines), (), (), (), (), (), (), (), (), frozenset())


def _ref(words: str) -> PortRef:
    name, _, inner = words.partition(".")
    return PortRef(PartName(name), inner, SPAN)


def _value(name: str, words: str) -> Value:
    quantity, problems = read_quantity(words, SPAN)
    assert quantity is not None, problems
    return Value(name, (Given(quantity, ON, (), False, "", None, SPAN),), SPAN)


FUEL = folder(
    (
        part("port tank", "tank", values={"capacity": "11 gal"}, caution="No flame near Hallam & Reeve's <tanks>."),
        part("starboard tank", "tank", values={"capacity": "11 gal"}),
        part("tank selector", "selector cock", ways=("port tank", "starboard tank")),
        part("filter", "fuel filter"),
        part("engine pump", "engine-driven fuel pump", driven_by="engine"),
        part("hand pump", "hand fuel pump"),
        part("carburettor", "carburettor"),
        part("fuel pressure gauge", "fuel pressure gauge", senses="carburettor.inlet"),
        part(
            "fuel lamp",
            "low-pressure lamp",
            senses="carburettor.inlet",
            fed_by="instrument bus.any",
            values={"lights below": "2 lb/sq in"},
        ),
        part("port contents gauge", "contents gauge", reads="port tank", fed_by="instrument bus.any"),
        part("engine", "engine", "Engine", fuel_from="carburettor"),
        part("instrument bus", "bus", "Electrics"),
    ),
    (
        line("port tank.outlet", "tank selector.port tank"),
        line("starboard tank.outlet", "tank selector.starboard tank"),
        line("tank selector.outlet", "filter.inlet"),
        line("filter.outlet", "engine pump.inlet"),
        line("filter.outlet", "hand pump.inlet"),
        line("engine pump.outlet", "carburettor.inlet"),
        line("hand pump.outlet", "carburettor.inlet"),
    ),
    "Hallam & Reeve <Gannet>",
)
"""Two tanks, a selector, a filter, two pumps side by side, a carburettor, a gauge, a lamp; engine and bus elsewhere."""

PSI = 6894.757
RUNNING = {
    "set tank selector": 1.0,
    "set hand pump": 0.0,
    "port tank: contents": 0.03,
    "starboard tank: contents": 0.05,
    "port tank: empty": 0.0,
    "starboard tank: empty": 0.0,
    "carburettor: fed": 1.0,
    "carburettor: draw": 9.0e-6,
    "fuel pressure gauge: pressure": 3.1 * PSI,
    "fuel lamp: lit": 0.0,
    "port contents gauge: working": 1.0,
    "port contents gauge: shown": 0.03,
    "port tank.outlet": 3600.0,
    "starboard tank.outlet": 3700.0,
    "filter.inlet": 2500.0,
    "filter.outlet": 800.0,
    "carburettor.inlet": 3.1 * PSI,
    "instrument bus.any": 12.4,
    "port tank.outlet flow": -9.0e-6,
    "starboard tank.outlet flow": 0.0,
    "filter.inlet flow": 9.0e-6,
    "engine pump.inlet flow": 9.0e-6,
    "hand pump.inlet flow": 0.0,
    "engine pump.outlet flow": -9.0e-6,
    "hand pump.outlet flow": 0.0,
    "carburettor.inlet flow": 9.0e-6,
    "fuel lamp.feed flow": 0.0,
    "port contents gauge.feed flow": 0.2,
}
"""Values at one instant, as a run would give them: engine running on the port tank."""
STARVED = RUNNING | {
    "set tank selector": 0.0,
    "carburettor: fed": 0.0,
    "carburettor: draw": 0.0,
    "fuel lamp: lit": 1.0,
    "fuel pressure gauge: pressure": 0.2 * PSI,
    "carburettor.inlet": 0.2 * PSI,
    "fuel lamp.feed flow": 0.17,
    **{key: 0.0 for key in RUNNING if key.endswith(" flow") and "gauge" not in key},
}
"""The same some time after the selector went to off."""
assert set(KINDS) >= {p.kind for p in FUEL.parts}
