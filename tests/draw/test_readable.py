"""Sheets measured: words that can be read on A4, nothing over anything else, and lines no worse than they were.

Some sheets only, since a layout of a large system takes seconds; `benchmarks/sheets.py` measures all of them.
"""

import importlib.util
from dataclasses import replace
from pathlib import Path
from types import ModuleType

import pytest

from cutaway.draw.draft import Draft
from cutaway.draw.extent import extent_of, smallest_words
from cutaway.draw.pages import AREA, LEAST_POINTS, SHAPES, SMALLEST, smallest_points
from cutaway.draw.quality import quality
from cutaway.draw.shapes import Group
from cutaway.draw.sheet import drafts, drawn
from cutaway.draw.stations import EDGE
from cutaway.handbook.load import load_folder
from cutaway.parts.library import KINDS
from cutaway.quantities.which import StandardName

ROOT = Path(__file__).parents[2]
SOME = [
    ("whinchat", "Mk 2", "Fuel"),
    ("whinchat", "Mk 2", "Electrics"),
    ("turnstone", "Mk 2", "Undercarriage"),
    ("turnstone", "Mk 2", "Vacuum"),
    ("turnstone", "Mk 2", "Hydraulics"),
]
FOLDERS = {name: load_folder(ROOT / "demo" / name, KINDS)[0] for name in ("whinchat", "turnstone")}
EACH = pytest.mark.parametrize("shape", ["A4", "16:9", "square"])
WHICH = pytest.mark.parametrize(("demo", "standard", "system"), SOME, ids=[" ".join(one) for one in SOME])


@pytest.fixture(scope="module")
def benchmark() -> ModuleType:
    """benchmarks/sheets.py, which knows the kept figures."""
    spec = importlib.util.spec_from_file_location("benchmark_of_sheets", ROOT / "benchmarks" / "sheets.py")
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def of(demo: str, standard: str, system: str, shape: str, cache: Path) -> tuple[Draft, ...]:
    folder = FOLDERS[demo]
    assert folder is not None
    found, problems = drafts(folder, StandardName(standard), system, KINDS, cache, shape)
    assert found and problems == ()
    return found


@WHICH
@EACH
def test_nothing_lies_over_anything_and_words_can_be_read(
    demo: str, standard: str, system: str, shape: str, layouts: Path
) -> None:
    for draft in of(demo, standard, system, shape, layouts):
        assert quality(draft).over == ()
        if shape == "A4":
            words = max((f"{s.name}: {s.says}" for s in draft.folder.situations), key=len)
            assert smallest_points(drawn(draft, {}, words)) >= LEAST_POINTS


@WHICH
@EACH
def test_the_drawing_keeps_off_the_words_around_it(
    demo: str, standard: str, system: str, shape: str, layouts: Path
) -> None:
    """Areas too, which reach above the highest part; and all of it is on the page."""
    for draft in of(demo, standard, system, shape, layouts):
        words = max((f"{s.name}: {s.says}" for s in draft.folder.situations), key=len)
        picture = drawn(draft, {}, words)
        groups = {shape.role: shape for shape in picture.shapes if isinstance(shape, Group)}
        head, drawing, foot = (extent_of((groups[role],)) for role in ("head", "drawing", "foot"))
        assert head.bottom <= drawing.top and drawing.left >= 0
        if draft.beside:
            assert drawing.right <= foot.left and drawing.bottom <= picture.size[1]
        else:
            assert drawing.bottom <= foot.top and drawing.right <= picture.size[0]
        assert head.bottom <= foot.top and foot.right <= picture.size[0] + 0.1 and foot.bottom <= picture.size[1] + 0.1


def test_words_stand_beside_a_high_drawing_on_a_wide_page_in_every_state(layouts: Path) -> None:
    (wide,) = of("turnstone", "Mk 2", "Vacuum", "16:9", layouts)
    (level,) = of("turnstone", "Mk 2", "Hydraulics", "16:9", layouts)
    assert wide.beside and not level.beside
    for values, says in ((None, ""), ({}, "Words."), ({}, "Many words, " * 30)):
        picture = drawn(wide, values, says)
        foot = next(s for s in picture.shapes if isinstance(s, Group) and s.role == "foot")
        assert extent_of((foot,)).left > picture.size[0] * 0.7


@WHICH
def test_no_line_has_a_small_step(demo: str, standard: str, system: str, layouts: Path) -> None:
    for draft in of(demo, standard, system, "A4", layouts):
        assert quality(draft).steps == 0


@WHICH
def test_no_worse_than_before(demo: str, standard: str, system: str, layouts: Path, benchmark: ModuleType) -> None:
    """The file is written by `python benchmarks/sheets.py --accept`; look at the sheets that it says are worse."""
    kept = benchmark.read_kept()
    for draft in of(demo, standard, system, "A4", layouts):
        name = f"{draft.folder.type.name} {standard}, {draft.name}, A4"
        before = kept.get(name) or kept[name.replace("Mk 2", "Mk 1")]
        figures = quality(draft)
        assert (figures.crossings, figures.bends) <= before or (
            figures.crossings <= before[0] and figures.bends <= before[1]
        )


def test_the_look_for_faults_finds_them(layouts: Path) -> None:
    (draft,) = of("whinchat", "Mk 2", "Fuel", "A4", layouts)
    corners = dict(draft.layout.corners)
    moved = tuple((key, corners["filter"] if key == "engine pump" else at) for key, at in corners.items())
    assert any("over" in words for words in quality(replace(draft, layout=replace(draft.layout, corners=moved))).over)
    assert quality(replace(draft, layout=replace(draft.layout, sound=False))).over
    first, second = (area for area in draft.areas[:2])
    same = replace(second, extent=first.extent)
    assert quality(replace(draft, areas=(first, same))).over


def test_the_smallest_words_are_those_that_pages_are_made_for(layouts: Path) -> None:
    (draft,) = of("turnstone", "Mk 2", "Undercarriage", "A4", layouts)
    picture = drawn(draft, {})
    assert smallest_words(picture.shapes) >= SMALLEST - 1e-6
    assert picture.size[0] * picture.size[1] <= AREA


def test_a4_lies_or_stands_as_suits_the_system(layouts: Path) -> None:
    shapes = {of("turnstone", "Mk 2", system, "A4", layouts)[0].shape for system in ("Vacuum", "Hydraulics")}
    assert shapes == {SHAPES["A4"], SHAPES["A4 upright"]}


def test_areas_hold_their_parts_and_name_where_they_are(layouts: Path) -> None:
    (draft,) = of("turnstone", "Mk 2", "Undercarriage", "A4", layouts)
    stations = {item.key: item.part.station for item in draft.plan.items if not item.reference and item.part.station}
    assert {key: area.station for area in draft.areas for key in area.members} == stations
    assert len(set(stations.values())) > 1
    for area in draft.areas:
        around = area.extent.widened(EDGE)
        for key in area.members:
            x, y = dict(draft.layout.corners)[key]
            assert around.left <= x <= around.right and around.top <= y <= around.bottom
