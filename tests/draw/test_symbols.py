"""Every symbol: its ports where the kind has them, one frame for all states, and states that need no colour."""

from collections.abc import Iterable
from dataclasses import replace
from itertools import chain

import pytest

from cutaway.draw.shapes import Circle, Group, Line, Path, Point, Polyline, Rect, Shape, Text
from cutaway.draw.symbols.symbol import LINK_IN, LINK_OUT, Look, Setting, Symbol
from cutaway.draw.symbols.table import SYMBOLS, ports_of, symbol_of
from cutaway.draw.symbols.unknown import box
from cutaway.draw.theme import RULES, TEXT_RULES
from cutaway.parts.kind import Kind, Port
from cutaway.parts.library import KINDS
from tests.draw.symbol_page import ENDS, NAMES, look_at


def look(
    kind: Kind, places: float | None = 0.0, states: dict[str, bool] | None = None, share: float | None = None
) -> Look:
    """A part of a kind in some state. share: every reading as a part of 1, with every quantity 1."""
    lists = dict.fromkeys(kind.lists, NAMES)
    controls = {c.name: Setting(c.positions + (NAMES if c.each else ()), places, c.ranged) for c in kind.controls}
    readings = {} if share is None else {r.name: share for r in kind.readings}
    wants = {w.name: 1.0 for w in kind.wants} | {"capacity": 1.0}
    return Look(lists, controls, states or {}, readings, wants)


def looks(kind: Kind) -> list[Look]:
    """Many states of one part."""
    places = chain.from_iterable([float(i) for i in range(len(c.positions))] for c in kind.controls)
    found = [look(kind, None), look(kind), *(look(kind, p) for p in places)]
    found += [look(kind, states={s.words: so}) for s in kind.states for so in (True, False)]
    return found + [look(kind, share=share) for share in (0.0, 0.4, 1.0)]


def uncoloured(shapes: Iterable[Shape]) -> tuple[Shape, ...]:
    """The shapes without their roles: what is left when every colour and width is taken away."""
    return tuple(s if isinstance(s, Group) else replace(s, role="") for s in shapes)


def points(shape: Shape) -> list[Point]:
    """Points that a shape reaches, near enough."""
    match shape:
        case Line(start, end):
            return [start, end]
        case Polyline(at):
            return list(at)
        case Circle((x, y), r):
            return [(x - r, y - r), (x + r, y + r)]
        case Rect((x, y), (w, h)):
            return [(x, y), (x + w, y + h)]
        case Path(commands):
            return [(n[-2], n[-1]) for _, n in commands if n]
        case Text(at):
            return [at]
        case Group(shapes):
            return [p for s in shapes for p in points(s)]


def test_symbols_are_of_kinds_that_there_are() -> None:
    assert set(SYMBOLS) <= set(KINDS)


@pytest.mark.parametrize("name", sorted(KINDS))
def test_ports_are_on_the_sides_that_the_kind_gives(name: str) -> None:
    kind = KINDS[name]
    if name not in SYMBOLS:
        pytest.skip("drawn as a box")
    drawn = SYMBOLS[name](look(kind))
    sides = {(a.port, a.side) for a in drawn.anchors if a.port not in (LINK_IN, LINK_OUT)}
    assert {(p.name, p.side) for p in ports_of(kind, look(kind))} <= sides
    assert {port for port, _ in sides} == {p.name for p in ports_of(kind, look(kind))}


@pytest.mark.parametrize("name", sorted(KINDS))
def test_no_state_changes_the_frame(name: str) -> None:
    symbols = [symbol_of(KINDS[name], one) for one in looks(KINDS[name])]
    assert len({(s.size, s.anchors) for s in symbols}) == 1


@pytest.mark.parametrize("name", sorted(KINDS))
def test_nothing_leaves_the_frame(name: str) -> None:
    for one in looks(KINDS[name]):
        symbol = symbol_of(KINDS[name], one)
        for shape in symbol.shapes:
            for x, y in points(shape):
                assert -0.06 <= x <= symbol.size[0] + 0.06 and -0.06 <= y <= symbol.size[1] + 0.06, shape


@pytest.mark.parametrize("name", sorted(KINDS))
def test_roles_are_known_to_the_theme(name: str) -> None:
    known = {rule.role for rule in (*RULES, *TEXT_RULES)}
    for one in looks(KINDS[name]):
        assert {s.role for s in symbol_of(KINDS[name], one).shapes} <= known


def shown(name: str, one: Look) -> tuple[Shape, ...]:
    return uncoloured(symbol_of(KINDS[name], one).shapes)


BY_ITS_READING = {
    "accumulator": "pressure",
    "doors": "angle",
    "flaps": "angle",
    "jack": "travel",
    "ram": "travel",
    "reservoir": "contents",
    "tank": "contents",
}
"""Kinds whose states are places of something that is drawn where its reading says that it is."""

STATES = [(k.name, s.words) for k in KINDS.values() for s in k.states if k.name not in BY_ITS_READING]


@pytest.mark.parametrize(("name", "state"), STATES, ids=[f"{n}: {s}" for n, s in STATES])
def test_a_state_is_seen_without_colour(name: str, state: str) -> None:
    yes, no = (shown(name, look(KINDS[name], states={state: so})) for so in (True, False))
    assert yes != no


@pytest.mark.parametrize("name", sorted(k.name for k in KINDS.values() if k.controls))
def test_each_position_is_seen_without_colour(name: str) -> None:
    kind = KINDS[name]
    for control in kind.controls:
        count = len(control.positions) + (len(NAMES) if control.each else 0)
        places = [0.0, 0.3, 1.0] if control.ranged else [float(i) for i in range(count)]
        assert len({shown(name, look(kind, place)) for place in places}) == len(places)


ENDS_OF_DIALS = {"fuel pressure gauge": 6.0e4, "suction gauge": 2.0e4, "boost gauge": 1.2e5}
GAUGES = sorted(k.name for k in KINDS.values() if k.name.endswith(("gauge", "meter", "counter", "indicator")))


@pytest.mark.parametrize(
    "name", [*GAUGES, *BY_ITS_READING, "air bottle", "emergency air bottle", "leg", "coolant circuit"]
)
def test_a_reading_is_seen(name: str) -> None:
    """As a pointer or a level, without colour or words."""
    kind = KINDS[name]
    main = next(r for r in kind.readings if r.main)
    low, high = ENDS.get(main.dimension, (0.0, 1.0))
    high = ENDS_OF_DIALS.get(name, high)
    seen = set()
    for part in (0.1, 0.5, 0.9):
        one = replace(look_at(kind), readings={main.name: low + part * (high - low)})
        seen.add(shown(name, one))
    assert len(seen) == 3


@pytest.mark.parametrize("name", sorted(KINDS))
def test_every_kind_has_a_symbol_or_a_box_that_tells_as_much(name: str) -> None:
    """The box of a kind without a symbol shows its positions and states too."""
    kind = KINDS[name]

    def boxed(one: Look) -> tuple[Shape, ...]:
        return uncoloured(box(kind, ports_of(kind, one), one).shapes)

    for control in kind.controls:
        count = len(control.positions) + (len(NAMES) if control.each else 0)
        places = [0.0, 0.3, 1.0] if control.ranged else [float(i) for i in range(count)]
        assert len({boxed(look(kind, place)) for place in places}) == len(places)
    for state in kind.states:
        assert boxed(look(kind, states={state.words: True})) != boxed(look(kind, states={state.words: False}))


def test_no_kind_of_the_library_is_without_a_symbol() -> None:
    assert set(KINDS) - set(SYMBOLS) == set()


def test_a_kind_without_a_symbol_is_a_box_with_its_ports() -> None:
    ports = (
        Port("in", "oil", "west"),
        Port("drain", "oil", "south"),
        Port("a", "oil", "east"),
        Port("b", "oil", "east"),
    )
    kind = replace(KINDS["tank"], name="accumulator of tomorrow", ports=ports, controls=(), states=(), readings=())
    symbol: Symbol = symbol_of(kind, look(kind))
    assert [type(s) for s in symbol.shapes] == [Rect]
    assert {(a.port, a.side) for a in symbol.anchors} == {(p.name, p.side) for p in ports}
    assert len({a.at for a in symbol.anchors}) == len(ports)
