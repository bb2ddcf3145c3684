"""The words of why, failures and suspects, on the Whinchat."""

import json
import re

import pytest

from cutaway.api.asking import Asked
from cutaway.api.failures import failures, failures_record, failures_text
from cutaway.api.suspects import suspects, suspects_record, suspects_text
from cutaway.api.why import why, why_record, why_text
from cutaway.inquiry.questions.asked import HowFar
from cutaway.wording.how_far import bound_words
from cutaway.wording.shown import sentence
from tests.inquiry.questions.asking import whinchat

CRUISING = Asked("flying instruments", "cruising")


def test_why_reads_aloud_with_its_paragraphs() -> None:
    told, problems = why(whinchat(), Asked("fuel lamp is lit", "cruising", given=("tank selector blocked",)), size=1)
    assert told is not None and not problems
    text = why_text(told)
    lines = text.splitlines()
    scope = "on Mk 1 (the first, since none was named), in cruising, with tank selector blocked"
    assert lines[0] == f"Whether it is so, and why, {scope}: the fuel lamp is lit"
    assert lines[1].startswith("It is so: the fuel lamp is lit. (handbook §25")
    assert lines[2].startswith("  - Because the ")
    assert (
        "Current comes to the fuel lamp from the battery by way of the battery switch (on), the instrument fuse" in text
    )
    assert "No petrol comes to the carburettor inlet from the port tank, because the tank selector has failed" in text
    assert "bring it about that the fuel lamp is out:\n  - With the instrument switch at off. (handbook §16)" in text
    assert "No other single change would bring it about that the fuel lamp is out; 2 at once were not looked at" in text
    assert "As far as was looked, the fuel lamp is lit so long as this stays as now: the instrument switch" in text
    record = why_record(told)
    assert json.loads(json.dumps(record)) == record
    assert record["answer"] == "so" and {"chain", "changes", "reasons", "bound"} <= set(record)


def test_what_is_not_so_says_so_at_once() -> None:
    told, _ = why(whinchat(), Asked("flying instruments", "parked"), size=1)
    assert told is not None
    _, meant, first = why_text(told).splitlines()[:3]
    assert meant.startswith("By 'flying instruments' is meant that the artificial horizon is working and the direction")
    assert first.startswith("It is not so that flying instruments are in order: the artificial horizon is unreliable")
    assert why_record(told)["answer"] == "not so"


def test_failures_tell_sizes_twins_losses_and_the_bound() -> None:
    told, _ = failures(whinchat(), CRUISING, size=2)
    assert told is not None
    text = failures_text(told)
    assert "One failure alone does it, in 9 ways:" in text and "Two failures together do it:" in text
    assert "Likewise the direction indicator (filter choked)." in text
    assert "The crew would notice: the suction gauge reads 0 in Hg, not 4.6 in Hg." in text
    assert "No other single or double failure does it; 3 at once were not looked at." in text
    assert not re.search(r"\.\.|\s[,.;:]|  -  ", text)
    record = failures_record(told)
    assert record["faultless"] == list(told.answer.faultless)  # type: ignore[union-attr]
    assert json.loads(json.dumps(record)) == record and record["counts"] == {"1": 9, "2": 1}


def test_failures_of_what_is_lost_already() -> None:
    told, _ = failures(whinchat(), Asked("flying instruments", "parked"))
    assert told is not None
    assert "Nothing need fail for that" in failures_text(told) and "--in" in failures_text(told)
    assert failures_record(told)["answer"] == "already so"


def test_suspects_tell_explanations_and_the_next_look() -> None:
    told, _ = suspects(whinchat(), ("fuel lamp is lit",), Asked("", "cruising", "Mk 1"), size=1)
    assert told is not None
    text = suspects_text(told)
    assert "One failure alone explains it, in 4 ways:" in text
    assert "To tell them apart, look next at the suction gauge:" in text
    # The fuel pressure gauge shows next to nothing with every one of them, which nobody could tell apart on it.
    assert "If the suction gauge reads 0 in Hg, it is the engine (seized)." in text
    record = suspects_record(told)
    assert json.loads(json.dumps(record)) == record and record["answer"] == "found"


def test_nothing_wrong_is_said() -> None:
    told, _ = suspects(whinchat(), ("fuel lamp is out", "engine is running"), Asked("", "cruising"), size=1)
    assert told is not None
    assert "Nothing need be wrong: the fuel lamp is out and the engine is running" in suspects_text(told)


@pytest.mark.parametrize(
    ("ended", "done", "says"),
    [
        ("complete", 2, "every set that could matter was looked at"),
        ("size", 2, "No single or double failure does it; 3 at once were not looked at"),
        ("time", 1, "No single failure does it. The search ended early (the time limit): 30 of about 55 sets"),
        ("stopped", 0, "The search ended early (you stopped it): 30 of about 55 sets of up to 2"),
        ("tries", 1, "(the most that is tried)"),
    ],
)
def test_the_bound_is_said(ended: str, done: int, says: str) -> None:
    far = HowFar(10, 2, done, 30, 55, 0, ended)  # type: ignore[arg-type]
    words = bound_words(far, "failure", 0)
    assert says in words[0]
    assert ("--size" in words[0]) == (ended in ("time", "stopped", "tries"))
    assert not any(one.startswith("No failure,") for one in words) or ended == "complete"


def test_what_could_not_be_said_is_counted() -> None:
    words = bound_words(HowFar(10, 2, 2, 55, 55, 3, "size"), "failure", 1)
    assert words[-1].startswith("Of 3 of them the model could not say")


def test_a_sentence_ends_once() -> None:
    assert sentence(" the lamp  is lit.. ") == "The lamp is lit."
