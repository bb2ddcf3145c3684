"""The desk as a whole: timing by what is spoken, chapters, coverage, the verb and its files."""

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from cutaway.cli.main import app
from cutaway.narrate.covered import _short_names

WHINCHAT = Path(__file__).parents[3] / "demo" / "whinchat"


def test_a_pronunciation_changes_what_is_spoken_and_how_long_it_takes(series) -> None:
    text = "Squadron Leader Cholmondeley signed it."
    plain, _ = series(text)
    said, problems = series(text, "", "terms: {}\npronounced: {Cholmondeley: chum-lee}\n")
    assert [p.code for p in problems] == []
    assert said.scripts[0].lines[0].spoken == "Squadron Leader chum-lee signed it."
    assert said.scripts[0].lines[0].text == text
    assert said.scripts[0].length < plain.scripts[0].length


def test_a_term_of_the_glossary_goes_before_a_pronunciation(series) -> None:
    glossary = (
        "terms:\n  NRV: {means: A valve., said as: non-return valve, introduced: 01-fuel}\npronounced: {nrv: nerve}\n"
    )
    looked, _ = series("The NRV.", "", glossary)
    assert looked.scripts[0].lines[0].spoken == "The non-return valve."


@pytest.mark.parametrize("wrong", ["pronounced: [Tamar]", "pronounced: {Tamar: [TAY, mar]}", "pronounced: words"])
def test_pronunciations_of_the_wrong_form_are_told_once(series, wrong) -> None:
    looked, problems = series("The Tamar.", "", f"terms: {{}}\n{wrong}\n")
    assert [p.code for p in problems] == ["H108"]
    assert looked.scripts[0].lines[0].spoken == "The Tamar."


def test_chapters_lie_end_to_end(series) -> None:
    looked, _ = series("One.\n\n## Two\n\nTwo and two.\n\n## Three\n\nThree. Four.")
    script = looked.scripts[0]
    assert [c.title for c in script.chapters] == ["", "Two", "Three"]
    for before, after in zip(script.chapters, script.chapters[1:], strict=False):
        assert before.start + before.length == pytest.approx(after.start)
    last = script.chapters[-1]
    assert last.start + last.length == pytest.approx(script.length)


def test_what_is_covered(series) -> None:
    looked, _ = series("Says the book. `cite: hb §1` The cock is there.\n\n```claim\nfuel cock is fitted\n```\n")
    (fuel,) = looked.covered.systems
    assert "fuel cock" in fuel.spoken_of and "fuel cock" not in fuel.left_out
    assert fuel.left_out and not set(fuel.spoken_of) & set(fuel.left_out)
    assert looked.covered.cited == ("hb §1",)
    everything = looked.covered.cited + looked.covered.behind + looked.covered.silent
    assert len(everything) == len(set(everything))
    cock = next(one for one in looked.covered.controls if one.control == "fuel cock")
    assert cock.spoken_of
    bare, _ = series("Nothing at all.", "", "", "01-fuel")
    assert bare.covered.systems[0].spoken_of == () and bare.covered.cited == ()
    assert not any(one.positions for one in bare.covered.controls)


def test_the_desk_of_the_demo_is_clean_and_its_promise_settled() -> None:
    result = CliRunner().invoke(app, ["desk", str(WHINCHAT), "--json"])
    record = json.loads(result.stdout)
    assert result.exit_code == 0 and record["problems"] == []
    assert [one["settled"]["script"] for one in record["promises"]] == ["02-current-and-air"]
    assert all(one["introduced"] for one in record["terms"] if one["uses"])
    assert {s["script"] for s in record["scripts"]} == {"01-fuel", "02-current-and-air"}
    pictures = [s["picture"] for script in record["scripts"] for s in script["sentences"]]
    assert "the Whinchat in the hangar, doors open" in pictures


def test_the_files_of_one_script(tmp_path: Path) -> None:
    script = str(WHINCHAT / "scripts" / "01-fuel.md")
    files = [tmp_path / "new" / name for name in ("p.html", "s.csv")]
    arguments = ["desk", script, "--prompter", str(files[0]), "--shots", str(files[1])]
    result = CliRunner().invoke(app, arguments)
    assert result.exit_code == 0 and all(file.stat().st_size > 2000 for file in files)
    assert "02-current-and-air  " not in result.stdout
    before = files[1].read_bytes()
    files[0].write_text("mine")
    assert CliRunner().invoke(app, arguments).exit_code == 1
    assert files[0].read_text() == "mine"
    assert CliRunner().invoke(app, [*arguments, "--replace"]).exit_code == 0
    assert files[1].read_bytes() == before and files[0].read_text() != "mine"


def test_c201_a_file_of_one_script_with_several(tmp_path: Path) -> None:
    result = CliRunner().invoke(app, ["desk", str(WHINCHAT), "--shots", str(tmp_path / "s.csv"), "--json"])
    assert result.exit_code == 1
    assert [p["code"] for p in json.loads(result.stdout)["problems"]] == ["C201"]
    assert not (tmp_path / "s.csv").exists()


def test_a_script_that_there_is_not() -> None:
    result = CliRunner().invoke(app, ["desk", str(WHINCHAT / "scripts" / "09-nothing.md"), "--json"])
    assert result.exit_code == 2
    assert [p["code"] for p in json.loads(result.stdout)["problems"]] == ["C102"]


@pytest.mark.parametrize(("option", "name"), [("--shots", "s.txt"), ("--shots", "s"), ("--prompter", "p.pdf")])
def test_c203_an_ending_that_says_otherwise(tmp_path: Path, option: str, name: str) -> None:
    script = str(WHINCHAT / "scripts" / "01-fuel.md")
    good = ["--shots", str(tmp_path / "s.csv")] if option == "--prompter" else []
    result = CliRunner().invoke(app, ["desk", script, option, str(tmp_path / name), *good, "--json"])
    (problem,) = [p for p in json.loads(result.stdout)["problems"] if p["code"] == "C203"]
    assert result.exit_code == 1 and problem["hint"].endswith((".csv.", ".html.")) and list(tmp_path.iterdir()) == []


def test_an_ending_in_capitals_is_followed(tmp_path: Path) -> None:
    script = str(WHINCHAT / "scripts" / "01-fuel.md")
    result = CliRunner().invoke(app, ["desk", script, "--shots", str(tmp_path / "S.HTM")])
    assert result.exit_code == 0 and (tmp_path / "S.HTM").read_text(encoding="utf-8").startswith("<!DOCTYPE html>")


def test_a_part_is_spoken_of_by_its_last_word_where_no_other_has_it() -> None:
    assert _short_names(("flap jack", "fuel cock", "oil cock", "horn")) == {"flap jack": ("jack",)}
