"""`check` of a folder with books and no model."""

import json

from typer.testing import CliRunner

from cutaway.api.checking import check, found_wrong
from cutaway.cli.main import app
from tests.narrate.sentence_first.folders import bare_whinchat

SCRIPT = """# Petrol

Good morning. `aside`

## Tanks

Each tank holds 12 gallons.

## Lamp

On Mk 2 the switch of the fuel lamp is set so that the lamp lights below 3 lb./sq. in. `cite: hb §25a`

## Filter

The filter is washed out every thirty hours.
"""


def test_every_sentence_but_an_aside_is_held_against_the_books(tmp_path) -> None:
    checked, problems = check(bare_whinchat(tmp_path, SCRIPT))
    assert checked is not None
    verdicts = [one.compared.verdict if one.compared else None for one in checked.sentences]
    assert verdicts == [None, "differs", "stated", "stated"]
    assert [problem.code for problem in problems] == ["N801"]


def test_a_difference_is_a_doubt_unless_one_is_strict(tmp_path) -> None:
    checked, problems = check(bare_whinchat(tmp_path, SCRIPT))
    assert not found_wrong(checked, problems)
    assert found_wrong(checked, problems, strict=True)


def test_a_cited_figure_that_differs_is_told_once_and_as_an_error(tmp_path) -> None:
    wrong = SCRIPT.replace("3 lb./sq. in.", "4 lb./sq. in.").replace("12 gallons", "11 gallons")
    checked, problems = check(bare_whinchat(tmp_path, wrong))
    assert [problem.code for problem in problems] == ["N201"]
    assert found_wrong(checked, problems)


def test_the_command_says_what_each_sentence_rests_on(tmp_path) -> None:
    folder = str(bare_whinchat(tmp_path, SCRIPT))
    told = CliRunner().invoke(app, ["check", folder, "--all"])
    assert told.exit_code == 0
    assert "Stated: hb §23 Filter says 'The filter is to be washed out every thirty hours.'" in told.output
    assert "2 sentences held against the books alone: 1 stated, 1 differs." in told.output
    assert "1 sentence held against what it cites: 1 stated." in told.output
    record = json.loads(CliRunner().invoke(app, ["check", folder, "--json"]).stdout)
    assert [one["against"] for one in record["compared"]] == ["hb §21", "hb §25a", "hb §23"]
    assert record["compared"][0]["differences"][0]["printed"] == "11 gallons"


def test_the_list_of_all_is_the_one_that_the_count_speaks_of(tmp_path) -> None:
    folder = str(bare_whinchat(tmp_path, SCRIPT))
    short = CliRunner().invoke(app, ["check", folder]).output
    assert "2 that nothing checks (see them with --all)." in short
    told = CliRunner().invoke(app, ["check", folder, "--all"]).output
    assert "2 that nothing checks." in told
    nothing, cites = told.split("Sentences that cite a paragraph, held against it:")
    bare = nothing.split("Sentences that nothing checks, held against the books alone:")[1]
    assert bare.count("scripts/01-all.md:") == 2 and "Each tank holds 12 gallons." in bare
    assert "On Mk 2 the switch of the fuel lamp" in cites


def test_a_cite_may_say_pounds_for_short_and_other_units_of_the_same_size(tmp_path) -> None:
    short = SCRIPT.replace("below 3 lb./sq. in.", "below three pounds").replace(
        "12 gallons.", "88 pints. `cite: hb §21`"
    )
    checked, problems = check(bare_whinchat(tmp_path, short))
    assert checked is not None and problems == ()
    assert all(one.stated for one in checked.sentences if one.sentence.cites)


def test_a_cite_of_what_was_altered_for_the_mark_states_nothing(tmp_path) -> None:
    old = "# A\n\nOn the Mk 2 the lamp lights below 2 lb./sq. in. `cite: hb §25`\n"
    checked, problems = check(bare_whinchat(tmp_path, old))
    assert checked is not None and [problem.code for problem in problems] == ["N806"]
    assert not checked.sentences[0].stated and checked.sentences[0].at_odds
    assert "§25 was altered by §25a, A.L. 1" in problems[0].message


def test_a_unit_that_ends_in_a_stop_has_no_second_one(tmp_path) -> None:
    for wrong in ("Each tank holds 12 gal.", "The flap relief valve at the pump is set at 200 p.s.i."):
        for cite in ("", " `cite: hb §38a`"):
            _, problems = check(bare_whinchat(tmp_path, f"# A\n\n{wrong}{cite}\n"))
            assert problems and not any(".." in one.message + one.hint for one in problems)


def test_books_and_no_script_and_scripts_and_no_book(tmp_path) -> None:
    folder = bare_whinchat(tmp_path, SCRIPT.replace(" `cite: hb §25a`", ""))
    (folder / "sources/hb.md").unlink()
    checked, _ = check(folder)
    assert checked is not None
    assert {one.compared.verdict for one in checked.sentences if one.compared} == {"open"}
    (folder / "scripts/01-all.md").unlink()
    checked, _ = check(folder)
    assert checked is not None and checked.sentences == ()
