"""A film that was recorded has times of its own: what is published are those, and corrections stand on them."""

from datetime import date
from pathlib import Path

from cutaway.api.corrections import publish

FILM = """WEBVTT

00:10.000 --> 00:14.000
The petrol is in one tank,
and it holds twenty gallons,

00:14.100 --> 00:16.000
says the book.

00:20.000 --> 00:25.000
The cock is fitted on every mark that was ever ever built.

00:30.000 --> 00:33.000
That is all that can be said of it today.
"""


def put(home: Path, text: str) -> None:
    (home / "captions").mkdir(exist_ok=True)
    (home / "captions" / "01-fuel.vtt").write_text(text, encoding="utf-8")


def corrected(home: Path) -> str:
    return (home / "pack" / "captions" / "01-fuel.corrected.vtt").read_text(encoding="utf-8")


def test_the_times_of_a_recorded_film_are_those_that_are_published(home: Path, made, edit) -> None:
    made()
    put(home, FILM)
    marked, problems = publish(home, date(2026, 3, 1))
    assert problems == () and marked is not None
    (script,) = marked.says.scripts
    assert [one.start for one in script.sentences] == [10.0, 20.0, 30.0]
    edit("scripts/01-fuel.md", "of it today", "of it now")
    made()
    text = corrected(home)
    assert "00:00:30.000 --> 00:00:33.000\nThat is all that can be said of it now." in text
    assert "ever ever built" in text, "what the speaker said otherwise stays, for nobody edited it"
    assert "00:00:10.000 --> 00:00:14.000\nThe petrol is in one tank,\nand it holds twenty gallons," in text


def test_a_recorded_film_without_edits_has_its_own_captions_in_the_pack(home: Path, made) -> None:
    made()
    put(home, FILM)
    publish(home, date(2026, 3, 1))
    done, problems = made()
    assert done.touched == () and "K310" not in {p.code for p in problems}
    assert "00:00:20.000 --> 00:00:25.000" in corrected(home)


def test_an_edit_where_the_speaker_departed_from_the_script_takes_the_script(home: Path, made, edit) -> None:
    made()
    put(home, FILM)
    publish(home, date(2026, 3, 1))
    edit("scripts/01-fuel.md", "on every mark", "on each mark")
    done, _ = made()
    assert "The cock is fitted\non each mark that was ever built." in corrected(home)
    assert any("it says: The cock is fitted on every mark that was ever ever built." in line for line in done.touched)


def test_a_sentence_that_the_speaker_left_out_has_no_time(home: Path, made) -> None:
    made()
    put(home, FILM.replace("00:20.000 --> 00:25.000\nThe cock is fitted on every mark that was ever ever built.\n", ""))
    marked, _ = publish(home, date(2026, 3, 1))
    assert marked is not None and [one.start for one in marked.says.scripts[0].sentences] == [10.0, None, 30.0]


def test_k308_captions_of_another_film(home: Path, made) -> None:
    made()
    put(home, "WEBVTT\n\n00:10.000 --> 00:14.000\nSomething else altogether is told here.\n")
    marked, (told,) = publish(home, date(2026, 3, 1))
    assert marked is not None and told.code == "K308" and "captions/01-fuel.vtt" in told.message
    assert marked.says.scripts[0].sentences[0].start == 0.0
