"""The small demo type: it loads without a word, every sentence holds, and sentences made wrong are found out."""

import shutil
from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML

from cutaway.api.checking import check
from cutaway.handbook.load import load_folder
from cutaway.handbook.records import paragraph
from cutaway.inquiry.verdicts import Holds, Stated
from cutaway.narrate.checked import Checked, is_wrong
from cutaway.quantities.prose import states

HERE = Path(__file__).parent
WHINCHAT = HERE.parent / "demo" / "whinchat"
WRONG = YAML(typ="safe").load((HERE / "whinchat_wrong.yaml").read_text(encoding="utf-8"))


def failing(checked: Checked) -> list[str]:
    """The sentences with a claim that fails on any standard."""
    return [
        one.sentence.text
        for one in checked.sentences
        if any(is_wrong(judged.verdict) for claim in one.claims for judged in claim.judged)
    ]


def made_wrong(folder: Path, edits: list[dict[str, str]], file: str) -> None:
    """Put the edits of one entry into a copy of the type folder."""
    script = folder / file
    text = script.read_text(encoding="utf-8")
    for edit in edits:
        assert text.count(edit["find"]) == 1, f"{file} has no, or more than one: {edit['find']}"
        text = text.replace(edit["find"], edit["replace with"])
    script.write_text(text, encoding="utf-8")


def test_it_loads_without_a_problem() -> None:
    _, problems = load_folder(WHINCHAT)
    assert problems == ()


def test_every_printed_figure_stands_in_a_paragraph_that_it_cites() -> None:
    folder, _ = load_folder(WHINCHAT)
    assert folder is not None
    lost = [
        f"{part.name}: {value.name} {given.quantity.text}"
        for part in folder.parts
        for value in part.values
        for given in value.givens
        if not given.assumed
        and not any(
            states(book.text, given.quantity)
            for cite in given.cites or part.cites
            if (book := paragraph(folder, cite)) is not None
        )
    ]
    assert lost == []


def test_every_sentence_and_drill_step_holds_on_every_standard_that_it_names() -> None:
    checked, problems = check(WHINCHAT, rests=False)
    assert problems == ()
    assert checked is not None
    unsettled = [
        f"{judged.subject.name}: {claim.claim.span.file.text[claim.claim.span.start : claim.claim.span.end]}"
        for claim in checked.claims()
        for judged in claim.judged
        if not isinstance(judged.verdict, (Holds, Stated))
    ]
    assert unsettled == []


@pytest.mark.parametrize("entry", WRONG, ids=lambda entry: entry["wrong"])
def test_a_sentence_made_wrong_fails_and_no_other(entry: dict[str, Any], tmp_path: Path) -> None:
    folder = tmp_path / "whinchat"
    shutil.copytree(WHINCHAT, folder)
    made_wrong(folder, entry["edits"], entry["file"])
    checked, problems = check(folder, script=Path(entry["file"]).stem, rests=False)
    assert problems == ()
    assert checked is not None
    found = failing(checked)
    assert len(found) == 1
    assert found[0].startswith(entry["sentence"])
