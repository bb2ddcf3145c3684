"""Words taken in as a script: every sort of file, and nothing written over."""

import shutil
from pathlib import Path

import pytest
from typer.testing import CliRunner

from cutaway.api.importing import import_words
from cutaway.api.loading import load
from cutaway.api.recording import make_captions
from cutaway.cli.main import app
from cutaway.narrate.imported import Block, script_text

SRT = "1\n00:00:01,000 --> 00:00:03,000\nShe has two tanks,\n\n" \
      "2\n00:00:03,100 --> 00:00:05,000\none in each wing.\n\n" \
      "3\n00:00:20,000 --> 00:00:22,000\nThe lamp is red.\n"  # fmt: skip


def codes(problems) -> list[str]:  # type: ignore[no-untyped-def]
    return [problem.code for problem in problems]


def taken(folder: Path, name: str, content: str | bytes) -> tuple[tuple[str, str], ...]:
    """The sentences (chapter, text) that a script has when a file of this name and content was taken in."""
    file = folder.parent / name
    file.write_bytes(content if isinstance(content, bytes) else content.encode())
    done, problems = import_words(folder, file)
    assert done is not None, problems
    loaded, problems = load(folder)
    assert loaded is not None and not [one for one in problems if one.severity == "error"]
    (script,) = [script for script in loaded.folder.scripts if script.name == done.name]
    return tuple((sentence.chapter, sentence.text) for sentence in script.sentences)


def test_captions(sample) -> None:
    assert taken(sample, "old film.srt", SRT) == (
        ("", "She has two tanks, one in each wing."),
        ("", "The lamp is red."),
    )
    assert (sample / "scripts" / "old-film.md").read_text(encoding="utf-8").startswith("# old film\n")


def test_captions_that_roll_are_taken_once(sample) -> None:
    text = "WEBVTT\n\n00:01.000 --> 00:03.000\nthere are two tanks\n\n"
    text += "00:03.000 --> 00:05.000\nthere are two tanks\nin the wing\n"
    assert taken(sample, "rolling.vtt", text) == (("", "there are two tanks in the wing"),)


def test_plain_text(sample) -> None:
    text = (
        "Two tanks\n\nShe has two. They are in\nthe wings.\n\nThe lamp\n\n- It is red.\n\n# It is *not* a `heading`.\n"
    )
    assert taken(sample, "talk.txt", text) == (
        ("Two tanks", "She has two."),
        ("Two tanks", "They are in the wings."),
        ("The lamp", "- It is red."),
        ("The lamp", "# It is *not* a `heading`."),
    )


def test_markdown_is_kept_as_it_stands(sample) -> None:
    assert taken(sample, "talk.md", "## Tanks\n\nShe has *two*. `aside`\n") == (("Tanks", "She has two."),)
    assert (sample / "scripts" / "talk.md").read_text(
        encoding="utf-8"
    ) == "# talk\n\n## Tanks\n\nShe has *two*. `aside`\n"


def test_docx(sample) -> None:
    docx = pytest.importorskip("docx")
    made = docx.Document()
    made.add_heading("The boat", 0)
    made.add_heading("Tanks", 1)
    made.add_paragraph("She has two. <They> are in the wings.")
    made.add_heading("Lamps", 2)
    made.add_paragraph("The lamp is red.")
    file = sample.parent / "boat.docx"
    made.save(str(file))
    assert taken(sample, "boat.docx", file.read_bytes()) == (
        ("Tanks", "She has two."),
        ("Tanks", "<They> are in the wings."),
        ("Lamps", "The lamp is red."),
    )
    assert (sample / "scripts" / "boat.md").read_text(encoding="utf-8").startswith("# The boat\n")


def test_a_script_is_never_written_over(sample) -> None:
    file = sample.parent / "talk.txt"
    file.write_text("New words.", encoding="utf-8")
    (sample / "scripts" / "talk.md").write_text("# Old\n\nOld words.\n", encoding="utf-8")
    done, problems = import_words(sample, file)
    assert done is None and codes(problems) == ["N602"] and "--name talk-2" in problems[0].hint
    assert "Old words" in (sample / "scripts" / "talk.md").read_text(encoding="utf-8")
    done, problems = import_words(sample, file, "talk-2")
    assert done is not None and not problems
    assert codes(import_words(sample, file, "../../elsewhere")[1]) == ["N607"]


@pytest.mark.parametrize(
    "name, content",
    [
        ("talk.odt", b"x"),
        ("broken.docx", b"PK\x03\x04 no"),
        ("empty.txt", b" \n\n"),
        ("empty.md", b"\n"),
    ],
)
def test_what_cannot_be_taken_in(name, content, sample) -> None:
    file = sample.parent / name
    file.write_bytes(content)
    before = sorted((sample / "scripts").iterdir())
    done, problems = import_words(sample, file)
    assert done is None and codes(problems) == ["N601"]
    assert sorted((sample / "scripts").iterdir()) == before


def test_captions_that_are_none_are_told_as_such(sample) -> None:
    file = sample.parent / "x.vtt"
    file.write_text("Dear Sir", encoding="utf-8")
    assert codes(import_words(sample, file)[1]) == ["N401"]
    file.write_bytes(b"\xff\xfe\x00")
    assert codes(import_words(sample, file)[1]) == ["H002"]


def test_the_title_is_not_said_twice() -> None:
    assert script_text("x", [Block(1, "Boat"), Block(1, "Part one"), Block(0, "Words.")], "a --> b.docx") == (
        "# Boat\n\n<!-- Taken from a - b.docx. -->\n\n## Part one\n\nWords.\n"
    )


def test_the_verb(sample) -> None:
    file = sample.parent / "talk.txt"
    file.write_text("New words.", encoding="utf-8")
    done = CliRunner().invoke(app, ["import-words", str(file), "-C", str(sample)])
    assert done.exit_code == 0 and "cutaway check" in done.stdout
    assert CliRunner().invoke(app, ["import-words", str(file), "-C", str(sample)]).exit_code == 1


def test_planned_captions_are_not_written_over(sample) -> None:
    (sample / "scripts" / "talk.md").write_text("# Talk\n\nThe lamp is red and it is lit.\n", encoding="utf-8")
    done, _ = make_captions(sample, "talk")
    assert done is not None and [path.name for path in done.files] == ["talk.vtt", "talk.srt", "talk.chapters.vtt"]
    (sample / "captions" / "talk.srt").write_text("mended by hand", encoding="utf-8")
    done, problems = make_captions(sample, "talk")
    assert done is None and codes(problems) == ["N604"]
    assert codes(make_captions(sample, "tallk")[1]) == ["C102"]


def test_a_file_that_is_not_there(sample) -> None:
    for name in ("none.txt", "none.srt", "none.docx"):
        assert codes(import_words(sample, sample.parent / name)[1]) == ["N606"]


# --- what is not spoken, and captions without full stops ---------------------------------------------------------


def told(folder: Path, name: str, content: str) -> list[str]:
    file = folder.parent / name
    file.write_text(content, encoding="utf-8")
    return [f"{one.code}: {one.message}" for one in import_words(folder, file, name.replace(".", "-"))[1]]


SOUNDS = """1
00:00:01,000 --> 00:00:02,000
[MUSIC]

2
00:00:02,500 --> 00:00:04,000
GUIDE: She has two tanks, (applause)

3
00:00:04,100 --> 00:00:05,000
♪ la la la ♪

4
00:00:05,200 --> 00:00:07,000
one in each wing (the port one
is red).

5
00:00:07,100 --> 00:00:09,000
- VISITOR: And oil?
- Guide: One: at the nose. [engine starts]

6
00:00:09,100 --> 00:00:11,000
Guide: Caution: it is hot.
"""


def test_sounds_and_speakers_are_no_words_and_are_told(sample) -> None:
    assert taken(sample, "talk.srt", SOUNDS) == (
        ("", "She has two tanks, one in each wing (the port one is red)."),
        ("", "And oil?"),
        ("", "One: at the nose."),
        ("", "Caution: it is hot."),
    )
    (line,) = told(sample, "again.srt", SOUNDS)
    assert line == (
        "N608: Left out, since it is not spoken: 4 sounds ('[MUSIC]', '(applause)', '♪ la la la ♪', '[engine starts]') "
        "and the names of speakers before 4 lines (GUIDE, Guide, VISITOR)."
    )


def test_captions_of_nothing_but_sounds_have_no_words(sample) -> None:
    file = sample.parent / "music.vtt"
    file.write_text("WEBVTT\n\n00:01.000 --> 00:02.000\n[Music]\n", encoding="utf-8")
    done, problems = import_words(sample, file)
    assert done is None and codes(problems) == ["N601", "N608"]


BARE = [
    (0.0, 2.0, "she has two tanks one in"), (2.1, 4.0, "each wing and both of them are"),
    (4.1, 6.0, "made of tinned steel"), (7.0, 9.0, "the lamp on the left wall"),
    (9.1, 11.0, "is red and it lights when"), (11.1, 13.0, "the pressure falls below two pounds"),
    (13.1, 15.0, "then the pilot pumps by hand"), (15.1, 17.0, "until it goes out and looks"),
    (17.1, 19.0, "for a field to land in"),
]  # fmt: skip


def as_srt(cues) -> str:
    def stamp(seconds: float) -> str:
        return f"00:00:{int(seconds):02},{round(seconds % 1 * 1000):03}"

    return "\n".join(f"{n}\n{stamp(a)} --> {stamp(b)}\n{words}\n" for n, (a, b, words) in enumerate(cues, 1))


def test_captions_without_full_stops_become_sentences_at_pauses_and_that_is_told(sample) -> None:
    assert [text for _, text in taken(sample, "bare.srt", as_srt(BARE))] == [
        "she has two tanks one in each wing and both of them are made of tinned steel.",
        "The lamp on the left wall is red and it lights when the pressure falls below two pounds.",
        "Then the pilot pumps by hand until it goes out and looks for a field to land in",
    ]


def test_what_was_guessed_is_told_and_what_has_full_stops_is_left_alone(sample) -> None:
    assert [line[:4] for line in told(sample, "bare.srt", as_srt(BARE))] == ["N609"]
    stopped = as_srt([(a, b, words + ("." if at % 3 == 2 else "")) for at, (a, b, words) in enumerate(BARE)])
    assert told(sample, "stopped.srt", stopped) == []


# --- a manuscript of our own comes back as the script that it was made of -----------------------------------------

WHINCHAT = Path(__file__).parents[2] / "demo" / "whinchat"


@pytest.mark.parametrize("name", ["01-fuel", "02-current-and-air"])
def test_a_manuscript_gives_back_the_sentences_of_its_script_and_nothing_else(name, tmp_path) -> None:
    pytest.importorskip("docx")
    from cutaway.api.manuscript import manuscript

    folder = tmp_path / "whinchat"
    shutil.copytree(WHINCHAT, folder, ignore=shutil.ignore_patterns("pack"))
    book, _ = manuscript((folder / "scripts" / f"{name}.md",), tmp_path / "book.docx", rests=False)
    assert book is not None and book.footnotes > 5 and book.figures > 1
    done, _ = import_words(folder, tmp_path / "book.docx", "back")
    assert done is not None
    loaded, _ = load(folder)
    scripts = {script.name: script for script in loaded.folder.scripts}
    assert scripts["back"].title == scripts[name].title
    assert [(s.chapter, s.text) for s in scripts["back"].sentences] == [
        (s.chapter, s.text) for s in scripts[name].sentences
    ]


def test_a_caption_a_list_of_figures_and_a_table_of_contents_of_anybody_are_not_spoken(sample) -> None:
    docx = pytest.importorskip("docx")
    from docx.enum.style import WD_STYLE_TYPE

    made = docx.Document()
    for style in ("toc 1", "table of figures"):
        made.styles.add_style(style, WD_STYLE_TYPE.PARAGRAPH)
    made.add_paragraph("Tanks 3", style="toc 1")
    made.add_paragraph("Figure 1. The tank 4", style="table of figures")
    made.add_paragraph("She has two tanks.")
    made.add_paragraph("Figure 1. The tank", style="Caption")
    file = sample.parent / "theirs.docx"
    made.save(str(file))
    assert taken(sample, "theirs.docx", file.read_bytes()) == (("", "She has two tanks."),)


def test_captions_whose_times_run_backwards_are_told_and_lose_no_word(sample) -> None:
    text = (
        "1\n00:00:05,000 --> 00:00:03,000\nShe has two tanks.\n\n"
        "2\n00:00:01,000 --> 00:00:02,000\nThe lamp is red.\n\n"
        "3\n00:00:0x,000 --> 00:00:09,000\nThis cannot be placed.\n"
    )
    file = sample.parent / "odd.srt"
    file.write_text(text, encoding="utf-8")
    done, problems = import_words(sample, file)
    assert done is not None and sorted(codes(problems)) == ["N402", "N403", "N404"]
    assert all(one.message.endswith(".") and one.hint for one in problems)
    script = done.file.read_text(encoding="utf-8")
    assert "She has two tanks." in script and "The lamp is red." in script
