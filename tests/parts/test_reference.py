"""The pages of the library name everything that a declaration has."""

from cutaway.parts.laws.elements import FAMILIES
from cutaway.parts.library import KINDS
from cutaway.parts.reference import LAW_OF, kind_page, page_name, parts_page


def test_every_kind_with_all_that_it_has() -> None:
    for kind in KINDS.values():
        text = kind_page(kind)
        assert kind.says in text
        named = [
            *(want.says for want in kind.wants),
            *(want.default or "must be given" for want in kind.wants),
            *(f"**{failure.name}**: {failure.says}" for failure in kind.failures),
            *(f"`{coupling.name}:`" for coupling in kind.couplings),
            *(state.words for state in kind.states),
            *(state.opposite for state in kind.states),
            *(f"- {reading.name}, {reading.unit}" for reading in kind.readings),
            *(position for control in kind.controls for position in control.positions),
            *(f"**{family}**" for family in kind.families),
            *(kind.example.claims if kind.example else ()),
        ]
        assert [one for one in named if one not in text] == []


def test_the_page_is_the_same_each_time_and_in_order() -> None:
    assert parts_page(KINDS) == parts_page(dict(reversed(KINDS.items())))


def test_every_family_has_its_law_and_every_kind_a_page_of_its_own() -> None:
    assert set(LAW_OF) == {family.name for family in FAMILIES}
    assert len({page_name(kind) for kind in KINDS.values()}) == len(KINDS)
    assert all(f"]({page_name(kind)})" in parts_page(KINDS) for kind in KINDS.values())
