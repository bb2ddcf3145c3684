"""Caption files against published rules: the W3C's for writers of WebVTT, printed figures for speed and layout.

WebVTT: W3C, 'WebVTT: The Web Video Text Tracks Format', section on the file's structure, state of 14 May 2026
(rules C1 to C8 below). Layout and times: UTK Libraries, 'Timed Text Style Guide', sections 2 and 5.2, as printed there:
42 characters a line, two lines, 5/6 s to 7 s. The speed of 17 characters a second is common practice, no source.
The reader below is written from the rules; webvtt-py in its strict mode is a second one, a browser a third. What a
reader of others' files must take (rules C9 to C16) is tested in tests/narrate/test_caption_reading.py.
"""

import html
import re
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
import webvtt

from cutaway.handbook.load import load_folder
from cutaway.handbook.records import Script, Sentence
from cutaway.narrate.captions import captions
from cutaway.narrate.timing import timeline
from cutaway.narrate.webvtt import caption_file, chapter_file
from cutaway.problems.span import TextFile, whole
from tests.narrate.test_caption_reading import listed_by

DEMO = Path(__file__).parents[2] / "demo" / "whinchat"
LINE_LENGTH, LINES, SHORTEST, LONGEST, FASTEST = 42, 2, 5 / 6, 7.0, 17.0
NASTY = (
    "Hallam & Reeve wrote '<b>off</b>' --> on the plate; &lt; was never meant.",
    "WEBVTT is not said here, NOTE that.",
    "STYLE matters, and 00:00:01.000 --> 00:00:02.000 is not a time.",
    "A blank,\n\nthen more, and \u2028 an odd one.",
)


def nasty_script() -> Script:
    file = TextFile("scripts/nasty.md", "x")
    sentences = tuple(Sentence(text, f"{text[:5]} --> & <", 0, (), (), False, whole(file)) for text in NASTY)
    return Script("a --> b", "Title --> \n\n & <x>", sentences, whole(file))


def demo_scripts() -> tuple[Script, ...]:
    folder, _ = load_folder(DEMO)
    assert folder is not None
    assert folder.scripts
    return folder.scripts


def glossary() -> tuple:  # type: ignore[type-arg]
    folder, _ = load_folder(DEMO)
    assert folder is not None
    return folder.glossary


@pytest.fixture(scope="module", params=["nasty", "demo"])
def written(request: pytest.FixtureRequest) -> list[str]:
    scripts = (nasty_script(),) if request.param == "nasty" else demo_scripts()
    files: list[str] = []
    for script in scripts:
        cites = dict.fromkeys(range(0, len(script.sentences), 2), ("hb §22 --> ", "hb §25\n\n"))
        files.append(caption_file(captions(script, glossary(), cites)[0], script.title))
        files.append(chapter_file(script, timeline(script, glossary())))
    return files


def blocks(text: str) -> list[list[str]]:
    """The blocks of a file after its first: lines between blank lines."""
    return [block.split("\n") for block in re.split(r"\n{2,}", text.strip("\n"))[1:]]


def cue_blocks(text: str) -> list[list[str]]:
    return [block for block in blocks(text) if not re.match(r"NOTE(?=[ \t\n]|$)", block[0])]


def seconds(stamp: str) -> float:
    """C4: hours of two digits or more, minutes and seconds from 00 to 59 of two digits, a stop, three digits."""
    match = re.fullmatch(r"(?:(\d{2,}):)?([0-5]\d):([0-5]\d)\.(\d{3})", stamp)
    assert match, stamp
    hours, minutes, whole_seconds, thousandths = (int(part or 0) for part in match.groups())
    return hours * 3600 + minutes * 60 + whole_seconds + thousandths / 1000


def test_c1_signature_and_encoding(written: list[str]) -> None:
    for text in written:
        assert re.match(r"WEBVTT(?:[ \t][^\n]*)?\n\n", text)
        assert "-->" not in text.split("\n")[0]
        text.encode("utf-8")
        assert "\x00" not in text


def test_c2_line_ends(written: list[str]) -> None:
    assert all("\r" not in text and text.endswith("\n") for text in written)


def test_c3_no_style_or_region_after_a_cue(written: list[str]) -> None:
    for text in written:
        assert not [block for block in blocks(text) if re.match(r"(STYLE|REGION)[ \t]*$", block[0])]


def test_c4_c5_times(written: list[str]) -> None:
    for text in written:
        last = 0.0
        for block in cue_blocks(text):
            match = re.fullmatch(r"(\S+)[ \t]+-->[ \t]+(\S+)", block[1])
            assert match, block
            start, end = seconds(match[1]), seconds(match[2])
            assert end > start
            assert start >= last
            last = start


def test_c6_identifiers(written: list[str]) -> None:
    for text in written:
        names = [block[0] for block in cue_blocks(text)]
        assert names
        assert len(set(names)) == len(names)
        assert all(name and "-->" not in name for name in names)


def test_c7_cue_text(written: list[str]) -> None:
    for text in written:
        for block in cue_blocks(text):
            assert block[2:]
            for line in block[2:]:
                assert line.strip()
                assert "-->" not in line
                assert "<" not in line
                assert not re.search(r"&(?!amp;|lt;|gt;)", line)


def test_c8_comments(written: list[str]) -> None:
    for text in written:
        notes = [block for block in blocks(text) if block[0].startswith("NOTE")]
        assert all("-->" not in line for note in notes for line in note)


def test_a_comment_names_the_paragraphs_of_the_cue_that_follows(written: list[str]) -> None:
    for text in written[::2]:
        after = [two for one, two in pairwise(blocks(text)) if one[0].startswith("NOTE From")]
        assert after
        assert all(" --> " in block[1] for block in after)


def test_a_strict_reader_takes_every_cue(written: list[str]) -> None:
    for text in written:
        taken = webvtt.from_string(text, strict=True)
        assert len(taken) == len(cue_blocks(text))
        for cue, block in zip(taken, cue_blocks(text), strict=True):
            assert cue.identifier == block[0]
            assert cue.raw_text == "\n".join(block[2:])


def test_a_browser_lists_every_cue(written: list[str], browser: Any) -> None:
    """Chromium's own <track>: the same identifiers, times and words, chapters too."""
    for text in written:
        blocks_of = [
            (block[0], *block[1].split(" --> "), html.unescape(" ".join(block[2:]))) for block in cue_blocks(text)
        ]
        assert listed_by(browser, text) == [(name, seconds(a), seconds(b), words) for name, a, b, words in blocks_of]


@pytest.mark.parametrize("script", demo_scripts(), ids=lambda script: script.name)
def test_the_demo_keeps_the_printed_figures(script: Script) -> None:
    """Read back from the file, not from the records that it was written from."""
    cues, problems = captions(script, glossary())
    assert problems == ()
    taken = webvtt.from_string(caption_file(cues, script.title), strict=True)
    assert len(taken) >= len(script.sentences)
    for cue in taken:
        lines = [
            line.replace("&lt;", "<").replace("&gt;", ">").replace("&amp;", "&") for line in cue.raw_text.split("\n")
        ]
        shown = cue.end_in_seconds - cue.start_in_seconds
        assert len(lines) <= LINES
        assert all(len(line) <= LINE_LENGTH for line in lines)
        # Both ends are printed in thousandths, so a length is known to a thousandth.
        assert SHORTEST - 0.001 <= seconds(cue.end) - seconds(cue.start) <= LONGEST + 0.001, shown
        assert len(" ".join(lines)) / (seconds(cue.end) - seconds(cue.start) + 0.001) <= FASTEST
    for one, two in pairwise(taken):
        assert seconds(two.start) >= seconds(one.end)
