"""How long the iced doors take by hand, worked out from their volumes and the pump's strokes, and then put to them.

Nothing here knows the part library: the figures are those of the folder, the sum is what a fitter would do on paper.
"""

from pathlib import Path

import pytest
from ruamel.yaml import YAML

from cutaway.inquiry.check import judge
from cutaway.inquiry.verdicts import Fails, Holds
from cutaway.language.parse import parse_claim
from cutaway.problems.span import TextFile, whole
from tests.trade.test_trade import HERE, opened

FOLDER = HERE / "02-iced-doors"
BY_HAND = "after doors selector to down then hand pump to pumping"


def figures(folder: Path) -> dict[str, dict[str, float]]:
    """The plain numbers of the folder's hydraulic parts, without their units."""
    parts = YAML(typ="safe").load((folder / "systems" / "hydraulics.yaml").read_text(encoding="utf-8"))["parts"]
    return {
        name: {key: float(value.split()[0]) for key, value in part.items() if str(value)[:1].isdigit()}
        for name, part in parts.items()
    }


def minutes(iced: bool) -> float:
    """Cubic inches that the accumulator and the jack take, over those of a minute's strokes."""
    parts = figures(FOLDER)
    jack, accumulator, pump = parts["door jack"], parts["accumulator"], parts["hand pump"]
    pressure = (jack["friction"] + (jack["ice load"] if iced else 0.0)) / jack["area"]
    into_accumulator = max(0.0, accumulator["volume"] * (1.0 - accumulator["air pressure"] / pressure))
    into_jack = 0.98 * jack["stroke"] * jack["area"]  # doors count as open at 98 %
    return (into_accumulator + into_jack) / (pump["stroke"] * pump["rate"])


@pytest.mark.parametrize("iced", [False, True])
def test_the_doors_are_open_when_the_sum_says_so(iced: bool) -> None:
    loaded, workshop = opened(FOLDER)
    expected = minutes(iced)
    assert 2.0 < expected < 3.0
    scope = "in standing, with door jack iced" if iced else "in standing"
    for text, holds in (
        (f"{scope}, {BY_HAND}, within {1.02 * expected:.4f} min: doors are open", True),
        (f"{scope}, {BY_HAND}, within {0.98 * expected:.4f} min: doors are open", False),
    ):
        claim, problems = parse_claim(whole(TextFile("claim", text)), loaded.words)
        assert claim is not None and not problems, problems
        (one,) = judge(claim, workshop, loaded.told, False)
        assert isinstance(one.verdict, Holds if holds else Fails), (text, one.verdict)
