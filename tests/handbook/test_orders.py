"""Figures that must lie one below the other: refused where they do not, on the standards where they do not."""

import pytest

from cutaway.handbook.doubts import own_quantity
from cutaway.machine.fitting import fitted
from cutaway.parts.library import KINDS
from cutaway.quantities.si import low_high_si
from cutaway.quantities.which import StandardName
from tests.handbook.folders import codes, fuel, load_sample

CUT_OUT = "cut-out: {kind: automatic cut-out, cut-in: %s, cut-out: %s}\n"


def told(tmp_path, parts):
    """The messages of H344 of a system with these parts, and the folder; nothing else may be wrong."""
    folder, problems = load_sample(tmp_path, fuel(parts))
    assert set(codes(problems)) <= {"H344"}, [one.message for one in problems]
    return folder, problems


def marked(span):
    """The text at a place."""
    return span.file.text[span.start : span.end]


def test_the_two_figures_their_places_and_what_to_write(tmp_path):
    folder, (problem,) = told(tmp_path, CUT_OUT % ("900 lb/sq in", "800 lb/sq in"))
    assert problem.message == (
        "'cut-in' of cut-out is 900 lb/sq in and 'cut-out' 800 lb/sq in, but cut-in must be below cut-out. A pump that "
        "is let off above one pressure is called back below another."
    )
    assert problem.hint.endswith("changed over: cut-in: 800 lb/sq in, cut-out: 900 lb/sq in")
    assert marked(problem.span) == "900 lb/sq in"
    assert [(marked(span), words) for span, words in problem.also] == [("800 lb/sq in", "'cut-out' is 800 lb/sq in:")]
    assert "cut-out" not in {part.name for part in folder.parts}


def test_the_same_figure_twice_is_no_order_either(tmp_path):
    _, (problem,) = told(tmp_path, CUT_OUT % ("800 lb/sq in", "800 lb/sq in"))
    assert "changed over" not in problem.hint


def test_other_units_are_compared_as_what_they_are(tmp_path):
    assert told(tmp_path, CUT_OUT % ("50 bar", "800 lb/sq in"))[1] == ()


def test_only_on_the_standard_where_it_is_so(tmp_path):
    text = CUT_OUT % ("700 lb/sq in", "[{is: 800 lb/sq in, on: Mk 1}, {is: 600 lb/sq in, on: Mk 2}]")
    _, (problem,) = told(tmp_path, text)
    assert "is 700 lb/sq in and 'cut-out' 600 lb/sq in on Mk 2, but" in problem.message


def test_a_range_that_reaches_across(tmp_path):
    text = CUT_OUT % ("{assume: 700 lb/sq in, between: 600 to 900 lb/sq in, because: A guess.}", "800 lb/sq in")
    _, (problem,) = told(tmp_path, text)
    assert "is 700 lb/sq in (600 to 900 lb/sq in) and" in problem.message and "ranges apart" in problem.hint


@pytest.mark.parametrize(
    "given, says",
    [
        ("relay, pulls in: 5 V", "'pulls in' of one is 5 V and 'drops out' 6 V where nothing is said"),
        ("jack, area: 1 sq in, stroke: 6 in, rod area: 1.2 sq in", "rod area must not be above four fifths of area"),
        ("jack, area: 0.3 sq in, stroke: 6 in", "'rod area' 0.3 sq in where nothing is said"),
        ("one-way restrictor, flow: 14 gal/h", "flow must not be above free flow"),
        ("thermostat, senses: one, makes at: 90 °C", "breaks at must be below makes at"),
    ],
)
def test_one_figure_against_what_is_usual_of_the_other(tmp_path, given, says):
    _, problems = load_sample(tmp_path, fuel(f"one: {{kind: {given}}}\n"))
    (problem,) = [one for one in problems if one.code == "H344"]
    assert says in problem.message


def test_equal_where_that_is_allowed(tmp_path):
    assert told(tmp_path, "hole: {kind: one-way restrictor, flow: 6 gal/h, free flow: 6 gal/h}\n")[1] == ()


def test_the_kinds_own_range_gives_way_to_a_figure(tmp_path):
    """A relay that pulls in at 8 V is not tried with one that lets go at 10 V, and what is tried is what is said."""
    folder, _ = load_sample(tmp_path, fuel("one: {kind: relay, pulls in: 8 V}\n"))
    (part,) = folder.parts
    _, assumed = fitted(part, KINDS["relay"], StandardName("Mk 1"))
    (drops_out,) = [one for one in assumed if one.value == "drops out"]
    assert (drops_out.low, drops_out.high, drops_out.between) == (2.0, pytest.approx(7.96), "2 to 7.96 V")


def test_orders_name_quantities_and_their_usual_figures_keep_them():
    for kind in KINDS.values():
        wants = {want.name: want for want in kind.wants}
        for order in kind.orders:
            assert order.lower in wants and order.upper in wants and order.says.endswith("."), kind.name


def test_the_kinds_own_ranges_lie_apart():
    """Else two assumptions tried together could make a part that cannot be."""
    for kind in KINDS.values():
        wants = {want.name: want for want in kind.wants}
        for order in (one for one in kind.orders if not one.alike):
            low, high = (own_quantity(wants[name].between, wants[name]) for name in (order.lower, order.upper))
            assert low is None or high is None or max(low_high_si(low)) < min(low_high_si(high)), kind.name
