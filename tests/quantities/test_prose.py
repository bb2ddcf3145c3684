"""Figures in running text: which are found, and which are names of things."""

import pytest
from hypothesis import given

from cutaway.problems.span import TextFile, whole
from cutaway.quantities.prose import figures_in, same_figure, states
from cutaway.quantities.reading import read_quantity
from tests.strategies import quantities


def q(text):
    return read_quantity(text, whole(TextFile("test", text)))[0]


@pytest.mark.parametrize(
    "text, figures",
    [
        ("It lights below 2 lb./sq. in. On the Mk 2 it is 3 lb.", [(2, "lb/sq in"), (3, "lb")]),
        ("The pump delivers 4½ lb./sq.in. at 1,800 r.p.m.", [(4.5, "lb/sq in"), (1800, "rpm")]),
        ("a 12-volt battery of 20 amp-hours", [(12, "V"), (20, "Ah")]),
        ("twelve volts, twenty-two gallons and half a pint", [(12, "V"), (22, "gal"), (0.5, "pint")]),
        ("four and a half lb. per sq. in.", [(4.5, "lb/sq in")]),
        ("two hundred and fifty gallons, a thousand feet", [(250, "gal"), (1000, "ft")]),
        ("2,500 ft., 60° F. and flaps at 40°", [(2500, "ft"), (60, "°F"), (40, "deg")]),
        ("one pint in 40 seconds", [(1, "pint"), (40, "s")]),
        ("4 in. of travel", [(4, "in")]),
        ("4 in long", [(4, "in")]),
        ("There are 2 in each wing.", []),
        ("Mk 2, Mod. 12, §21, para. 6, A.L. 3, No. 14 and Fig. 2", []),
        ("See No. 14 gal", []),
        ("the 1930s and 1938", []),
        ("at a red lamp, in the second tank", []),
        ("Two tanks.", []),
        ("", []),
    ],
)
def test_figures_with_units(text, figures) -> None:
    assert [(quantity.value, quantity.unit.name) for quantity in figures_in(text)] == figures


@pytest.mark.parametrize("text", ["4.5 to 5.5 in. Hg", "between 4½ and 5½ in. Hg", "5 in. Hg ± 0.5", "4·5–5·5 in.Hg"])
def test_a_range_is_one_figure(text) -> None:
    (found,) = figures_in(text)
    assert (found.low, found.high, found.unit.name) == (4.5, 5.5, "in Hg")


def test_plain_numbers_where_they_are_asked_for() -> None:
    text = "The Mk 2 has two tanks of 11 gal., which 3 men fill (§21)."
    assert [(f.value, f.unit.name) for f in figures_in(text, bare=True)] == [(2, ""), (11, "gal"), (3, "")]


@pytest.mark.parametrize(
    "wanted, text",
    [
        ("4.5 lb/sq in", "The pump delivers at 4½ lb. per sq. in."),
        ("3 lb/sq in", "below three pounds per square inch"),
        ("12 V", "twelve volts"),
        ("5.5 in Hg", "It should read 4.5 to 5.5 in. Hg."),
        ("4.5 to 5.5 in Hg", "between 4½ and 5½ in. Hg"),
        ("2", "There are two tanks."),
        ("1½ cu ft/min", "The compressor gives 1½ cu. ft. of free air a minute."),
    ],
)
def test_a_paragraph_that_states_it(wanted, text) -> None:
    assert states(text, q(wanted))


@pytest.mark.parametrize(
    "wanted, text",
    [
        ("4.5 lb/sq in", "The pump delivers at 4½ in. Hg."),
        ("4.5 lb/sq in", "The pump delivers at 4.6 lb/sq in."),
        ("4.5 lb/sq in", "The pump delivers at 4.5 lb/sq in absolute."),
        ("5 in Hg", "It should read 4.5 to 6 in. Hg."),
        ("4.5 to 5.5 in Hg", "It should read 4.5 in. Hg."),
        ("2", "On the Mk 2."),
        ("1½ cu ft/min", "The compressor gives 2½ cu. ft. of free air a minute."),
        ("1½ cu ft/min", "The bottle holds 1½ cu. ft. of free air for a minute."),
    ],
)
def test_a_paragraph_that_does_not(wanted, text) -> None:
    assert not states(text, q(wanted))


@given(quantities())
def test_what_is_printed_is_found(quantity) -> None:
    found = figures_in(f"It reads {quantity.text}, and no more.")
    assert len(found) == 1 and same_figure(found[0], quantity)
