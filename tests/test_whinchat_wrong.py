"""Five sentences of the demo made wrong: each is found out, on the standards that it names, and no other is."""

import shutil
from pathlib import Path

import pytest

from cutaway.api.checking import check
from cutaway.narrate.checked import Checked, is_wrong
from tests.whinchat import WHINCHAT, WRONG, made_wrong

# By what is wrong: the standards on which the sentence must then fail. What it is on any other stands beside it.
FAILS_ON = {
    "the mark": {"Mk 1"},
    "the figure": {"Mk 2", "Mk 2 with mod 12"},
    "the moment": {"Mk 1", "Mk 2", "Mk 2 with mod 12"},
    "the place": {"Mk 1", "Mk 2", "Mk 2 with mod 12"},
    "the always": {"Mk 1", "Mk 2", "Mk 2 with mod 12"},
}


def failing(checked: Checked) -> dict[str, set[str]]:
    """The sentences that fail, each with the standards on which it does."""
    found: dict[str, set[str]] = {}
    for one in checked.sentences:
        on = {judged.subject.name for claim in one.claims for judged in claim.judged if is_wrong(judged.verdict)}
        if on:
            found[one.sentence.text] = {str(name) for name in on}
    return found


@pytest.fixture(scope="module")
def found(tmp_path_factory: pytest.TempPathFactory) -> dict[str, set[str]]:
    """What fails when all five are made wrong in one copy."""
    folder = Path(shutil.copytree(WHINCHAT, tmp_path_factory.mktemp("wrong") / "whinchat"))
    for entry in WRONG:
        made_wrong(folder, entry["edits"], entry["file"])
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("cutaway.api.checking.memory_file", lambda: None)
        checked, problems = check(folder, rests=False)
    # The books speak against such sentences as well, but nothing else is wrong.
    assert {p.code for p in problems} <= {"N803", "N807"}, problems
    assert checked is not None
    assert not [
        judged for step in checked.steps for c in step.claims for judged in c.judged if is_wrong(judged.verdict)
    ]
    return failing(checked)


@pytest.mark.parametrize("entry", WRONG, ids=lambda entry: entry["wrong"])
def test_a_sentence_made_wrong_fails_where_it_is_wrong(entry: dict, found: dict[str, set[str]]) -> None:
    (on,) = [on for sentence, on in found.items() if sentence.startswith(entry["sentence"])]
    assert on == FAILS_ON[entry["wrong"]]


def test_no_other_sentence_fails(found: dict[str, set[str]]) -> None:
    assert len(WRONG) == len(FAILS_ON) == 5
    others = [sentence for sentence in found if not any(sentence.startswith(entry["sentence"]) for entry in WRONG)]
    assert others == []
