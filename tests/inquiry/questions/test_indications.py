"""What the crew can see or hear."""

import pytest

from cutaway.inquiry.questions.indications import alike, indications, noticed, shown_at_end, with_indications
from cutaway.inquiry.search.changes import Break
from cutaway.inquiry.search.trying import outcomes
from cutaway.inquiry.verdicts import Seen, Undecided
from cutaway.parts.library import KINDS
from tests.inquiry.questions.asking import base


def test_lamps_dials_and_horns_indicate_and_nothing_else_does() -> None:
    telling = {name for name, kind in KINDS.items() if kind.indicates}
    named = {name for name in KINDS if name.endswith(("lamp", "gauge", "meter", "indicator", "horn", "counter"))}
    assert telling - named == {"engine", "supercharged engine", "gyro instrument", "circuit breaker"}
    assert named - telling == set()
    assert all(KINDS[name].states or KINDS[name].readings for name in telling)


def test_a_lamp_shows_its_state_and_a_dial_its_reading() -> None:
    found = base("fuel lamp is out", "cruising")
    shown = {(one.part, type(one.shows).__name__) for one in indications(found.question.bound)}
    assert ("fuel lamp", "State") in shown and ("fuel lamp", "Reading") not in shown
    assert ("suction gauge", "Reading") in shown and ("engine", "Reading") not in shown
    assert not any(part in ("battery", "carburettor", "flaps") for part, _ in shown)


def test_what_is_noticed_is_what_differs_at_the_end() -> None:
    wide = with_indications(base("flying instruments", "cruising"))
    sheared = Break("vacuum pump", "sheared", "vacuum pump: sheared")
    before, same, after = (one.looked for one in outcomes(wide, [frozenset(), frozenset(), frozenset({sheared})]))
    assert not isinstance(before, Undecided) and not isinstance(same, Undecided) and not isinstance(after, Undecided)
    bound = wide.question.bound
    assert noticed(bound, before.run, same.run) == ()
    found = {one.now.what: one for one in noticed(bound, before.run, after.run)}
    assert {"suction gauge", "artificial horizon", "direction indicator"} <= set(found)
    assert "fuel lamp" not in found and "engine" not in found
    assert found["artificial horizon"].now.state == "unreliable"
    gauge = next(one for one in indications(bound) if one.part == "suction gauge")
    assert shown_at_end(gauge, after.run).value == pytest.approx(0.0, abs=1.0)


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        (Seen("lamp", 0.0, None, "", "lit"), Seen("lamp", 9.0, None, "", "lit"), True),
        (Seen("lamp", 0.0, None, "", "lit"), Seen("lamp", 0.0, None, "", "out"), False),
        (Seen("dial", 0.0, 30000.0, "pressure", ""), Seen("dial", 0.0, 31000.0, "pressure", ""), True),
        (Seen("dial", 0.0, 30000.0, "pressure", ""), Seen("dial", 0.0, 33000.0, "pressure", ""), False),
        (Seen("dial", 0.0, 0.0, "pressure", ""), Seen("dial", 0.0, None, "pressure", "dead"), False),
        (Seen("dial", 0.0, 300.0, "temperature", ""), Seen("dial", 0.0, 310.0, "temperature", ""), False),
    ],
)
def test_what_the_crew_would_take_for_the_same(one: Seen, other: Seen, same: bool) -> None:
    assert alike(one, other) is same and alike(other, one) is same
