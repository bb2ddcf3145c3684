"""Explanations of what is seen, and the next look."""

from cutaway.inquiry.questions.suspects import NothingWrong, Suspects, next_looks, suspects
from cutaway.inquiry.search.changes import Break
from cutaway.inquiry.search.minimal import Bound
from cutaway.inquiry.search.trying import Trying
from tests.inquiry.questions.asking import base

LIT = "fuel lamp is lit"


def breaks(*several: tuple[str, str]) -> frozenset[Break]:
    return frozenset(Break(part, failure, f"{part}: {failure}") for part, failure in several)


def test_single_explanations_come_before_double_and_each_brings_it_about() -> None:
    found = base(f"{LIT} and fuel pressure gauge reads below 0.1 lb/sq in", "cruising", "Mk 1")
    answer = suspects(found, Bound(2))
    assert isinstance(answer, Suspects)
    sizes = [len(one.of) for one in answer.explanations]
    assert sizes == sorted(sizes) and sizes[0] == 1 and 2 in sizes
    sets = [frozenset(one.of) for one in answer.explanations]
    assert breaks(("tank selector", "blocked")) in sets
    assert breaks(("engine pump", "seized"), ("fuel pressure gauge", "pipe broken")) in sets
    bringing = Trying(found, wanted=True)
    assert bringing(sets) == [True] * len(sets)
    assert not any(bringing([one - {b} for one in sets for b in one if len(one) == 2]))


def test_the_look_splits_them_most_evenly() -> None:
    answer = suspects(base(LIT, "cruising", "Mk 1"), Bound(1))
    assert isinstance(answer, Suspects) and answer.look is not None
    told = [by for one in answer.look.answers for by in one.by]
    assert sorted(map(repr, told)) == sorted(repr(one.of) for one in answer.explanations)
    assert answer.look.left < len(told)
    if answer.move is not None:
        assert answer.move.move is not None and answer.move.left < answer.look.left


def test_a_look_that_tells_all_apart_needs_no_movement() -> None:
    found = base("flying instruments are not served", "cruising")
    look, move = next_looks(found, [breaks(("vacuum pump", "sheared")), breaks(("engine pump", "seized"))])
    assert look is not None and look.left == 1.0 and move is None
    assert {one.by[0] for one in look.answers} == {
        (Break("vacuum pump", "sheared", "vacuum pump: sheared"),),
        (Break("engine pump", "seized", "engine pump: seized"),),
    }


def test_what_is_so_with_nothing_wrong_needs_no_suspect() -> None:
    answer = suspects(base("fuel lamp is out", "cruising"), Bound(1))
    assert isinstance(answer, NothingWrong) and answer.seen[0].state == "out"


def test_what_nothing_explains() -> None:
    answer = suspects(base("fuel pressure gauge reads above 90 lb/sq in", "cruising", "Mk 1"), Bound(1))
    assert isinstance(answer, Suspects) and answer.explanations == () and answer.look is None
    assert answer.far.done == 1
