"""How sentences are read aloud."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cutaway.problems.span import TextFile, whole
from cutaway.quantities.reading import read_quantity
from cutaway.quantities.spoken import in_words, spoken, spoken_quantity, unsayable


@pytest.mark.parametrize(
    "written, read_aloud",
    [
        ("It lights below 2 lb./sq. in. Then", "It lights below two pounds per square inch. Then"),
        ("It is 2 lb./sq. in. or less.", "It is two pounds per square inch or less."),
        ("4½ lb/sq in", "four and a half pounds per square inch"),
        ("4.25 gal", "four and a quarter gallons"),
        ("1 gal", "one gallon"),
        ("0.5 pint", "half a pint"),
        ("0.5 h", "half an hour"),
        ("a 12-volt battery", "a twelve-volt battery"),
        ("20 amp-hours", "twenty amp hours"),
        ("0.05 to 0.6 lb/sq in", "nought point nought five to nought point six pounds per square inch"),
        ("6–8 lb/sq in", "six to eight pounds per square inch"),
        ("7 ± 0.5 volts", "seven plus or minus half a volt"),
        ("1,013 mb absolute", "one thousand and thirteen millibars absolute"),
        ("-4 °C and +9 lb/sq in", "minus four degrees Celsius and plus nine pounds per square inch"),
        ("2,350 r.p.m.", "two thousand three hundred and fifty revolutions per minute."),
        ("flaps to 40°.", "flaps to forty degrees."),
        ("at 60 % throttle", "at sixty per cent throttle"),
        ("Mk 2, Mk. 4 and Mk II", "Mark Two, Mark Four and Mark Two"),
        ("the Mk 2a", "the Mark Two A"),
        ("Mod. 12 and mod 40", "mod twelve and mod forty"),
        ("See §25a, A.L. 1", "See paragraph twenty-five A, amendment list one"),
        ("built in 1938", "built in nineteen thirty-eight"),
        ("in the 1930s", "in the nineteen thirties"),
        ("the 1st tank, e.g. the port one", "the first tank, for example the port one"),
        ("2 in each wing", "two in each wing"),
        ("Hallam & Reeve", "Hallam and Reeve"),
        ("Nothing to change here.", "Nothing to change here."),
    ],
)
def test_sentences(written, read_aloud) -> None:
    assert spoken(written) == read_aloud


@pytest.mark.parametrize(
    "value, words",
    [
        (0, "nought"),
        (21, "twenty-one"),
        (-4.5, "minus four and a half"),
        (0.75, "three quarters"),
        (4.05, "four point nought five"),
    ],
)
def test_in_words(value, words) -> None:
    assert in_words(value) == words


@pytest.mark.parametrize(
    "text, words",
    [
        ("4½ lb. per sq. in.", "four and a half pounds per square inch"),
        ("1 V", "one volt"),
        ("0.05 to 0.6 lb/sq in", "nought point nought five to nought point six pounds per square inch"),
        ("7 ± 0.5 V", "seven plus or minus a half volts"),
        ("3", "three"),
    ],
)
def test_quantities(text, words) -> None:
    assert spoken_quantity(read_quantity(text, whole(TextFile("test", text)))[0]) == words


@given(st.text(alphabet=st.sampled_from("0123456789.,½-–+±° %§"), max_size=40))
def test_no_figure_is_left_unsaid(text: str) -> None:
    assert not any(letter in "0123456789½" for letter in spoken(text))


@pytest.mark.parametrize("figure", ["1e400", "1e308", "9" * 5000, "1e30", "1e400-1e500"])
def test_a_figure_too_large_to_be_said_is_said_digit_by_digit_and_told(figure) -> None:
    assert spoken(f"It holds {figure} gallons.").startswith(
        "It holds one e" if figure[0] == "1" else "It holds nine nine"
    )
    assert unsayable(f"It holds {figure} gallons.")[0] in figure
    assert unsayable("It holds 22 gallons at 999,999,999 lb.") == ()


@pytest.mark.parametrize("text", [f"Mk {'9' * 5000}", f"§{'9' * 5000}a", f"the {'9' * 5000}th", "§1e400", "Mk 1e400"])
def test_a_number_of_a_thing_too_large_to_be_said_is_no_fault(text) -> None:
    assert not any(digit in spoken(text) for digit in "0123456789")
