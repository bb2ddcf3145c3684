"""Two figures of which an author gives one: refused where both are given, on the standards where they are."""

import pytest

from cutaway.parts.library import KINDS
from tests.handbook.folders import fuel, load_sample

VALVE = "door valve: {kind: sequence valve, moved by: cock, %s}\ncock: {kind: cock}\n"


def told(tmp_path, figures):
    """The messages and hints of a system whose sequence valve has these figures; nothing but H345 may be wrong."""
    folder, problems = load_sample(tmp_path, fuel(VALVE % figures))
    assert {problem.code for problem in problems} <= {"H345"}, [one.message for one in problems]
    assert ("door valve" in {part.name for part in folder.parts}) is not bool(problems)
    return problems


def test_both_are_refused_and_one_is_to_be_kept(tmp_path):
    (problem,) = told(tmp_path, "opens above: 95 %, opens below: 5 %")
    assert problem.message == (
        "door valve is given both 'opens above' (95 %) and 'opens below' (5 %), and one alone can hold. It opens at "
        "one end of the travel, and is shut at the other."
    )
    assert problem.hint == "Keep the one that the book has: opens above: 95 %, or opens below: 5 %."


@pytest.mark.parametrize(
    "figures",
    [
        "opens above: 95 %",
        "opens below: 5 %",
        "opens above: 95 %, opens below: 0 %",
        "opens above: {is: 95 %, on: Mk 1}, opens below: {is: 5 %, on: Mk 2}",
    ],
)
def test_one_of_them_is_taken_and_another_on_another_mark(tmp_path, figures):
    assert told(tmp_path, figures) == ()


def test_only_on_the_standards_that_have_both(tmp_path):
    (problem,) = told(tmp_path, "opens above: 95 %, opens below: {is: 5 %, on: Mk 2}")
    assert "(5 %) on Mk 2, and one alone" in problem.message


def test_every_pair_names_quantities_of_its_kind():
    pairs = [(kind, pair) for kind in KINDS.values() for pair in kind.either]
    assert {kind.name for kind, _ in pairs} == {"sequence valve", "slow-running cut-out"}
    for kind, pair in pairs:
        assert {pair.one, pair.other} <= {want.name for want in kind.wants}
