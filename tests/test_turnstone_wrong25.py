"""Twenty-five sentences of the Turnstone made wrong: all are found, each on its standards, and no other is."""

import shutil
from pathlib import Path

import pytest
from ruamel.yaml import YAML

from cutaway.api.checking import check, standards_named
from cutaway.narrate.checked import Checked, is_wrong

HERE = Path(__file__).parent
TURNSTONE = HERE.parent / "demo" / "turnstone"
WRONG = YAML(typ="safe").load((HERE / "turnstone_wrong.yaml").read_text(encoding="utf-8"))


def made_wrong(folder: Path) -> None:
    """Put every edit into a copy of the folder; each text that is replaced stands there once."""
    for entry in WRONG:
        script = folder / entry["file"]
        text = script.read_text(encoding="utf-8")
        for find, instead in entry["edits"]:
            assert text.count(find) == 1, f"{entry['wrong']}: {text.count(find)} times {find}"
            text = text.replace(find, instead)
        script.write_text(text, encoding="utf-8")


@pytest.fixture(scope="module")
def checked(tmp_path_factory: pytest.TempPathFactory) -> Checked:
    """The whole folder, checked once with all twenty-five in it."""
    folder = Path(shutil.copytree(TURNSTONE, tmp_path_factory.mktemp("wrong") / "turnstone"))
    made_wrong(folder)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("cutaway.api.checking.memory_file", lambda: None)
        found, _ = check(folder, rests=False)
    assert found is not None
    return found


@pytest.fixture(scope="module")
def failing(checked: Checked) -> dict[str, set[str]]:
    """The sentences that fail, each with the standards on which it does."""
    out: dict[str, set[str]] = {}
    for one in checked.sentences:
        on = {str(j.subject.name) for claim in one.claims for j in claim.judged if is_wrong(j.verdict)}
        if on:
            out[one.sentence.text] = on
    return out


def _meant(checked: Checked, words: str) -> set[str]:
    if words == "all":
        return {str(standard.name) for standard in checked.folder.type.standards}
    names, problems = standards_named(checked.folder, words)
    assert names is not None and problems == ()
    return {str(name) for name in names}


def test_there_are_twenty_five_over_all_standards(checked: Checked) -> None:
    assert len(WRONG) == 25 and len({entry["sentence"] for entry in WRONG}) == 25
    everyone = {str(standard.name) for standard in checked.folder.type.standards}
    narrow = [entry["fails on"] for entry in WRONG if entry["fails on"] != "all"]
    assert set().union(*(_meant(checked, words) for words in narrow)) == everyone
    assert len(checked.claims()) >= 120


@pytest.mark.parametrize("entry", WRONG, ids=lambda entry: entry["wrong"])
def test_each_is_found_where_it_is_wrong(entry: dict, checked: Checked, failing: dict[str, set[str]]) -> None:
    (on,) = [on for sentence, on in failing.items() if sentence.startswith(entry["sentence"])]
    assert on == _meant(checked, entry["fails on"])


def test_no_right_one_is_flagged(checked: Checked, failing: dict[str, set[str]]) -> None:
    starts = tuple(entry["sentence"] for entry in WRONG)
    assert [sentence for sentence in failing if not sentence.startswith(starts)] == []
    assert not [j for step in checked.steps for c in step.claims for j in c.judged if is_wrong(j.verdict)]


def test_what_an_amendment_altered_is_told_as_overtaken(checked: Checked) -> None:
    (one,) = [
        s for s in checked.sentences if s.sentence.text.startswith("An amendment set those lamps to light at two")
    ]
    assert [(o.old.number, o.new.amended_by) for o in one.overtaken] == [("§31", "A.L. 1")]
