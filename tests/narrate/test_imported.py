"""Words taken in as a script: every sort of file, and nothing written over."""

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
    assert codes(import_words(sample, file, "../../elsewhere")[1]) == ["N602"]


@pytest.mark.parametrize(
    "name, content",
    [
        ("talk.odt", b"x"),
        ("none.txt", None),
        ("broken.docx", b"PK\x03\x04 no"),
        ("empty.txt", b" \n\n"),
        ("empty.md", b"\n"),
    ],
)
def test_what_cannot_be_taken_in(name, content, sample) -> None:
    file = sample.parent / name
    if content is not None:
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
    done, problems = make_captions(sample, "talk")
    assert done is None and codes(problems) == ["N604"]
    assert codes(make_captions(sample, "tallk")[1]) == ["C102"]
