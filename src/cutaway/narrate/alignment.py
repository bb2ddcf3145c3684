"""A script laid beside what was heard: when each word and sentence is said, and where the two part.

What the recogniser makes of a word is no proof of what was said, so a departure is something to check, never a fact.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from rapidfuzz.distance import Levenshtein

from cutaway.narrate.recogniser import Heard
from cutaway.narrate.script_words import SaidWord
from cutaway.narrate.timing import syllables

# So many words in a row must agree to be believed; fewer agree by chance. Choices of ours, from synthetic speech.
_RUN = 3
_SENTENCE_HEARD = 0.4
_SPELT = 0.6
# The slowest that a syllable is likely to be said, s: a sentence's first words are not looked for further back.
_SLOWEST = 0.4

DepartureKind = Literal["not heard", "differs", "left out", "added"]


@dataclass(frozen=True, slots=True)
class TimedWord:
    """A word of the script with its times in s. heard: whether the recogniser heard it, or its time is estimated."""

    said: SaidWord
    start: float
    end: float
    heard: bool


@dataclass(frozen=True, slots=True)
class SentenceTime:
    """When a sentence is said, and how much of it was heard, 0 to 1. words: in order; none if it was not heard."""

    sentence: int
    start: float
    end: float
    share: float
    words: tuple[TimedWord, ...]


@dataclass(frozen=True, slots=True)
class Departure:
    """Where recording and script seem to part. sentence: the one it belongs to, counted from 0; for what was added,
    the one before it (-1: before the first). written, said: the words on either side, in small letters; of_script,
    of_heard: their places in the two lists that were laid beside each other, first and one past the last."""

    kind: DepartureKind
    sentence: int
    start: float
    end: float
    written: str
    said: str
    of_script: tuple[int, int]
    of_heard: tuple[int, int]


@dataclass(frozen=True, slots=True)
class Absent:
    """Sentences in a row that are not in a recording: the first and the last of them, counted from 0."""

    first: int
    last: int


@dataclass(frozen=True, slots=True)
class Alignment:
    """sentences: one record for each sentence of the script. share: how much of the whole script was heard.
    agreed: the places of the heard words that agree with the script. share_agreed: their share of all that was heard.
    absent: what is not in the recording at all, once `set_apart` has told it from what was left out."""

    sentences: tuple[SentenceTime, ...]
    departures: tuple[Departure, ...]
    share: float
    agreed: frozenset[int]
    share_agreed: float = 0.0
    absent: tuple[Absent, ...] = ()


@dataclass(frozen=True, slots=True)
class _Region:
    """Where the two part: the script's words from `first` to `last`, what was heard from `low` to `high`."""

    first: int
    last: int
    low: int
    high: int


def align(script: Sequence[SaidWord], heard: Sequence[Heard], cuts: bool = False) -> Alignment:
    """Lay a script's words beside those heard. Both in order; the script must have words. cuts: whether 'cock pit' for
    'cockpit' is a departure, as it is where both are written."""
    pairs = _pairs(script, heard)
    present = _sentences_heard(script, pairs)
    pairs = {at: to for at, to in pairs.items() if script[at].sentence in present}
    regions = _regions(len(script), len(heard), pairs)
    times = _times(script, heard, pairs, regions, present)
    return Alignment(
        _sentence_times(script, times, present),
        tuple(
            found
            for region in regions
            if cuts or not _same_letters(script, heard, region)
            for found in _departures(script, heard, region, present, cuts)
        ),
        len(pairs) / len(script),
        frozenset(pairs.values()),
        len(pairs) / len(heard) if heard else 0.0,
    )


# --- which words agree ---------------------------------------------------------------------------------------------


def _pairs(script: Sequence[SaidWord], heard: Sequence[Heard]) -> dict[int, int]:
    """Script word to heard word, for those that agree in a run, or alone between two runs that hold them in place."""
    codes = Levenshtein.opcodes([w.word for w in script], [h.word for h in heard])
    blocks = [(c.src_start, c.dest_start, c.src_end - c.src_start) for c in codes if c.tag == "equal"]
    sure = {at + n: to + n for at, to, length in blocks if length >= _RUN for n in range(length)}
    _extend(script, heard, sure)
    taken = set(sure.values())
    for at, to, length in blocks:
        places = [(at + n, to + n) for n in range(length)]
        fresh = not any(a in sure or t in taken for a, t in places)
        if length < _RUN and fresh and _held(at, to, length, sure):
            sure |= dict(places)
            taken |= {t for _, t in places}
    return sure


def _extend(script: Sequence[SaidWord], heard: Sequence[Heard], sure: dict[int, int]) -> None:
    """Let each run reach as far as its neighbours agree: the shortest edit may have paired them with others."""
    taken = set(sure.values())
    for step in (-1, 1):
        for at, to in sorted(sure.items(), reverse=step < 0):
            at, to = at + step, to + step
            while (
                0 <= at < len(script)
                and 0 <= to < len(heard)
                and at not in sure
                and to not in taken
                and script[at].word == heard[to].word
            ):
                sure[at] = to
                taken.add(to)
                at, to = at + step, to + step


def _held(at: int, to: int, length: int, sure: dict[int, int]) -> bool:
    """Whether a short run has a sure word close on one side, at about the same distance in script and recording."""
    near = 4
    for step in range(1, near + 1):
        for other, edge, place in ((at - step, at, to), (at + length - 1 + step, at + length - 1, to + length - 1)):
            if other in sure and abs((sure[other] - place) - (other - edge)) <= 1:
                return True
    return False


def _sentences_heard(script: Sequence[SaidWord], pairs: dict[int, int]) -> frozenset[int]:
    of: dict[int, list[bool]] = {}
    for at, word in enumerate(script):
        of.setdefault(word.sentence, []).append(at in pairs)
    return frozenset(at for at, found in of.items() if sum(found) >= _SENTENCE_HEARD * len(found))


def _regions(script: int, heard: int, pairs: dict[int, int]) -> tuple[_Region, ...]:
    found: list[_Region] = []
    last_at = last_to = -1
    for at, to in (*sorted(pairs.items()), (script, heard)):
        if at - last_at > 1 or to - last_to > 1:
            found.append(_Region(last_at + 1, at, last_to + 1, to))
        last_at, last_to = at, to
    return tuple(found)


# --- when each word is said ----------------------------------------------------------------------------------------


def _times(
    script: Sequence[SaidWord],
    heard: Sequence[Heard],
    pairs: dict[int, int],
    regions: tuple[_Region, ...],
    present: frozenset[int],
) -> dict[int, TimedWord]:
    times = {at: TimedWord(script[at], heard[to].start, heard[to].end, True) for at, to in pairs.items()}
    for region in regions:
        for first, last in _same_sentence(script, region):
            if script[first].sentence in present:
                times |= _estimated(script, heard, first, last, region)
    return times


def _same_sentence(script: Sequence[SaidWord], region: _Region) -> list[tuple[int, int]]:
    """The script's words of a region, cut where a sentence ends."""
    cuts = [at for at in range(region.first + 1, region.last) if script[at].sentence != script[at - 1].sentence]
    edges = [region.first, *cuts, region.last] if region.last > region.first else []
    return list(pairwise(edges))


def _estimated(
    script: Sequence[SaidWord], heard: Sequence[Heard], first: int, last: int, region: _Region
) -> dict[int, TimedWord]:
    """Words that were not made out share the time between their neighbours, by their syllables."""
    weights = [syllables(script[at].word) for at in range(first, last)]
    most = _SLOWEST * sum(weights)
    before = heard[region.low - 1].end if region.low > 0 else None
    after = heard[region.high].start if region.high < len(heard) else None
    begins = first == 0 or script[first - 1].sentence != script[first].sentence
    ends = last == len(script) or script[last].sentence != script[first].sentence
    # Where something was heard in their place, that is when they were said.
    start = heard[region.low].start if region.high > region.low else before
    stop = heard[region.high - 1].end if region.high > region.low else after
    if start is None or (begins and stop is not None and stop - start > most):
        start = max((stop or 0.0) - most, 0.0)
    if stop is None or (ends and stop - start > most):
        stop = start + most
    found: dict[int, TimedWord] = {}
    now, scale = start, max(stop - start, 0.0) / sum(weights)
    for at, weight in zip(range(first, last), weights, strict=True):
        found[at] = TimedWord(script[at], now, now + scale * weight, False)
        now += scale * weight
    return found


def _sentence_times(
    script: Sequence[SaidWord], times: dict[int, TimedWord], present: frozenset[int]
) -> tuple[SentenceTime, ...]:
    of: dict[int, list[int]] = {}
    for at, word in enumerate(script):
        of.setdefault(word.sentence, []).append(at)
    found: list[SentenceTime] = []
    now = 0.0
    for sentence in range(max(of) + 1):
        places = of.get(sentence, [])
        words = tuple(times[at] for at in places) if sentence in present else ()
        share = sum(word.heard for word in words) / len(places) if places else 0.0
        start, end = (words[0].start, words[-1].end) if words else (now, now)
        found.append(SentenceTime(sentence, start, end, share, words))
        now = end
    return tuple(found)


# --- where they part -----------------------------------------------------------------------------------------------


def _owner(script: Sequence[SaidWord], said: str, stretches: list[tuple[int, int]]) -> int:
    """Where the sentence begins with which what was heard goes: one that it nearly spells, else the one of which most
    is in doubt."""
    near = [(Levenshtein.normalized_similarity(_letters(script, *stretch), said), stretch[0]) for stretch in stretches]
    best = max(near)
    return best[1] if best[0] >= _SPELT else max(stretches, key=lambda stretch: stretch[1] - stretch[0])[0]


def _letters(script: Sequence[SaidWord], first: int, last: int) -> str:
    return "".join(word.word for word in script[first:last])


def _same_letters(script: Sequence[SaidWord], heard: Sequence[Heard], region: _Region) -> bool:
    """Whether the two differ only in where a word is cut: 'hand wheel' and 'handwheel'."""
    written = "".join(word.word for word in script[region.first : region.last])
    return written == "".join(word.word for word in heard[region.low : region.high])


def _departures(
    script: Sequence[SaidWord], heard: Sequence[Heard], region: _Region, present: frozenset[int], cuts: bool
) -> list[Departure]:
    said = " ".join(word.word for word in heard[region.low : region.high])
    start = heard[region.low - 1].end if region.low > 0 else 0.0
    end = heard[region.high].start if region.high < len(heard) else heard[-1].end if heard else 0.0
    if region.high > region.low:
        start, end = heard[region.low].start, heard[region.high - 1].end
    stretches = _same_sentence(script, region)
    if not stretches:
        sentence = script[region.first - 1].sentence if region.first else -1
        places = (region.first, region.first), (region.low, region.high)
        return [Departure("added", sentence, start, end, "", said, *places)]
    found: list[Departure] = []
    owner = _owner(script, said.replace(" ", ""), stretches)
    for first, last in stretches:
        sentence = script[first].sentence
        if first == owner and not cuts and _letters(script, first, last) == said.replace(" ", ""):
            continue
        written = " ".join(word.word for word in script[first:last])
        words = said if first == owner else ""
        kind: DepartureKind = "not heard" if sentence not in present else "differs" if words else "left out"
        places = (first, last), ((region.low, region.high) if words else (region.low, region.low))
        found.append(Departure(kind, sentence, start, end, written, words, *places))
    return found
