"""Reasons and changes: each reason meets every change set, and both are minimal."""

from pathlib import Path

from cutaway.inquiry.questions.links import Stands
from cutaway.inquiry.questions.why import Cause, Whole, Why, cause, why
from cutaway.inquiry.search.base import Base
from cutaway.inquiry.search.changes import Break, Put
from cutaway.inquiry.search.minimal import Bound
from cutaway.inquiry.search.trying import Trying
from tests.inquiry.questions.asking import base
from tests.inquiry.questions.test_cause import of_random


def asked(found: Base, size: int = 2, failures: bool = False) -> Why:
    because = cause(found)
    assert isinstance(because, Cause)
    return why(found, because, Bound(size), failures)


def things(one: object) -> str:
    match one:
        case Put(part=part, control=control):
            return f"control {part} {control}".strip()
        case Stands(control=control):
            return f"control {control}"
        case Break(part=part, failure=failure) | Whole(part=part, failure=failure):
            return f"failure {part} {failure}"
        case _:
            return f"given {getattr(one, 'name', '')}"


def test_reasons_and_changes_on_random_systems(tmp_path: Path) -> None:
    reasons = 0
    for number in range(40):
        found = of_random(tmp_path / str(number), number)
        answer = asked(found, 3, failures=number % 2 == 0)
        sets = [frozenset(one.of) for c in answer.changes for one in [c]]
        sets += [frozenset(twin) for c in answer.changes for twin in c.twins]
        turning = Trying(found, wanted=not answer.cause.so)
        assert turning(sets) == [True] * len(sets)
        smaller = [one - {a} for one in sets for a in one if len(one) > 1]
        assert not any(turning(smaller))
        met = [{things(a) for a in one} for one in sets]
        for reason in answer.reasons:
            held = {things(one) for one in reason}
            assert all(held & one for one in met)
            assert all(any(not ((held - {a}) & one) for one in met) for a in held)
            reasons += 1
    assert reasons > 30


def test_the_lamp_stays_out_by_the_selector_or_the_ignition() -> None:
    answer = asked(base("fuel lamp is out", "cruising"))
    assert answer.cause.so and answer.far.ended == "size"
    alone = [c.of[0] for c in answer.changes if len(c.of) == 1]
    assert [(a.part, a.words) for a in alone if isinstance(a, Put)] == [("tank selector", "off")]
    assert all(any(isinstance(s, Stands) and s.control == "tank selector" for s in one) for one in answer.reasons)


def test_what_no_change_can_bring_about_has_no_reason_but_a_bound() -> None:
    answer = asked(base("fuel pressure gauge reads above 90 lb/sq in", "cruising"), 1)
    assert not answer.cause.so and answer.changes == () == answer.reasons
    assert answer.far.done == 1 and answer.far.tried == answer.far.universe


def test_failures_count_as_changes_where_they_are_asked_for() -> None:
    without = asked(base("fuel lamp is out", "cruising"), 1)
    with_them = asked(base("fuel lamp is out", "cruising"), 1, failures=True)
    broken = [c for c in with_them.changes if isinstance(c.of[0], Break)]
    assert not any(isinstance(c.of[0], Break) for c in without.changes)
    assert {c.of[0].part for c in broken} >= {"engine pump", "filter", "tank selector"}
