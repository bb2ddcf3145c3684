"""A part that is of one kind on one mark and of another on the next: what is said of it fits whichever it is there."""

import pytest

from cutaway.inquiry.verdicts import Fails, Holds, NotModelled
from cutaway.language.parse import parse_claim
from cutaway.language.print_back import printed_claim
from cutaway.problems.span import TextFile, whole
from tests.inquiry.folders import Folder, folder_at, system

FILES = {
    "type.yaml": "name: Wren\nmarks: [Mk 1, Mk 2]\n",
    "systems/small.yaml": system(
        """
tank: {kind: tank, capacity: 4 gal}
pump: {kind: hand fuel pump}
valve: {kind: fuel relief valve, set at: 2 lb/sq in}
needle: [{kind: fuel pressure gauge, senses: valve.inlet, on: Mk 1}, {kind: contents gauge, reads: tank, on: Mk 2}]
vessel:
  - {kind: reservoir, capacity: 1 gal, on: Mk 1}
  - {kind: accumulator, volume: 40 cu in, air pressure: 500 lb/sq in, on: Mk 2}
""",
        """
tank > pump > valve
valve.outlet > tank.outlet
""",
    ),
    "situations.yaml": "situations:\n  standing: {start: {tank: 3 gal}, settle: 10 s}\n",
}


@pytest.fixture(scope="module")
def wren(tmp_path_factory: pytest.TempPathFactory) -> Folder:
    return folder_at(tmp_path_factory.mktemp("wren"), FILES)


def test_a_figure_is_read_where_it_fits_and_not_modelled_where_it_does_not(wren: Folder) -> None:
    contents, pressure = "in standing: needle reads 3 gal ± 0.2", "in standing: needle reads 0.5 lb/sq in ± 0.2"
    assert isinstance(wren.verdict(contents, "Mk 2"), Holds)
    assert isinstance(wren.verdict(pressure, "Mk 1"), Holds)
    assert isinstance(wren.verdict("in standing: needle reads 2 gal ± 0.2", "Mk 2"), Fails)
    assert wren.verdict(contents, "Mk 1") == NotModelled(("a reading of needle such as 3 gal ± 0.2",))
    assert wren.verdict(pressure, "Mk 2") == NotModelled(("a reading of needle such as 0.5 lb/sq in ± 0.2",))


def test_what_neither_can_read_is_told(wren: Folder) -> None:
    claim, problems = parse_claim(whole(TextFile("claim", "needle reads 3 V")), wren.loaded.words)
    assert claim is None and [p.code for p in problems] == ["Q105"]


def test_a_word_that_is_a_state_of_one_and_the_opposite_of_another(wren: Folder) -> None:
    """'empty' is a reservoir's own word, and what an accumulator is that is not 'charged'."""
    assert isinstance(wren.verdict("in standing: vessel is empty", "Mk 2"), Holds)
    assert isinstance(wren.verdict("in standing: vessel is not empty", "Mk 2"), Fails)
    assert isinstance(wren.verdict("in standing: vessel is charged", "Mk 2"), Fails)
    assert isinstance(wren.verdict("in standing: vessel is charged", "Mk 1"), NotModelled)
    one = wren.verdict("in standing: vessel is empty", "Mk 1")
    other = wren.verdict("in standing: vessel is not empty", "Mk 1")
    assert {type(one), type(other)} == {Holds, Fails}


@pytest.mark.parametrize("text", ["in standing: needle is above 2 gal", "in standing: vessel is not empty"])
def test_it_is_printed_and_read_again_as_it_was(wren: Folder, text: str) -> None:
    assert printed_claim(wren.claim(text)) == text
