"""Lines become paragraphs: the book's own numbers where it has them, else numbered in order."""

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import median

from cutaway.problems.counting import counted
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.taking.between import Between, between, in_sections, under_labels
from cutaway.taking.headings import title_and_rest
from cutaway.taking.heads import Head, heads_in, in_order, runs
from cutaway.taking.records import PlacedLine, Taken

_CAUTION = re.compile(r"^(?P<word>caution|warning|note)\s*[:.—–-]+\s*", re.IGNORECASE)
_WIDER = 1.35
"""A step from line to line that is so much wider than the usual one has white in it."""


_FULL = 0.8
"""Of a book's lines the longest fifth reach the margin."""
LIST = "Amendment list"


@dataclass(frozen=True, slots=True)
class Run:
    """The paragraphs of one run of numbers; a book that begins anew with 1 has several. labels: the lines above
    paragraphs that name an amendment and nothing else."""

    paragraphs: tuple[Taken, ...]
    labels: tuple[PlacedLine, ...] = ()


@dataclass(frozen=True, slots=True)
class _Lines:
    """All lines of the book. gaps: whether white stands before each; words: how often each word stands in it; width:
    the length of a line that is full."""

    all: tuple[PlacedLine, ...]
    gaps: tuple[bool, ...]
    words: Counter[str]
    between: Between
    width: int = 0

    def taken(self, number: str, title: str, start: int, stop: int) -> Taken:
        """A paragraph of some lines, whatever their first one says."""
        lines = self.all[start:stop]
        blocks = _blocks(self.all, self.gaps, range(start, stop), self.words)
        return Taken(number, title, tuple(map(_as_caution, blocks)), lines[0].page, lines=lines)


def paragraphs_of(lines: tuple[PlacedLine, ...]) -> tuple[tuple[Run, ...], Problems]:
    """All paragraphs; nothing of the text is left out. What stands before the first number becomes paragraph 0."""
    gaps = _gaps(lines)
    words = Counter(word.text.strip(".,;:()").lower() for placed in lines for word in placed.line.words)
    heads = heads_in(lines, gaps)
    there = between(lines, gaps, heads)
    under = under_labels(heads, there)
    parted, stray = [], []
    for run in runs(heads):
        kept, out = _in_order(run, under)
        parted.append(kept)
        stray += list(out)
    if sum(len(run) for run in parted) < 2 and not any(head.sure for run in parted for head in run):
        return _unnumbered(lines, gaps, words)
    lengths = sorted(len(placed.line.text) for placed in lines)
    book = _Lines(lines, gaps, words, there, lengths[int(_FULL * len(lengths))])
    starts = [run[0].at for run in parted if run]
    made: list[Run] = []
    for place, run in enumerate(parted):
        end = starts[place + 1] if place + 1 < len(starts) else len(lines)
        start = 0 if place == 0 else starts[place]
        labels = tuple(lines[at] for at in there.labels if start <= at < end)
        made.append(Run(_numbered(book, run, start, end, under), labels))
    return tuple(made), _stray(lines, stray, parted)


def _in_order(run: tuple[Head, ...], under: Mapping[int, int]) -> tuple[tuple[Head, ...], tuple[Head, ...]]:
    """The heads of paragraphs in the order of the text, and those that are none.

    Those that amendments brought have a letter, and may all stand at the end of the book.
    """
    plain, _ = in_order(tuple(head for head in run if not head.letter))
    lettered = tuple(head for head in run if head.letter)
    if len(plain) < len(lettered):
        plain, _ = in_order(tuple(head for head in run if head.at not in under or not head.letter))
        lettered = tuple(head for head in lettered if head not in plain)
    kept = list(plain)
    for head in lettered:
        before = max((h for h in kept if h.at < head.at), key=lambda h: h.at, default=None)
        after = min((h for h in kept if h.at > head.at), key=lambda h: h.at, default=None)
        fits = (before is None or before.rank < head.rank) and (after is None or head.rank < after.rank)
        alters = head.sure and after is None and head.number in {h.number for h in kept}
        if head.at in under or ((fits or alters) and head.name not in {h.name for h in kept}):
            kept.append(head)
    once = {head.name: head for head in reversed(kept)}
    kept = sorted(once.values(), key=lambda h: h.at)
    return tuple(kept), tuple(head for head in run if head not in kept)


def _numbered(
    book: _Lines, heads: tuple[Head, ...], start: int, end: int, under: Mapping[int, int]
) -> tuple[Taken, ...]:
    made: list[Taken] = []
    sections = in_sections(heads, book.between)
    first = book.between.stop(start - 1, heads[0].at)
    if first > start:
        made.append(book.taken("0", "Before the first paragraph", start, first))
    for place, head in enumerate(heads):
        following = heads[place + 1].at if place + 1 < len(heads) else end
        stop = book.between.stop(head.at, following)
        blocks = _blocks(book.all, book.gaps, range(head.at, stop), book.words)
        title, text = _headed(book, head, stop, blocks[0])
        if not text and len(blocks) == 1:
            title, text = "", title
        blocks = ((text,) if text else ()) + blocks[1:]
        label = book.all[under[head.at]].line.text if head.at in under else ""
        section = book.all[sections[head.at]].line.text if head.at in sections else ""
        lines = book.all[head.at : stop]
        made.append(
            Taken(
                head.name,
                title,
                tuple(map(_as_caution, blocks)),
                lines[0].page,
                lines=lines,
                under=label,
                section=section,
            )
        )
    made.sort(key=lambda taken: (int(re.sub(r"\D", "", taken.number)), re.sub(r"\d", "", taken.number)))
    for at in (at for at in book.between.lists if start <= at < end):
        number = 1 + max(int(re.sub(r"\D", "", taken.number)) for taken in made)
        stop = min((head.at for head in heads if head.at > at), default=end)
        made.append(book.taken(str(number), LIST, at, stop))
    return tuple(made)


def _headed(book: _Lines, head: Head, stop: int, block: str) -> tuple[str, str]:
    """The title and the text after it: a title on a line of its own, or at the head of the first sentence."""
    following = book.all[head.at + 1].line.text if head.at + 1 < stop else ""
    usual = median(len(placed.line.text) for placed in book.all[head.at + 1 : stop]) if following else 0.0
    title, rest = title_and_rest(head.rest)
    alone = not rest and title and len(head.rest) < 0.75 * max(usual, len(following), book.width)
    if alone and following.lstrip("[(\"'“‘")[:1].isupper():
        return title, block[block.index(head.rest) + len(head.rest) :].strip()
    return title_and_rest(_after_number(block))


def _unnumbered(
    lines: tuple[PlacedLine, ...], gaps: tuple[bool, ...], words: Counter[str]
) -> tuple[tuple[Run, ...], Problems]:
    book = _Lines(lines, gaps, words, Between())
    starts = [at for at in range(len(lines)) if gaps[at] or at == 0]
    made = tuple(
        book.taken(str(number), "", at, stop)
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
