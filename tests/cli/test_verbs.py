"""Every verb as it is used: what it prints for a person and for a program, and how it ends."""

import csv
import json
import webbrowser
from pathlib import Path

import pytest
import typer

from cutaway.cli import exits
from cutaway.cli.main import app
from tests.cli.running import cutaway
from tests.whinchat import WHINCHAT

VERBS = sorted(typer.main.get_command(app).commands)  # type: ignore[attr-defined]


# --- help


@pytest.mark.parametrize("verb", VERBS)
def test_help_has_an_example_that_can_be_pasted(verb: str) -> None:
    result = cutaway(verb, "--help")
    assert result.exit_code == exits.FINE
    assert "Example" in result.stdout
    assert f"cutaway {verb} " in " ".join(result.stdout.split("Example")[1].split())


def test_help_lists_every_verb_and_the_exit_codes() -> None:
    result = cutaway("--help")
    commands = result.stdout.split("Commands:")[1]
    assert set(VERBS) <= {line.split()[0] for line in commands.splitlines() if line.startswith("  ")}
    assert "..." not in commands, "a sentence that is cut off says nothing"
    words = " ".join(result.stdout.split())
    assert "0 fine, 1 something found, 2 wrong use, 3 a fault of Cutaway's, 130 stopped" in words


def test_alone_it_shows_its_help() -> None:
    assert "Commands:" in cutaway().output


# --- new, check, make


def test_a_new_folder_passes_its_check_and_makes_its_pack(tmp_path: Path) -> None:
    folder = tmp_path / "sparrow"
    told = cutaway("new", folder)
    assert told.exit_code == exits.FINE
    for line in told.stdout.splitlines()[1:]:
        verb = line.split()[1]
        assert line.strip() == f"cutaway {verb} {folder}"
        done = cutaway(verb, folder)
        assert done.exit_code == exits.FINE, done.output
        assert all(said.endswith(" …") for said in done.stderr.splitlines()), "no more than what is done next"
    assert (folder / "pack" / "index.html").is_file()
    page = (folder / "pack" / "index.html").read_text(encoding="utf-8")
    assert "Sparrow" in page or "sparrow" in page


def test_check_as_json(sparrow: Path) -> None:
    result = cutaway("check", sparrow, "--json")
    assert result.exit_code == exits.FINE
    record = json.loads(result.stdout)
    assert record.keys() == {
        "wrong",
        "runs",
        "not yet",
        "alone",
        "problems",
        "claims",
        "unjudged",
        "unchecked",
        "compared",
        "overtaken",
    }
    assert record["wrong"] is False and record["problems"] == [] and record["claims"]
    for claim in record["claims"]:
        assert claim.keys() == {"in", "place", "sentence", "claim", "verdicts", "corrections"}
        assert [verdict["standard"] for verdict in claim["verdicts"]] == ["Mk 1", "Mk 2"]
        for verdict in claim["verdicts"]:
            assert verdict.keys() == {"standard", "verdict", "wrong", "sentence"}
            assert verdict["verdict"] in ("holds", "stated") and verdict["wrong"] is False


def test_check_as_json_of_what_is_wrong(sparrow: Path, tmp_path: Path) -> None:
    script = sparrow / "scripts" / "01-first.md"
    script.write_text("# Petrol\n\nShe is fed.\n\n```claim\nin parked: carburettor is fedd\n```\n", encoding="utf-8")
    result = cutaway("check", sparrow, "--json")
    assert result.exit_code == exits.FOUND
    record = json.loads(result.stdout)
    (problem,) = record["problems"]
    assert problem.keys() == {"code", "severity", "message", "hint", "place", "related"}
    assert problem["code"] == "L213" and problem["severity"] == "error"
    assert problem["place"].keys() == {"file", "start", "end", "line", "column"}
    assert problem["place"]["file"] == "scripts/01-first.md" and problem["place"]["line"] == 6
    assert record["wrong"] is True and {claim["in"] for claim in record["claims"]} == {"starting"}
    nothing = json.loads(cutaway("check", tmp_path / "nowhere", "--json").stdout)
    assert nothing.keys() == record.keys(), "a program finds the same keys whatever is wrong"


def test_a_claim_that_fails_is_told_with_its_place_and_ends_with_1(sparrow: Path) -> None:
    script = sparrow / "scripts" / "01-first.md"
    text = script.read_text(encoding="utf-8")
    script.write_text(text + "\nShe carries thirty gallons.\n\n```claim\nfuel tank is set at 30 gal\n```\n")
    line = len(text.splitlines()) + 2
    result = cutaway("check", sparrow)
    assert result.exit_code == exits.FOUND
    assert f"scripts/01-first.md:{line}  She carries thirty gallons." in result.stdout
    assert "1 fails" in result.stdout or "2 fails" in result.stdout


def test_strict_counts_what_is_not_settled(sparrow: Path) -> None:
    """Within its range the head of the tank decides whether a carburettor that asks for so much is fed."""
    system = sparrow / "systems" / "fuel.yaml"
    text = system.read_text(encoding="utf-8")
    wanted = "assume: 0.25 lb/sq in\n      between: 0.1 to 0.4 lb/sq in"
    assert wanted in text
    system.write_text(text.replace(wanted, "assume: 0.4 lb/sq in\n      between: 0.1 to 1.5 lb/sq in"))
    script = sparrow / "scripts" / "01-first.md"
    script.write_text("# Petrol\n\nShe is fed.\n\n```claim\nin ready: carburettor is fed\n```\n", encoding="utf-8")
    easy = cutaway("check", sparrow)
    assert "rests on the value 'lowest pressure' of the carburettor" in easy.stdout, easy.output
    assert easy.exit_code == exits.FINE
    assert cutaway("check", sparrow, "--strict").exit_code == exits.FOUND
    unasked = cutaway("check", sparrow, "--strict", "--no-rests")
    assert unasked.exit_code == exits.FINE and "rests on" not in unasked.stdout


def test_only_the_standards_that_are_asked_for(sparrow: Path) -> None:
    record = json.loads(cutaway("check", sparrow, "--on", "Mk 2", "--json").stdout)
    assert {v["standard"] for claim in record["claims"] for v in claim["verdicts"]} == {"Mk 2"}


@pytest.mark.parametrize(
    "words, hint", [("Mk 3", "There is Mk 1 and Mk 2."), ("the big one", "Known here: Mk 1, Mk 2.")]
)
def test_a_standard_that_there_is_not(sparrow: Path, words: str, hint: str) -> None:
    for verb in (("check", sparrow), ("run", "parked", "-C", sparrow)):
        result = cutaway(*verb, "--on", words)
        assert result.exit_code == exits.WRONG_USE
        assert words in result.stderr and hint in result.stderr and "--on, line 1" in result.stderr


def test_only_the_script_that_is_asked_for(sparrow: Path) -> None:
    (sparrow / "scripts" / "02-more.md").write_text("# More\n\nShe has a cock.\n\n```claim\nfuel cock is fitted\n```\n")
    one = json.loads(cutaway("check", sparrow, "--script", "02-more", "--json").stdout)
    assert {claim["in"] for claim in one["claims"]} == {"02-more"}
    both = json.loads(cutaway("check", sparrow, "--json").stdout)
    assert {"01-first", "02-more"} <= {claim["in"] for claim in both["claims"]}


def test_all_tells_what_holds_as_well(sparrow: Path) -> None:
    short, full = cutaway("check", sparrow).stdout, cutaway("check", sparrow, "--all").stdout
    assert "Holds on every standard:" not in short
    assert "Holds on every standard:" in full and "Stated on every standard:" in full


def test_a_folder_without_claims_says_so(sparrow: Path) -> None:
    for path in [*(sparrow / "scripts").iterdir(), *(sparrow / "drills").iterdir(), sparrow / "glossary.yaml"]:
        path.unlink()
    result = cutaway("check", sparrow)
    assert result.exit_code == exits.FINE
    assert result.stdout.startswith("There are no claims here yet.")
    assert "remembered" not in result.stdout


def test_one_thing_is_not_told_in_the_plural(sparrow: Path) -> None:
    (sparrow / "drills" / "starting.md").unlink()
    script = sparrow / "scripts" / "01-first.md"
    script.write_text("# Petrol\n\nShe has a cock.\n\n```claim\non Mk 1: fuel cock is fitted\n```\n")
    said = cutaway("check", sparrow).stdout
    assert "1 claim, 1 verdict: 1 stated." in said and "1 sentence: 1 checked" in said
    assert "Nothing had to be run: the records say it." in said


def test_make_as_json_and_where_it_is_told(sparrow: Path, tmp_path: Path) -> None:
    result = cutaway("make", sparrow, "--out", tmp_path / "to print", "--json")
    assert result.exit_code == exits.FINE
    record = json.loads(result.stdout)
    assert record.keys() == {"folder", "files", "wrong", "problems", "touched", "again", "as before"}
    assert record["folder"] == str(tmp_path / "to print") and record["wrong"] is False
    for name in record["files"]:
        assert (tmp_path / "to print" / name).is_file(), name
    assert not (sparrow / "pack").exists()


def test_make_does_not_replace_what_is_not_a_pack(sparrow: Path, tmp_path: Path) -> None:
    (tmp_path / "notes.txt").write_text("mine")
    result = cutaway("make", sparrow, "--out", tmp_path / "notes.txt")
    assert result.exit_code == exits.WRONG_USE
    assert "[K101]" in result.stderr
    assert (tmp_path / "notes.txt").read_text() == "mine"


# --- find


def test_find(sparrow: Path) -> None:
    result = cutaway("find", "carburettor", "-C", sparrow)
    assert result.exit_code == exits.FINE
    known, *paragraphs = result.stdout.splitlines()
    assert known.startswith("'carburettor' is a part") and any(line.startswith("hb §") for line in paragraphs)
    found = json.loads(cutaway("find", "carburettor", "-C", sparrow, "--json").stdout)
    assert found.keys() == {"known", "hits"} and found["known"]
    assert found["hits"][0].keys() == {"source", "number", "title", "on", "text", "score", "instead"}
    one = json.loads(cutaway("find", "the", "petrol", "--limit", "1", "-C", sparrow, "--json").stdout)
    assert len(one["hits"]) == 1


def test_find_takes_a_word_that_is_spelled_otherwise(sparrow: Path) -> None:
    assert "'carburetor' is not in the books; 'carburettor' is" in cutaway("find", "carburetor", "-C", sparrow).stdout


@pytest.mark.parametrize(
    "words",
    ["", " ", "§", "§2", "?!", '"', "(((", "*", "\\", "%s", "é", "油", "a" * 5000, "--", "\u202e", "2 lb/sq in"],
)
def test_find_with_odd_words(sparrow: Path, words: str) -> None:
    result = cutaway("find", "-C", sparrow, "--", words)
    assert result.exit_code in (exits.FINE, exits.FOUND)
    assert result.stdout.strip()
    assert (result.exit_code == exits.FOUND) == (result.stdout == "Nothing in the books speaks of that.\n")


# --- run


def test_run_tells_what_happens(sparrow: Path) -> None:
    said = ("run", "ready", "-C", sparrow, "--do", "fuel cock to off", "--for", "10 s")
    result = cutaway(*said)
    assert result.exit_code == exits.FINE
    assert result.stdout.startswith("Mk 1, in ready, after fuel cock to off: 10 s")
    shown = cutaway(*said, "--show", "fuel tank", "--on", "Mk 2")
    assert shown.stdout.startswith("Mk 2, in ready")
    assert "fuel tank" in shown.stdout and "20 gal" in shown.stdout and "fuel cock  " not in shown.stdout
    assert "\n  0 s: fuel cock to off\n" in shown.stdout


def test_run_tells_events_in_the_words_of_states(sparrow: Path) -> None:
    """No listener knows what it means that a mode begins."""
    at_once = ("run", "ready", "-C", sparrow, "--do", "fuel cock to off", "--for", "10 s")
    whinchat = ("run", "cruising", "-C", WHINCHAT, "--do", "tank selector to off", "--for", "10 s")
    assert " begins" not in cutaway(*at_once).stdout
    told = cutaway(*whinchat).stdout
    assert all(words in told for words in ("s: carburettor: starved\n", "s: fuel lamp: lit\n", "s: engine: stopped\n"))
    assert " begins" not in told and " ends" not in told


def test_run_tells_doubts_about_books_in_a_line(sparrow: Path) -> None:
    system = sparrow / "systems" / "fuel.yaml"
    system.write_text(system.read_text().replace("capacity: 20 gal", "capacity: 21 gal"))
    result = cutaway("run", "ready", "-C", sparrow, "--for", "1 s")
    assert "H209" not in result.stderr
    assert "Note: 1 doubt about what books say; 'cutaway check' tells it." in result.stderr
    assert "H209" in cutaway("check", sparrow, "--no-rests").stderr


def test_run_where_nothing_moves_says_so(sparrow: Path) -> None:
    result = cutaway("run", "parked", "-C", sparrow, "--for", "5 s")
    assert result.exit_code == exits.FINE
    assert "Nothing changes." in result.stdout and "--show" in result.stdout


def test_run_as_json_and_as_csv_are_the_same_figures(sparrow: Path) -> None:
    said = ("run", "ready", "-C", sparrow, "--for", "10 s")
    record = json.loads(cutaway(*said, "--json").stdout)
    assert record.keys() == {"subject", "situation", "clock", "times", "signals", "events", "outcome", "certificate"}
    assert record["certificate"].keys() == {"residual", "conservation", "steps", "cuts", "rest", "kernel"}
    assert record["subject"] == "Mk 1" and record["outcome"]["kind"] == "done"
    assert record["times"][0] == 0.0 and record["times"][-1] == pytest.approx(record["clock"] + 10.0)
    head, *rows = csv.reader(cutaway(*said, "--csv").stdout.splitlines())
    assert head == ["time, s", *record["signals"]]
    assert len(rows) == len(record["times"])
    for column, name in enumerate(head[1:], 1):
        assert [float(row[column]) for row in rows] == pytest.approx(record["signals"][name], rel=1e-6, abs=1e-9)


@pytest.mark.parametrize(
    "said, told",
    [
        (("nowhere",), "There is no situation called 'nowhere'."),
        (("parked", "--for", "10"), "'10' has no unit"),
        (("parked", "--for", "10 gal"), "'10 gal' is a volume; a time is wanted."),
        (("parked", "--for", ""), "A figure is missing here."),
        (("parked", "--do", "nonsense"), "'nonsense'"),
        (("parked", "--do", "fuel cock to open"), "fuel cock cannot be put to 'open'."),
        (("parked", "--with", "fuel cock melted"), "melted"),
    ],
)
def test_run_with_what_is_not_there(sparrow: Path, said: tuple[str, ...], told: str) -> None:
    result = cutaway("run", "-C", sparrow, *said)
    assert result.exit_code == exits.WRONG_USE
    assert told in result.stderr
    assert result.stdout == ""


# --- open


def test_open_without_a_pack_says_how_to_make_one(sparrow: Path) -> None:
    result = cutaway("open", sparrow)
    assert result.exit_code == exits.WRONG_USE
    assert f"cutaway make {sparrow}" in result.stderr


@pytest.mark.parametrize("there_is_one", [True, False])
def test_open(sparrow: Path, monkeypatch: pytest.MonkeyPatch, there_is_one: bool) -> None:
    opened: list[str] = []
    monkeypatch.setattr(webbrowser, "open", lambda url: opened.append(url) or there_is_one)
    page = sparrow / "pack" / "index.html"
    page.parent.mkdir()
    page.write_text("<p>")
    result = cutaway("open", sparrow)
    assert result.exit_code == exits.FINE
    assert opened == [page.resolve().as_uri()]
    assert str(page) in result.stdout
    assert ("No browser" in result.stderr) is not there_is_one


# --- explain and schema


def test_explain(sparrow: Path) -> None:
    result = cutaway("explain", "q104")
    assert result.exit_code == exits.FINE
    assert result.stdout.startswith("Q104  unknown unit")
    everything = cutaway("explain").stdout.splitlines()
    assert len(everything) > 80 and any(line.startswith("Q104") for line in everything)


@pytest.mark.parametrize(
    "code, hint", [("Q1O4", "Did you mean Q104?"), ("nonsense", "`cutaway explain` by itself lists them all.")]
)
def test_explain_a_code_that_there_is_not(code: str, hint: str) -> None:
    result = cutaway("explain", code)
    assert result.exit_code == exits.WRONG_USE
    assert result.stderr == f"There is no code '{code}'. {hint}\n"


def test_schema(tmp_path: Path) -> None:
    assert json.loads(cutaway("schema").stdout)["properties"].keys() >= {"system", "parts", "lines"}
    assert json.loads(cutaway("schema", "type.yaml").stdout)["properties"].keys() >= {"name", "marks"}
    assert cutaway("schema", "systems/fuel.yaml").stdout == cutaway("schema").stdout
    result = cutaway("schema", "--out", tmp_path / "schemas")
    assert result.exit_code == exits.FINE
    written = [Path(line) for line in result.stdout.splitlines()]
    assert tmp_path / "schemas" / "systems.schema.json" in written
    assert all(json.loads(path.read_text(encoding="utf-8"))["$schema"] for path in written)
    wrong = cutaway("schema", "sources/hb.md")
    assert wrong.exit_code == exits.WRONG_USE
    assert "There is no schema for 'sources/hb.md'" in wrong.stderr and "type.yaml" in wrong.stderr
