"""Captions from a script: where it is split, when each caption stands, and whether it can be read in that time.

The text keeps its written form ('2 lb/sq in'); the time comes from the spoken form ('two pounds per square inch').
One search over all words finds the split whose breaks cost least among those that fit and can be read.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from cutaway.handbook.records import Script, Sentence, Term
from cutaway.narrate.breaking import best_lines, break_cost, kept_together, pieces
from cutaway.narrate.settings import CAPTIONS_42, SPEAKING, CaptionRules, SpeakingRules
from cutaway.narrate.spoken import spoken_form
from cutaway.narrate.timing import Slot, pause_after, speaking_time, timeline
from cutaway.problems.diagnostic import Diagnostic, Problems

# What the search pays, in the units of `break_cost`. What must not be costs so much that only a text which has no
# other way gets it; a break between captions is worse than one between lines, since the first half is gone.
_TOO_FAST = 400.0
_AT_ALL_TOO_FAST = 40.0
_TOO_SHORT = 200.0
_TOO_LONG = 200.0
_NEW_CUE = 2.0
_BETWEEN_CUES = 2.0
_OTHER_SENTENCE = 8.0


PieceTimes = tuple[tuple[float, float], ...]
"""From when to when each piece of a sentence is said, s."""


@dataclass(frozen=True, slots=True)
class Cue:
    """One caption. sentences: the script's sentences in it, counted from 0. cites: the paragraphs behind them."""

    identifier: str
    start: float
    end: float
    lines: tuple[str, ...]
    sentences: tuple[int, ...]
    cites: tuple[str, ...]

    @property
    def speed(self) -> float:
        """Characters a second that a reader must read."""
        return len(" ".join(self.lines)) / (self.end - self.start)


@dataclass(frozen=True, slots=True)
class _Word:
    """One piece that stays together, and when it is spoken; `after` is where the next one begins."""

    text: str
    start: float
    stop: float
    after: float
    sentence: int
    chapter: str


def captions(
    script: Script,
    glossary: tuple[Term, ...],
    cites: Mapping[int, tuple[str, ...]] | None = None,
    rules: CaptionRules = CAPTIONS_42,
    speaking: SpeakingRules = SPEAKING,
    recorded: Mapping[int, PieceTimes] | None = None,
) -> tuple[tuple[Cue, ...], Problems]:
    """The captions of a script, and a problem for each that is faster than can be read or does not fit.

    cites: the paragraphs behind each sentence ('§22'), by its number from 0; without it, those it is marked with.
    recorded: when the pieces of each sentence are said in a recording; a sentence that is not in it has no caption.
    Without it the times are those of reading aloud at the pace of `speaking`.
    """
    planned = recorded is None
    words = _words(script, glossary, speaking) if planned else _recorded_words(script, glossary, recorded or {})
    sources = cites if cites is not None else _own_cites(script)
    cues = tuple(
        _cue(words, first, last, number, script.name, sources, rules)
        for number, (first, last) in enumerate(_split(words, rules), 1)
    )
    problems = tuple(problem for cue in cues for problem in _faults(cue, script.sentences, rules))
    return cues, problems


def _own_cites(script: Script) -> Mapping[int, tuple[str, ...]]:
    return {at: tuple(cite.key for cite in sentence.cites) for at, sentence in enumerate(script.sentences)}


# --- when each word is spoken --------------------------------------------------------------------------------------


def _words(script: Script, glossary: tuple[Term, ...], speaking: SpeakingRules) -> tuple[_Word, ...]:
    slots = timeline(script, glossary, speaking)
    return tuple(
        word
        for at, (sentence, slot) in enumerate(zip(script.sentences, slots, strict=True))
        for word in _words_of(sentence, at, slot, glossary, speaking)
    )


def _words_of(
    sentence: Sentence, at: int, slot: Slot, glossary: tuple[Term, ...], speaking: SpeakingRules
) -> tuple[_Word, ...]:
    """The pieces of one sentence, each with its share of the sentence's time.

    A term of several words can be said in another number of words, so the shares are scaled to the whole.
    """
    texts = pieces(sentence.text, kept_together(sentence.text, glossary))
    forms = tuple(spoken_form(text, glossary) for text in texts)
    pauses = (*(pause_after(form, speaking) for form in forms[:-1]), 0.0)
    spoken = tuple(speaking_time(form, speaking) for form in forms)
    whole = sum(spoken) + sum(pauses)
    scale = (slot.stop - slot.start) / whole if whole > 0 else 0.0
    words: list[_Word] = []
    now = slot.start
    for number, (text, seconds, pause) in enumerate(zip(texts, spoken, pauses, strict=True)):
        stop = now + scale * seconds
        after = slot.next if number == len(texts) - 1 else stop + scale * pause
        words.append(_Word(text, now, stop, after, at, sentence.chapter))
        now = after
    return tuple(words)


def _recorded_words(
    script: Script, glossary: tuple[Term, ...], recorded: Mapping[int, PieceTimes]
) -> tuple[_Word, ...]:
    words: list[_Word] = []
    for at, sentence in enumerate(script.sentences):
        if at not in recorded:
            continue
        texts = pieces(sentence.text, kept_together(sentence.text, glossary))
        for text, (start, stop) in zip(texts, recorded[at], strict=True):
            words.append(_Word(text, start, stop, stop, at, sentence.chapter))
    return tuple(words)


# --- where the script is split -------------------------------------------------------------------------------------


def _split(words: tuple[_Word, ...], rules: CaptionRules) -> tuple[tuple[int, int], ...]:
    """The cheapest split: (first word, one past the last) of each caption."""
    best: list[tuple[float, int]] = [(0.0, 0)] + [(float("inf"), 0)] * len(words)
    for first in range(len(words)):
        for last in _ends(words, first, rules):
            cost = best[first][0] + _cost(words, first, last, rules)
            if cost < best[last][0]:
                best[last] = (cost, first)
    found: list[tuple[int, int]] = []
    last = len(words)
    while last > 0:
        found.append((best[last][1], last))
        last = best[last][1]
    return tuple(reversed(found))


def _ends(words: tuple[_Word, ...], first: int, rules: CaptionRules) -> range:
    """Where a caption that begins at `first` may end: while it can fit, and in one chapter. One word always may."""
    room = rules.lines * rules.line_length + rules.lines - 1
    length = -1
    last = first
    while last < len(words) and words[last].chapter == words[first].chapter:
        length += 1 + len(words[last].text)
        if length > room and last > first:
            break
        last += 1
    return range(first + 1, last + 1)


def _cost(words: tuple[_Word, ...], first: int, last: int, rules: CaptionRules) -> float:
    texts = tuple(word.text for word in words[first:last])
    lines = best_lines(texts, rules)
    if lines is None and last - first > 1:
        return float("inf")
    start, end = _times(words, first, last, rules)
    shown = end - start
    cost = _NEW_CUE + _BETWEEN_CUES * break_cost(texts[-1]) + (lines[1] if lines else _TOO_LONG)
    cost += _OTHER_SENTENCE * (words[last - 1].sentence - words[first].sentence)
    over = len(" ".join(texts)) / shown / rules.fastest - 1.0
    cost += _AT_ALL_TOO_FAST + _TOO_FAST * over if over > 1e-6 else 0.0
    cost += _TOO_SHORT * max(0.0, rules.shortest - shown)
    cost += _TOO_LONG * max(0.0, words[last - 1].stop - start - rules.longest)
    return cost


def _times(words: tuple[_Word, ...], first: int, last: int, rules: CaptionRules) -> tuple[float, float]:
    """A caption stands from its first word until shortly before the next one's, but no longer than the longest, nor
    longer after the last word than it may linger, unless it still has to be read."""
    start = _in_ms(words[first].start)
    latest = start + rules.longest
    if last < len(words):
        length = len(" ".join(word.text for word in words[first:last]))
        read = start + max(rules.shortest, length / rules.fastest)
        latest = min(latest, max(words[last - 1].stop + rules.linger, math.ceil(read * 1000) / 1000))
        # In a recording a word can be shorter than the gap; no caption has no length.
        return start, max(_in_ms(min(latest, _in_ms(words[last].start) - rules.gap)), _in_ms(start + 0.001))
    # Nothing follows the last caption, so it may stand until it has been read.
    length = len(" ".join(word.text for word in words[first:last]))
    read = start + max(rules.shortest, length / rules.fastest)
    return start, _in_ms(min(latest, max(words[last - 1].after, math.ceil(read * 1000) / 1000)))


def _in_ms(seconds: float) -> float:
    """A caption file counts in thousandths of a second, so that is how exactly a caption is placed."""
    return round(seconds, 3)


def _cue(
    words: tuple[_Word, ...],
    first: int,
    last: int,
    number: int,
    name: str,
    cites: Mapping[int, tuple[str, ...]],
    rules: CaptionRules,
) -> Cue:
    texts = tuple(word.text for word in words[first:last])
    lines = best_lines(texts, rules)
    start, end = _times(words, first, last, rules)
    sentences = tuple(dict.fromkeys(word.sentence for word in words[first:last]))
    behind = tuple(dict.fromkeys(cite for at in sentences for cite in cites.get(at, ())))
    return Cue(f"{name}-{number}", start, end, lines[0] if lines else (" ".join(texts),), sentences, behind)


# --- what is wrong with a caption ----------------------------------------------------------------------------------


def _too_long(line: str, most: int) -> str:
    """What helps: a word that is too long itself wants parting; words that are kept together want saying in fewer."""
    if max(map(len, line.split())) > most:
        return "Put a blank or a hyphen in it, or use a shorter word."
    return "Say it in fewer words: a figure with its unit, and the words of a term, are not parted between lines."


def _faults(cue: Cue, sentences: tuple[Sentence, ...], rules: CaptionRules) -> Problems:
    span = sentences[cue.sentences[0]].span
    text = " ".join(cue.lines)
    found: list[Diagnostic] = []
    # Cut at a millionth, since a caption made to be exactly as fast as allowed must not be called too fast.
    if cue.speed > rules.fastest * (1.0 + 1e-6):
        found.append(
            Diagnostic(
                "N301",
                span,
                f"The caption '{text}' is on the screen for {cue.end - cue.start:.1f} s; that is {cue.speed:.1f} "
                f"characters a second, and {rules.fastest:g} can be read.",
                f"Say it in {int(rules.fastest * (cue.end - cue.start))} characters, or add words to the speech.",
            )
        )
    if any(len(line) > rules.line_length for line in cue.lines):
        found.append(
            Diagnostic(
                "N302",
                span,
                f"'{max(cue.lines, key=len)}' does not fit in a caption line of {rules.line_length} characters.",
                _too_long(max(cue.lines, key=len), rules.line_length),
            )
        )
    if cue.end - cue.start < rules.shortest * (1.0 - 1e-6):
        found.append(
            Diagnostic(
                "N303",
                span,
                f"The caption '{text}' is on the screen for {cue.end - cue.start:.1f} s, too short to be seen.",
                "Join the sentence to its neighbour.",
            )
        )
    return tuple(found)
