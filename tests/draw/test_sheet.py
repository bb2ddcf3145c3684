"""Sheets: each part once and no other, the same bytes twice, words that overlap nothing, and the state in words."""

import itertools
import math
import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest

from cutaway.draw.sheet import make_sheet
from cutaway.draw.stretches import without
from cutaway.draw.theme import Manner
from cutaway.handbook.load import load_folder
from cutaway.handbook.records import Folder
from cutaway.machine.subjects import parts_of, subjects
from cutaway.parts.library import KINDS
from cutaway.quantities.which import StandardName
from tests.draw import by_hand

SVG = "{http://www.w3.org/2000/svg}"
WHINCHAT, _ = load_folder(Path(__file__).parents[2] / "demo" / "whinchat", KINDS)
assert WHINCHAT is not None
SHEETS: list[tuple[Folder, StandardName, str, dict[str, float] | None]] = [
    (by_hand.FUEL, by_hand.MK, "Fuel", None),
    (by_hand.FUEL, by_hand.MK, "Fuel", by_hand.RUNNING),
    (by_hand.FUEL, by_hand.MK, "Fuel", by_hand.STARVED),
    *((WHINCHAT, s.name, system.name, None) for s in subjects(WHINCHAT) for system in WHINCHAT.systems),
]


def everything_known(folder: Folder, standard: StandardName) -> dict[str, float]:
    """Values for everything that a sheet can show, so that every word that can stand on it does."""
    values: dict[str, float] = {}
    for part in folder.parts:
        kind = KINDS[part.kind]
        values |= {f"{part.name}: {r.signal}": 1234.5678 for r in kind.readings}
        values |= {f"{part.name}: {s.signal}": 1.0 for s in kind.states}
        values |= {f"set {part.name}.{c.name}" if c.name else f"set {part.name}": 0.0 for c in kind.controls}
        values |= {f"{part.name}.{p.name}": 50000.0 for p in kind.ports}
    return values


SHEETS += [(f, s, system, everything_known(f, s)) for f, s, system, values in SHEETS if values is None]
TURNSTONE, _ = load_folder(Path(__file__).parents[2] / "demo" / "turnstone", KINDS)
assert TURNSTONE is not None
MK_2 = StandardName("Mk 2")
SHEETS += [(TURNSTONE, MK_2, system.name, everything_known(TURNSTONE, MK_2)) for system in TURNSTONE.systems]
"""Large systems, with two of nearly everything."""
IDS = [f"{f.type.name[:8]}-{s}-{system}-{'rest' if v is None else len(v)}" for f, s, system, v in SHEETS]
EACH = pytest.mark.parametrize("number", range(len(SHEETS)), ids=IDS)


def drawn(number: int, cache: Path, theme: Manner = "light") -> str:
    folder, standard, system, values = SHEETS[number]
    text, problems = make_sheet(folder, standard, system, values, KINDS, theme, "Words & <words>.", cache)
    assert problems == ()
    return text


@EACH
def test_each_part_is_drawn_once_and_no_other(number: int, layouts: Path) -> None:
    folder, standard, system, _ = SHEETS[number]
    subject = next(s for s in subjects(folder) if s.name == standard)
    root = ET.fromstring(drawn(number, layouts))
    found = Counter(e.get("data-part") for e in root.iter() if e.get("data-part"))
    assert found == Counter(str(p.name) for p in parts_of(folder, subject) if p.system == system)


@EACH
def test_ids_are_unique(number: int, layouts: Path) -> None:
    ids = [e.get("id") for e in ET.fromstring(drawn(number, layouts)).iter() if e.get("id")]
    assert len(ids) == len(set(ids))


@EACH
def test_the_sheet_is_sixteen_by_nine(number: int, layouts: Path) -> None:
    _, _, width, height = (float(n) for n in ET.fromstring(drawn(number, layouts)).get("viewBox", "").split())
    most = 3500 if SHEETS[number][0] is TURNSTONE else 2400
    assert abs(width / height - 16 / 9) < 0.001 and 1600 <= width < most


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_same_bytes_twice_and_with_the_layout_kept(theme: Manner, tmp_path: Path) -> None:
    for number in (1, 3):
        fresh = [drawn(number, tmp_path / name, theme) for name in ("a", "b")]
        assert fresh[0] == fresh[1] == drawn(number, tmp_path / "a", theme)


def test_themes_differ_in_the_stylesheet_only(layouts: Path) -> None:
    light, dark = (re.sub(r"(?s)<style>.*</style>", "", drawn(1, layouts, theme)) for theme in ("light", "dark"))
    assert light == dark


def test_names_are_escaped(layouts: Path) -> None:
    text = drawn(1, layouts)
    assert "Hallam &amp; Reeve &lt;Gannet&gt;" in text and "Hallam & " not in text


# --- nothing over anything else -----------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Area:
    """What something covers. owner: the part or reference it belongs to, '' for the words around the drawing."""

    owner: str
    words: str
    left: float
    top: float
    right: float
    bottom: float


def overlapping(one: Area, other: Area) -> bool:
    across = min(one.right, other.right) - max(one.left, other.left)
    along = min(one.bottom, other.bottom) - max(one.top, other.top)
    return across > 0.5 and along > 0.5


def text_area(element: ET.Element, owner: str) -> Area:
    x, y, size, width = (float(element.get(k, "0")) for k in ("x", "y", "font-size", "textLength"))
    assert width > 0 or element.get("class") in ("mark", "strong")
    left = x - {"middle": width / 2, "end": width}.get(element.get("text-anchor", ""), 0.0)
    return Area(owner, element.text or "", left, y - 0.76 * size, left + width, y + 0.22 * size)


def numbers(element: ET.Element) -> Iterator[tuple[float, float]]:
    """Points of one shape, good enough for what it covers."""
    tag = element.tag.removeprefix(SVG)
    at = {k: float(v) for k, v in element.attrib.items() if re.fullmatch(r"-?[0-9.]+", v)}
    if tag == "line":
        yield from ((at["x1"], at["y1"]), (at["x2"], at["y2"]))
    elif tag == "rect":
        yield from ((at["x"], at["y"]), (at["x"] + at["width"], at["y"] + at["height"]))
    elif tag == "circle":
        yield from ((at["cx"] - at["r"], at["cy"] - at["r"]), (at["cx"] + at["r"], at["cy"] + at["r"]))
    elif tag in ("polyline", "polygon"):
        for pair in element.get("points", "").split():
            x, y = pair.split(",")
            yield float(x), float(y)


def symbol_area(group: ET.Element, owner: str) -> Area:
    points = [p for e in group for p in numbers(e)]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return Area(owner, "symbol", min(xs), min(ys), max(xs), max(ys))


def areas(root: ET.Element) -> list[Area]:
    """Every run of words, and every symbol, of a sheet."""
    found = []
    for group in root.iter(f"{SVG}g"):
        owner = group.get("data-part") or (group.get("data-reference", "") and str(id(group)))
        if owner and group.get("data-part"):
            found.append(symbol_area(group, owner))
        for element in group:
            if element.tag == f"{SVG}text" and element.get("textLength"):
                found.append(text_area(element, owner))
    return found


def clashes(root: ET.Element) -> list[tuple[str, str]]:
    """What lies over something else: words over words, or over another part's symbol."""
    found = areas(root)
    return [
        (f"{a.owner}: {a.words}", f"{b.owner}: {b.words}")
        for a, b in itertools.combinations(found, 2)
        if overlapping(a, b)
    ]


@EACH
def test_no_words_lie_over_words_or_symbols(number: int, layouts: Path) -> None:
    assert clashes(ET.fromstring(drawn(number, layouts))) == []


def test_the_look_for_clashes_finds_one(layouts: Path) -> None:
    text = drawn(1, layouts)
    place = re.search(r'<text class="name" (x="[0-9.]+" y="[0-9.]+")[^>]*>filter<', text)
    other = re.search(r'<text class="name" (x="[0-9.]+" y="[0-9.]+")[^>]*>engine pump<', text)
    assert place and other
    moved = text.replace(other.group(1), place.group(1), 1)
    assert any("filter" in a + b and "engine pump" in a + b for a, b in clashes(ET.fromstring(moved)))


@EACH
def test_all_words_are_on_the_sheet(number: int, layouts: Path) -> None:
    root = ET.fromstring(drawn(number, layouts))
    _, _, width, height = (float(n) for n in root.get("viewBox", "").split())
    for area in areas(root):
        assert area.left >= 0 and area.top >= 0 and area.right <= width and area.bottom <= height, area


@EACH
def test_no_line_runs_through_words(number: int, layouts: Path) -> None:
    root = ET.fromstring(drawn(number, layouts))
    words = [a for a in areas(root) if a.words != "symbol" and a.owner]
    for group in root.iter(f"{SVG}g"):
        if group.get("data-line"):
            for line in (e for e in group if e.tag == f"{SVG}polyline"):
                for (ax, ay), (bx, by) in itertools.pairwise(numbers(line)):
                    stretch = Area("", "line", min(ax, bx), min(ay, by) - 0.6, max(ax, bx) + 1.2, max(ay, by) + 0.6)
                    for area in words:
                        assert not overlapping(stretch, area), (group.get("data-line"), area)


# --- state --------------------------------------------------------------------------------------------------------


def test_places_do_not_depend_on_the_state(layouts: Path) -> None:
    def names(values: dict[str, float]) -> list[tuple[str, str | None, str | None]]:
        text, _ = make_sheet(by_hand.FUEL, by_hand.MK, "Fuel", values, KINDS, says="Same.", cache=layouts)
        found = ET.fromstring(text).iter(f"{SVG}text")
        return [(e.text or "", e.get("x"), e.get("y")) for e in found if e.get("class") == "name"]

    assert names(by_hand.RUNNING) == names(by_hand.STARVED)


def without_colour(text: str) -> str:
    """The sheet without any class, stylesheet or word: the bare strokes."""
    text = re.sub(r"(?s)<(style|title|desc|text)[ >].*?</\1>", "", text)
    return re.sub(r' class="[^"]*"', "", text)


def part_of(text: str, name: str) -> str:
    root = ET.fromstring(text)
    group = next(e for e in root.iter() if e.get("data-part") == name)
    return ET.tostring(group, encoding="unicode")


def test_a_lit_lamp_is_seen_without_colour_or_words(layouts: Path) -> None:
    lamps = []
    for lit in (0.0, 1.0):
        values = by_hand.RUNNING | {"fuel lamp: lit": lit}
        text, _ = make_sheet(by_hand.FUEL, by_hand.MK, "Fuel", values, KINDS, cache=layouts)
        lamps.append(without_colour(part_of(text, "fuel lamp").replace("ns0:", "")))
    assert lamps[0] != lamps[1]


def test_what_is_live_is_seen_without_colour(layouts: Path) -> None:
    """A live pipe has more strokes than a dead one, a live wire another stroke."""

    def strokes(values: dict[str, float], line: str) -> int:
        text, _ = make_sheet(by_hand.FUEL, by_hand.MK, "Fuel", values, KINDS, cache=layouts)
        group = next(e for e in ET.fromstring(text).iter() if line in (e.get("data-line") or ""))
        return sum(1 for e in group if e.tag == f"{SVG}polyline")

    line = "engine pump.outlet > carburettor.inlet"
    assert strokes(by_hand.RUNNING, line) > strokes(by_hand.STARVED, line)


def desc(values: dict[str, float] | None, cache: Path) -> str:
    text, _ = make_sheet(by_hand.FUEL, by_hand.MK, "Fuel", values, KINDS, says="Cruising.", cache=cache)
    return ET.fromstring(text).find(f"{SVG}desc").text or ""  # type: ignore[union-attr]


def test_the_state_is_told_in_words(layouts: Path) -> None:
    words = desc(by_hand.RUNNING, layouts)
    for told in (
        "Cruising.",
        "tank selector: set to port tank",
        "hand pump: set to idle",
        "fuel lamp: out",
        "fuel pressure gauge: 3.1 lb/sq in",
        "port tank: 6.6 gal",
        "carburettor: fed, 7.13 gal/h",
        "Petrol, under pressure: engine pump to carburettor, flowing; hand pump to carburettor.",
        "port tank to tank selector, flowing",
        "Current, live: instrument bus to fuel lamp; instrument bus to port contents gauge, flowing.",
        "engine pump driven by engine",
        "Caution: No flame near Hallam & Reeve's <tanks>.",
    ):
        assert told in words, told
    assert "fuel lamp: lit" in desc(by_hand.STARVED, layouts)


def test_pointing_at_a_part_tells_where_it_is_and_what_is_painted_on_it(layouts: Path) -> None:
    assert WHINCHAT is not None
    text, _ = make_sheet(WHINCHAT, StandardName("Mk 2"), "Fuel", None, KINDS, cache=layouts)
    assert "fuel lamp (instrument board, left; marked FUEL PRESS)" in part_of(text, "fuel lamp")


def test_at_rest_no_state_is_told(layouts: Path) -> None:
    words = desc(None, layouts)
    assert "No state is shown." in words
    assert not any(w in words for w in ("lit", "fed,", "live", "under pressure", "flowing", "set to"))


def test_the_notice_of_the_folder_is_on_the_sheet(layouts: Path) -> None:
    text = drawn(3, layouts)
    assert "not flight, maintenance or" in text
    text = drawn(1, layouts)
    assert "Not flight, maintenance or operating advice." in text


# --- what cannot be drawn -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(("standard", "system", "code"), [("Mk 9", "Fuel", "D103"), ("Mk 1", "Feul", "D104")])
def test_an_unknown_name_is_a_problem(standard: str, system: str, code: str, layouts: Path) -> None:
    text, problems = make_sheet(by_hand.FUEL, StandardName(standard), system, None, KINDS, cache=layouts)
    assert text == "" and [p.code for p in problems] == [code]


def test_a_system_that_a_standard_lacks_is_a_problem(layouts: Path) -> None:
    empty = replace(by_hand.FUEL, parts=tuple(p for p in by_hand.FUEL.parts if p.system != "Engine"))
    text, problems = make_sheet(empty, by_hand.MK, "Engine", None, KINDS, cache=layouts)
    assert text == "" and [p.code for p in problems] == ["D105"]


def test_an_airframe_is_drawn_without_what_it_lacks(layouts: Path) -> None:
    assert WHINCHAT is not None
    airframe = WHINCHAT.type.airframes[0]
    text, problems = make_sheet(WHINCHAT, StandardName(airframe.name), "Fuel", None, KINDS, cache=layouts)
    assert problems == () and 'data-part="filter"' in text and 'data-part="hand pump"' not in text


def test_a_kind_without_a_symbol_is_drawn_as_a_box(layouts: Path) -> None:
    strange = replace(KINDS["fuel filter"], name="centrifuge")
    parts = tuple(replace(p, kind="centrifuge") if p.name == "filter" else p for p in by_hand.FUEL.parts)
    folder = replace(by_hand.FUEL, parts=parts)
    text, problems = make_sheet(folder, by_hand.MK, "Fuel", None, {**KINDS, "centrifuge": strange}, cache=layouts)
    assert problems == () and 'class="box"' in part_of(text, "filter") and ">filter<" in part_of(text, "filter")


def test_dashes_never_lie_over_dashes(layouts: Path) -> None:
    """Couplings that share a way are dashed once along it: two rows of dashes would make a full line."""
    assert WHINCHAT is not None
    text, _ = make_sheet(WHINCHAT, StandardName("Mk 2"), "Engine", None, KINDS, cache=layouts)
    dashes = [e for e in ET.fromstring(text).iter(f"{SVG}polyline") if e.get("class") == "link"]
    stretches = [pair for e in dashes for pair in itertools.pairwise(numbers(e))]
    assert len(stretches) > 6
    for one, other in itertools.combinations(stretches, 2):
        rest = without(one, other)
        assert sum(math.dist(*s) for s in rest) == pytest.approx(math.dist(*one)), (one, other)


def test_a_dead_wire_is_dashed_where_two_ways_share_it(layouts: Path) -> None:
    """Two switches feed one valve: the way that they share is drawn once, or its dashes would make a full line."""
    parts = [by_hand.part(f"{side} switch", "switch") for side in ("port", "starboard")]
    parts += [by_hand.part("bus", "bus"), by_hand.part("lamp", "filament lamp")]
    lines = [by_hand.line("bus.any", f"{side} switch.inlet") for side in ("port", "starboard")]
    lines += [by_hand.line(f"{side} switch.outlet", "lamp.feed") for side in ("port", "starboard")]
    folder = by_hand.folder([replace(p) for p in parts], lines)
    values = {f"{p.name}.{port.name}": 0.0 for p in parts for port in KINDS[p.kind].ports}
    text, _ = make_sheet(folder, by_hand.MK, "Fuel", values, KINDS, cache=layouts)
    dead = [e for e in ET.fromstring(text).iter(f"{SVG}polyline") if e.get("class") == "pipe current dead"]
    stretches = [pair for e in dead for pair in itertools.pairwise(numbers(e))]
    assert len(stretches) > 4
    for one, other in itertools.combinations(stretches, 2):
        rest = without(one, other)
        assert sum(math.dist(*s) for s in rest) == pytest.approx(math.dist(*one)), (one, other)
