"""From words to a base: what is not understood, and what cannot be asked."""

import pytest

from cutaway.api.asking import Asked, base_for, claim_of, seconds_of
from cutaway.language.print_back import printed_claim
from tests.inquiry.questions.asking import whinchat


@pytest.mark.parametrize(
    ("asked", "code", "hint"),
    [
        (Asked("fuel lmp is lit"), "L201", "fuel lamp"),
        (Asked("fuel lamp is lit", "crusing"), "L203", "cruising"),
        (Asked("fuel lamp is lit", given=("engine pump exploded",)), "L206", "seized"),
        (Asked("hand pump is at pumping", on="Mk 1"), "I201", ""),
        (Asked("fuel lamp is marked FUEL PRESS"), "I201", ""),
    ],
)
def test_what_cannot_be_asked_says_what_instead(asked: Asked, code: str, hint: str) -> None:
    here = whinchat()
    found, _, problems = base_for(here.loaded, here.workshop, asked)
    assert found is None
    assert code in {one.code for one in problems}
    assert any(hint in (one.hint or "") for one in problems)


def test_a_service_is_asked_by_its_name() -> None:
    claim, problems = claim_of(whinchat().loaded, Asked("Flying Instruments", "cruising", do="throttle to closed"))
    assert claim is not None and not problems
    assert printed_claim(claim) == "in cruising, after throttle to closed: flying instruments is served"


def test_a_length_of_time_is_read() -> None:
    assert seconds_of("", "--limit") == (None, ())
    assert seconds_of("2 min", "--limit") == (120.0, ())
    _, problems = seconds_of("2 gal", "--limit")
    assert problems and problems[0].code.startswith("Q")
