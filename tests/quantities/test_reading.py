"""Reading quantities: what is understood, what is told, and where the fault stands."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cutaway.problems.span import Span, TextFile, whole
from cutaway.quantities.quantity import Quantity, Unit
from cutaway.quantities.reading import nearest_unit, printed, read_quantity
from cutaway.quantities.units import UNITS, unit_named
from tests.strategies import quantities


def read(text, dimension=None):
    return read_quantity(text, whole(TextFile("test", text)), dimension)


@pytest.mark.parametrize(
    "text, low, value, high, unit, datum",
    [
        ("6 lb/sq in", 6, 6, 6, "lb/sq in", "gauge"),
        ("1,800 r.p.m.", 1800, 1800, 1800, "rpm", ""),
        ("12,345.5 ft", 12345.5, 12345.5, 12345.5, "ft", ""),
        ("4½ lb. per sq. in.", 4.5, 4.5, 4.5, "lb/sq in", "gauge"),
        ("4·5 lb. per sq. in.", 4.5, 4.5, 4.5, "lb/sq in", "gauge"),
        ("2 1/2 pints", 2.5, 2.5, 2.5, "pint", ""),
        ("2-1/2 pints", 2.5, 2.5, 2.5, "pint", ""),
        ("¾ pint", 0.75, 0.75, 0.75, "pint", ""),
        ("3/4 pint", 0.75, 0.75, 0.75, "pint", ""),
        (".5 V", 0.5, 0.5, 0.5, "V", ""),
        ("1e3 Pa", 1000, 1000, 1000, "Pa", ""),
        ("-4 lb/sq in", -4, -4, -4, "lb/sq in", "gauge"),
        ("−4 °C", -4, -4, -4, "°C", ""),
        ("+9", 9, 9, 9, "", ""),
        ("½", 0.5, 0.5, 0.5, "", ""),
        ("20", 20, 20, 20, "", ""),
        ("60 %", 60, 60, 60, "%", ""),
        ("60 per cent", 60, 60, 60, "%", ""),
        ("12-volt", 12, 12, 12, "V", ""),
        ("6.5 to 6.75 gal", 6.5, 6.625, 6.75, "gal", ""),
        ("6.5 gal to 6.75 gal", 6.5, 6.625, 6.75, "gal", ""),
        ("6–8 lb/sq in", 6, 7, 8, "lb/sq in", "gauge"),
        ("between 6 and 8 lb/sq in", 6, 7, 8, "lb/sq in", "gauge"),
        ("-4 to +9 lb/sq in", -4, 2.5, 9, "lb/sq in", "gauge"),
        ("60 s to 2 min", 1, 1.5, 2, "min", ""),
        ("7 lb/sq in ± 0.5", 6.5, 7, 7.5, "lb/sq in", "gauge"),
        ("7 ± 0.5 lb/sq in", 6.5, 7, 7.5, "lb/sq in", "gauge"),
        ("7 lb/sq in ± 0.5 lb/sq in", 6.5, 7, 7.5, "lb/sq in", "gauge"),
        ("18 +/- 1 volts", 17, 18, 19, "V", ""),
        ("18 volts plus or minus 1", 17, 18, 19, "V", ""),
        ("50 V ± 10 %", 45, 50, 55, "V", ""),
        ("1013 mb absolute", 1013, 1013, 1013, "mb", "absolute"),
        ("30 lb/sq in abs.", 30, 30, 30, "lb/sq in", "absolute"),
        ("30 psia", 30, 30, 30, "lb/sq in", "absolute"),
        ("5 bar gauge", 5, 5, 5, "bar", "gauge"),
        ("suction 4.5 in Hg", 4.5, 4.5, 4.5, "in Hg", ""),
        ("suction of 4.5 in. Hg", 4.5, 4.5, 4.5, "in Hg", ""),
        ("1 min 30 s", 90, 90, 90, "s", ""),
        ("1 hr 20 min 5 sec", 4805, 4805, 4805, "s", ""),
        ("5 ft 6 in", 66, 66, 66, "in", ""),
        ("2 min", 2, 2, 2, "min", ""),
        ("  22   gal. ", 22, 22, 22, "gal", ""),
    ],
)
def test_understood(text, low, value, high, unit, datum) -> None:
    quantity, problems = read(text)
    assert problems == ()
    assert (quantity.low, quantity.value, quantity.high) == pytest.approx((low, value, high))
    assert (quantity.unit.name, quantity.datum) == (unit, datum)
    assert quantity.text in text


@pytest.mark.parametrize(
    "text, dimension, code, at_fault, hint",
    [
        ("full", "volume", "Q101", "full", "6 gal"),
        ("", "volume", "Q101", "", "6 gal"),
        ("-", None, "Q101", "-", "6 lb/sq in"),
        ("1/0 gal", None, "Q101", "1/0 gal", ""),
        ("22 gal 24 gal", "volume", "Q102", "24 gal", "6 to 8 gal"),
        ("22, 24 gal", "volume", "Q102", ", 24 gal", "6 to 8 gal"),
        ("22 or 24 gal", "volume", "Q102", "or 24 gal", "6 to 8 gal"),
        ("22", "volume", "Q103", "22", "Write 22 gal."),
        ("0.05 to 0.6", "pressure", "Q103", "0.05 to 0.6", "Write 0.05 to 0.6 lb/sq in."),
        ("22 galons", "volume", "Q104", "galons", "Write 22 gal."),
        ("22 galons", None, "Q104", "galons", "Write 22 gal."),
        ("5 to 6 galons", "volume", "Q104", "galons", "gal"),
        ("6 lb per sqr inch", "pressure", "Q104", "lb per sqr inch", "Write 6 lb/sq in."),
        ("6 xyzzy", "volume", "Q104", "xyzzy", "Write 6 gal."),
        ("22 gal", "pressure", "Q105", "gal", "22 lb/sq in"),
        ("3 gal", "number", "Q105", "gal", "Write 3."),
        ("9 lb", "pressure", "Q105", "lb", "9 lb/sq in"),
        ("20 gal to 3 ft", None, "Q105", "ft", "gal"),
        ("nan gal", "volume", "Q106", "nan gal", ""),
        ("NaN", None, "Q106", "NaN", ""),
        ("inf", None, "Q106", "inf", ""),
        ("-inf volts", "voltage", "Q106", "-inf volts", ""),
        ("1e999 gal", "volume", "Q106", "1e999 gal", ""),
        ("9" * 400 + " gal", "volume", "Q106", "9" * 400 + " gal", ""),
        ("1e308 bar", None, "Q106", "1e308 bar", ""),  # finite as written, not in pascals
        ("6 to 1e999 gal", "volume", "Q106", "1e999 gal", ""),
        ("8 to 6 lb/sq in", "pressure", "Q107", "8 to 6 lb/sq in", "Write 6 to 8 lb/sq in."),
        ("2 min to 60 s", "time", "Q107", "2 min to 60 s", "Write 60 to 120 s."),
        ("4,5 bar", "pressure", "Q108", ",", "Write 4.5 bar."),
        ("7 ± -1 V", "voltage", "Q109", "7 ± -1 V", "Write 7 ± 1 V."),
        ("6 lb/sq in when warm", "pressure", "Q110", "when warm", "Write 6 lb/sq in."),
        ("5 gal absolute", "volume", "Q110", "absolute", "Write 5 gal."),
    ],
)
def test_told(text, dimension, code, at_fault, hint) -> None:
    before = "capacity: "
    file = TextFile("fuel.yaml", before + text + "\n")
    span = Span(file, len(before), len(before) + len(text))
    quantity, problems = read_quantity(text, span, dimension)
    assert quantity is None
    assert [problem.code for problem in problems] == [code]
    place = problems[0].span
    assert file.text[place.start : place.end] == at_fault
    assert hint in problems[0].hint


def test_hints_propose_what_is_usual() -> None:
    def hint(text: str, like: Quantity | Unit) -> str:
        _, (problem,) = read_quantity(text, whole(TextFile("x", text)), "volume", like)
        return problem.hint

    bottle, _ = read_quantity("0.02 to 5 cu ft", whole(TextFile("x", "0.02 to 5 cu ft")))
    assert bottle is not None
    assert hint("450 lb/sq in", bottle) == "Write a volume, for instance 0.3 cu ft."
    assert hint("4 lb/sq in", bottle) == "Write a volume, for instance 4 cu ft."
    assert hint("450 lb/sq in", unit_named("cu in")) == "Write a volume, for instance 450 cu in."
    assert hint("full", bottle) == "Write a figure and its unit, for instance 0.3 cu ft."
    assert hint("5 xyzzy", unit_named("pint")) == "Write 5 pint."


@pytest.mark.parametrize("dimension, text", [("force", "50 lb"), ("temperature", "60 C"), ("charge", "60 C")])
def test_what_is_wanted_settles_a_doubtful_spelling(dimension, text) -> None:
    quantity, problems = read(text, dimension)
    assert problems == () and quantity.dimension == dimension


def test_a_text_that_the_file_spells_otherwise_is_marked_whole() -> None:
    file = TextFile("fuel.yaml", 'capacity: "22  galons"')
    span = Span(file, 10, 22)
    assert read_quantity("22 galons", span)[1][0].span == span


@pytest.mark.parametrize("words, name", [("galons", "gal"), ("pouns per square inch", "lb/sq in"), ("vlots", "V")])
def test_the_nearest_unit(words, name) -> None:
    assert nearest_unit(words).name == name


def test_no_unit_is_near_to_nonsense() -> None:
    assert nearest_unit("qqqqqqq") is None


@given(quantities())
def test_what_is_printed_reads_back(quantity: Quantity) -> None:
    again, problems = read(printed(quantity), quantity.dimension)
    assert problems == ()
    ends = (again.low, again.value, again.high)
    assert ends == pytest.approx((quantity.low, quantity.value, quantity.high), rel=1e-11, abs=1e-9)
    assert (again.unit, again.datum) == (quantity.unit, quantity.datum)


@given(quantities(), st.sampled_from(["", " absolute", " gauge"]))
def test_the_datum_reads_back(quantity: Quantity, datum: str) -> None:
    first, problems = read(quantity.text + datum)
    if quantity.dimension != "pressure" and datum:
        assert [problem.code for problem in problems] == ["Q110"]
        return
    assert first.datum == (datum.strip() or quantity.unit.datum)
    assert read(printed(first))[0].datum == first.datum


@given(st.text(alphabet=st.sampled_from("0123456789.,/½-–+± toandgalbsqin/%°eE()xN"), max_size=30))
def test_whatever_is_typed_gives_a_quantity_or_one_problem(text: str) -> None:
    quantity, problems = read(text)
    assert (quantity is None) == (len(problems) == 1)
    for problem in problems:
        assert 0 <= problem.span.start <= problem.span.end <= len(text)
        assert problem.message and problem.hint


@given(st.sampled_from(UNITS), st.text(max_size=12))
def test_any_text_behind_a_figure_is_answered(unit, text: str) -> None:
    quantity, problems = read(f"3 {text}", unit.dimension)
    assert (quantity is None) == (len(problems) == 1)
