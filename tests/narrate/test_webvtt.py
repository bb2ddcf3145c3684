"""The caption file as text: escaped, times as the rules want them, nothing that ends a block early."""

import re

import pytest

from cutaway.narrate.captions import Cue
from cutaway.narrate.timing import timeline
from cutaway.narrate.webvtt import caption_file, chapter_file, timestamp


def cue(*lines: str, start: float = 0.0, end: float = 1.0, cites: tuple[str, ...] = (), name: str = "x-1") -> Cue:
    return Cue(name, start, end, lines, (0,), cites)


@pytest.mark.parametrize(
    "seconds, text",
    [
        (0.0, "00:00:00.000"),
        (59.9996, "00:01:00.000"),
        (3599.9995, "01:00:00.000"),
        (86400.25, "24:00:00.250"),
        (360000.0, "100:00:00.000"),
    ],
)
def test_times(seconds: float, text: str) -> None:
    assert timestamp(seconds) == text


def test_a_file_in_full() -> None:
    written = caption_file(
        (cue("Hallam & Reeve,", "of <Tamar>.", start=41.2, end=45.2, cites=("hb §22", "hb §25")),), "Petrol"
    )
    assert written == (
        "WEBVTT Petrol\n\nNOTE Language: en-GB\n\nNOTE From hb §22, hb §25\n\n"
        "x-1\n00:00:41.200 --> 00:00:45.200\nHallam &amp; Reeve,\nof &lt;Tamar&gt;.\n"
    )


def test_nothing_written_by_a_user_ends_a_block_or_makes_an_arrow() -> None:
    nasty = "a --> b\n\nNOTE c\r\nd\u2028e\x00f"
    written = caption_file((cue(nasty, nasty, cites=(nasty,), name=nasty), cue("x", start=1.0, end=2.0)), nasty)
    assert written.count("-->") == 2
    assert len(written.split("\n\n")) == 5
    assert not re.search(r"[\x00\r\u2028]", written)


def test_a_cue_of_no_length_is_given_one() -> None:
    assert "00:00:01.000 --> 00:00:01.001" in caption_file((cue("x", start=1.0, end=1.0),), "t")


def test_chapters_follow_each_other(script_of) -> None:  # type: ignore[no-untyped-def]
    script = script_of(
        "Good morning to all of you.", "## Tanks & cocks", "There are two.", "They leak.", "## Lamps", "Red."
    )
    slots = timeline(script, ())
    blocks = chapter_file(script, slots).strip().split("\n\n")
    assert blocks[0] == "WEBVTT Petrol, chapters"
    assert [block.split("\n")[0] for block in blocks[1:]] == ["chapter-1", "chapter-2", "chapter-3"]
    assert [block.split("\n")[2] for block in blocks[1:]] == ["Petrol", "Tanks &amp; cocks", "Lamps"]
    times = [block.split("\n")[1].split(" --> ") for block in blocks[1:]]
    assert [time[0] for time in times[1:]] == [time[1] for time in times[:-1]]
    assert times[-1][1] == timestamp(slots[-1].next)
    assert chapter_file(script_of(), ()) == "WEBVTT Petrol, chapters\n"
