"""When a claim's moment makes it true or false: each sort of moment, both ways, with the sort of failure."""

import pytest

from cutaway.inquiry.deciding import decide
from cutaway.inquiry.spans_of_time import Times
from cutaway.language.syntax import When

NEVER = Times((), 100.0)
FROM_30 = Times(((30.0, 100.0),), 100.0)
FROM_30_TO_35 = Times(((30.0, 35.0),), 100.0)
ALL = Times(((0.0, 100.0),), 100.0)


@pytest.mark.parametrize(
    ("when", "times", "clock", "holds", "why", "at"),
    [
        (When(), FROM_30, 0.0, True, "", 100.0),
        (When(), FROM_30_TO_35, 0.0, False, "not so", 100.0),
        (When("within", 40.0), FROM_30, 0.0, True, "", 30.0),
        (When("within", 40.0), FROM_30, 10.0, True, "", 20.0),
        (When("within", 20.0), FROM_30, 0.0, False, "too late", 30.0),
        (When("within", 40.0), FROM_30_TO_35, 0.0, False, "stopped being so", 35.0),
        (When("within", 40.0), NEVER, 0.0, False, "never came", 40.0),
        (When("throughout", 50.0), ALL, 0.0, True, "", 0.0),
        (When("throughout", 50.0), FROM_30, 0.0, False, "not so", 0.0),
        (When("throughout", 50.0), FROM_30_TO_35, 31.0, False, "stopped being so", 4.0),
        (When("at", 60.0), FROM_30, 0.0, True, "", 60.0),
        (When("at", 20.0), FROM_30, 0.0, False, "not so", 20.0),
        (When("never"), NEVER, 0.0, True, "", 100.0),
        (When("never"), FROM_30, 10.0, False, "was so", 20.0),
        (When("takes", 25.0, 35.0), FROM_30, 0.0, True, "", 30.0),
        (When("takes", 31.0, 35.0), FROM_30, 0.0, False, "too early", 30.0),
        (When("takes", 10.0, 20.0), FROM_30, 0.0, False, "too late", 30.0),
        (When("takes", 10.0, 20.0), NEVER, 0.0, False, "never came", 20.0),
    ],
)
def test_each_sort_of_moment(when: When, times: Times, clock: float, holds: bool, why: str, at: float) -> None:
    decision = decide(when, times, clock)
    assert (decision.holds, decision.why) == (holds, why)
    assert decision.at == pytest.approx(at)
