"""Tables of a book: the unit in the head or in a column of its own, row by row, whole tables taken as one paragraph."""

import pytest

from cutaway.handbook.tables import plain_text
from cutaway.narrate.likely import Ranking
from cutaway.narrate.sentence_first import Comparer
from tests.narrate.sentence_first.folders import loaded, spoken, write

TYPE = "name: Tern\nsays: An invented boat.\nmarks: [Mk 1, Mk 2]\nnotice: On the ground only.\n"
BOOK = """---
title: Tables of the Tern
---

## 1 Leading particulars

| Item | Figure | Unit |
| --- | --- | --- |
| Petrol tank | 60 | gal. |
| Oil tank | 5½ | gal. |
| Tyre pressure | 35 | lb./sq. in. |
| Brake bottle | 450 | lb./sq. in. |

## 2 Settings of the relief valves

| Mark | Oil pressure (lb./sq. in.) | Suction, in. Hg |
| --- | --- | --- |
| Mk 1 | 80 | 4.5 |
| Mk 2 | 90 | 5 |

## 3 Bolts

The bolts of the hull are inspected every month.
"""


@pytest.fixture(scope="module")
def tern(tmp_path_factory) -> Comparer:
    files = {"type.yaml": TYPE, "sources/hb.md": BOOK, "scripts/a.md": "# A\n\nHallo.\n"}
    return Comparer(Ranking(loaded(write(tmp_path_factory.mktemp("tern"), files))))


def verdict(comparer: Comparer, text: str) -> tuple[str, list[str]]:
    (one,) = comparer.script(spoken(text))
    assert one is not None
    return one.verdict, [difference.sort for difference in one.differences]


@pytest.mark.parametrize(
    "text",
    [
        "The oil tank holds five and a half gallons.",
        "The petrol tank holds 60 gallons.",
        "The tyre pressure is thirty-five pounds.",
        "On the Mk 2 the oil pressure is ninety pounds.",
        "On the Mk 1 the suction is 4½ inches of mercury.",
    ],
)
def test_a_figure_of_a_table_is_stated(tern, text) -> None:
    assert verdict(tern, text) == ("stated", [])


@pytest.mark.parametrize(
    "text, sort",
    [
        ("The oil tank holds 60 gallons.", "figure"),
        ("The petrol tank holds 60 pints.", "unit"),
        ("The tyre pressure is 450 lb./sq. in.", "figure"),
        ("On the Mk 1 the oil pressure is ninety pounds.", "mark"),
        ("On the Mk 2 the suction is 6 inches of mercury.", "figure"),
    ],
)
def test_the_figure_of_another_row_is_told(tern, text, sort) -> None:
    assert verdict(tern, text) == ("differs", [sort])


@pytest.mark.parametrize(
    "table, words",
    [
        ("| Tank | Capacity (gal) |\n| --- | --- |\n| Port | 11 |", "Port: Capacity 11 gal"),
        ("| Tank | Capacity in gal |\n| --- | --- |\n| Port | 11 |", "Port: Capacity 11 gal"),
        ("| Tank | gal |\n| --- | --- |\n| Port | 11 |", "Port: 11 gal"),
        ("| Item | Value | Unit |\n| --- | --- | --- |\n| Suction | 4 to 5 | in. Hg |", "Suction: 4 to 5 in. Hg"),
        ("| Item | Value |\n| --- | --- |\n| Suction | 4 in. Hg |", "Suction: 4 in. Hg"),
        ("| A \\| B | Length (ft) |\n| --- | --- |\n| Span | 1,234.5 |", "Span: Length 1,234.5 ft"),
        ("No table, but a | b.", "No table, but a | b."),
    ],
)
def test_a_row_in_words(table, words) -> None:
    assert plain_text(table) == words
