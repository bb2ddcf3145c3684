"""Marking a pack as published: what is refused, what is kept, in which order."""

import json
from datetime import date
from pathlib import Path

import pytest
from typer.testing import CliRunner

from cutaway.api.corrections import publish
from cutaway.api.telling import made_text
from cutaway.cli.main import app
from cutaway.publish.published import publications


def codes(problems) -> list[str]:
    return [problem.code for problem in problems]


def test_a_publication_says_what_the_pack_says(out: Path) -> None:
    (one,), problems = publications(out)
    assert problems == () and one.date == date(2026, 3, 1) and len(one.digest) == 64
    (script,) = one.says.scripts
    assert [s.text for s in script.sentences][1] == "The cock is fitted on every mark that was ever built."
    assert dict(script.sentences[1].claims[0].verdicts)["Mk 1"] == "stated"
    assert script.sentences[1].claims[0].parts == ("fuel cock",)
    captions = (out / "pack" / "captions" / "01-fuel.vtt").read_text(encoding="utf-8")
    assert all("\n".join(cue.lines) in captions for cue in script.cues)
    assert [f.text for f in one.says.figures if (f.part, f.value) == ("fuel tank", "capacity")] == ["20 gal"]
    pack = out / "pack"
    drawn = {path.relative_to(pack).as_posix() for kind in ("sheets", "panels") for path in (pack / kind).iterdir()}
    assert {drawing.path for drawing in one.says.drawings} == drawn != set()


def test_k301_no_pack(home: Path) -> None:
    marked, problems = publish(home, date(2026, 3, 1))
    assert marked is None and codes(problems) == ["K301"]
    (home / "pack").mkdir()
    (home / "pack" / "pack.json").write_text('{"files": []}')
    assert codes(publish(home, date(2026, 3, 1))[1]) == ["K301"]


@pytest.mark.parametrize("how", ["changed", "added", "removed"])
def test_k302_changed_by_hand(home: Path, made, how: str) -> None:
    made()
    page = home / "pack" / "index.html"
    match how:
        case "changed":
            page.write_text(page.read_text(encoding="utf-8") + " ", encoding="utf-8")
        case "added":
            (home / "pack" / "mine.txt").write_text("mine")
        case "removed":
            page.unlink()
    marked, problems = publish(home, date(2026, 3, 1))
    assert marked is None and codes(problems) == ["K302"]
    assert not (home / "published").exists()


def test_k303_the_same_pack_again_even_when_made_again(out: Path, made) -> None:
    made()
    marked, problems = publish(out, date(2026, 3, 5))
    assert codes(problems) == ["K303"] and marked is not None and marked.date == date(2026, 3, 1)
    assert len(list((out / "published").iterdir())) == 1


def test_k304_an_earlier_date(out: Path, made, edit) -> None:
    edit("scripts/01-fuel.md", "today", "now")
    made()
    marked, problems = publish(out, date(2026, 2, 28))
    assert marked is None and codes(problems) == ["K304"]


def test_two_on_one_day_keep_their_order(out: Path, made, edit) -> None:
    edit("scripts/01-fuel.md", "today", "now")
    made()
    marked, problems = publish(out, date(2026, 3, 1), note="with the panel")
    assert codes(problems) == ["K307"] and marked is not None and marked.number == 2
    assert sorted(path.name for path in (out / "published").iterdir()) == ["2026-03-01-2.json", "2026-03-01.json"]
    assert [one.note for one in publications(out)[0]] == ["", "with the panel"]


@pytest.mark.parametrize("content", ["", "{", "{}", '{"date": "2026-03-01"}', "[" * 5000, "\x00", '{"date": 7}'])
def test_k305_a_record_that_cannot_be_read(out: Path, made, content: str) -> None:
    (out / "published" / "2026-02-01.json").write_text(content)
    (out / "published" / "notes.json").write_text("not ours")
    found, problems = publications(out)
    assert len(found) == 1 and codes(problems) == ["K305"] and "2026-02-01.json" in problems[0].message
    assert publish(out, date(2026, 3, 5))[0] is None, "what was out before is not known, so nothing is marked"
    _, problems = made()
    assert "K305" in codes(problems)


def test_k306_nowhere_to_write(home: Path, made) -> None:
    made()
    (home / "published").write_text("a file")
    marked, problems = publish(home, date(2026, 3, 1))
    assert marked is None and codes(problems) == ["K306"]


def test_the_verb(home: Path, made) -> None:
    made()
    result = CliRunner().invoke(app, ["publish", str(home), "--on", "2026-03-01", "--json"])
    assert result.exit_code == 0 and json.loads(result.stdout)["date"] == "2026-03-01"
    assert CliRunner().invoke(app, ["publish", str(home), "--on", "1 March"]).exit_code == 2


@pytest.mark.parametrize("words", ["yesterday", "2026-02-31", "March 2026", "2026", "1.3.26"])
def test_what_is_no_day_is_said_with_one_to_write(home: Path, made, words: str) -> None:
    made()
    result = CliRunner().invoke(app, ["publish", str(home), "--on", words])
    assert result.exit_code == 2 and not (home / "published").exists()
    told = " ".join(result.stderr.replace("│", " ").split())
    assert f"'{words}' is no day; write --on 2" in told and "format" not in told


@pytest.mark.parametrize("words", ["1 March 2026", "2026-03-01"])
def test_a_day_in_words_or_figures(home: Path, made, words: str) -> None:
    made()
    result = CliRunner().invoke(app, ["publish", str(home), "--on", words])
    assert result.exit_code == 0 and "published on 2026-03-01" in result.stdout


def test_no_such_folder_and_a_folder_without_a_pack(home: Path) -> None:
    result = CliRunner().invoke(app, ["publish", str(home / "nosuch")])
    assert result.exit_code == 2 and "There is no folder" in result.stderr and "H001" in result.stderr
    assert codes(publish(home / "scripts" / "01-fuel.md", date(2026, 3, 1))[1]) == ["H001"]
    (problem,) = publish(home, date(2026, 3, 1), home / "show")[1]
    assert problem.code == "K301" and problem.hint == f"Say `cutaway make {home} --out {home / 'show'}` first."


def test_k313_what_is_wrong_is_published_only_as_it_is(home: Path, made, edit) -> None:
    edit("scripts/01-fuel.md", "fuel cock is fitted", "fuel tank has capacity of 19 gal")
    done, _ = made()
    assert done.wrong and "left out of the model" not in made_text(done), "all of the folder is in the model"
    (home / "photographs.yaml").write_text("photographs: {the cock: {file: cock.jpg, rights: Own picture.}}\n")
    made()
    result = CliRunner().invoke(app, ["publish", str(home), "--on", "2026-03-01"])
    told = " ".join(result.stderr.split())
    assert result.exit_code == 1 and "K313" in told and not (home / "published").exists()
    assert (
        "(H901)" in told and "'The cock is fitted on every mark that was ever built.' (01-fuel) does not hold" in told
    )
    marked, problems = publish(home, date(2026, 3, 1), as_it_is=True)
    assert marked is not None and problems == () and len(marked.faults) == 2
    ((recorded,), _) = publications(home)
    assert recorded.faults == marked.faults and "H901" in recorded.faults[0]
