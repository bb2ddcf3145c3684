"""What good claims are read as."""

import pytest

from cutaway.language.parse import (
    parse_actions,
    parse_claim,
    parse_given,
    parse_mark,
    parse_scope,
    parse_statement,
)
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


@pytest.fixture
def statement(read):
    def reading(text):
        found, problems = read(parse_statement, text)
        assert problems == ()
        return found

    return reading


@pytest.fixture
def scope(read):
    def reading(text):
        found, problems = read(parse_scope, text)
        assert problems == () and isinstance(found, Scope)
        return found

    return reading


def test_a_claim_has_scope_statement_and_its_own_place(read) -> None:
    claim, problems = read(
        parse_claim, "on Mk 1, in cruising, after tank selector to off, within 40 s: fuel lamp is lit"
    )
    assert problems == () and isinstance(claim, Claim)
    assert claim.scope.on is not None and claim.scope.on.names == {"Mk 1"}
    assert claim.scope.situation == "cruising"
    assert [(m.control.part, m.position, m.held) for m in claim.scope.actions] == [("tank selector", "off", None)]
    assert claim.scope.when == When("within", 40.0)
    assert isinstance(claim.statement, InState) and claim.statement.part == "fuel lamp"
    text = claim.span.file.text
    assert text[claim.span.start : claim.span.end].startswith("on Mk 1")
    assert text[claim.statement.span.start : claim.statement.span.end] == "fuel lamp is lit"
    assert text[claim.scope.span.start : claim.scope.span.end].endswith("within 40 s")


@pytest.mark.parametrize("text", [": horn is silent", "horn is silent", "horn is silent.", "  The horn is silent "])
def test_an_empty_scope_is_every_standard_at_rest(text, read) -> None:
    claim, problems = read(parse_claim, text)
    assert problems == ()
    scope = claim.scope
    assert (scope.on, scope.situation, scope.failures, scope.actions, scope.when) == (None, "", (), (), When())


@pytest.mark.parametrize(
    "text, when, modality",
    [
        ("within 40 s", When("within", 40.0), ""),
        ("throughout 2 min", When("throughout", 120.0), ""),
        ("at 1 min 30 s", When("at", 90.0), ""),
        ("never", When("never"), ""),
        ("takes 5 to 8 min", When("takes", 300.0, 480.0), ""),
        ("takes 30 s to 2 min", When("takes", 30.0, 120.0), ""),
        ("always", When(), "always"),
        ("at 60 s, sometimes", When("at", 60.0), "sometimes"),
        ("sometimes, in cruising, at 60 s", When("at", 60.0), "sometimes"),
    ],
)
def test_when(text, when, modality, scope) -> None:
    found = scope(text)
    assert (found.when, found.modality) == (when, modality)


@pytest.mark.parametrize(
    "text, names",
    [
        ("on Mk 1", {"Mk 1"}),
        ("on Mk 2", {"Mk 2", "Mk 2 with mod 40"}),
        ("on Mk 2 with mod 40", {"Mk 2 with mod 40"}),
        ("on Mk 2 to Mk 4", {"Mk 2", "Mk 2 with mod 40", "Mk 4"}),
        ("on not Mk 1", {"Mk 2", "Mk 2 with mod 40", "Mk 4"}),
        ("on Mk 1 or Mk 4 and in cruising", {"Mk 1", "Mk 4"}),
        ("on dunlin d-7", {"Dunlin D-7"}),
    ],
)
def test_standards(text, names, scope) -> None:
    assert scope(text).on.names == names


def test_a_mark_does_not_mean_its_airframes(scope) -> None:
    assert "Dunlin D-7" not in scope("on Mk 2").on.names


HYDRAULIC, SPARE, ENGINE = (
    FailureRef("hydraulic pump", "seized"),
    FailureRef("spare pump", "seized"),
    FailureRef("engine pump", "seized"),
)


@pytest.mark.parametrize(
    "text, choices",
    [
        ("with hydraulic pump failed", [(FailureRef("hydraulic pump", "failed seal"),)]),
        ("with hydraulic pump seized", [(HYDRAULIC,)]),
        ("with hydraulic pump failed seal", [(FailureRef("hydraulic pump", "failed seal"),)]),
        ("with hydraulic pump seized, spare pump seized", [(HYDRAULIC,), (SPARE,)]),
        ("with hydraulic pump and spare pump seized", [(HYDRAULIC,), (SPARE,)]),
        ("with hydraulic pump seized and spare pump seized", [(HYDRAULIC,), (SPARE,)]),
        ("with any of the pumps seized", [(ENGINE, HYDRAULIC, SPARE)]),
        ("with any of (hydraulic pump, spare pump) seized", [(HYDRAULIC, SPARE)]),
        ("with each of (hydraulic pump and spare pump) seized", [(HYDRAULIC,), (SPARE,)]),
    ],
)
def test_what_has_failed(text, choices, scope) -> None:
    assert [choice.options for choice in scope(text).failures] == choices


def test_what_is_given(scope) -> None:
    found = scope("with height 8000 ft, with port tank at 3 gal, accumulator at 600 to 800 lb/sq in")
    assert [(c.part, c.name, c.quantity.text) for c in found.conditions] == [
        ("", "height", "8000 ft"),
        ("port tank", "contents", "3 gal"),
        ("accumulator", "contents", "600 to 800 lb/sq in"),
    ]


@pytest.mark.parametrize(
    "text, position, level",
    [
        ("with throttle at closed", "closed", None),
        ("with throttle closed", "closed", None),
        ("with throttle at 60 %", "", 0.6),
        ("with throttle 60 per cent", "", 0.6),
    ],
)
def test_where_a_control_is_held(text, position, level, scope) -> None:
    (held,) = scope(text).held
    assert (held.control, held.position, held.level) == (ControlRef("throttle", ""), position, level)


def test_what_follows_with_on_the_command_line(read) -> None:
    found, problems = read(parse_given, "hydraulic pump seized, height 8000 ft and throttle at closed")
    assert problems == ()
    assert [c.options for c in found.failures] == [(HYDRAULIC,)]
    assert isinstance(found.conditions[0], Condition) and isinstance(found.held[0], Held)


@pytest.mark.parametrize(
    "text",
    [
        "tank selector to off then hand pump to pumping for 20 s then wait 10 s",
        "tank selector to off, hand pump to pumping for 20 s, then wait 10 s",
        "tank selector to off and hand pump to pumping for 20 s and then wait 10 s",
        "Tank  Selector to OFF, then the hand pump to pumping for 20 s, wait 10 s",
    ],
)
def test_actions_in_order(text, read) -> None:
    actions, problems = read(parse_actions, text)
    assert problems == ()
    first, second, third = actions
    assert isinstance(first, Move) and (first.position, first.held) == ("off", None)
    assert isinstance(second, Move) and (second.position, second.held) == ("pumping", 20.0)
    assert isinstance(third, Wait) and third.seconds == 10.0


@pytest.mark.parametrize(
    "text, shape",
    [
        ("wait 1 s then wait 2 s repeated 2 times", [1.0, 2.0, 1.0, 2.0]),
        ("wait 1 s then wait 2 s, repeated two times", [1.0, 2.0, 1.0, 2.0]),
        ("wait 1 s then (wait 2 s) repeated 2 times", [1.0, 2.0, 2.0]),
        ("(wait 1 s then wait 2 s) repeated 2 times then wait 3 s", [1.0, 2.0, 1.0, 2.0, 3.0]),
    ],
)
def test_repeated(text, shape, read) -> None:
    actions, problems = read(parse_actions, text)
    assert problems == () and [a.seconds for a in actions] == shape


@pytest.mark.parametrize(
    "text, through",
    [
        ("float cock to on while undercarriage lever to up then wait 1 s", [1, 0, 0]),
        ("float cock to on while (undercarriage lever to up then wait 1 s) then wait 2 s", [2, 0, 0, 0]),
        ("float cock to on while flap lever to up while undercarriage lever to up", [2, 1, 0]),
        ("float cock to on while (wait 1 s repeated 2 times) then wait 2 s", [2, 0, 0, 0]),
    ],
)
def test_a_control_held_while_others_are_moved(read, text, through) -> None:
    actions, problems = read(parse_actions, text.replace("float cock", "port cock"))
    assert problems == ()
    assert [getattr(action, "through", 0) for action in actions] == through


def test_while_elsewhere_is_still_answered_with_if(read) -> None:
    _, problems = read(parse_claim, "fuel lamp is lit while battery switch is on")
    assert [p.code for p in problems] == ["L101"] and problems[0].hint == "Write if."


def test_controls_of_a_part(read) -> None:
    for text in ("engine starter to pressed", "engine.starter to pressed", "engine to pressed"):
        ((move,), problems) = read(parse_actions, text)
        assert problems == () and move.control == ControlRef("engine", "starter")
    ((move,), _) = read(parse_actions, "gear box clutch to in")
    assert move.control == ControlRef("gear box", "clutch")


def test_marks_are_told_apart(read) -> None:
    done, _ = read(parse_mark, "hand pump to pumping for 20 s")
    seen, _ = read(parse_mark, "fuel lamp is out")
    assert isinstance(done, tuple) and isinstance(seen, InState)


@pytest.mark.parametrize(
    "text, part, state, negated",
    [
        ("fuel lamp is lit", "fuel lamp", "lit", False),
        ("fuel lamp is out", "fuel lamp", "lit", True),
        ("fuel lamp is not out", "fuel lamp", "lit", False),
        ("generator is not charging", "generator", "charging", True),
        ("undercarriage is not locked down", "undercarriage", "locked down", True),
        ("float is down", "float", "down", False),
        ("odd valve is closed", "odd valve", "open", True),
    ],
)
def test_states(text, part, state, negated, statement) -> None:
    found = statement(text)
    assert isinstance(found, InState) and (found.part, found.state, found.negated) == (part, state, negated)


@pytest.mark.parametrize(
    "text, control, position, op, level, negated",
    [
        ("tank selector is off", ("tank selector", ""), "off", "is", None, False),
        ("tank selector is not port tank", ("tank selector", ""), "port tank", "is", None, True),
        ("tank selector is at off", ("tank selector", ""), "off", "is", None, False),
        ("hand pump is pumping", ("hand pump", ""), "pumping", "is", None, False),
        ("engine is pressed", ("engine", "starter"), "pressed", "is", None, False),
        ("battery switch is on", ("battery switch", ""), "on", "is", None, False),
        ("gear box clutch is in", ("gear box", "clutch"), "in", "is", None, False),
        ("gear box is half", ("gear box", "gear"), "half", "is", None, False),
        ("throttle is closed", ("throttle", ""), "closed", "is", None, False),
        ("throttle is 60 %", ("throttle", ""), "", "is", 0.6, False),
        ("throttle is above 30 %", ("throttle", ""), "", "above", 0.3, False),
        ("throttle is at least 30 %", ("throttle", ""), "", "below", 0.3, True),
        ("throttle is at most 30 %", ("throttle", ""), "", "above", 0.3, True),
        ("throttle is not below 30 %", ("throttle", ""), "", "below", 0.3, True),
        ("odd valve is at open", ("odd valve", ""), "open", "is", None, False),
    ],
)
def test_positions(text, control, position, op, level, negated, statement) -> None:
    found = statement(text)
    assert isinstance(found, AtPosition)
    assert found.control == ControlRef(*control)
    assert (found.position, found.op, found.level, found.negated) == (position, op, level, negated)


@pytest.mark.parametrize(
    "text, reading, op, low, high",
    [
        ("fuel gauge is 7 lb/sq in ± 0.5", ("fuel gauge", "pressure", ""), "is", 6.5, 7.5),
        ("fuel gauge reads 7 lb/sq in", ("fuel gauge", "pressure", ""), "is", 7, 7),
        ("fuel gauge is between 3 and 5 lb/sq in", ("fuel gauge", "pressure", ""), "is", 3, 5),
        ("fuel gauge is above 20 in Hg", ("fuel gauge", "pressure", ""), "above", 20, 20),
        ("fuel gauge reads at least 2 lb/sq in", ("fuel gauge", "pressure", ""), "at least", 2, 2),
        ("carburettor.inlet is below 1.5 lb/sq in", ("carburettor", "", "inlet"), "below", 1.5, 1.5),
        ("carburettor inlet is at most 1.5 lb/sq in", ("carburettor", "", "inlet"), "at most", 1.5, 1.5),
        ("tank selector.port tank is below 1 lb/sq in", ("tank selector", "", "port tank"), "below", 1, 1),
        ("engine speed is above 2000 rpm", ("engine", "speed", ""), "above", 2000, 2000),
        ("port tank reads 3 gal", ("port tank", "contents", ""), "is", 3, 3),
        ("gear box heat is above 60 °C", ("gear box", "heat", ""), "above", 60, 60),
        ("bus is 14 V ± 0.7", ("bus", "voltage", ""), "is", 13.3, 14.7),
    ],
)
def test_readings(text, reading, op, low, high, statement) -> None:
    found = statement(text)
    assert isinstance(found, Compare)
    assert found.reading == ReadingRef(*reading) and found.op == op and not found.negated and not found.settles
    assert (found.quantity.low, found.quantity.high) == (pytest.approx(low), pytest.approx(high))


def test_settling_and_negation_of_readings(statement) -> None:
    assert statement("fuel gauge settles at 5 lb/sq in").settles
    assert statement("fuel gauge does not read 5 lb/sq in").negated
    assert statement("fuel gauge is not above 5 lb/sq in").negated


@pytest.mark.parametrize(
    "text, state, negated, falling",
    [
        ("fuel lamp lights at 2 lb/sq in falling", "lit", False, True),
        ("fuel lamp goes out at 2.5 lb/sq in rising", "lit", True, False),
        ("fuel lamp becomes out at 2.5 lb/sq in rising", "lit", True, False),
        ("odd valve opens at 3 lb/sq in rising", "open", False, False),
        ("odd valve shuts at 3 lb/sq in falling", "open", True, True),
        ("generator cuts in at 900 rpm rising", "charging", False, False),
    ],
)
def test_a_state_begins(text, state, negated, falling, statement) -> None:
    found = statement(text)
    assert isinstance(found, ComesOnAt)
    assert (found.state, found.negated, found.falling) == (state, negated, falling)


def test_services(statement) -> None:
    assert statement("petrol to the engine is served").service == "petrol to the engine"
    found = statement("wheels down and locked is not served")
    assert isinstance(found, Served) and found.negated and found.service == "wheels down and locked"


@pytest.mark.parametrize(
    "text, rises, start, stop",
    [
        ("boost gauge falls as height rises from 8000 ft to 12000 ft", False, 2438.4, 3657.6),
        ("boost gauge rises as height falls from 12000 to 8000 ft", True, 3657.6, 2438.4),
    ],
)
def test_trends(text, rises, start, stop, statement) -> None:
    found = statement(text)
    assert isinstance(found, Trend) and found.condition == "height" and found.rises is rises
    assert (found.start, found.stop) == (pytest.approx(start), pytest.approx(stop))


def test_order_independence_movement(statement) -> None:
    found = statement("fuel lamp is lit before engine is stopped")
    assert isinstance(found, Earlier) and found.first.part == "fuel lamp" and found.second.part == "engine"
    found = statement("horn does not depend on the throttles")
    assert isinstance(found, Independent) and not found.negated
    assert found.controls == (ControlRef("throttle", ""), ControlRef("outer throttle", ""))
    assert statement("horn depends on throttle and flap lever").negated
    found = statement("undercarriage lever can be moved to up")
    assert isinstance(found, CanMove) and found.position == "up" and not found.negated
    assert statement("undercarriage lever cannot be moved to up").negated


@pytest.mark.parametrize(
    "text, op",
    [
        ("fuel gauge is lower than with throttle at closed", "lower"),
        ("fuel gauge is higher than with throttle at closed", "higher"),
        ("fuel gauge is the same as with throttle at closed", "same"),
    ],
)
def test_against_another_scope(text, op, statement) -> None:
    found = statement(text)
    assert isinstance(found, AgainstScope) and found.op == op
    assert found.other.held[0].position == "closed"


@pytest.mark.parametrize(
    "text, what, subject, names, negated",
    [
        ("hand pump is fitted", "fitted", "hand pump", (), False),
        ("hand pump is not fitted", "fitted", "hand pump", (), True),
        ("there is a hand pump", "fitted", "hand pump", (), False),
        ("there is no hand pump", "fitted", "hand pump", (), True),
        ("fuel lamp is at cockpit, left wall", "at", "fuel lamp", ("cockpit, left wall",), False),
        ("battery is at behind the rear seat", "at", "battery", ("behind the rear seat",), False),
        ("battery is at 2 ft behind the seat", "at", "battery", ("2 ft behind the seat",), False),
        ("port tank is at root of the port wing", "at", "port tank", ("root of the port wing",), False),
        ('horn is at "nose and tail (both)"', "at", "horn", ("nose and tail (both)",), False),
        ("fuel lamp is marked FUEL PRESS", "marked", "fuel lamp", ("FUEL PRESS",), False),
        ("hand pump is not worked by pilot", "worked by", "hand pump", ("pilot",), True),
        ("engine pump is driven by engine", "driven by", "engine pump", ("engine",), False),
        ("engine pump feeds carburettor", "feeds", "engine pump", ("carburettor",), False),
        ("engine pump does not feed horn", "feeds", "engine pump", ("horn",), True),
        ("carburettor is fed by engine pump", "feeds", "engine pump", ("carburettor",), False),
        ("throttle works horn", "works", "throttle", ("horn",), False),
        (
            "tank selector has positions off, port tank, starboard tank",
            "positions",
            "tank selector",
            ("off", "port tank", "starboard tank"),
            False,
        ),
        ("hand pump has positions idle and pumping", "positions", "hand pump", ("idle", "pumping"), False),
    ],
)
def test_how_it_is_built(text, what, subject, names, negated, statement) -> None:
    found = statement(text)
    assert isinstance(found, Built)
    assert (found.what, found.subject, found.words, found.negated) == (what, subject, names, negated)


@pytest.mark.parametrize(
    "text, pairs, negated",
    [
        (
            "tank selector feeds engine pump and hand pump",
            [("tank selector", "engine pump"), ("tank selector", "hand pump")],
            False,
        ),
        ("bus does not feed horn, engine", [("bus", "horn"), ("bus", "engine")], True),
        (
            "carburettor is fed by engine pump and hand pump",
            [("engine pump", "carburettor"), ("hand pump", "carburettor")],
            False,
        ),
        ("bus feeds the lamps", [("bus", "fuel lamp"), ("bus", "charging lamp")], False),
    ],
)
def test_each_part_that_is_fed_is_a_statement(text, pairs, negated, statement) -> None:
    found = statement(text)
    assert isinstance(found, And) and all(b.negated is negated for b in found.of)
    assert [(b.subject, b.words[0]) for b in found.of] == pairs


def test_positions_of_one_control_of_several(statement) -> None:
    found = statement("gear box clutch has positions out, in")
    assert (found.subject, found.value, found.words) == ("gear box", "clutch", ("out", "in"))


@pytest.mark.parametrize(
    "text, number, subject, members",
    [
        ("there are 2 master cocks", 2, "master cock", ("port cock", "starboard cock")),
        ("there are two tanks", 2, "tank", ("port tank", "starboard tank")),
        ("there is one master cock", 1, "master cock", ("port cock", "starboard cock")),
        ("there are no voltmeters", 0, "voltmeter", ()),
        ("there are 2 wing cocks", 2, "wing cocks", ("port cock", "starboard cock")),
    ],
)
def test_counting(text, number, subject, members, statement) -> None:
    found = statement(text)
    assert (found.what, found.number, found.subject, found.words) == ("count", number, subject, members)


@pytest.mark.parametrize(
    "text, value, dimension",
    [
        ("fuel lamp is set at 3 lb/sq in", "", "pressure"),
        ("port tank has a capacity of 22 gal", "capacity", "volume"),
        ("fuel lamp has lights below of 2 lb/sq in", "lights below", "pressure"),
    ],
)
def test_figures_of_a_part(text, value, dimension, statement) -> None:
    found = statement(text)
    assert isinstance(found, Built) and found.what == "set at" and found.value == value
    assert found.quantity is not None and found.quantity.dimension == dimension


LIT, OUT = ("fuel lamp", "lit", False), ("charging lamp", "lit", False)


def _states(of):
    return [(s.part, s.state, s.negated) for s in of]


@pytest.mark.parametrize(
    "text, kind",
    [
        ("any of the lamps is lit", Or),
        ("any of (fuel lamp, charging lamp) is lit", Or),
        ("fuel lamp or charging lamp is lit", Or),
        ("fuel lamp is lit or charging lamp is lit", Or),
        ("each of the lamps is lit", And),
        ("the lamps are lit", And),
        ("fuel lamp and charging lamp are lit", And),
        ("fuel lamp is lit and charging lamp is lit", And),
    ],
)
def test_several_subjects(text, kind, statement) -> None:
    found = statement(text)
    assert isinstance(found, kind) and _states(found.of) == [LIT, OUT]


def test_none_of_them(statement) -> None:
    found = statement("none of the lamps is lit")
    assert isinstance(found, Not) and isinstance(found.of, Or) and _states(found.of.of) == [LIT, OUT]


def test_how_clauses_bind(statement) -> None:
    found = statement("horn is sounding if throttle is closed and undercarriage is not locked down or horn is silent")
    assert isinstance(found, If) and found.kind == "if"
    assert isinstance(found.condition, Or) and isinstance(found.condition.of[0], And)
    found = statement("not (fuel lamp is lit or horn is silent) and horn is sounding")
    assert isinstance(found, And) and isinstance(found.of[0], Not)
    for word in ("only if", "exactly when"):
        assert statement(f"horn is sounding {word} throttle is closed").kind == word
    assert statement("horn is sounding if and only if throttle is closed").kind == "exactly when"


def test_a_second_predicate_keeps_the_subject(statement) -> None:
    found = statement("tank selector is at cockpit, left wall, and has positions off, port tank and is off")
    assert isinstance(found, And)
    place, positions, put = found.of
    assert place.words == ("cockpit, left wall",) and place.subject == "tank selector"
    assert positions.words == ("off", "port tank") and positions.subject == "tank selector"
    assert isinstance(put, AtPosition) and put.position == "off"


def test_choices_are_records(scope) -> None:
    assert isinstance(scope("with bus short").failures[0], FailureChoice)
    assert hash(scope("with bus short, in cruising, after flap lever to up"))


FIRST, SECOND = FailureRef("green light", "first filament"), FailureRef("green light", "second filament")


@pytest.mark.parametrize(
    "text, failures",
    [
        ("with green light first filament", [FIRST]),
        ("with green light first filament failed", [FIRST]),
        ("with green light first filament and green light second filament failed", [FIRST, SECOND]),
        ("with throttle at closed and green light first filament failed", [FIRST]),
        ("with inspection bulb filament", [FailureRef("inspection bulb", "filament")]),
    ],
)
def test_what_fails_is_told_from_a_port_of_the_same_word(read, text, failures) -> None:
    found, problems = read(parse_scope, text)
    assert problems == ()
    assert [choice.options for choice in found.failures] == [(one,) for one in failures]


def test_elsewhere_the_port_is_meant(read) -> None:
    found, problems = read(parse_claim, "with green light first filament: green light first is above 20 V")
    assert problems == ()
    assert found.statement.reading == ReadingRef("green light", "", "first")
