"""Where lines break: never inside a figure, after a stop rather than after a word that leans."""

from cutaway.narrate.breaking import best_lines, break_cost, pieces
from cutaway.narrate.settings import CAPTIONS_42, CaptionRules


def test_the_order_of_costs() -> None:
    costs = [break_cost(word) for word in ("off.", "off,", "cock", "the")]
    assert costs == sorted(costs)
    assert len(set(costs)) == 4
    assert break_cost('off."') == break_cost("off.")
    assert break_cost("2") == break_cost("the")


def test_lines_break_at_the_comma() -> None:
    words = ("When", "the", "pump", "gives", "up", "altogether,", "the", "lamp", "comes", "on.")
    found = best_lines(words, CAPTIONS_42)
    assert found is not None
    assert found[0] == ("When the pump gives up altogether,", "the lamp comes on.")


def test_what_does_not_fit_is_none() -> None:
    assert best_lines(("x" * 43,), CAPTIONS_42) is None
    assert best_lines(("x" * 30,) * 3, CAPTIONS_42) is None
    assert best_lines(("x" * 30,) * 2, CaptionRules(lines=1)) is None
    assert best_lines(("x" * 42, "y" * 42), CAPTIONS_42) == (("x" * 42, "y" * 42), 3.0)


def test_pieces_keep_what_belongs_together() -> None:
    text = "It lights below 2 lb/sq in, or so."
    assert pieces(text) == ("It", "lights", "below", "2", "lb/sq", "in,", "or", "so.")
    assert pieces(text, [(16, 26)]) == ("It", "lights", "below", "2 lb/sq in,", "or", "so.")
    assert pieces(text, [(16, 17), (18, 23)]) == pieces(text)
    assert pieces("", [(0, 0)]) == ()
