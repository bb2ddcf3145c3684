"""Repairs of invented captions: found, reasoned, made only when asked, and nothing else touched."""

import re
from pathlib import Path

import pytest
from typer.testing import CliRunner

from cutaway.api.repairing import repair_captions
from cutaway.cli.main import app
from cutaway.narrate.caption_reading import read_captions
from cutaway.narrate.recogniser import dictionary
from cutaway.narrate.repair import Repair, applied, repairs
from cutaway.narrate.trade_words import TradeWord, of_names
from cutaway.narrate.unit_slips import SLIPS, slips_in
from cutaway.problems.span import TextFile
from tests.narrate.repair.lines import BOOK, CLEAN, HELD_APART, TERMS, TUNED_ON

MARK = re.compile(r"\{([^|}]*)\|([^}]*)\}")


@pytest.fixture(scope="module")
def trade() -> tuple[TradeWord, ...]:
    return of_names([name for name, _ in TERMS], BOOK)


def captioned(line: str) -> str:
    return f"WEBVTT\n\n00:01.000 --> 00:04.000\n{line}\n"


def proposed(text: str, trade: tuple[TradeWord, ...]) -> tuple[TextFile, tuple[Repair, ...]]:
    file = TextFile("talk.vtt", text)
    cues, _ = read_captions(file)
    return file, repairs(cues, trade, dictionary())


def plain(text: str) -> str:
    return re.sub(r"[^a-z0-9£.,]+", " ", text.lower()).strip()


def counted(lines: tuple[str, ...], trade: tuple[TradeWord, ...]) -> tuple[int, int, int]:
    """Slips that were put right; repairs that put right no slip; slips in all."""
    right = wrong = total = 0
    for line in lines:
        marks = list(MARK.finditer(line))
        total += len(marks)
        heard = MARK.sub(r"\1", line)
        good = {
            plain(MARK.sub(r"\1", line[: mark.start()]) + form + MARK.sub(r"\1", line[mark.end() :]))
            for mark in marks
            for form in mark[2].split("|")
        }
        file, found = proposed(captioned(heard), trade)
        for one in found:
            made = applied(file.text, [one]).removeprefix("WEBVTT\n\n00:01.000 --> 00:04.000\n")
            if plain(made) in good:
                right += 1
            else:
                wrong += 1
    return right, wrong, total


def test_lines_held_apart_are_repaired(trade) -> None:
    right, wrong, total = counted(HELD_APART, trade)
    print(f"repair: {right} of {total} slips put right, {wrong} false")
    assert total == 40
    assert right / total >= 0.7
    assert right / (right + wrong) >= 0.9


def test_lines_tuned_on_are_repaired(trade) -> None:
    right, wrong, total = counted(TUNED_ON, trade)
    assert right / total >= 0.7 and right / (right + wrong) >= 0.9


@pytest.mark.parametrize("line", CLEAN)
def test_what_is_right_is_left_alone(line, trade) -> None:
    assert proposed(captioned(line), trade)[1] == ()


def test_every_repair_has_a_reason_and_says_where_it_is(trade) -> None:
    file, found = proposed(captioned("The car burettor wants 120 gallants."), trade)
    assert [(one.number, file.text[one.start : one.end], one.written) for one in found] == [
        (1, "car burettor", "carburettor"),
        (2, "gallants", "gallons"),
    ]
    assert all(one.said == file.text[one.start : one.end] and one.reason for one in found)


def test_only_what_is_chosen_changes(trade) -> None:
    text = captioned("The car burettor wants 120 gallants.").replace("WEBVTT", "WEBVTT <odd>  header\n\nNOTE keep ")
    file, found = proposed(text, trade)
    assert applied(file.text, ()) == text
    assert applied(file.text, found[1:]) == text.replace("gallants", "gallons")
    assert applied(file.text, found) == text.replace("gallants", "gallons").replace("car burettor", "carburettor")


def test_over_the_end_of_a_line_and_around_tags(trade) -> None:
    file, found = proposed(captioned("<v Guide>Open the car\nburettor drain &amp; wait"), trade)
    assert applied(file.text, found) == captioned("<v Guide>Open the carburettor\ndrain &amp; wait")


def test_no_repair_reaches_over_punctuation(trade) -> None:
    assert proposed(captioned("Mind the car. Burettor is no word."), trade)[1] == ()


def test_each_unit_slip_has_a_case() -> None:
    cases = {
        "£4 per square inch": "4 lb", "a boost of £6": "6 lb",
        "the lamp lights at £3": "3 lb", "the valve lifts at three quid": "pounds",
        "the gauge reads about five pound": "pounds", "at 90 nots": "knots", "she flew at 90 nuts": "knots",
        "at 90 degrees sea": "degrees C", "for 60 gallants": "gallons", "a tank of 20 galleons": "gallons",
        "of 12 vaults": "volts", "a battery of 12 votes": "volts", "a current of 10 ants": "amps",
        "at 600 our p.m.": "r.p.m.", "3 pants of oil": "pints", "four inches of mercy": "inches of mercury",
        "five pounds per squire inches": "per square inch",
    }  # fmt: skip
    seen = set()
    for text, right in cases.items():
        (slip,) = slips_in(text)
        assert slip.right == right, text
        seen.add(next(row for row in SLIPS if row.because == slip.because and row.heard.search(text)))
    assert seen == set(SLIPS)


@pytest.mark.parametrize(
    "line",
    [
        "The lamp cost £3.",
        "A pump for £3, said the catalogue.",
        "The valve was sold at $4.",
        "The lamp lights at 3 lb.",
        "The gauge reads five pounds.",
        "She carried a lamp and twenty pound bombs.",
        "He lit the lamp and paid two quid.",
        "The relief fund stood at £3 million.",
        "A valve in the shop is about ten quid.",
        "The hull was valued at £900.",
        "The gauge shows 3 and the pound was strong.",
        "Entry is £3, and the lamp is lit.",
        "£900 for the hull",
        "four bolts",
        "two nuts",
        "twelve votes were cast",
        "the galleon had 20 guns",
    ],
)
def test_what_only_looks_like_a_unit_slip_is_left_alone(line) -> None:
    assert list(slips_in(line)) == []


@pytest.mark.parametrize(
    "heard, right",
    [
        ("The lamp lights at £3.", "The lamp lights at 3 lb."),
        ("the lamp comes on below $3 and stays lit", "the lamp comes on below 3 lb and stays lit"),
        ("The relief valve opens at 6 quid.", "The relief valve opens at 6 pounds."),
        ("The valve lifts at three pound.", "The valve lifts at three pounds."),
        ("The needle falls to £1.5, and the lamp glows.", "The needle falls to 1.5 lb, and the lamp glows."),
        ("the pump gives £4 per square inch", "the pump gives 4 lb per square inch"),
    ],
)
def test_money_in_place_of_a_pressure(heard, right, trade) -> None:
    file, found = proposed(captioned(heard), trade)
    assert applied(file.text, found) == captioned(right)
    assert all("money" in one.reason or "pressure" in one.reason for one in found)


# --- against a script, and the verb ----------------------------------------------------------------------------------

SCRIPT = "# Talk\n\nThe fuel lamp lights below 2 lb/sq in. Shut the cock and count to ten. Then open it again slowly.\n"
HEARD = (
    "1\r\n00:00:01,000 --> 00:00:04,000\r\nThe fuel lamb lights below\r\ntwo pounds per square inch.\r\n\r\n"
    "2\r\n00:00:05,000 --> 00:00:08,000\r\nShut the clock and count to twenty.\r\n\r\n"
    "3\r\n00:00:09,000 --> 00:00:12,000\r\nThen open it again slowly.\r\n"
)


@pytest.fixture
def talk(sample: Path) -> Path:
    (sample / "scripts" / "talk.md").write_text(SCRIPT, encoding="utf-8")
    (sample / "talk.srt").write_bytes(HEARD.encode())
    return sample


def test_captions_against_their_script(talk) -> None:
    done, problems = repair_captions(talk, talk / "talk.srt", "talk")
    assert done is not None and not problems
    assert [(one.said, one.written) for one in done.repairs] == [("lamb", "lamp"), ("clock", "cock")]
    assert all("the script has" in one.reason for one in done.repairs)
    assert [(one.kind, one.written, one.said) for one in done.departures] == [("differs", "ten", "twenty")]
    assert done.written is None and not list(talk.glob("*.repaired.*"))


def test_approved_repairs_are_made_in_a_new_file(talk) -> None:
    command = ["repair", str(talk / "talk.srt"), "--script", "talk", "-C", str(talk)]
    shown = CliRunner().invoke(app, command)
    assert shown.exit_code == 1 and "clock → cock" in shown.stdout and "Nothing was changed" in shown.stdout
    made = CliRunner().invoke(app, [*command, "--apply", "2"])
    assert made.exit_code == 0, made.output
    assert (talk / "talk.repaired.srt").read_bytes() == HEARD.replace("clock", "cock").encode()
    assert (talk / "talk.srt").read_bytes() == HEARD.encode()
    again = CliRunner().invoke(app, [*command, "--apply", "all"])
    assert again.exit_code == 1 and "N604" in again.stderr
    every = CliRunner().invoke(app, [*command, "--apply", "all", "--replace"])
    assert every.exit_code == 0
    assert (talk / "talk.repaired.srt").read_bytes() == HEARD.replace("clock", "cock").replace("lamb", "lamp").encode()


def test_a_number_that_was_not_shown(talk) -> None:
    done, problems = repair_captions(talk, talk / "talk.srt", "talk", apply=(1, 9))
    assert done is None and [one.code for one in problems] == ["N605"]
    assert not list(talk.glob("*.repaired.*"))
    wrong = CliRunner().invoke(app, ["repair", str(talk / "talk.srt"), "-C", str(talk), "--apply", "one"])
    assert wrong.exit_code == 2


def test_the_captions_that_were_given_are_never_written_over(talk: Path) -> None:
    given = talk / "talk.srt"
    before = given.read_bytes()
    done, problems = repair_captions(talk, given, "talk", apply=(1,), out=given, replace=True)
    assert done is None and [problem.code for problem in problems] == ["N604"]
    assert given.read_bytes() == before
