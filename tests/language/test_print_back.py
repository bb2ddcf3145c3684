"""Records printed and read again are the same records, places apart."""

import dataclasses
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from cutaway.language.parse import parse_claim
from cutaway.language.print_back import printed, printed_actions, printed_claim
from cutaway.language.syntax import (
    AgainstScope,
    And,
    AtPosition,
    Built,
    CanMove,
    Claim,
    ComesOnAt,
    Compare,
    Condition,
    ControlRef,
    Earlier,
    FailureChoice,
    FailureRef,
    Held,
    If,
    Independent,
    InState,
    Move,
    Not,
    Or,
    ReadingRef,
    Scope,
    Served,
    Trend,
    Wait,
    When,
)
from cutaway.problems.span import Span, TextFile, whole
from cutaway.quantities.quantity import Quantity
from cutaway.quantities.reading import read_quantity
from cutaway.quantities.units import FOOT
from cutaway.quantities.which import StandardName, Which

NOWHERE = Span(TextFile("", ""), 0, 0)


def without_places(record: Any) -> Any:
    """The record with every place in it the same."""
    if isinstance(record, Span):
        return NOWHERE
    if isinstance(record, tuple):
        return tuple(without_places(one) for one in record)
    if dataclasses.is_dataclass(record) and not isinstance(record, type):
        fields = {f.name: without_places(getattr(record, f.name)) for f in dataclasses.fields(record)}
        return type(record)(**fields)
    return record


def quantity(text: str) -> Quantity:
    found, problems = read_quantity(text, whole(TextFile("", text)))
    assert found is not None and not problems
    return found


figures = st.integers(1, 4000).map(lambda n: f"{n / 10:g}")


def quantities(unit: str) -> st.SearchStrategy[Quantity]:
    one = figures.map(lambda f: f"{f} {unit}")
    within = st.tuples(figures, figures).map(lambda pair: f"{pair[0]} {unit} ± {pair[1]}")
    between = st.tuples(st.integers(1, 50), st.integers(51, 90)).map(lambda p: f"{p[0]} to {p[1]} {unit}")
    return st.one_of(one, within, between).map(quantity)


def single(unit: str) -> st.SearchStrategy[Quantity]:
    return figures.map(lambda f: quantity(f"{f} {unit}"))


seconds = st.integers(0, 6000).map(lambda n: n / 10)
flags = st.booleans()
levels = st.integers(0, 100).map(lambda n: n * 0.01)

CONTROLS = {
    ControlRef("tank selector", ""): ("off", "port tank", "starboard tank"),
    ControlRef("hand pump", ""): ("idle", "pumping"),
    ControlRef("engine", "starter"): ("out", "pressed"),
    ControlRef("gear box", "clutch"): ("out", "in"),
    ControlRef("throttle", ""): ("closed", "open"),
    ControlRef("battery switch", ""): ("off", "on"),
}
RANGED = ControlRef("throttle", "")
controls = st.sampled_from(sorted(CONTROLS, key=str))
placed = controls.flatmap(lambda c: st.tuples(st.just(c), st.sampled_from(CONTROLS[c]), st.none())) | levels.map(
    lambda level: (RANGED, "", level)
)
parts = st.sampled_from(["fuel lamp", "hand pump", "engine pump", "horn", "port tank"])
states = st.sampled_from(
    [("fuel lamp", "lit"), ("generator", "charging"), ("undercarriage", "locked down"), ("horn", "sounding")]
)
readings = st.sampled_from(
    [
        (ReadingRef("fuel gauge", "pressure", ""), "lb/sq in"),
        (ReadingRef("carburettor", "", "inlet"), "in Hg"),
        (ReadingRef("engine", "speed", ""), "rpm"),
        (ReadingRef("port tank", "contents", ""), "gal"),
        (ReadingRef("tank selector", "", "port tank"), "lb/sq in"),
    ]
)
words = st.text("abc XY,-'", min_size=1, max_size=20).map(lambda t: " ".join(t.split()).strip(",' ")).filter(bool)
texts = words | st.sampled_from(
    ["cockpit, left wall", "nose and tail", "wing (outer)", "if wet, the nose", "12 and 14"]
)

moves = st.builds(lambda where, held: Move(*where, held, NOWHERE), placed, st.none() | seconds)
waits = seconds.map(lambda s: Wait(s, NOWHERE))
during = st.tuples(moves, st.lists(moves | waits, min_size=1, max_size=2)).map(
    lambda pair: (dataclasses.replace(pair[0], held=None, through=len(pair[1])), *pair[1])
)
one_action = (moves | waits).map(lambda action: (action,))
actions = st.lists(one_action | during, max_size=3).map(lambda groups: tuple(a for group in groups for a in group))

failures = st.one_of(
    st.sampled_from([("engine pump", "seized"), ("hydraulic pump", "failed seal"), ("bus", "short")]).map(
        lambda f: FailureChoice((FailureRef(*f),), NOWHERE)
    ),
    st.just(FailureChoice((FailureRef("hydraulic pump", "seized"), FailureRef("spare pump", "seized")), NOWHERE)),
    st.just(FailureChoice((FailureRef("hydraulic pump", "failed seal"), FailureRef("engine pump", "seized")), NOWHERE)),
)
conditions = st.one_of(
    quantities("ft").map(lambda q: Condition("", "height", q, NOWHERE)),
    quantities("gal").map(lambda q: Condition("port tank", "contents", q, NOWHERE)),
)
held = placed.map(lambda where: Held(*where, NOWHERE))
whens = st.one_of(
    st.just(When()),
    st.just(When("never")),
    st.builds(When, st.sampled_from(["within", "throughout", "at"]), seconds),
    st.tuples(seconds, seconds).filter(lambda t: t[0] < t[1]).map(lambda t: When("takes", *t)),
)
whiches = st.none() | st.sampled_from(
    [
        Which("Mk 1", frozenset({StandardName("Mk 1")})),
        Which("Mk 1 or Mk 4", frozenset({StandardName("Mk 1"), StandardName("Mk 4")})),
        Which("Dunlin D-7", frozenset({StandardName("Dunlin D-7")})),
    ]
)
scopes = st.builds(
    Scope,
    on=whiches,
    situation=st.sampled_from(["", "parked", "running up"]),
    failures=st.lists(failures, max_size=2).map(tuple),
    conditions=st.lists(conditions, max_size=2).map(tuple),
    held=st.lists(held, max_size=2).map(tuple),
    actions=actions,
    when=whens,
    modality=st.sampled_from(["", "always", "sometimes"]),
    span=st.just(NOWHERE),
)


@st.composite
def compares(draw: st.DrawFn) -> Compare:
    reading, unit = draw(readings)
    op = draw(st.sampled_from(["is", "above", "below", "at least", "at most"]))
    settles = op == "is" and draw(flags)
    value = draw(quantities(unit) if op == "is" else single(unit))
    return Compare(reading, op, value, settles, not settles and draw(flags), NOWHERE)


@st.composite
def positions(draw: st.DrawFn) -> AtPosition:
    control, position, level = draw(placed)
    op = draw(st.sampled_from(["is", "above", "below"])) if level is not None else "is"
    return AtPosition(control, position, op, level, draw(flags), NOWHERE)


@st.composite
def builts(draw: st.DrawFn) -> Built:
    what = draw(
        st.sampled_from(
            ["fitted", "at", "marked", "worked by", "positions", "count", "feeds", "works", "driven by", "set at"]
        )
    )
    negated, part = draw(flags), draw(parts)
    match what:
        case "at" | "marked" | "worked by":
            return Built(what, part, (draw(texts),), 0, None, "", negated, NOWHERE)
        case "feeds" | "works" | "driven by":
            return Built(what, part, (draw(parts),), 0, None, "", negated, NOWHERE)
        case "positions":
            return Built(what, "engine", ("out", "pressed"), 0, None, "starter", False, NOWHERE)
        case "count":
            cocks = ("port cock", "starboard cock")
            return Built(what, "master cock", cocks, draw(st.integers(0, 20)), None, "", False, NOWHERE)
        case "set at":
            value = draw(st.sampled_from(["", "lights below"]))
            return Built(what, "fuel lamp", (), 0, draw(quantities("lb/sq in")), value, not value and negated, NOWHERE)
        case _:
            return Built("fitted", part, (), 0, None, "", negated, NOWHERE)


says_something = scopes.filter(lambda s: s != Scope(None, "", (), (), (), (), When(), "", NOWHERE))
services = st.sampled_from(["petrol to the engine", "wheels down and locked"])
heights = st.integers(0, 400).map(lambda n: 100 * n * FOOT)
ops = st.sampled_from(["higher", "lower", "same"])
several_controls = st.lists(controls, min_size=1, max_size=3, unique=True).map(tuple)
trends = st.builds(
    lambda reading, rises, ends: Trend(reading[0], rises, "height", *ends, NOWHERE),
    readings,
    flags,
    st.tuples(heights, heights).filter(lambda ends: ends[0] != ends[1]),
)
movements = controls.flatmap(
    lambda c: st.builds(lambda p, n: CanMove(c, p, n, NOWHERE), st.sampled_from(CONTROLS[c]), flags)
)
leaves = st.one_of(
    st.builds(lambda s, n: InState(*s, n, NOWHERE), states, flags),
    positions(),
    compares(),
    st.builds(lambda q, n, f: ComesOnAt("fuel lamp", "lit", n, q, f, NOWHERE), single("lb/sq in"), flags, flags),
    st.builds(lambda s, n: Served(s, n, NOWHERE), services, flags),
    trends,
    st.builds(lambda p, c, n: Independent(p, c, n, NOWHERE), parts, several_controls, flags),
    st.builds(lambda r, op, s: AgainstScope(r[0], op, s, NOWHERE), readings, ops, says_something),
    movements,
    builts(),
)


def _joined(inner: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    several = st.lists(inner, min_size=2, max_size=3).map(tuple)
    return st.one_of(
        inner.map(lambda s: Not(s, NOWHERE)),
        several.map(lambda s: And(s, NOWHERE)),
        several.map(lambda s: Or(s, NOWHERE)),
        st.builds(
            lambda a, b, k: If(a, b, k, NOWHERE), inner, inner, st.sampled_from(["if", "only if", "exactly when"])
        ),
        st.builds(lambda a, b: Earlier(a, b, NOWHERE), inner, inner),
    )


statements = st.recursive(leaves, _joined, max_leaves=6)
claims = st.builds(lambda scope, statement: Claim(scope, statement, NOWHERE), scopes, statements)


@settings(
    max_examples=250, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow]
)
@given(claim=claims)
def test_what_is_printed_is_read_as_it_was(claim, words) -> None:
    text = printed_claim(claim)
    again, problems = parse_claim(whole(TextFile("s", text)), words)
    assert problems == (), text
    assert without_places(again) == without_places(claim), text


@pytest.mark.parametrize(
    "text",
    [
        "on Mk 1, in cruising, after tank selector to off, within 40 s: fuel lamp is lit",
        "in approach, always: horn is sounding if throttle is closed and undercarriage is not locked down",
        "in parked, after battery switch to on then engine.starter to pressed for 3 s, within 8 s: engine is running",
        "boost gauge.boost falls as height rises from 8000 ft to 12000 ft",
        "fuel lamp is at cockpit, left wall and fuel lamp is marked FUEL PRESS",
        "not (fuel lamp is lit or horn is sounding) and hand pump is fitted",
        "fuel lamp lights at 2 lb/sq in falling",
        "(fuel gauge.pressure is higher than on Mk 1) or fuel lamp is lit",
        "with any of (hydraulic pump, spare pump) seized: throttle is above 30 %",
    ],
)
def test_the_canonical_form_is_its_own(text, read) -> None:
    claim, problems = read(parse_claim, text)
    assert problems == () and printed_claim(claim) == text


def test_a_statement_and_actions_alone() -> None:
    assert printed(InState("fuel lamp", "lit", True, NOWHERE)) == "fuel lamp is not lit"
    move = Move(ControlRef("throttle", ""), "", 0.6, 20.0, NOWHERE)
    assert printed_actions((move, Wait(0.5, NOWHERE))) == "throttle to 60 % for 20 s then wait 0.5 s"
