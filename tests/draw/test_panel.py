"""Panels: everything that is moved or looked at, at its station, as it stands; words that overlap nothing, large enough
on paper, and the same told in words."""

import itertools
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from cutaway.draw.extent import Extent, extent_of, smallest_words
from cutaway.draw.panel import SHAPE, WIDTH, panel_pictures
from cutaway.draw.shapes import Group, Line, Picture, Shape, Text
from cutaway.draw.svg import write_svg
from cutaway.draw.symbols.handles import FORMS, form_of, handle
from cutaway.draw.symbols.positions import as_they_lie
from cutaway.draw.symbols.symbol import Setting
from cutaway.handbook.load import load_folder
from cutaway.handbook.records import Folder
from cutaway.machine.subjects import Subject, parts_of, subjects
from cutaway.parts.library import KINDS

DEMO = Path(__file__).parents[2] / "demo"


def demo(name: str) -> Folder:
    folder, _ = load_folder(DEMO / name, KINDS)
    assert folder is not None
    return folder


WHINCHAT, TURNSTONE = demo("whinchat"), demo("turnstone")
A4 = 297 / 25.4 * 72  # pt along its long side


def everything(folder: Folder, on: bool = True) -> dict[str, float]:
    """Values for all that a panel can show, so that every word that can stand on it does."""
    values: dict[str, float] = {}
    for part in folder.parts:
        kind = KINDS[part.kind]
        values |= {f"{part.name}: {r.signal}": 1234.5678 for r in kind.readings}
        values |= {f"{part.name}: {s.signal}": float(on) for s in kind.states}
        values |= {f"{part.name}: {r.alive}": 1.0 for r in kind.readings if r.alive}
        for control in kind.controls:
            name = f"set {part.name}.{control.name}" if control.name else f"set {part.name}"
            values[name] = 0.37 if control.ranged else float(on)
    return values


CASES: list[tuple[Folder, Subject, dict[str, float] | None]] = [
    *((WHINCHAT, s, v) for s in subjects(WHINCHAT) for v in (None, everything(WHINCHAT))),
    (TURNSTONE, subjects(TURNSTONE)[4], everything(TURNSTONE)),
]
IDS = [f"{f.type.name[:8]}-{s.name}-{'rest' if v is None else 'all'}" for f, s, v in CASES]


Case = tuple[Folder, Subject, dict[str, float] | None, tuple[Picture, ...]]


@cache
def _case(number: int) -> Case:
    folder, subject, values = CASES[number]
    return folder, subject, values, panel_pictures(folder, subject, values, KINDS, "Words & <words>.")


@pytest.fixture(scope="module", params=range(len(CASES)), ids=IDS)
def case(request: pytest.FixtureRequest) -> Case:
    return _case(request.param)


def flat(shapes: tuple[Shape, ...]) -> Iterator[Shape]:
    for shape in shapes:
        yield from flat(shape.shapes) if isinstance(shape, Group) else (shape,)


def groups(shapes: tuple[Shape, ...], role: str) -> Iterator[Group]:
    for shape in shapes:
        if isinstance(shape, Group):
            if shape.role == role:
                yield shape
            yield from groups(shape.shapes, role)


def seen(folder: Folder, subject: Subject) -> set[str]:
    """What is to be on the panels."""
    return {str(p.name) for p in parts_of(folder, subject) if KINDS[p.kind].controls or KINDS[p.kind].indicates}


def inside(inner: Extent, outer: Extent) -> bool:
    return (
        outer.left <= inner.left and outer.top <= inner.top and inner.right <= outer.right + 0.1
        and inner.bottom <= outer.bottom + 0.1
    )  # fmt: skip


def test_everything_that_is_moved_or_seen_is_there_and_nothing_else(case: tuple) -> None:  # type: ignore[type-arg]
    folder, subject, _, pictures = case
    shown = [group.part for picture in pictures for group in groups(picture.shapes, "part")]
    assert set(shown) == seen(folder, subject)
    for part in parts_of(folder, subject):
        kind = KINDS[part.kind]
        if str(part.name) in shown:
            faces = shown.count(str(part.name))
            assert len(kind.controls) <= faces <= len(kind.controls) + kind.indicates


def test_no_word_overlaps_another_and_all_stays_in_its_frame(case: tuple) -> None:  # type: ignore[type-arg]
    for picture in case[3]:
        stations = list(groups(picture.shapes, "station"))
        frames = [extent_of(group.shapes[:1]) for group in stations]
        for one, other in itertools.combinations(frames, 2):
            assert not one.meets(other)
        for group, frame in zip(stations, frames, strict=True):
            assert inside(extent_of(group.shapes), frame), group.name
            texts = [text for text in flat(group.shapes) if isinstance(text, Text)]
            for a, b in itertools.combinations(texts, 2):
                boxes = (extent_of((a,)).widened(-1.0), extent_of((b,)).widened(-1.0))
                assert not boxes[0].meets(boxes[1]), (a.words, b.words)
            cells = [extent_of(part.shapes) for part in groups(group.shapes, "part")]
            for box, other in itertools.combinations(cells, 2):
                assert not box.widened(-1.0).meets(other.widened(-1.0)), group.name


def test_a_page_fits_a4_with_no_word_under_seven_points(case: tuple) -> None:  # type: ignore[type-arg]
    for picture in case[3]:
        assert picture.size[0] == WIDTH and picture.size[1] <= WIDTH / SHAPE + 0.1
        assert smallest_words(picture.shapes) * A4 / WIDTH >= 7.0


def test_all_is_told_in_words_too(case: tuple) -> None:  # type: ignore[type-arg]
    folder, subject, values, pictures = case
    told = " ".join(sentence for picture in pictures for sentence in picture.description)
    for part in parts_of(folder, subject):
        if str(part.name) in seen(folder, subject):
            assert str(part.name) in told
            assert not part.marked or f"(marked {part.marked})" in told
    for sentence in ("Words & <words>.", folder.type.notice):
        assert all(sentence in picture.description for picture in pictures)
    assert ("No state is shown." in told) is (values is None)


def test_the_same_gives_the_same_bytes_and_every_word_is_escaped() -> None:
    subject = subjects(WHINCHAT)[0]
    first, second = (panel_pictures(WHINCHAT, subject, everything(WHINCHAT), KINDS, "a < b") for _ in range(2))
    for one, other in zip(first, second, strict=True):
        assert write_svg(one, "both") == write_svg(other, "both")
        assert "a &lt; b" in write_svg(one, "both")


def test_what_stands_otherwise_is_drawn_and_told_otherwise() -> None:
    subject = subjects(WHINCHAT)[0]
    on, off = everything(WHINCHAT), everything(WHINCHAT, on=False)
    drawn = [panel_pictures(WHINCHAT, subject, values, KINDS) for values in (on, off)]
    told = [" ".join(s for picture in pictures for s in picture.description) for pictures in drawn]
    for words in (
        "fuel lamp (marked FUEL PRESS): lit",
        "battery switch: on",
        "throttle: 37 %",
        "tank selector (marked",
    ):
        assert words in told[0]
    for words in ("fuel lamp (marked FUEL PRESS): out", "battery switch: off", "engine: stopped"):
        assert words in told[1]
    faces = [{g.name: g.shapes for picture in pictures for g in groups(picture.shapes, "part")} for pictures in drawn]
    for name in ("fuel lamp", "battery switch", "tank selector", "engine", "flap selector"):
        assert faces[0][name] != faces[1][name], name
    assert faces[0]["throttle"] == faces[1]["throttle"]


def test_stations_of_one_place_stand_from_left_to_right() -> None:
    subject = subjects(WHINCHAT)[1]
    names = [g.name for picture in panel_pictures(WHINCHAT, subject, None, KINDS)
             for g in groups(picture.shapes, "station")]  # fmt: skip
    board = [name for name in names if "instrument board" in name]
    assert [name.rpartition(", ")[2] for name in board if "," in name] == ["left", "middle", "right"]
    assert names[-1] == "station no place is given in the folder (at)"


@pytest.mark.parametrize("form", sorted({*FORMS.values(), "lever", "quadrant", "slide"} - {"symbol"}))
def test_a_handle_stands_elsewhere_in_each_position_and_is_left_out_where_it_is_not_known(form: str) -> None:
    ranged = form == "slide"
    words = ("closed", "open") if ranged or form == "tumbler" else ("neutral", "down", "up")
    words = ("out", "pressed") if form == "button" else words
    places = [i / 1 if ranged else float(i) for i in range(len(words))]
    drawn = [handle(form, Setting(words, place, ranged)) for place in places]  # type: ignore[arg-type]
    assert len(set(drawn)) == len(words)
    without = handle(form, Setting(words, None, ranged))  # type: ignore[arg-type]
    assert all(set(without) < set(one) for one in drawn)
    for one in drawn:
        box = extent_of(one)
        assert box.left >= -0.01 and box.top >= -0.01 and box.right <= 1.01 and box.bottom <= 1.01


def test_a_breaker_that_is_in_looks_pressed_in() -> None:
    breaker, button = Setting(("in", "out"), 0.0), Setting(("out", "pressed"), 1.0)
    assert handle("button", breaker) == handle("button", button)
    assert handle("button", replace(breaker, place=1.0)) == handle("button", replace(button, place=0.0))


def test_neutral_lies_between_down_and_up() -> None:
    lying = as_they_lie(Setting(("neutral", "down", "up"), 0.0))
    assert lying == Setting(("down", "neutral", "up"), 1.0)
    assert form_of("selector valve", lying) == "quadrant"
    level = handle("quadrant", lying)
    arm = next(one for one in level if isinstance(one, Line) and one.role == "heavy")
    assert arm.start[1] == pytest.approx(arm.end[1])


@pytest.mark.parametrize(
    ("positions", "marked", "lying"),
    [
        (("off", "port tank", "starboard tank"), "PORT / OFF / STBD", ("port tank", "off", "starboard tank")),
        (("off", "port tank", "hull tank"), "OFF / WING / HULL", ("off", "port tank", "hull tank")),
        (("off", "left", "right", "both"), "OFF / L / R / BOTH", ("off", "left", "right", "both")),
        (("central", "port", "starboard"), "", ("port", "central", "starboard")),
        (("starboard", "port"), "", ("port", "starboard")),
        (("up", "down"), "UP / DOWN", ("down", "up")),
        (("off", "port", "starboard"), "A / B / C", ("port", "off", "starboard")),  # a plate that says nothing of it
        (("off", "on"), "FUEL PUMP", ("off", "on")),
    ],
)
def test_positions_lie_as_the_plate_has_them_else_as_their_words_say(
    positions: tuple[str, ...], marked: str, lying: tuple[str, ...]
) -> None:
    for place, word in enumerate(positions):
        found = as_they_lie(Setting(positions, float(place)), marked)
        assert found.positions == lying and found.place is not None and lying[int(found.place)] == word


def test_a_rudder_bar_reads_from_port_to_starboard() -> None:
    *_, pictures = next(_case(number) for number, one in enumerate(CASES) if one[0] is TURNSTONE)
    bar = next(g for p in pictures for g in groups(p.shapes, "part") if g.name.startswith("brake valve")
               and any(isinstance(s, Text) and s.words == "central" for s in flat(g.shapes)))  # fmt: skip
    words = {s.words: s.at for s in flat(bar.shapes) if isinstance(s, Text)}
    assert words["port"][0] < words["central"][0] < words["starboard"][0]
    assert words["port"][1] == words["central"][1] == words["starboard"][1]


def test_panels_are_the_same_size_in_every_state() -> None:
    """So that a reader who goes from one situation to the next sees what changed, and not where it went."""
    for folder, subject in ((WHINCHAT, subjects(WHINCHAT)[0]), (TURNSTONE, subjects(TURNSTONE)[1])):
        frames = []
        for values in (None, usual(folder, True), usual(folder, False)):
            pages = panel_pictures(folder, subject, values, KINDS, "Words.")
            stations = [g for p in pages for g in groups(p.shapes, "station")]
            # As exactly as they are written: sums of other cells may differ in a last digit that nobody sees.
            boxes = [extent_of(g.shapes[:1]) for g in stations]
            edges = [tuple(round(e, 6) for e in (b.left, b.top, b.right, b.bottom)) for b in boxes]
            frames.append([(g.name, *edge) for g, edge in zip(stations, edges, strict=True)])
        assert frames[0] == frames[1] == frames[2]


def usual(folder: Folder, on: bool) -> dict[str, float]:
    """Readings as instruments show them."""
    found = everything(folder, on)
    return {name: 50.0 if value == 1234.5678 else value for name, value in found.items()}


def test_pages_are_filled(case: tuple) -> None:  # type: ignore[type-arg]
    """Of what lies between head and foot no more than a quarter is blank on the whole, and on no page above half."""
    blank = []
    for picture in case[3]:
        head, drawing, foot = (extent_of([g]) for g in picture.shapes)
        assert head.bottom < drawing.top and drawing.bottom <= foot.top
        blank.append((foot.top - drawing.bottom) / (foot.top - head.bottom))
    assert max(blank) <= 0.5 and sum(blank) / len(blank) <= 0.25, blank


def test_nobody_reads_amperes_off_a_horn_and_each_needle_of_several_is_named() -> None:
    *_, pictures = next(_case(number) for number, one in enumerate(CASES) if one[0] is TURNSTONE)
    told = " ".join(s for picture in pictures for s in picture.description)
    assert "horn: sounding;" in told or "horn: sounding." in told
    assert "triple gauge: supply " in told
