"""Promises: open, settled, settled for nobody, and those that nobody marked."""

import pytest

from cutaway.narrate.promises import sounds_like_a_promise
from cutaway.narrate.terms import Where

PROMISED = "All is well. The battery comes later. `promise: the battery`"


def codes(problems) -> list[str]:
    return [problem.code for problem in problems]


def test_n911_an_open_promise(series) -> None:
    looked, problems = series(PROMISED)
    assert codes(problems) == ["N911"] and "'the battery'" in problems[0].message
    assert [one.settled for one in looked.promises] == [None]


def test_a_promise_settled_in_the_next_film(series) -> None:
    looked, problems = series(PROMISED, "Here it is. `settles: The  Battery`")
    assert codes(problems) == []
    (promise,) = looked.promises
    assert (promise.made, promise.settled) == (Where(0, 1), Where(1, 0))


def test_n912_settled_for_nobody(series) -> None:
    _, problems = series(PROMISED, "Here it is. `settles: the batery`")
    assert sorted(codes(problems)) == ["N911", "N912"]
    assert next(p for p in problems if p.code == "N912").hint == "Did you mean the battery?"


def test_n913_settled_before_it_was_promised(series) -> None:
    _, problems = series("Here it is. `settles: the battery`", PROMISED)
    assert codes(problems) == ["N913"]


def test_n914_a_promise_without_a_mark(series) -> None:
    _, problems = series("A later film covers the battery.")
    assert codes(problems) == ["N914"]
    _, problems = series("A later film covers the battery. `promise: the battery`", "So. `settles: the battery`")
    assert codes(problems) == []


@pytest.mark.parametrize(
    "text",
    [
        "A later film covers the battery.",
        "How it is charged is for another film.",
        "We shall come to the flaps.",
        "I'll get back to that knob.",
        "More of that later.",
        "We leave it for a later talk.",
        "The next film tells how the oil goes round.",
    ],
)
def test_what_sounds_like_a_promise(text) -> None:
    assert sounds_like_a_promise(text)


@pytest.mark.parametrize(
    "text",
    [
        "They say it flew on in another Whinchat until 1958.",
        "The next tank is full.",
        "A film of oil covers the piston.",
        "Within ten seconds the lamp comes on.",
        "He came back to the field later.",
        "This film is about petrol.",
    ],
)
def test_what_does_not(text) -> None:
    assert not sounds_like_a_promise(text)
