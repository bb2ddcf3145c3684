"""The reference page names everything that a declaration has."""

from cutaway.parts.library import KINDS
from cutaway.parts.reference import parts_page

PAGE = parts_page(KINDS)


def section(name: str) -> str:
    return PAGE.split(f"\n## {name}\n", 1)[1].split("\n## ", 1)[0]


def test_every_kind_with_all_that_it_has() -> None:
    for kind in KINDS.values():
        text = section(kind.name)
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
            *kind.families,
        ]
        assert [one for one in named if one not in text] == []


def test_the_page_is_the_same_each_time_and_in_order() -> None:
    assert parts_page(KINDS) == parts_page(dict(reversed(KINDS.items())))
