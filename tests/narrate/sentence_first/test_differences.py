"""What a sentence says otherwise than the books: planted differences all found, false alarms counted."""

import pytest

from cutaway.narrate.likely import Ranking
from cutaway.narrate.sentence_first import Comparer, told
from tests.narrate.sentence_first.folders import bare_whinchat, loaded, spoken, write
from tests.narrate.sentence_first.sandpiper import BOOK, TYPE
from tests.narrate.sentence_first.sandpiper import PLANTED as PLANTED_THERE
from tests.narrate.sentence_first.sandpiper import TRUE as TRUE_THERE
from tests.narrate.sentence_first.sandpiper import TURNED as TURNED_THERE
from tests.narrate.sentence_first.truth import PLANTED, TURNED


@pytest.fixture(scope="module")
def there(tmp_path_factory: pytest.TempPathFactory) -> Comparer:
    files = {"type.yaml": TYPE, "sources/hb.md": BOOK, "scripts/a.md": "# A\n\nHallo.\n"}
    return Comparer(Ranking(loaded(write(tmp_path_factory.mktemp("sandpiper"), files))))


def compared(comparer: Comparer, text: str):
    (one,) = comparer.script(spoken(text))
    assert one is not None
    return one


def found(comparer: Comparer, text: str) -> list[tuple[str, str]]:
    return [(d.sort, d.paragraph.number if d.paragraph else "") for d in compared(comparer, text).differences]


@pytest.mark.parametrize("text, sort, numbers", PLANTED)
def test_each_planted_difference_is_found(comparer, text, sort, numbers) -> None:
    assert len(PLANTED) == 10
    assert any((sort, number) in found(comparer, text) for number in numbers)


@pytest.mark.parametrize("text, sort, number", PLANTED_THERE)
def test_each_planted_difference_is_found_in_another_book(there, text, sort, number) -> None:
    assert (sort, number) in found(there, text)


@pytest.mark.parametrize("text, number", TURNED)
def test_a_small_word_that_turns_the_book_round_is_found(comparer, text, number) -> None:
    assert ("caution", number) in found(comparer, text)


@pytest.mark.parametrize("text, number", TURNED_THERE)
def test_a_small_word_is_found_in_another_book(there, text, number) -> None:
    assert ("caution", number) in found(there, text)


def test_false_alarms_are_few_and_printed(bare, comparer, there, capsys) -> None:
    """No sentence of the script says anything wrong, but for one word that is not the books' own ('strainer')."""
    held = [one for one in comparer.script(bare.scripts[0]) if one is not None]
    held += [compared(there, text) for text, _ in TRUE_THERE]
    alarms = [(one.sentence.text, d.why) for one in held for d in one.differences]
    false = [alarm for alarm in alarms if "strainer" not in alarm[1]]
    verdicts = [one.verdict for one in held]
    with capsys.disabled():
        print(
            f"\n  sentence first: {len(held)} sentences with nothing wrong: {verdicts.count('stated')} stated, "
            f"{verdicts.count('open')} open, {len(false)} false alarms"
        )
        for text, why in false:
            print(f"    {text} | {why}")
    assert len(false) <= 2
    assert len(alarms) > len(false), "the strainer is no longer told"


@pytest.mark.parametrize(
    "text",
    [
        "Each tank holds 11 gallons.",
        "Each tank holds eleven gallons.",
        "Each tank holds 88 pints.",
        "The suction relief valve is set at about 4½ inches of mercury.",
        "A relief valve at the flap pump opens at three hundred pounds.",
        "The generator is regulated to 14 volts and gives not more than 20 amp.",
        "On the Mk 2 the fuel lamp lights below 3 lb./sq. in.",
    ],
)
def test_what_the_book_says_in_other_words_is_stated(comparer, text) -> None:
    one = compared(comparer, text)
    assert (one.verdict, one.differences) == ("stated", ())


@pytest.mark.parametrize(
    "wrong, right, code",
    [
        ("Each tank holds 12 gallons.", "Each tank holds 11 gallons.", "N801"),
        ("The oil reservoir holds 3 gallons.", "The oil reservoir holds 3 pints.", "N802"),
        ("On the Mk 1 a hand pump is fitted low down.", "On the Mk 2 a hand pump is fitted low down.", "N803"),
        ("The strainer is washed out every thirty hours.", "The filter is washed out every thirty hours.", "N804"),
        (
            "Take the lead off the battery after working on the wiring.",
            "Take the lead off the battery before working on the wiring.",
            "N805",
        ),
    ],
)
def test_each_code(comparer, wrong, right, code) -> None:
    assert [problem.code for problem in told(compared(comparer, wrong))] == [code]
    assert told(compared(comparer, right)) == ()


def test_a_difference_marks_the_words_and_shows_the_paragraph(comparer) -> None:
    (problem,) = told(compared(comparer, "Each tank holds 12 gallons."))
    assert problem.span is not None
    assert problem.span.file.text[problem.span.start : problem.span.end] == "12 gallons"
    assert "11 gallons" in problem.hint and problem.also[0][1] == "§21 Petrol tanks"


@pytest.mark.parametrize("term", ["gasoline", "carburetor", "airscrew"])
def test_another_word_of_the_trade_is_told(comparer, term) -> None:
    differences = compared(comparer, f"The {term} was new to them.").differences
    assert [(d.sort, d.said) for d in differences] == [("term", term)]


def test_a_word_that_the_glossary_has_is_no_stranger(tmp_path) -> None:
    glossary = "terms:\n  filter: {means: A gauze., also: [strainer]}\n"
    folder = loaded(write(bare_whinchat(tmp_path), {"glossary.yaml": glossary}))
    assert compared(Comparer(Ranking(folder)), "The strainer is washed out every thirty hours.").differences == ()


def test_a_thing_the_books_do_not_speak_of(comparer) -> None:
    (one,) = compared(comparer, "Look at the vacuum gauge.").differences
    assert (one.sort, one.said) == ("term", "vacuum gauge")
    assert "'suction gauge'" in one.why
    assert compared(comparer, "Look at the suction gauge.").differences == ()


def test_a_figure_of_which_no_paragraph_has_the_like_leaves_the_sentence_open(comparer) -> None:
    one = compared(comparer, "The filter on the bulkhead passes the petrol at 40 degrees.")
    assert (one.verdict, one.unfound) == ("open", ("40 degrees",))
