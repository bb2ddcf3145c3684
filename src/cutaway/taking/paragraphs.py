"""Lines become paragraphs: the book's own numbers where it has them, else numbered in order."""

import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import median

from cutaway.problems.counting import counted
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.taking.headings import title_and_rest
from cutaway.taking.heads import Head, heads_in, in_order, runs
from cutaway.taking.records import PlacedLine, Taken

_AMENDED = re.compile(
    r"[(\[](?:(?:amended|inserted|added)\s+by\s+)?A\.?\s?L\.?\s*(?:No\.?\s*)?(?P<bracket>\d+)[^)\]]*[)\]]"
    r"|\b(?:amended|inserted|added)\s+by\s+A\.?\s?L\.?\s*(?:No\.?\s*)?(?P<plain>\d+)",
    re.IGNORECASE,
)
_CAUTION = re.compile(r"^(?P<word>caution|warning|note)\s*[:.—–-]+\s*", re.IGNORECASE)
_WIDER = 1.35
"""A step from line to line that is so much wider than the usual one has white in it."""


@dataclass(frozen=True, slots=True)
class Run:
    """The paragraphs of one run of numbers; a book that begins anew with 1 has several."""

    paragraphs: tuple[Taken, ...]


def paragraphs_of(lines: tuple[PlacedLine, ...]) -> tuple[tuple[Run, ...], Problems]:
    """All paragraphs; nothing of the text is left out. What stands before the first number becomes paragraph 0."""
    gaps = _gaps(lines)
    words = Counter(word.text.strip(".,;:()").lower() for placed in lines for word in placed.line.words)
    parted, stray = [], []
    for run in runs(heads_in(lines, gaps)):
        kept, out = in_order(run)
        parted.append(kept)
        stray += list(out)
    if sum(len(run) for run in parted) < 2 and not any(head.sure for run in parted for head in run):
        return _unnumbered(lines, gaps, words)
    starts = [run[0].at for run in parted if run]
    made: list[Run] = []
    for place, run in enumerate(parted):
        end = starts[place + 1] if place + 1 < len(starts) else len(lines)
        start = 0 if place == 0 else starts[place]
        made.append(Run(_numbered(lines, gaps, run, start, end, words)))
    return tuple(made), _stray(lines, stray, parted)


def _numbered(
    lines: tuple[PlacedLine, ...],
    gaps: tuple[bool, ...],
    heads: tuple[Head, ...],
    start: int,
    end: int,
    words: Counter[str],
) -> tuple[Taken, ...]:
    made: list[Taken] = []
    if heads[0].at > start:
        before = range(start, heads[0].at)
        made.append(
            _taken("0", "Before the first paragraph", _blocks(lines, gaps, before, words), lines[start : heads[0].at])
        )
    for place, head in enumerate(heads):
        stop = heads[place + 1].at if place + 1 < len(heads) else end
        blocks = _blocks(lines, gaps, range(head.at, stop), words)
        title, first = _headed(lines, head, stop, blocks[0])
        if not first and len(blocks) == 1:
            title, first = "", title
        made.append(_taken(head.name, title, ((first,) if first else ()) + blocks[1:], lines[head.at : stop]))
    return tuple(made)


def _headed(lines: tuple[PlacedLine, ...], head: Head, stop: int, block: str) -> tuple[str, str]:
    """The title and the text after it: a title on a line of its own, or at the head of the first sentence."""
    following = lines[head.at + 1].line.text if head.at + 1 < stop else ""
    usual = median(len(placed.line.text) for placed in lines[head.at + 1 : stop]) if following else 0.0
    title, rest = title_and_rest(head.rest)
    alone = not rest and title and len(head.rest) < 0.75 * max(usual, len(following))
    if alone and following[:1].isupper():
        return title, block[block.index(head.rest) + len(head.rest) :].strip()
    return title_and_rest(_after_number(block))


def _unnumbered(
    lines: tuple[PlacedLine, ...], gaps: tuple[bool, ...], words: Counter[str]
) -> tuple[tuple[Run, ...], Problems]:
    starts = [at for at in range(len(lines)) if gaps[at] or at == 0]
    made = tuple(
        _taken(str(number), "", _blocks(lines, gaps, range(at, stop), words), lines[at:stop])
        for number, (at, stop) in enumerate(zip(starts, [*starts[1:], len(lines)], strict=False), 1)
    )
    if not made:
        return (), ()
    told = Diagnostic(
        "T203",
        None,
        "The paragraphs have no numbers of their own; they were numbered in order.",
        "Where the book is cited by page, cite the number here; its page stands under the heading.",
    )
    return (Run(made),), (told,)


def _taken(number: str, title: str, blocks: tuple[str, ...], lines: tuple[PlacedLine, ...]) -> Taken:
    amended = [int(m["bracket"] or m["plain"]) for block in (title, *blocks) for m in _AMENDED.finditer(block)]
    amendment = f"A.L. {max(amended)}" if amended else ""
    return Taken(number, title, tuple(map(_as_caution, blocks)), lines[0].page, amendment, lines)


def _gaps(lines: Sequence[PlacedLine]) -> tuple[bool, ...]:
    """Whether white stands before each line: said by the file, or seen in the step down the page."""
    steps: dict[int, list[float]] = {}
    for one, two in pairwise(lines):
        step = _step(one, two)
        if step > 0:
            steps.setdefault(two.page, []).append(step)
    # A page with few lines may have white before most of them; in the whole book a third of the steps have none.
    everywhere = sorted(step for some in steps.values() for step in some)[sum(map(len, steps.values())) // 3 :][:1]
    usual = {page: min(median(some), *everywhere) if len(some) < 12 else median(some) for page, some in steps.items()}
    gaps = [bool(lines)]
    for one, two in pairwise(lines):
        wide = _step(one, two) > _WIDER * usual.get(two.page, float("inf"))
        gaps.append(two.line.gap or wide)
    return tuple(gaps)


def _step(one: PlacedLine, two: PlacedLine) -> float:
    placed = one.line.top != one.line.bottom and two.line.top != two.line.bottom
    return two.line.bottom - one.line.bottom if placed and one.page == two.page else 0.0


def _blocks(
    lines: tuple[PlacedLine, ...], gaps: tuple[bool, ...], which: range, words: Counter[str]
) -> tuple[str, ...]:
    """The text of some lines, parted where white stands between, and before a caution."""
    blocks: list[list[str]] = []
    for at in which:
        text = lines[at].line.text
        if not blocks or (gaps[at] and at != which.start) or _CAUTION.match(text):
            blocks.append([text])
        else:
            blocks[-1][-1:] = _joined(blocks[-1][-1], text, words)
    return tuple(" ".join(block) for block in blocks)


def _joined(before: str, after: str, words: Counter[str]) -> list[str]:
    """Two lines as one. A hyphen at the end goes, unless the book has that word with a hyphen elsewhere, or has its
    parts as words of their own and never the whole."""
    if not (len(before) > 1 and before.endswith("-") and before[-2].isalpha() and after[:1].islower()):
        return [before, after]
    first = before.rsplit(maxsplit=1)[-1].lower()
    second = after.split(maxsplit=1)[0].strip(".,;:()").lower()
    one, parts = words[first[:-1] + second], words[first[:-1]] and words[second]
    hyphened = words[first + second] > one or (parts and not one)
    return [before + after if hyphened else before[:-1] + after]


def _after_number(text: str) -> str:
    return re.sub(
        r"^(?:§\s*|para(?:graph|\.)?\s+)?\(?\d{1,4}[a-z]?(?:[.,)\]:]|\s?[—–-])?\s+", "", text, flags=re.IGNORECASE
    )


def _as_caution(block: str) -> str:
    match = _CAUTION.match(block)
    return f"> {match['word'].capitalize()}: {block[match.end() :]}" if match else block


def _stray(lines: tuple[PlacedLine, ...], stray: list[Head], runs: list[tuple[Head, ...]]) -> Problems:
    """Heads out of order are told, since a misread number hides a paragraph in the one before it."""
    told = [
        f"page {lines[head.at].page} '{head.name}. {head.rest[:30].strip()}…'"
        for head in sorted(stray, key=lambda h: h.at)
        if head.sure
    ]
    if not told:
        return ()
    return (
        Diagnostic(
            "T204",
            None,
            f"{counted(len(told), 'number')} at the head of a line that looks like a paragraph "
            f"{'does' if len(told) == 1 else 'do'} not fit the neighbours: "
            f"{'; '.join(told[:6])}{'; …' if len(told) > 6 else ''}. The text stays in the paragraph before.",
            "If one is a paragraph, give it a heading of its own in the file: ## 21 Title",
        ),
    )
