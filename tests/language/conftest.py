"""A small folder with parts of many sorts, and the words of it. Its kinds are tables only: nothing here is run."""

from collections.abc import Callable

import pytest

from cutaway.handbook.load import load_folder
from cutaway.language.words import Words, words_of
from cutaway.parts.kind import Content, Control, Failure, Fit, Kind, Port, Reading, State, Want
from cutaway.parts.library import KINDS
from cutaway.parts.recipe import Recipe
from cutaway.problems.diagnostic import Problems
from cutaway.problems.span import Span, TextFile


def _nothing(fit: Fit) -> Recipe:
    return Recipe()


def _kind(name: str, **more: object) -> Kind:
    return Kind(name, f"A {name}.", more.pop("ports", ()), _nothing, **more)  # type: ignore[arg-type]


SEALED = (Failure("failed seal", "Leaks."), Failure("seized", "Stands still."))

MADE_UP = (
    _kind("horn", states=(State("sounding", "sounding", "silent"),)),
    _kind("undercarriage", states=(State("locked down", "down"), State("up", "up"))),
    _kind("lever", controls=(Control("", ("neutral", "up", "down")),)),
    _kind(
        "accumulator",
        contents=(Content("pressure", "gas"),),
        readings=(Reading("pressure", "pressure", "p", "lb/sq in", True),),
    ),
    _kind("supercharger", readings=(Reading("boost", "pressure", "boost", "lb/sq in", True),)),
    _kind("oil pump", failures=SEALED, ports=(Port("outlet", "oil", "east", "out"),)),
    _kind("slow pump", failures=SEALED[1:], ports=(Port("outlet", "oil", "east", "out"),)),
    _kind(
        "gear box",
        controls=(Control("clutch", ("out", "in")), Control("gear", ("in", "out", "half"))),
        readings=(Reading("pressure", "pressure", "p", "lb/sq in"), Reading("heat", "temperature", "t", "°C")),
        wants=(Want("capacity", "volume", "What it holds.", default="1 gal", between="1 to 2 gal"),),
    ),
    _kind("odd valve", controls=(Control("", ("shut", "open")),), states=(State("open", "open", "closed"),)),
    _kind("master cock", controls=(Control("", ("off", "on")),)),
    _kind(
        "twin light",
        ports=(Port("first", "current", "west", "in"), Port("second", "current", "west")),
        failures=(Failure("first filament", "Broken."), Failure("second filament", "Broken.")),
    ),
    _kind("bulb", failures=(Failure("filament", "Broken."),)),
    _kind("float", states=(State("down", "down"),), failures=(Failure("holed", "Fills."),)),
)

FILES = {
    "type.yaml": """\
name: Dunlin
marks: [Mk 1, Mk 2, Mk 4]
mods:
  mod 40: {fitted to: Mk 2, says: A second lamp.}
standards: [Mk 1, Mk 2, Mk 2 with mod 40, Mk 4]
airframes: {Dunlin D-7: {standard: Mk 2}}
""",
    "sources/hb.md": "---\ntitle: Dunlin handbook\n---\n\n## 1 All\n\nAll parts.\n",
    "systems/all.yaml": """\
system: All
source: hb
parts:
  engine: {kind: engine, throttle: throttle, fuel from: carburettor, ignition: magneto switch}
  throttle: {kind: throttle}
  outer throttle: {kind: throttle}
  magneto switch: {kind: magneto switch}
  carburettor: {kind: carburettor}
  port tank: {kind: tank, capacity: 22 gal}
  starboard tank: {kind: tank, capacity: 22 gal}
  tank selector: {kind: selector cock, ways: [port tank, starboard tank]}
  hand pump: {kind: hand fuel pump}
  engine pump: {kind: engine-driven fuel pump, driven by: engine}
  fuel gauge: {kind: fuel pressure gauge, senses: carburettor.inlet}
  battery: {kind: battery, capacity: 25 Ah, voltage: 12 V}
  battery switch: {kind: switch}
  bus: {kind: bus}
  fuel lamp: {kind: low-pressure lamp, senses: carburettor.inlet, fed by: bus, lights below: 2 lb/sq in}
  generator: {kind: generator, driven by: engine}
  charging lamp: {kind: charging lamp, watches: generator, fed by: bus}
  horn: {kind: horn}
  undercarriage: {kind: undercarriage}
  undercarriage lever: {kind: lever}
  flap lever: {kind: lever}
  accumulator: {kind: accumulator}
  boost gauge: {kind: supercharger}
  hydraulic pump: {kind: oil pump}
  spare pump: {kind: slow pump}
  gear box: {kind: gear box}
  odd valve: {kind: odd valve}
  port cock: {kind: master cock, group: wing cocks}
  starboard cock: {kind: master cock, group: wing cocks}
  float: {kind: float}
  green light: {kind: twin light}
  inspection bulb: {kind: bulb}
lines:
  - port tank > tank selector.port tank
  - starboard tank > tank selector.starboard tank
  - tank selector > engine pump > carburettor
  - tank selector > hand pump > carburettor
  - battery > battery switch > bus
  - generator > bus
""",
    "situations.yaml": """\
situations:
  parked: {says: On the ground.}
  running up: {from: parked, set: {throttle: 60 %}}
  cruising: {from: running up, set: {tank selector: port tank}, given: {height: 3000 ft}, start: {port tank: 18 gal}}
  approach: {from: cruising}
""",
    "services.yaml": """\
services:
  petrol to the engine: carburettor.inlet is above 1.5 lb/sq in
  wheels down and locked: undercarriage is locked down
""",
}


@pytest.fixture(scope="session")
def words(tmp_path_factory) -> Words:
    """The words of the folder above, which has no mistakes."""
    folder = tmp_path_factory.mktemp("dunlin")
    for name, text in FILES.items():
        (folder / name).parent.mkdir(exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")
    kinds = {**KINDS, **{kind.name: kind for kind in MADE_UP}}
    loaded, problems = load_folder(folder, kinds)
    assert loaded is not None and problems == ()
    return words_of(loaded, kinds)


@pytest.fixture(scope="session")
def read(words) -> Callable[..., tuple[object, Problems]]:
    """Reads a text with one of the functions of `parse.py`, as the second line of a file."""

    def reading(parse: Callable[[Span, Words], tuple[object, Problems]], text: str) -> tuple[object, Problems]:
        file = TextFile("script.md", f"before\n{text}\nafter")
        return parse(Span(file, 7, 7 + len(text)), words)

    return reading
