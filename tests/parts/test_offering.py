"""What kinds offer to others: found without a type folder, and enough for everything that takes it."""

import pytest

from cutaway.parts.kind import Coupling, Kind
from cutaway.parts.library import KINDS
from cutaway.parts.offering import signals_offered, signals_taken

TIES = [(kind, one) for kind in KINDS.values() for one in kind.couplings if one.to == "signals"]


def name_of(tie: tuple[Kind, Coupling]) -> str:
    kind, coupling = tie
    return f"{kind.name}, {coupling.name}"


def able(coupling: Coupling) -> list[Kind]:
    return [kind for kind in KINDS.values() if set(coupling.needs) <= signals_offered(kind)]


def test_what_a_kind_offers() -> None:
    assert "position" in signals_offered(KINDS["ground/flight switch"])
    assert "position" not in signals_offered(KINDS["tank"])


@pytest.mark.parametrize("tie", TIES, ids=name_of)
def test_a_kind_says_that_it_needs_all_that_it_takes(tie: tuple[Kind, Coupling]) -> None:
    kind, coupling = tie
    assert signals_taken(kind, coupling.name) <= set(coupling.needs)
    assert able(coupling), "no kind could ever be tied so"


@pytest.mark.parametrize("tie", [tie for tie in TIES if tie[1].back], ids=name_of)
def test_what_is_seen_from_the_other_end_is_there(tie: tuple[Kind, Coupling]) -> None:
    kind, coupling = tie
    for other in able(coupling):
        assert signals_taken(other, coupling.back) <= signals_offered(kind), other.name


def test_what_senses_a_port_says_what_that_may_carry() -> None:
    """A voltage shown as a pressure would be a figure that nobody could account for."""
    silent = [kind.name for kind in KINDS.values() for one in kind.couplings if one.to == "node" and not one.media]
    assert silent == []
