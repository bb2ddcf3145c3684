"""Letters: the sentence is found, the verdict is today's, the reply says what was decided."""

import json
from dataclasses import replace
from pathlib import Path

import pytest
from typer.testing import CliRunner

from cutaway.api.checking import check
from cutaway.cli.main import app
from cutaway.narrate.letters import SaidOnce, answers, draft_reply

SCRIPT = "# The cock\n\nThe fuel tank holds twenty gallons. `cite: hb §1`\n{}\n\n```claim\nfuel cock is fitted\n```\n"
LETTER = "letters:\n  the cock:\n    objects to: The cock is fitted on every mark.\n    film: 01-fuel\n{}"
DECIDED = "    decision: Kept.\n    because: So it is.\n"


@pytest.fixture
def post(sample: Path):
    def read(letters: str, sentence: str = "The cock is fitted on every mark.", published=()):
        (sample / "letters.yaml").write_text(letters, encoding="utf-8")
        (sample / "scripts" / "01-fuel.md").write_text(SCRIPT.format(sentence), encoding="utf-8")
        checked, problems = check(sample, rests=False)
        assert checked is not None
        found, more = answers(checked.folder, checked, published)
        return found, [p for p in problems + more if p.code.startswith("N7")], checked.folder

    return read


def test_a_letter_has_its_sentence_moment_paragraphs_and_verdict(post) -> None:
    text = LETTER.format("    from: Mr. Pell\n    at: '0:03'\n    for: hb §2\n    against: [hb §2a]\n" + DECIDED)
    (answer,), problems, folder = post(text)
    assert problems == []
    assert answer.sentence == "The cock is fitted on every mark." and answer.script == "01-fuel"
    assert answer.start is not None and 0.5 < answer.start < 6.0
    assert [p.number for p in answer.favour] == ["§2"] and [p.number for p in answer.against] == ["§2a"]
    assert "the fuel cock is fitted" in answer.verdict[0].verdicts[0]
    reply = draft_reply(answer, folder)
    for words in ("Dear Mr. Pell,", "at 0:03", "on the floor under the tank", "What we decided: Kept. So it is."):
        assert words in reply
    assert reply.index("For it") < reply.index("Against it") < reply.index("What we decided")


def test_a_sentence_that_only_cites_has_its_verdict_too(post) -> None:
    text = LETTER.replace("The cock is fitted on every mark.", "The fuel tank holds twenty gallons.").format(DECIDED)
    (answer,), _, _ = post(text)
    assert answer.verdict[0].verdicts == ("Stated in hb §1.",)


def test_n701_a_sentence_that_is_nowhere(post) -> None:
    text = LETTER.replace("on every mark", "on no mark").format(DECIDED)
    (answer,), problems, _ = post(text)
    assert [p.code for p in problems] == ["N701"] and answer.verdict == ()
    _, problems, _ = post(text.replace("film: 01-fuel", "panel: the cock"))
    assert problems == [], "words on a panel are in no script"


def test_n702_another_moment(post) -> None:
    _, problems, _ = post(LETTER.format("    at: '9:10'\n" + DECIDED))
    assert [p.code for p in problems] == ["N702"] and "9:10" in problems[0].message


def test_n703_nothing_decided(post) -> None:
    (answer,), problems, folder = post(LETTER.format(""))
    assert [p.code for p in problems] == ["N703"]
    assert "We have not decided yet" in draft_reply(answer, folder)


def test_a_published_sentence_is_found_after_it_was_reworded(post) -> None:
    then = (
        SaidOnce("2026-03-01", "01-fuel", 0, "The fuel tank holds twenty gallons.", 0.0),
        SaidOnce("2026-03-01", "01-fuel", 1, "The cock is fitted on every mark.", 2.5),
    )
    (answer,), problems, folder = post(LETTER.format(DECIDED), "The cock is fitted on both marks.", then)
    assert problems == []
    assert (answer.published, answer.start) == ("2026-03-01", 2.5)
    assert answer.sentence == "The cock is fitted on both marks."
    assert "It now reads: 'The cock is fitted on both marks.'" in draft_reply(answer, folder)


def test_the_authors_own_reply_is_left_as_it_is(post) -> None:
    (answer,), _, folder = post(LETTER.format("    reply: We wrote by hand.\n" + DECIDED))
    assert draft_reply(answer, folder) == "We wrote by hand."
    assert draft_reply(replace(answer, letter=replace(answer.letter, reply="")), folder) != "We wrote by hand."


def test_the_verb(sample: Path) -> None:
    (sample / "letters.yaml").write_text(LETTER.format(DECIDED), encoding="utf-8")
    result = CliRunner().invoke(app, ["letters", str(sample), "--no-rests", "--json"])
    record = json.loads(result.stdout)
    assert result.exit_code == 0 and record["letters"][0]["decision"] == "Kept."
    shown = CliRunner().invoke(app, ["letters", str(sample), "--no-rests", "--reply", "the cock"])
    assert shown.stdout.strip() == record["letters"][0]["reply"].strip()


def test_c202_no_such_letter(sample: Path) -> None:
    (sample / "letters.yaml").write_text(LETTER.format(DECIDED), encoding="utf-8")
    result = CliRunner().invoke(app, ["letters", str(sample), "--no-rests", "--reply", "the cokc", "--json"])
    assert result.exit_code == 2
    (problem,) = json.loads(result.stdout)["problems"]
    assert (problem["code"], problem["hint"]) == ("C202", "Did you mean the cock?")
