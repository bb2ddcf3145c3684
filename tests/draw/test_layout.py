"""Layouts: right angles, nothing through a box, kept between runs; and what happens when the library cannot help."""

import asyncio
import itertools
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path

import pytest

from cutaway.draw import elk, laying
from cutaway.draw.elk import elk_layouts
from cutaway.draw.elk_engine import Engine, NoLayout
from cutaway.draw.laying import laid_out
from cutaway.draw.layout import Box, Layout, Pin, Request, Wire, digest, keep, recalled, runs_through
from cutaway.draw.pages import BETTER, Room, choose, fit
from cutaway.draw.plain import full_size, plain_layout
from cutaway.draw.shapes import Point
from cutaway.draw.sheet import make_sheet
from cutaway.draw.stretches import without
from cutaway.parts.library import KINDS
from tests.draw import by_hand


def box(name: str, *sides: str) -> Box:
    """A box of 60 by 40 with a pin in the middle of each side given."""
    at: dict[str, Point] = {"west": (0.0, 20.0), "east": (60.0, 20.0), "north": (30.0, 0.0), "south": (30.0, 40.0)}
    return Box(name, (60.0, 40.0), tuple(Pin(s, s, at[s]) for s in sides))  # type: ignore[arg-type]


REQUEST = Request(
    (
        box("tank", "east", "north"),
        box("cock", "west", "east"),
        box("pump", "west", "east", "north", "south"),
        box("hand pump", "west", "east"),
        box("carburettor", "west", "east"),
        Box(
            "bus",
            (20.0, 90.0),
            (Pin("w", "west", None), Pin("e1", "east", None), Pin("e2", "east", None)),
            (80.0, 30.0),
        ),
        box("gauge", "west", "north"),
    ),
    (
        Wire("1", ("tank", "east"), ("cock", "west")),
        Wire("2", ("cock", "east"), ("pump", "west")),
        Wire("3", ("cock", "east"), ("hand pump", "west")),
        Wire("4", ("pump", "east"), ("carburettor", "west")),
        Wire("5", ("hand pump", "east"), ("carburettor", "west")),
        Wire("6", ("carburettor", "east"), ("bus", "w")),
        Wire("7", ("bus", "e1"), ("gauge", "west")),
        Wire("8", ("bus", "e2"), ("tank", "north"), firm=False),
        Wire("9", ("gauge", "north"), ("pump", "north"), firm=False),
        Wire("10", ("pump", "south"), ("bus", "w"), firm=False),
    ),
)
ROOM = (Room(1600.0, 900.0),)
FOUND = elk_layouts(REQUEST, ROOM)
assert not isinstance(FOUND, NoLayout)
LAYOUTS = {"layered": FOUND[0], "plain": plain_layout(REQUEST)}
EACH = pytest.mark.parametrize("manner", sorted(LAYOUTS))


def of(manner: str) -> Layout:
    found = LAYOUTS[manner]
    assert isinstance(found, Layout) and found.manner == manner
    return found


@EACH
def test_every_box_and_wire_has_its_place(manner: str) -> None:
    layout = of(manner)
    assert {name for name, _ in layout.corners} == {b.name for b in REQUEST.boxes}
    assert {name for name, points in layout.routes if len(points) > 1} == {w.name for w in REQUEST.wires}


@EACH
def test_boxes_do_not_overlap(manner: str) -> None:
    corners = dict(of(manner).corners)
    hang = {b.name: max(0.0, full_size(b)[0] - b.size[0]) / 2 * (manner == "layered") for b in REQUEST.boxes}
    places = [((corners[b.name][0] - hang[b.name], corners[b.name][1]), full_size(b)) for b in REQUEST.boxes]
    for ((ax, ay), (aw, ah)), ((bx, by), (bw, bh)) in itertools.combinations(places, 2):
        assert ax + aw <= bx or bx + bw <= ax or ay + ah <= by or by + bh <= ay


@EACH
def test_wires_are_right_angled(manner: str) -> None:
    for name, points in of(manner).routes:
        for (ax, ay), (bx, by) in itertools.pairwise(points):
            assert min(abs(ax - bx), abs(ay - by)) < 0.01, name


@EACH
def test_wires_begin_and_end_at_their_pins(manner: str) -> None:
    layout = of(manner)
    corners, boxes = dict(layout.corners), {b.name: b for b in REQUEST.boxes}
    for wire, (_, points) in zip(REQUEST.wires, layout.routes, strict=True):
        for (name, pin_name), point in ((wire.start, points[0]), (wire.end, points[-1])):
            pin = next(p for p in boxes[name].pins if p.name == pin_name)
            (x, y), (width, height) = corners[name], boxes[name].size
            at = pin.at
            if at is None:
                assert abs(point[0] - x - (0.0 if pin.side == "west" else width)) < 1 and y < point[1] < y + height
            else:
                assert abs(point[0] - x - at[0]) < 1 and abs(point[1] - y - at[1]) < 1, wire


@EACH
def test_no_wire_passes_through_a_box(manner: str) -> None:
    layout = of(manner)
    corners = dict(layout.corners)
    for name, points in layout.routes:
        for (ax, ay), (bx, by) in itertools.pairwise(points):
            for b in REQUEST.boxes:
                (x, y), (w, h) = corners[b.name], b.size
                across = min(ax, bx) < x + w - 1 and max(ax, bx) > x + 1
                along = min(ay, by) < y + h - 1 and max(ay, by) > y + 1
                assert not (across and along), (name, b.name)


def test_flow_goes_from_west_to_east() -> None:
    corners = dict(of("layered").corners)
    xs = [corners[name][0] for name in ("tank", "cock", "pump", "carburettor", "bus", "gauge")]
    assert xs == sorted(xs)


def test_the_library_gives_the_same_twice() -> None:
    assert elk_layouts(REQUEST, ROOM) == FOUND


def test_kept_and_recalled(tmp_path: Path) -> None:
    layout = of("layered")
    assert recalled(REQUEST, tmp_path) == ()
    keep(REQUEST, (layout, layout), tmp_path)
    assert recalled(REQUEST, tmp_path) == (layout, layout)
    other = Request(REQUEST.boxes, REQUEST.wires[1:])
    assert digest(other) != digest(REQUEST) and recalled(other, tmp_path) == ()


def test_a_kept_layout_is_used(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    laid_out(REQUEST, ROOM, tmp_path)
    monkeypatch.setattr(laying, "elk_layouts", lambda *_: pytest.fail("asked again"))
    assert laid_out(REQUEST, ROOM, tmp_path) == (FOUND, ())


@pytest.mark.parametrize("text", ["", "{", "[]", '{"size": [1]}', '{"size": [1, 2], "corners": 3}'])
def test_a_spoilt_cache_does_no_harm(tmp_path: Path, text: str) -> None:
    (tmp_path / f"{digest(REQUEST)}.json").write_text(text)
    assert laid_out(REQUEST, ROOM, tmp_path) == (FOUND, ())


def test_a_cache_that_cannot_be_written_does_no_harm(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    assert laid_out(REQUEST, ROOM, tmp_path / "file" / "below") == (FOUND, ())


def test_without_the_library_the_sheet_is_plain_and_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(elk, "library_text", lambda: None)
    text, problems = make_sheet(by_hand.FUEL, by_hand.MK, "Fuel", None, KINDS, cache=tmp_path)
    assert [p.code for p in problems] == ["D101"] and "hatch_build.py" in problems[0].hint
    assert "Plain layout" in text[text.index("<desc") : text.index("</desc>")]
    assert list(tmp_path.iterdir()) == []  # a plain layout is not kept, so that the library is used once it is there


@pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning")  # the engine calls back once more
def test_too_long_is_plain_and_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    endless = "function ELK() { this.layout = () => { for (;;) {} }; }"
    monkeypatch.setattr(elk, "library_text", lambda: endless)
    (layout,), problems = laid_out(REQUEST, ROOM, tmp_path, seconds=0.5)
    assert layout.manner == "plain"
    assert [p.code for p in problems] == ["D102"] and "too long" in problems[0].message


def test_a_fault_of_the_library_is_a_value(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(elk, "library_text", lambda: "function ELK() { this.layout = () => Promise.reject('no'); }")
    assert elk_layouts(REQUEST, ROOM) == NoLayout("it says: no")
    monkeypatch.setattr(elk, "library_text", lambda: "function ELK() { this.layout = () => new Promise(() => 0); }")
    assert elk_layouts(REQUEST, ROOM) == NoLayout("it gave no answer")
    monkeypatch.setattr(elk, "library_text", lambda: "this is not a program")
    found = elk_layouts(REQUEST, ROOM)
    assert isinstance(found, NoLayout) and found.words.startswith("it stopped")


def test_what_is_left_of_a_stretch() -> None:
    line = ((0.0, 0.0), (10.0, 0.0))
    assert without(line, ((2.0, 0.0), (5.0, 0.0))) == [((0.0, 0.0), (2.0, 0.0)), ((5.0, 0.0), (10.0, 0.0))]
    assert without(line, ((5.0, 0.0), (20.0, 0.0))) == [((0.0, 0.0), (5.0, 0.0))]
    assert without(line, ((0.0, 3.0), (10.0, 3.0))) == [line]
    assert without(line, ((5.0, -5.0), (5.0, 5.0))) == [line]
    back = ((10.0, 0.0), (0.0, 0.0))
    assert without(back, ((2.0, 0.0), (5.0, 0.0))) == [((10.0, 0.0), (5.0, 0.0)), ((2.0, 0.0), (0.0, 0.0))]


def test_a_layout_is_found_where_an_event_loop_runs() -> None:
    """As in a notebook: the engine itself refuses a time limit there."""

    async def inside() -> object:
        return elk_layouts(REQUEST, ROOM)

    # In a thread of its own, since the browser of other tests keeps a loop running in this one.
    with ThreadPoolExecutor(1) as apart:
        assert apart.submit(lambda: asyncio.run(inside())).result() == FOUND


def of_size(width: float, height: float, sound: bool = True) -> Layout:
    return Layout((width, height), (), (), (), "layered", sound)


def test_the_usual_layout_is_kept_unless_another_is_clearly_larger() -> None:
    room = Room(1520.0, 720.0)
    usual, hardly, clearly = of_size(3000, 700), of_size(3000 / BETTER + 1, 700), of_size(2000, 700)
    assert choose([usual, hardly], [room]) is usual
    assert choose([usual, hardly, clearly], [room]) is clearly
    small, smaller = of_size(900, 400), of_size(400, 200)
    assert choose([small, smaller], [room]) is small  # what fits is large enough
    nearly, just = of_size(1530, 700), of_size(1520, 720)
    assert choose([nearly, just], [room]) is just  # what can be read goes before what cannot
    assert fit(of_size(1520, 1440), room) == 0.5


def test_another_page_may_take_another_layout_of_the_same() -> None:
    wide, tall = of_size(1500, 500), of_size(700, 1100)
    assert choose([wide, tall], [Room(1600, 1000)]) is wide and choose([wide, tall], [Room(1100, 1600)]) is tall
    assert choose([wide, tall], [Room(1100, 400), Room(800, 1200)]) is tall  # of the rooms of a page that suits best


def test_a_layout_with_a_wire_through_a_box_is_passed_over() -> None:
    pump = Box("pump", (20.0, 20.0), ())
    there = (("pump", (40.0, -10.0)),)
    through = Layout((900, 400), there, (("wire", ((0.0, 0.0), (100.0, 0.0))),), (), "layered")
    past = Layout((900, 400), there, (("wire", ((0.0, 30.0), (100.0, 30.0))),), (), "layered")
    assert runs_through(through, (pump,)) and not runs_through(past, (pump,))
    bad, good = of_size(900, 400, sound=False), of_size(3000, 700)
    room = Room(1520.0, 720.0)
    assert choose([bad, good], [room]) is good
    assert choose([bad], [room]) is bad


def test_manners_are_tried_until_one_can_be_read() -> None:
    tiny = elk_layouts(REQUEST, (Room(10.0, 10.0),))
    assert not isinstance(tiny, NoLayout) and len(tiny) == len(elk.MANNERS)
    assert (LAYOUTS["layered"],) == FOUND
    assert elk_layouts(REQUEST, (Room(10.0, 10.0),), tiny[:5]) == tiny  # none is looked for again


def test_a_layout_does_not_hang_on_what_was_laid_out_before() -> None:
    other = replace(REQUEST, boxes=REQUEST.boxes[::-1], apart=20.0)
    library = elk.library_text()
    assert library is not None
    found: dict[Request, set[Layout]] = {REQUEST: set(), other: set()}
    for order in ((REQUEST, other, REQUEST), (other, REQUEST, other)):
        fresh = Engine(library)
        for one in order:
            answer = fresh.laid(elk.to_elk(one), 20.0)
            assert not isinstance(answer, NoLayout)
            found[one].add(elk.from_elk(one, answer))
        fresh.close()
    assert [len(layouts) for layouts in found.values()] == [1, 1] and found[REQUEST] != found[other]
