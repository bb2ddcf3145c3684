"""Reading captions. The time stamps are those of the web platform tests for WebVTT (webvtt/parsing/file-parsing)."""

from typing import Any

import pytest

from cutaway.narrate.caption_reading import read_captions, timestamp_seconds
from cutaway.narrate.captions import Cue
from cutaway.narrate.srt import srt_file
from cutaway.narrate.webvtt import caption_file
from cutaway.problems.span import TextFile

GOOD = {
    "00:00.000": 0.0,
    "000:00:00.000": 0.0,
    "0:00:01.000": 1.0,
    "60:00:00.000": 216000.0,
    "60:00:01.000": 216001.0,
    "01:00:02.500": 3602.5,
}
BAD = """
000:00.000 00::00.000 00:000.000 00:00..000 00:00.0000 00::00:00.000 00:000:00.000 00:00::00.000 00:00:000.000
00:00:00..000 00:00:00.0000 0000:00.000 00:0:00.000 00:00:0.000 00:00:00.00 00:00:00.0 00:00:00. 00:00:00 00:00 00: 00
0 0:00.000 00:0.000 00:00000 00:00.00 0:00. :00. 00. 0. . 0:01.000 00:60:00.000 00:00:60.000 00:00:00,000
"""


def read(text: str, name: str = "x.vtt"):  # type: ignore[no-untyped-def]
    cues, problems = read_captions(TextFile(name, text))
    return cues, [problem.code for problem in problems]


@pytest.mark.parametrize("text, seconds", GOOD.items())
def test_times_that_a_reader_takes(text, seconds) -> None:
    assert timestamp_seconds(text) == seconds


@pytest.mark.parametrize("text", [*BAD.split(), ""])
def test_times_that_a_reader_refuses(text) -> None:
    assert timestamp_seconds(text) is None
    cues, found = read(f"WEBVTT\n\n{text or 'x'} --> 00:10.000\nwords\n\n00:20.000 --> 00:21.000\nmore\n")
    assert [cue.words for cue in cues] == ["more"] and found == ["N402"]


def test_everything_that_a_file_may_hold() -> None:
    text = (
        "WEBVTT Petrol\nKind: captions\n\nNOTE a remark\nof two lines\n\nSTYLE\n::cue { color: red }\n\n"
        "one\n00:01.000 --> 00:02.000 align:start line:0%\n<v Guide>Oil &amp; <i>air</i>\nsecond line\n\n"
        " two \n00:03.000-->00:04.000\nlast"
    )
    cues, found = read(text)
    assert not found
    assert [(c.identifier, c.start, c.end, c.words) for c in cues] == [
        ("one", 1.0, 2.0, "Oil & air second line"),
        (" two ", 3.0, 4.0, "last"),
    ]
    assert cues[0].raw == "<v Guide>Oil &amp; <i>air</i>\nsecond line"


def test_an_arrow_begins_a_caption_even_without_a_blank_line() -> None:
    cues, found = read("WEBVTT\n\n00:01.000 --> 00:02.000\none\n00:03.000 --> 00:04.000\ntwo\n")
    assert [cue.words for cue in cues] == ["one", "two"] and not found


def test_srt_with_its_usual_slips() -> None:
    text = "1\n00:00:01,500 --> 00:00:02,750\nOne\nTwo\n"
    text += "2\n0:0:3,5 --> 00:00:04.000\nx\n\n\n9\n00:00:05,000 --> 00:00:06,000\n<i>y</i>\n"
    cues, found = read(text, "x.srt")
    assert not found
    assert [(c.start, c.end, c.words) for c in cues] == [(1.5, 2.75, "One Two"), (3.5, 4.0, "x"), (5.0, 6.0, "y")]


def test_times_that_run_backwards_are_told_and_kept() -> None:
    cues, found = read("WEBVTT\n\n00:05.000 --> 00:04.000\na\n\n00:01.000 --> 00:02.000\nb\n")
    assert [cue.words for cue in cues] == ["a", "b"]
    assert found == ["N403", "N404"]


# --- what a reader must take: the web platform tests for WebVTT, webvtt/parsing/file-parsing -------------------------
# The inputs are ours, of the forms that those tests try; how many captions they give and their identifiers is as there.

ONE = "00:00:00.000 --> 00:00:01.000\nwords"
# Tests signature-no-newline, -bom, -space, -tab (taken), and the five of signature-invalid (refused).
SIGNED = ("WEBVTT", "\ufeffWEBVTT", "WEBVTT FILE", "WEBVTT\tFILE", "WEBVTT ")
UNSIGNED = ("WEBVTTx", " WEBVTT", "webvtt", "WEBVT", "\tWEBVTT", "WEBVTT-", "")
# Test arrows: stray arrows of four forms between captions and lines that are no times; six captions.
STRAY = ("-->", "oil-->", "-->oil", "--->", "-->-->")
ARROWS = "WEBVTT\n\n" + "".join(f"{stray}\n{ONE} {n}\n" for n, stray in enumerate(STRAY, 1)) + f"{ONE} 6\n"
ARROWS += "".join(f"\n00:00:00.000 {bad} -->\n" for bad in ("-x", "--x", "-", "--"))
# Test ids: blanks before and after, what is nearly an arrow, a single blank; five captions, identifiers kept.
NAMES = (" oil", "oil ", "-- >", "->", " ")
IDENTIFIERS = "WEBVTT\n\n" + "\n\n".join(f"{name}\n{ONE} {n}" for n, name in enumerate(NAMES, 1))
# Not in those tests, but in the rules they test: only the first line of a block names it, and a blank is no blank line.
BLOCKS = f"WEBVTT\n{ONE} 1\n\ntwo\nlines\n{ONE} 2\n \nmore\n\nthree\n{ONE} 3\nfour\n{ONE} 4\n"


@pytest.mark.parametrize("signature", SIGNED)
def test_c9_signatures_that_are_taken(signature) -> None:
    cues, found = read(f"{signature}\n\n{ONE}\n")
    assert [cue.words for cue in cues] == ["words"] and not found


@pytest.mark.parametrize("signature", SIGNED[:1] + SIGNED[2:])
def test_c9_a_signature_alone_is_a_file_without_captions(signature) -> None:
    assert read(signature) == ((), ["N401"])


@pytest.mark.parametrize("signature", UNSIGNED)
def test_c9_signatures_that_are_refused(signature) -> None:
    assert read(f"{signature}\n\n{ONE}\n") == ((), ["N405"])
    assert read("") == ((), ["N401"])


def test_srt_needs_no_signature() -> None:
    cues, found = read(f"1\n{ONE.replace('.', ',')}\n", "x.srt")
    assert [cue.words for cue in cues] == ["words"] and not found
    assert read(f"webvtt\n\n{ONE}\n", "x.srt")[1] == ["N405"]


def test_c10_stray_arrows() -> None:
    cues, found = read(ARROWS)
    assert [(cue.identifier, cue.words) for cue in cues] == [("", f"words {n}") for n in range(1, 7)]
    assert found == ["N402"] * 9


def test_c15_identifiers_are_kept_as_they_are() -> None:
    cues, found = read(IDENTIFIERS)
    assert [(cue.identifier, cue.words) for cue in cues] == [(name, f"words {n}") for n, name in enumerate(NAMES, 1)]
    assert not found


def test_only_the_first_line_of_a_block_names_a_caption() -> None:
    cues, found = read(BLOCKS)
    assert [(cue.identifier, cue.words) for cue in cues] == [
        ("", "words 1"), ("", "words 2 more"), ("three", "words 3 four"), ("", "words 4")
    ]  # fmt: skip
    assert not found


@pytest.mark.parametrize(
    "text", [ARROWS, IDENTIFIERS, BLOCKS, *(f"{s}\n\n{ONE}\n" for s in SIGNED + UNSIGNED)], ids=lambda t: repr(t[:24])
)
def test_a_browser_takes_the_same(text, browser) -> None:
    mine, _ = read(text)
    assert listed_by(browser, text) == [(c.identifier, c.start, c.end, c.words) for c in mine]


@pytest.mark.parametrize("text", ["", "Dear Sir,\n\nthank you.", "WEBVTT\n\nNOTE nothing here\n", "\n\n\n"])
def test_a_file_without_captions_is_told(text) -> None:
    assert read(text) == ((), ["N401"])


# --- what we write, read by others -----------------------------------------------------------------------------------

NASTY = (
    Cue("talk-1", 0.0, 1.4996, ("Hallam & Reeve, of <Tamar>",), (0,), ("hb §1",)),
    Cue("talk-2", 1.5, 2.0, ("a --> b", "{braces} and \x00 more"), (1,), ()),
    Cue("talk-3", 3599.9996, 3601.0, ("É ½ lb/sq in",), (2,), ()),
)


def test_srt_as_text() -> None:
    assert srt_file(NASTY[:2]) == (
        "1\r\n00:00:00,000 --> 00:00:01,500\r\nHallam & Reeve, of <Tamar>\r\n\r\n"
        "2\r\n00:00:01,500 --> 00:00:02,000\r\na → b\r\n{braces} and more\r\n\r\n"
    )


def test_both_files_hold_the_same_captions() -> None:
    mine, found = read(caption_file(NASTY, "Petrol --> and\n\noil"))
    theirs, more = read(srt_file(NASTY).replace("\r\n", "\n"), "x.srt")
    assert not found and not more
    assert [(c.start, c.end) for c in mine] == [(c.start, c.end) for c in theirs] == [
        (0.0, 1.5), (1.5, 2.0), (3600.0, 3601.0)
    ]  # fmt: skip
    assert mine[0].words == "Hallam & Reeve, of <Tamar>"
    assert [c.identifier for c in mine] == ["talk-1", "talk-2", "talk-3"]


def test_a_strict_reader_reads_the_same() -> None:
    webvtt = pytest.importorskip("webvtt")
    theirs = list(webvtt.from_string(caption_file(NASTY, "Petrol"), strict=True))
    mine, _ = read(caption_file(NASTY, "Petrol"))
    assert [timestamp_seconds(cue.start) for cue in theirs] == [cue.start for cue in mine]


def test_a_browser_lists_the_same_captions(browser) -> None:
    text = caption_file(NASTY, "Petrol")
    mine, _ = read(text)
    assert listed_by(browser, text) == [(c.identifier, c.start, c.end, c.words) for c in mine]


def listed_by(browser: Any, text: str) -> list[tuple[str, float, float, str]]:
    """The captions that the browser's own <track> lists; none where it refuses the file."""
    page = browser.new_page()
    page.set_content("<video></video>")
    listed = page.evaluate(
        """text => new Promise(done => {
            const track = document.createElement("track");
            const cues = () => [...(track.track.cues || [])].map(
                c => [c.id, c.startTime, c.endTime, c.getCueAsHTML().textContent]);
            track.onload = () => done(cues());
            track.onerror = () => done([]);
            track.default = true;
            track.src = "data:text/vtt;charset=utf-8," + encodeURIComponent(text);
            document.querySelector("video").append(track);
            track.track.mode = "showing";
        })""",
        text,
    )
    page.close()
    return [(name, start, end, " ".join(words.split())) for name, start, end, words in listed]
