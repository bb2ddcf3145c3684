"""Alignment on synthetic speech, whose true times the voice itself tells. Human voices will do worse."""

from itertools import pairwise

import numpy as np

from cutaway.narrate.alignment import Alignment, align
from cutaway.narrate.recogniser import Heard
from cutaway.narrate.script_words import SaidWord
from tests.narrate.recording.conftest import aligned
from tests.narrate.recording.turnstone import ALTERED, DEPARTED, DROPPED, SENTENCES
from tests.narrate.recording.voice import Speech


def start_errors(found: Alignment, speech: Speech, sentences: list[int]) -> list[float]:
    """How far the start of each word is from the truth, in ms, for the sentences that were found whole."""
    errors: list[float] = []
    for at, truth in zip(sentences, speech.words, strict=True):
        words = found.sentences[at].words
        if [word.said.word for word in words] == [word.word for word in truth]:
            errors += [1000.0 * abs(mine.start - true.start) for mine, true in zip(words, truth, strict=True)]
    return errors


def test_words_of_a_faithful_reading_are_placed_closely(kept_to: Speech, tmp_path) -> None:
    found = aligned(kept_to.write(tmp_path / "narration.wav"), tmp_path, SENTENCES[:16])
    errors = start_errors(found, kept_to, list(range(16)))
    assert len(errors) >= 0.9 * sum(map(len, kept_to.words))
    assert np.median(errors) <= 20.0
    assert np.percentile(errors, 95) <= 80.0
    assert all(one.words for one in found.sentences)
    assert len(found.departures) <= 4


def test_words_around_departures_are_placed_as_closely(departed: Speech, departed_alignment: Alignment) -> None:
    spoken = [at for at in range(len(SENTENCES)) if at not in DROPPED]
    assert len(spoken) == len(DEPARTED)
    errors = start_errors(departed_alignment, departed, spoken)
    assert len(errors) >= 250
    assert np.median(errors) <= 20.0
    assert np.percentile(errors, 95) <= 80.0


def test_what_was_left_out_is_told(departed_alignment: Alignment) -> None:
    missing = {one.sentence for one in departed_alignment.departures if one.kind == "not heard"}
    assert set(DROPPED) <= missing
    assert all(not departed_alignment.sentences[at].words for at in DROPPED)
    assert missing <= set(DROPPED) | set(ALTERED)


def test_what_was_said_otherwise_is_told(departed_alignment: Alignment) -> None:
    told = {one.sentence for one in departed_alignment.departures}
    assert set(ALTERED) <= told
    # Of 42 sentences, few that were said as written are put under suspicion.
    assert len(told - set(ALTERED) - set(DROPPED)) <= 4


def test_times_never_run_backwards(departed_alignment: Alignment) -> None:
    starts = [one.start for one in departed_alignment.sentences]
    assert starts == sorted(starts)
    for one in departed_alignment.sentences:
        words = [time for word in one.words for time in (word.start, word.end)]
        assert all(later - earlier > -0.02 for earlier, later in pairwise(words))


# --- without sound ---------------------------------------------------------------------------------------------------


def script_of(*sentences: str) -> list[SaidWord]:
    return [SaidWord(word, at, n) for at, text in enumerate(sentences) for n, word in enumerate(text.split())]


def heard(text: str) -> list[Heard]:
    return [Heard(word, float(at), at + 0.8) for at, word in enumerate(text.split())]


def test_a_swapped_word_is_one_departure_with_its_time() -> None:
    found = align(script_of("open the port cock and wait"), heard("open the starboard cock and wait"))
    (one,) = found.departures
    assert (one.kind, one.written, one.said, one.start, one.end) == ("differs", "port", "starboard", 2.0, 2.8)
    assert [word.heard for word in found.sentences[0].words] == [True, True, False, True, True, True]
    assert found.sentences[0].words[2].start == 2.0


def test_what_is_added_is_told_with_the_sentence_before_it() -> None:
    found = align(
        script_of("open the port cock", "wait for the lamp"), heard("open the port cock as i said wait for the lamp")
    )
    (one,) = found.departures
    assert (one.kind, one.sentence, one.said) == ("added", 0, "as i said")


def test_a_word_cut_otherwise_is_no_departure() -> None:
    assert not align(script_of("turn the handwheel to open it"), heard("turn the hand wheel to open it")).departures


def test_a_word_that_was_not_made_out_lies_between_its_neighbours() -> None:
    found = align(script_of("open the port cock and wait"), [*heard("open the"), *heard("x x x cock and wait")[3:]])
    word = found.sentences[0].words[2]
    assert not word.heard and 1.8 <= word.start < word.end <= 3.0


def test_nothing_heard_is_an_answer_too() -> None:
    found = align(script_of("open the port cock", "wait"), [])
    assert found.share == 0.0 and [one.kind for one in found.departures] == ["not heard", "not heard"]
