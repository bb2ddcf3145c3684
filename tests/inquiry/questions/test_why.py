"""Reasons and changes: each reason meets every change set, and both are minimal."""

from pathlib import Path

from cutaway.api.asking import Asked, Opened
from cutaway.api.why import why as why_of
from cutaway.api.why import why_record, why_text
from cutaway.inquiry.questions.held_back import HeldBack
from cutaway.inquiry.questions.links import Lasts, Stands, Tied
from cutaway.inquiry.questions.why import Cause, Moved, Whole, Why, cause, why
from cutaway.inquiry.scenes import Question
from cutaway.inquiry.search.base import Base, base_of
from cutaway.inquiry.search.changes import Break, Put
from cutaway.inquiry.search.minimal import Bound
from cutaway.inquiry.search.trying import Trying
from tests.inquiry.folders import Folder, folder_at, system
from tests.inquiry.questions.asking import base, whinchat
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


def test_what_the_actions_moved_is_put_elsewhere_by_them_or_left_alone() -> None:
    found = base("fuel lamp is lit", "cruising", "Mk 2", do="tank selector to off")
    answer = asked(found, 1)
    assert answer.cause.so
    puts = {(a.part, a.words, a.instead) for c in answer.changes for a in c.of if isinstance(a, Put)}
    assert puts >= {("tank selector", "port tank", "off"), ("tank selector", "starboard tank", "off")}
    assert all(Moved("tank selector", "off") in reason for reason in answer.reasons)
    # It is so: turned back, or never turned, it is out.
    back = base("fuel lamp is out", "cruising", "Mk 2", do="tank selector to off then tank selector to port tank")
    assert asked(back, 1).cause.so
    # Of a control that comes back by itself what it did meanwhile can be left out.
    held = asked(base("fuel lamp is lit", "cruising", "Mk 2", do="tank selector to off for 30 s then wait 2 min"), 1)
    assert not held.cause.so
    stays = [a for c in held.changes for a in c.of if isinstance(a, Put) and a.part == "tank selector"]
    assert [(a.words, a.instead) for a in stays] == [("off", "port tank")]


def test_what_has_not_lasted_long_enough_yet_is_told_with_its_time() -> None:
    told, _ = why_of(whinchat(), Asked("engine is running", "cruising", "Mk 2", do="tank selector to off", at="2 s"), 1)
    assert told is not None and isinstance(told.answer, Why) and told.answer.cause.so
    (lasts,) = (link for link in told.answer.cause.links if isinstance(link, Lasts))
    assert lasts.called == "starving time"
    text = why_text(told)
    assert "the engine stays as it is until its starving time of" in text.replace("Because", "because")
    # That the carburettor is starved stands below that, as what it waits out.
    at = {link: i for i, link in enumerate(told.answer.cause.links)}
    tied = next(link for link in at if isinstance(link, Tied) and link.to == "carburettor")
    assert told.answer.cause.under[at[tied]] == at[lasts] and tied.state == "starved"
    assert "What the actions move counts as changed where they put it elsewhere" in text


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


HELD_BACK = """
    battery: {kind: battery, capacity: 100 Ah, voltage: 12 V}
    guard: {kind: switch}
    bolt: {kind: switch}
    master: {kind: switch, rules: [{to: "on", only when: guard is on}]}
    lever: {kind: switch, rules: [{to: "on", only when: bolt is on}]}
    lamp: {kind: electrical load, current: 2 A, fed by: lever.outlet}
    other: {kind: electrical load, current: 2 A, fed by: master.outlet}
"""


def test_a_change_that_a_rule_holds_back_is_never_proposed_as_if_hands_could_make_it(tmp_path: Path) -> None:
    opened = folder_at(tmp_path, {"systems/lamp.yaml": system(HELD_BACK, "battery > guard > master\nbattery > lever")})
    (lever,) = asked(base_at(opened, "lamp is working"), 1).changes
    assert lever.held == (HeldBack("lever", "on", ("bolt is on",)),)
    # What the rule asks is part of the set itself here, and is done first.
    (both,) = asked(base_at(opened, "other is working")).changes
    assert len(both.of) == 2 and both.held == ()
    told, _ = why_of(Opened(opened.loaded, opened.workshop), Asked("lamp is working"), size=1)
    assert told is not None
    assert "With the lever at on. But the lever goes to on only when the bolt is on." in why_text(told)
    changes = why_record(told)["changes"]
    assert changes[0]["held back"] == [{"control": "lever", "position": "on", "asks": ["bolt is on"]}]  # type: ignore[index]


def base_at(folder: Folder, statement: str) -> Base:
    read = folder.claim(statement)
    bound, _ = folder.workshop.bound(folder.subject())
    found = base_of(Question(read.statement, read.scope, bound, folder.loaded.told, folder.workshop))
    assert isinstance(found, Base)
    return found
