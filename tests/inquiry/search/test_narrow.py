"""The narrow machine on the Turnstone says of every single failure what the whole one says."""

from pathlib import Path

import pytest

from cutaway.api.asking import Asked, base_for, opened
from cutaway.inquiry.search.changed import changed
from cutaway.inquiry.search.changes import Alteration
from cutaway.inquiry.search.minimal import Bound, Search, minimal_sets
from cutaway.inquiry.search.narrow import Narrow
from cutaway.inquiry.search.trying import Trying, holds
from cutaway.inquiry.search.universe import universe
from cutaway.inquiry.verdicts import Undecided

TURNSTONE = Path(__file__).parents[3] / "demo" / "turnstone"
CASES = (
    ("flying instruments", "cruising"),
    ("petrol to the port engine", "cruising"),
    ("wheels down and locked", "taxying"),
    ("port leg green lamp is lit", "museum display"),
)


@pytest.mark.parametrize(("statement", "situation"), CASES)
def test_every_single_failure_comes_to_the_same(statement: str, situation: str) -> None:
    here, _ = opened(TURNSTONE)
    assert here is not None
    base, _, problems = base_for(here.loaded, here.workshop, Asked(statement, situation))
    assert base is not None, problems
    looked = holds(base).looked
    assert not isinstance(looked, Undecided) and looked.decision.holds
    within = universe(base, frozenset({"failure"}))
    narrow = Narrow.of(base, within)
    assert narrow is not None and len(narrow.network.elements) < len(base.made.network.elements)
    singles = [frozenset[Alteration]({one}) for one in within]
    whole = Trying(base, wanted=False)(singles)
    assert None not in whole
    assert narrow.does([changed(base, one) for one in singles], wanted=False) == whole
    search: Search[Alteration] = Search()
    trying = Trying(base, False, within)
    found = set(minimal_sets(within, trying, Bound(1), search, can_matter=trying.can_matter))
    assert found == {one for one, does in zip(singles, whole, strict=True) if does}
