"""Explanations of what is seen, and the next look."""

from cutaway.inquiry.judging import Looked
from cutaway.inquiry.questions.indications import indications, with_indications
from cutaway.inquiry.questions.suspects import (
    NothingWrong,
    Suspects,
    _answers,
    _best,
    _movements,
    _read_alike,
    _spoken_of,
    next_looks,
    suspects,
)
from cutaway.inquiry.search.base import Base
from cutaway.inquiry.search.changes import Break, Put
from cutaway.inquiry.search.minimal import Bound
from cutaway.inquiry.search.trying import Trying, outcomes
from cutaway.inquiry.verdicts import Seen
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


def test_what_was_seen_is_not_looked_at_again() -> None:
    found = base(f"{LIT} and fuel pressure gauge reads below 4 lb/sq in", "cruising", "Mk 1")
    assert _spoken_of(found) == {"fuel lamp", "fuel pressure gauge"}
    wide = with_indications(found)
    several = [breaks(("engine pump", "seized")), breaks(("fuel pressure gauge", "pipe broken"))]
    runs = [(e, one.looked.run) for e, one in zip(several, outcomes(wide, several), strict=True)
            if isinstance(one.looked, Looked)]  # fmt: skip
    look = _best(found, runs, None)
    assert look is not None and look.indication.part not in ("fuel lamp", "fuel pressure gauge")
    only = [one for one in indications(found.question.bound) if one.part in ("fuel lamp", "fuel pressure gauge")]
    assert any(len(_answers(one, runs)) == 2 for one in only)  # they would have told them apart


def test_the_starter_of_an_engine_that_runs_is_left_alone() -> None:
    found = base("suction gauge reads below 1 in Hg", "cruising")
    stuck = [breaks(("suction gauge", "pipe broken")), breaks(("vacuum pump", "sheared"))]
    _, move = next_looks(found, stuck)
    assert move is None or move.move is None or (move.move.part, move.move.control) != ("engine", "starter")
    parked = base("suction gauge reads above 1 in Hg", "parked")

    def starters(one: Base) -> list[Put]:
        wide = with_indications(one)
        looked = outcomes(wide, [frozenset()])[0].looked
        assert isinstance(looked, Looked)
        return [put for put in _movements(one, [(frozenset(), looked.run)]) if "starter" in put.control]

    assert starters(parked) and not starters(found)


def test_readings_are_told_apart_only_by_a_gap_that_can_be_read() -> None:
    def read(*gallons: float) -> list[list[float]]:
        of = [(Seen("port tank", 0.0, one * 4.546e-3, "volume", ""), ()) for one in gallons]
        return [[round((seen.value or 0.0) / 4.546e-3, 1) for seen, _ in group] for group in _read_alike(of)]

    # A dial that shows 20 gal has divisions of a gallon at best, near nought as well.
    assert read(20.0, 1.2, 0.4, 5.0) == [[1.2, 0.4], [5.0], [20.0]]
    # One after the other less than a division apart: there is no place to part them.
    assert read(20.0, 19.3, 18.6, 17.9) == [[20.0, 19.3, 18.6, 17.9]]
    assert read(0.5, 0.2) == [[0.2], [0.5]]
