"""What the sheets show in words: each sentence once for all situations in which it is so, and none lost or stale."""

import html
import re
from dataclasses import replace
from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from cutaway.publish.page import page
from cutaway.publish.page_sheets import families, told_once
from cutaway.publish.view import SheetView
from tests.publish.test_page import view_of

NOTICE = "Nobody flies by this."


def sheet(system: str, standard: str, situation: str, number: int = 1) -> SheetView:
    words = (
        f"Sheet of {system} {number} on {standard}.",
        f"{situation}: as it is.",
        f"The lamp of {situation}.",
        NOTICE,
    )
    return SheetView(standard, system, situation, f"sheets/{system}-{standard}-{situation}-{number}.svg", words, "")


EVERY = tuple(
    sheet(system, standard, situation, number)
    for standard, situation, (system, number) in product(
        ("Mk 1", "Mk 2"), ("parked", "cruising", "gliding"), (("Fuel", 1), ("Fuel", 2), ("Vacuum", 1))
    )
)
LISTS = st.lists(st.lists(st.sampled_from("abcdefgh"), unique=True).map(tuple), max_size=5)


@given(LISTS)
def test_every_sentence_is_there_once(several: list[tuple[str, ...]]) -> None:
    found = told_once(several)
    assert len(found) == len(set(found)) and set(found) == {words for one in several for words in one}


@given(st.lists(st.sets(st.integers(0, 9)).map(sorted).map(lambda ns: tuple(map(str, ns))), max_size=5))
def test_lists_that_agree_in_their_order_keep_it(several: list[tuple[str, ...]]) -> None:
    found = told_once([("first", *one, "last") for one in several])
    assert all([words for words in found if words in one] == list(one) for one in several)
    assert not several or (found[0] == "first" and found[-1] == "last")


def test_a_sheet_stands_with_itself_in_other_situations() -> None:
    found = families(EVERY)
    assert [(one.system, one.standard, one.part) for one in found[:3]] == [
        ("Fuel", "Mk 1", ", sheet 1 of 2"),
        ("Fuel", "Mk 1", ", sheet 2 of 2"),
        ("Vacuum", "Mk 1", ""),
    ]
    assert [one.situation for one in found[0].sheets] == ["parked", "cruising", "gliding"]
    assert sorted(s.path for one in found for s in one.sheets) == sorted(s.path for s in EVERY)


def test_every_picture_leads_to_its_own_words_and_none_is_told_twice() -> None:
    made = page(replace(view_of("a"), standards=("Mk 1", "Mk 2"), sheets=EVERY))
    lines = re.findall(r"<li[^>]*>(?:<span class=\"when\">.*?</span><span[^>]*>)?.*?</li>", made)
    assert sum(NOTICE in line for line in lines) == len(families(EVERY))
    words = {ident: html.unescape(text) for ident, text in re.findall(r'id="(w\d+)"[^>]*>([^<]*)<', made)}
    for one in EVERY:
        shown = re.search(rf'<img src="{one.path}" alt="([^"]+)" loading="lazy" aria-describedby="([^"]+)">', made)
        assert shown and one.situation in shown[1]
        assert tuple(words[ident] for ident in shown[2].split()) == one.words
