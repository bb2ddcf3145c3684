"""Captions of a film that is out: corrected words in the old time, everything else as it was."""

import json
from dataclasses import replace
from datetime import date
from io import StringIO
from itertools import pairwise
from pathlib import Path

import pytest
import webvtt
from hypothesis import given
from hypothesis import strategies as st

from cutaway.api.corrections import publish
from cutaway.handbook.records import Script, Sentence
from cutaway.narrate.captions import Cue, captions
from cutaway.narrate.corrected import Film, corrected
from cutaway.narrate.cue_words import words_in_place
from cutaway.narrate.rewording import paired
from cutaway.narrate.settings import CAPTIONS_42
from cutaway.problems.span import Span, TextFile
from cutaway.publish.published import publications

NOWHERE = Span(TextFile("", ""), 0, 0)
TALK = (
    "Good morning, and do come closer, for there is room in front.",
    "Her petrol is carried in two tanks, one in the root of each wing, and each holds eleven gallons.",
    "The lamp lights below two pounds to the square inch.",
    "Put the cock back in good time and nobody behind you need ever know of it.",
)


def sentence(text: str) -> Sentence:
    return Sentence(text, "", 1, (), (), False, NOWHERE)


@pytest.fixture
def film() -> Film:
    script = Script("01-fuel", "", tuple(map(sentence, TALK)), NOWHERE)
    return Film("01-fuel", TALK, captions(script, ())[0])


def test_new_words_stand_in_the_old_time(film: Film) -> None:
    new = "The lamp lights below three pounds to the square inch."
    cues, problems = corrected(film, {2: sentence(new)}, ())
    assert problems == ()
    old = [cue for cue in film.cues if 2 in cue.sentences]
    fresh = [cue for cue in cues if 2 in cue.sentences]
    assert " ".join(line for cue in fresh for line in cue.lines) == new
    assert fresh[0].start == old[0].start and fresh[-1].end <= old[-1].end
    assert [cue for cue in cues if 2 not in cue.sentences] == [cue for cue in film.cues if 2 not in cue.sentences]
    assert [(c.identifier, c.start, c.end) for c in fresh] == [(c.identifier, c.start, c.end) for c in old]


def test_a_changed_word_stays_in_the_caption_in_which_the_old_one_stood(film: Film) -> None:
    old = [cue for cue in film.cues if 1 in cue.sentences]
    assert len(old) > 1, "the sentence runs over several captions"
    cues, problems = corrected(film, {1: sentence(TALK[1].replace("eleven", "twelve"))}, ())
    fresh = [cue for cue in cues if 1 in cue.sentences]
    assert problems == () and [(c.start, c.end) for c in fresh] == [(c.start, c.end) for c in old]
    assert [a.lines == b.lines for a, b in zip(old, fresh, strict=True)].count(False) == 1


def test_words_that_do_not_fit_their_caption_are_laid_anew_in_the_time_of_the_sentence(film: Film) -> None:
    old = [cue for cue in film.cues if 1 in cue.sentences]
    new = TALK[1].replace("each holds eleven gallons", "each of the two holds eleven gallons")
    cues, _ = corrected(film, {1: sentence(new)}, ())
    fresh = [cue for cue in cues if 1 in cue.sentences]
    assert " ".join(line for cue in fresh for line in cue.lines) == new
    assert fresh[0].start == old[0].start and fresh[-1].end <= old[-1].end


@given(st.lists(st.sampled_from(["the", "lamp", "lights", "at", "two", "pounds", "of", "it"]), min_size=1, max_size=9))
def test_all_new_words_stand_in_some_caption_and_in_order(words: list[str]) -> None:
    script = Script("01-fuel", "", tuple(map(sentence, TALK)), NOWHERE)
    cues = captions(script, ())[0]
    placed = words_in_place(cues, TALK, {1: " ".join(words)})
    wanted = " ".join([TALK[0], " ".join(words), *TALK[2:]])
    assert " ".join(one for one in placed if one) == wanted


def test_too_many_words_for_the_time_are_told(film: Film) -> None:
    new = (
        TALK[2].removesuffix(".")
        + ", which is a good deal less than what the handbook of the earlier mark gives us here."
    )
    _, problems = corrected(film, {2: sentence(new)}, ())
    told = next(p for p in problems if p.code == "N301")
    assert told.message.startswith("In the corrected captions of 01-fuel: ")
    assert "gives no more time" in told.hint and "add words" not in told.hint


@given(st.sets(st.integers(0, 3)), st.sampled_from(["now", "and so on", "as the second handbook says of it"]))
def test_order_gaps_and_the_end_hold_for_any_change(changed: set[int], more: str) -> None:
    script = Script("01-fuel", "", tuple(map(sentence, TALK)), NOWHERE)
    film = Film("01-fuel", TALK, captions(script, ())[0])
    new = {at: sentence(TALK[at].removesuffix(".") + f", {more}.") for at in changed}
    cues, _ = corrected(film, new, ())
    for before, after in pairwise(cues):
        assert after.start - before.end >= CAPTIONS_42.gap - 0.0015
    assert cues[-1].end <= film.cues[-1].end and all(cue.start < cue.end for cue in cues)
    words = " ".join(line for cue in cues for line in cue.lines)
    assert words == " ".join(new[at].text if at in new else text for at, text in enumerate(TALK))


def test_a_caption_of_two_sentences_takes_its_neighbour_along() -> None:
    texts = ("It is so.", "Yes.", "And that is why the handbook was amended in the autumn of that year.")
    script = Script("a", "", tuple(map(sentence, texts)), NOWHERE)
    cues = captions(script, ())[0]
    joined = next(cue for cue in cues if len(cue.sentences) > 1)
    number = joined.sentences[0]
    new = replace(script.sentences[number], text="It was so.")
    found, _ = corrected(Film("a", texts, cues), {number: new}, ())
    wanted = " ".join(new.text if at == number else text for at, text in enumerate(texts))
    assert " ".join(line for cue in found for line in cue.lines) == wanted


def test_a_sentence_that_runs_on_into_the_next_caption_is_said_once() -> None:
    texts = ("It is so.", "And that is why the handbook was amended.", "So there.")
    cues = (
        Cue("a-1", 0.0, 2.0, ("It is so. And that is why",), (0, 1), ()),
        Cue("a-2", 2.1, 4.0, ("the handbook was amended.",), (1,), ()),
        Cue("a-3", 4.1, 6.0, ("So there.",), (2,), ()),
    )
    found, _ = corrected(Film("a", texts, cues), {0: sentence("It was so.")}, ())
    words = " ".join(line for cue in found for line in cue.lines)
    assert words == "It was so. And that is why the handbook was amended. So there."
    assert found[-1] == cues[-1]


def test_the_file_and_k311_a_sentence_with_no_room(out: Path, made, edit) -> None:
    edit("scripts/01-fuel.md", "on every mark that was ever built", "on both marks that were ever built")
    edit("scripts/01-fuel.md", "That is all", "Mind the step behind you. `aside` That is all")
    _, problems = made()
    assert next(p.message for p in problems if p.code == "K311").startswith("'Mind the step behind you.'")
    folder = out / "pack" / "captions"
    text = (folder / "01-fuel.corrected.vtt").read_text(encoding="utf-8")
    assert "the film says: The cock is fitted on every mark that was ever built." in text
    assert "on both marks" in (folder / "01-fuel.corrected.srt").read_text(encoding="utf-8").replace("\n", " ")
    read = [caption.text.replace("\n", " ") for caption in webvtt.from_buffer(StringIO(text))]
    assert "both marks that were ever built." in " ".join(read) and "Mind the step" not in " ".join(read)
    (one,), _ = publications(out)
    old = one.says.scripts[0].cues
    assert webvtt.from_buffer(StringIO(text)).captions[-1].end_in_seconds == int(old[-1].end)


def test_with_the_same_films_the_next_corrections_start_from_the_corrected_captions(out: Path, made, edit) -> None:
    (first,), _ = publications(out)
    edit("scripts/01-fuel.md", "on every mark that was ever built", "on both marks that were ever built")
    edit("scripts/01-fuel.md", "That is all", "Mind the step behind you. `aside` That is all")
    made()
    marked, problems = publish(out, date(2026, 4, 1), same_films=True)
    assert problems == () and marked is not None
    (script,) = marked.says.scripts
    assert script.cues[-1].end == first.says.scripts[0].cues[-1].end
    assert script.sentences[2].text == "Mind the step behind you." and script.sentences[2].start is None
    assert script.sentences[3].start == first.says.scripts[0].sentences[2].start
    edit("scripts/01-fuel.md", "can be said of it today", "can be said of it now")
    made()
    text = " ".join((out / "pack" / "captions" / "01-fuel.corrected.vtt").read_text(encoding="utf-8").split())
    assert "both marks" in text and "of it now." in text


def test_a_new_film_starts_from_the_captions_of_the_pack(out: Path, made, edit) -> None:
    edit("scripts/01-fuel.md", "That is all", "Mind the step behind you. `aside` That is all")
    made()
    marked, _ = publish(out, date(2026, 4, 1))
    assert marked is not None and marked.says.scripts[0].sentences[2].start is not None
    assert "Mind the step" in " ".join(line for cue in marked.says.scripts[0].cues for line in cue.lines)


@given(st.lists(st.sampled_from(TALK), max_size=6), st.lists(st.sampled_from(TALK), max_size=6))
def test_every_sentence_is_paired_once_and_in_order(then: list[str], now: list[str]) -> None:
    pairs = paired(tuple(then), tuple(now))
    assert [p.then for p in pairs if p.then is not None] == list(range(len(then)))
    assert [p.now for p in pairs if p.now is not None] == list(range(len(now)))


def times(text: str) -> list[str]:
    return [line for line in text.splitlines() if "-->" in line]


def test_a_film_keeps_its_times_whatever_is_edited_after_it(out: Path, made, edit) -> None:
    """Published again with the same film, then a name is said otherwise: the script takes longer, the film does not."""
    captions_folder = out / "pack" / "captions"
    film_times = times((captions_folder / "01-fuel.vtt").read_text(encoding="utf-8"))
    edit("scripts/01-fuel.md", "on every mark that was ever built", "on each mark that was ever built")
    made()
    assert publish(out, date(2026, 4, 1), same_films=True)[1] == ()
    (out / "glossary.yaml").write_text("pronounced:\n  gallons: gal-lons as we call them here\n", encoding="utf-8")
    made()
    assert times((captions_folder / "01-fuel.vtt").read_text(encoding="utf-8")) != film_times
    corrected_file = (captions_folder / "01-fuel.corrected.vtt").read_text(encoding="utf-8")
    assert times(corrected_file) == film_times and "each mark" in " ".join(corrected_file.split())
    page = (out / "pack" / "errata.html").read_text(encoding="utf-8")
    assert "captions/01-fuel.corrected.vtt" in page and "captions/01-fuel.corrected.srt" in page


def test_after_the_same_films_the_corrected_file_stays_without_any_edit(out: Path, made, edit) -> None:
    edit("scripts/01-fuel.md", "twenty gallons, says the book", "20 gallons")
    made()
    before = (out / "pack" / "captions" / "01-fuel.corrected.vtt").read_bytes()
    assert publish(out, date(2026, 4, 1), same_films=True)[1] == ()
    done, problems = made()
    assert (out / "pack" / "captions" / "01-fuel.corrected.vtt").read_bytes() == before
    assert done.touched == () and "K310" not in {p.code for p in problems}
    page = (out / "pack" / "errata.html").read_text(encoding="utf-8")
    assert "the film says &#x27;The petrol is in one tank, and it holds twenty gallons, says the book.&#x27;" in page
    assert publish(out, date(2026, 4, 2), same_films=True)[1][0].code == "K303", "nothing new went out"


def test_what_the_film_says_is_known_after_several_corrections(out: Path, made, edit) -> None:
    for day, (old, new) in enumerate([("every mark", "each mark"), ("each mark", "any mark")], 1):
        edit("scripts/01-fuel.md", old, new)
        made()
        publish(out, date(2026, 4, day), same_films=True)
    made()
    (film,) = json.loads((out / "pack" / "errata.json").read_bytes())["films"]
    (one,) = film["differences"]
    assert "every mark" in one["spoken"] and "any mark" in one["shown"]


def test_a_sentence_taken_out_is_said_by_the_film_still(out: Path, made, edit) -> None:
    edit("scripts/01-fuel.md", "That is all that can be said of it today. `aside`", "")
    done, _ = made()
    text = (out / "pack" / "captions" / "01-fuel.corrected.vtt").read_text(encoding="utf-8")
    assert "said of it today." in " ".join(text.split()), "captions show what is spoken"
    assert any("its caption too; the script has it no longer" in line for line in done.touched)


def test_k307_a_film_made_again_is_the_film_from_then_on_and_said_to_be(out: Path, made, edit) -> None:
    edit("scripts/01-fuel.md", "every mark", "each and every single mark of all")
    made()
    marked, (told,) = publish(out, date(2026, 4, 1))
    assert marked is not None and told.code == "K307" and "01-fuel" in told.message and "--same-films" in told.hint
    made()
    assert not (out / "pack" / "captions" / "01-fuel.corrected.vtt").exists()
    assert json.loads((out / "pack" / "errata.json").read_bytes())["films"] == []
