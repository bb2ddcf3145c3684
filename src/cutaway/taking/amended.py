"""The amendment that put a paragraph in: written where its own words say so plainly, else asked of a person."""

import re
from collections.abc import Mapping
from dataclasses import replace

from cutaway.handbook.names import fold
from cutaway.taking.amending import NAMED, Listed, is_list, listed, name_of
from cutaway.taking.confirming import NO, RIGHT, Answer
from cutaway.taking.records import Proposal, Taken

_BY = r"(?i:(?:(?:as\s+)?(?:amended|inserted|added)\s+)?(?:by\s+)?)"
_BRACKET = rf"[(\[]\s*{_BY}{NAMED}[^)\]]*[)\]]"
# In a heading, or at the beginning or the end of what stands under it.
_IN_TITLE = (re.compile(_BRACKET), re.compile(rf"(?:^|[,;:.]\s*|\s[—–-]\s*){_BY}{NAMED}\s*[.:]?$"))
_OPENING = (re.compile(rf"^{_BRACKET}"), re.compile(rf"^{NAMED}\s*(?:[:—–]|\.(?=\s+[\"'“‘(]?[A-Z]))"))
_CLOSING = (re.compile(rf"{_BRACKET}\s*\.?$"),)
_OF_THIS = re.compile(rf"\b(?i:this\s+paragraph\s+(?:is|was)\s+)?(?i:amended|inserted|added)\s+by\s+{NAMED}")
_OTHER = re.compile(r"(?i:§|\bpara(?:graph)?s?\.?)\s*\d+[a-z]?\W[^.]{0,40}$")
_NAMED = re.compile(NAMED)


def with_amendments(
    runs: tuple[tuple[Taken, ...], ...], answers: tuple[Answer, ...], labels: tuple[str, ...] = ()
) -> tuple[tuple[tuple[Taken, ...], ...], tuple[Proposal, ...], tuple[Listed, ...]]:
    """The paragraphs with their amendment, what a person is asked of, and the amendments that the book dates.

    labels: lines that name an amendment above the paragraphs which it brought.
    """
    known = {(answer.id, fold(answer.read)): answer for answer in answers}
    in_book = listed((*labels, *(text for run in runs for taken in run for text in (taken.title, *taken.blocks))))
    brought = {number: one.name for one in in_book for number in one.brought}
    proposals: list[Proposal] = []
    done: list[tuple[Taken, ...]] = []
    for at, run in enumerate(runs, 1):
        made: list[Taken] = []
        for taken in run:
            name, one = _amendment(taken, f"al-{taken.number}" if at == 1 else f"al-{at}-{taken.number}", brought)
            if one is not None:
                answer = known.get((one.id, fold(one.words)))
                one = replace(one, answer=answer.answer if answer is not None else "")
                proposals.append(one)
                name = _chosen(one)
            made.append(replace(taken, amendment=name))
        done.append(tuple(made))
    return tuple(done), tuple(proposals), in_book


def _amendment(taken: Taken, id: str, brought: Mapping[str, str]) -> tuple[str, Proposal | None]:
    """The amendment that a paragraph is surely of, else what to ask of it."""
    blocks = [block.removeprefix("> ") for block in taken.blocks if not block.startswith("|")]
    if taken.amendment or is_list(taken.title, " ".join(blocks)):
        return taken.amendment, None
    sure = _sure(taken.title, blocks)
    if sure:
        return sure, None
    if taken.under or taken.number in brought:
        # A letter is how an amendment puts a paragraph beside the one that it alters.
        name = name_of(taken.under) or brought[taken.number]
        if taken.number[-1:].isalpha():
            return name, None
        words, why = taken.under, "that line stands above it"
        if not words:
            words, why = f"{name}: paragraph {taken.number}", "the list of amendments says so"
        return "", _asked(taken, id, words, name, why)
    for text in (taken.title, *blocks):
        found = _NAMED.search(text)
        if found is not None:
            words = text[max(0, found.start() - 40) : found.end() + 30].strip()
            why = f"the text names {name_of(found[0])}; is this paragraph its?"
            return "", _asked(taken, id, words, name_of(found[0]), why)
    return "", None


def _sure(title: str, blocks: list[str]) -> str:
    """The latest of the amendments that the words plainly say are the paragraph's own."""
    found = [m for pattern in _IN_TITLE for m in pattern.finditer(title)]
    found += [m for pattern in _OPENING for m in pattern.finditer(blocks[0] if blocks else "")]
    found += [m for pattern in _CLOSING for block in blocks for m in pattern.finditer(block)]
    found += [m for block in blocks for m in _OF_THIS.finditer(block) if not _OTHER.search(block[: m.start()])]
    numbers = [int(m["number"]) for m in found]
    return f"A.L. {max(numbers)}" if numbers else ""


def _asked(taken: Taken, id: str, words: str, name: str, why: str) -> Proposal:
    return Proposal(id, taken.number, taken.page, words, name, sure=False, why=why, asks="amendment")


def _chosen(one: Proposal) -> str:
    """What is written: a person's answer, else nothing."""
    said = fold(one.answer)
    if said in NO or not said:
        return ""
    return one.on if said in RIGHT else name_of(one.answer) or one.answer
