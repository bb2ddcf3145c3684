"""The failures that undo a service of the Whinchat, and what the crew sees of each."""

from cutaway.inquiry.questions.failures import AlreadyUndone, Failures, failures
from cutaway.inquiry.search.changes import Break, ChangeSet
from cutaway.inquiry.search.minimal import Bound
from cutaway.inquiry.search.trying import Trying
from cutaway.inquiry.search.twins import folded, tokens_of
from cutaway.inquiry.search.universe import universe
from tests.inquiry.questions.asking import base


def of(answer: Failures) -> set[frozenset[tuple[str, str]]]:
    return {frozenset((b.part, b.failure) for b in one) for s in answer.sets for one in (s.of, *s.twins)}


def test_every_set_undoes_it_and_no_part_of_it_does() -> None:
    found = base("flying instruments", "cruising")
    streamed: list[ChangeSet] = []
    answer = failures(found, Bound(2), as_found=streamed.append)
    assert isinstance(answer, Failures)
    assert dict(answer.counts) == {1: 9, 2: 1} and len(streamed) == 10 == len(of(answer))
    assert frozenset({("ignition switch", "left dead"), ("ignition switch", "right dead")}) in of(answer)
    undoing = Trying(found, wanted=False)
    assert undoing(streamed) == [True] * 10
    assert undoing([frozenset(list(one)[:1]) for one in streamed if len(one) == 2]) == [False]
    every = universe(found, frozenset({"failure"}))
    singles = {one for one in streamed if len(one) == 1}
    assert [a for a in every if undoing([frozenset({a})])[0]] == [a for a in every if frozenset({a}) in singles]


def test_twins_are_told_once_and_counted_all() -> None:
    answer = failures(base("flying instruments", "cruising"), Bound(1))
    assert isinstance(answer, Failures)
    horizon = next(one for one in answer.sets if one.of[0].part == "artificial horizon")
    assert [[b.part for b in twin] for twin in horizon.twins] == [["direction indicator"]]
    assert sum(1 + len(one.twins) for one in answer.sets) == 9


def test_what_is_lost_and_what_the_crew_notices() -> None:
    answer = failures(base("flying instruments", "cruising"), Bound(1))
    assert isinstance(answer, Failures)
    by_part = {one.of[0].part: one for one in answer.sets}
    assert {seen.what for seen in by_part["vacuum pump"].lost} == {"artificial horizon", "direction indicator"}
    assert {seen.what for seen in by_part["artificial horizon"].lost} == {"artificial horizon"}
    noticed = {one.now.what for one in by_part["vacuum pump"].noticed or ()}
    assert noticed == {"suction gauge", "artificial horizon", "direction indicator"}
    assert "engine" in {one.now.what for one in by_part["engine pump"].noticed or ()}


def test_what_is_undone_to_begin_with_is_said_at_once() -> None:
    answer = failures(base("flying instruments", "parked"), Bound(2))
    assert isinstance(answer, AlreadyUndone)
    assert {one.state for one in answer.seen} == {"unreliable"}


def test_a_stop_keeps_what_is_known() -> None:
    found: list[ChangeSet] = []
    answer = failures(
        base("flying instruments", "cruising"),
        Bound(2, batch=4),
        stop=lambda: bool(found),
        as_found=found.append,
    )
    assert isinstance(answer, Failures) and answer.far.ended == "stopped"
    assert len(answer.sets) >= 1 and answer.far.tried < answer.far.possible


def test_a_part_that_stands_in_many_sets_is_pointed_out() -> None:
    answer = failures(base("fuel lamp is out", "cruising"), Bound(2), most=0)
    assert isinstance(answer, Failures)
    for one in answer.common:
        pairs = [s for s in of(answer) if len(s) > 1]
        assert one.of == len(pairs) and one.sets == sum(one.part in {p for p, _ in s} for s in pairs)
        assert one.sets >= 2


def test_names_that_differ_by_their_item_are_one_family() -> None:
    tokens = tokens_of(base("fuel lamp is out", "cruising").question.bound.parts)
    assert tokens["port tank"] == ("<> tank", "port") and tokens["starboard tank"] == ("<> tank", "starboard")
    assert "engine" not in tokens


def test_only_sets_that_mirror_each_other_are_twins() -> None:
    parts = base("fuel lamp is out", "cruising", "Mk 1").question.bound.parts

    def leaking(*sides: str) -> frozenset[Break]:
        return frozenset(Break(f"{side} tank", "leaking", f"{side} tank: leaking") for side in sides)

    def stuck(side: str) -> Break:
        return Break(f"{side} contents gauge", "stuck", f"{side} contents gauge: stuck")

    port, starboard = leaking("port") | {stuck("port")}, leaking("starboard") | {stuck("starboard")}
    crossed, both = leaking("port") | {stuck("starboard")}, leaking("port", "starboard")
    groups = folded([port, crossed, starboard, both], parts)
    assert [(one.first, one.twins) for one in groups] == [(port, (starboard,)), (crossed, ()), (both, ())]
