"""Repairs for captions that a machine made: what it misheard of the trade's words, each with the reason.

A repair is a proposal. Only the text that it names is touched when a person has said yes to it.
"""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from cutaway.narrate.breaking import LEANING
from cutaway.narrate.caption_reading import ReadCue, without_tags
from cutaway.narrate.pronounce import Dictionary, said
from cutaway.narrate.sounding import Sound, alike, sound_of
from cutaway.narrate.trade_words import TradeWord
from cutaway.narrate.unit_slips import slips_in

# Tuned on the lines TUNED_ON of the tests, not on those held apart.
_LIKELY = 0.62
_PROPOSED = 0.86
_EVIDENCE = 0.12
_ONE_RIGHT = 0.10
_NONE = -0.25
_REST = 0.62

_TOKEN = re.compile(r"[A-Za-z]+(?:['’][A-Za-z]+)*|[0-9][0-9,.]*[0-9]|[0-9]")
_BARRIER = re.compile(r"[.,;:!?()\"“”\[\]…–—£$%&<>{}]")


@dataclass(frozen=True, slots=True)
class Repair:
    """start, end: offsets in the captions' file. said: the text there. written: what to put in its place.
    reason: why, for a person to judge. score: how sure, 0 to about 1.4."""

    number: int
    cue: int
    start: int
    end: int
    said: str
    written: str
    reason: str
    score: float


@dataclass(frozen=True, slots=True)
class _Token:
    word: str
    start: int
    end: int
    stretch: int
    """Counts the stretches between punctuation, which no window crosses."""


@dataclass(frozen=True, slots=True)
class _Said:
    """A trade word with how it sounds; plural: with an s."""

    trade: TradeWord
    words: tuple[str, ...]
    written: str
    sound: Sound


def repairs(cues: tuple[ReadCue, ...], trade: tuple[TradeWord, ...], dictionary: Dictionary) -> tuple[Repair, ...]:
    """What to put right in captions, by the words of the type and by the units; in the order of the captions."""
    tokens = tuple(_tokens(cue) for cue in cues)
    forms = tuple(form for word in trade for form in _forms(word))
    wanted = {token.word for one in tokens for token in one} | {word for _, words, _ in forms for word in words}
    sounds = {word: ways[0] for word, ways in said(sorted(wanted), dictionary).items()}
    known = tuple(_Said(word, words, written, sound_of(words, sounds)) for word, words, written in forms)
    found: list[Repair] = []
    for at, (cue, own) in enumerate(zip(cues, tokens, strict=True)):
        units = tuple(_unit_repairs(at, cue))
        found += [*units, *_trade_repairs(at, cue, own, known, sounds, dictionary, units)]
    return numbered(found)


def numbered(found: Iterable[Repair]) -> tuple[Repair, ...]:
    """Repairs in the order of the file, numbered from 1."""
    ordered = sorted(found, key=lambda one: (one.start, one.end))
    return tuple(replace(one, number=number) for number, one in enumerate(ordered, 1))


def applied(text: str, chosen: Iterable[Repair]) -> str:
    """The text of a captions' file with some repairs made; nothing else in it changes."""
    for one in sorted(chosen, key=lambda one: -one.start):
        line_end = "\n" if "\n" in text[one.start : one.end] else ""
        after = text[one.end :].removeprefix(" ") if line_end else text[one.end :]
        # A repair over a line's end puts its words on the upper line.
        if line_end and after[:1] in ("\n", ""):
            line_end = ""
        text = text[: one.start] + one.written + line_end + after
    return text


# --- units ---------------------------------------------------------------------------------------------------------


def _unit_repairs(at: int, cue: ReadCue) -> Iterable[Repair]:
    plain = without_tags(cue.raw).replace("\n", " ")
    for slip in slips_in(plain):
        start, end = cue.text.start + slip.start, cue.text.start + slip.end
        text = cue.raw[slip.start : slip.end]
        yield Repair(0, at, start, end, text, slip.right, f"a unit: {slip.because}", 1.0)


# --- words of the trade --------------------------------------------------------------------------------------------


def _tokens(cue: ReadCue) -> tuple[_Token, ...]:
    raw = cue.raw
    plain = without_tags(raw)
    found: list[_Token] = []
    stretch = last = 0
    for match in _TOKEN.finditer(plain):
        between = raw[last : match.start()]
        if _BARRIER.search(between):
            stretch += 1
        last = match.end()
        word = match[0].lower().replace("’", "'")
        found.append(_Token(word, cue.text.start + match.start(), cue.text.start + match.end(), stretch))
    return tuple(found)


def _forms(word: TradeWord) -> Iterable[tuple[TradeWord, tuple[str, ...], str]]:
    yield word, word.said, word.written
    last = word.said[-1]
    if word.written.endswith(last) and not last.endswith("s"):
        ending = "es" if last.endswith(("x", "ch", "sh")) else "s"
        yield word, (*word.said[:-1], last + ending), word.written + ending


def _trade_repairs(
    at: int,
    cue: ReadCue,
    tokens: tuple[_Token, ...],
    known: tuple[_Said, ...],
    sounds: Mapping[str, str],
    dictionary: Dictionary,
    units: tuple[Repair, ...],
) -> Iterable[Repair]:
    """The best repairs that do not overlap. Words that are right already are taken first and are left alone."""
    taken = _right_already(tokens, known) | {
        number
        for number, token in enumerate(tokens)
        for one in units
        if token.start < one.end and one.start < token.end
    }
    candidates: list[tuple[float, int, int, int, _Said, tuple[str, ...]]] = []
    words = [token.word for token in tokens]
    for first in range(len(tokens)):
        for last in range(first + 1, min(first + 6, len(tokens)) + 1):
            if last - 1 in taken or first in taken or tokens[last - 1].stretch != tokens[first].stretch:
                break
            window = tuple(words[first:last])
            sound = sound_of(window, sounds)
            around = frozenset(words[:first] + words[last:])
            for one in known:
                if abs(last - first - len(one.words)) > 2 or set(window) <= set(one.words):
                    continue
                score, evidence = _score(window, sound, one, around, sounds, dictionary)
                if score >= _PROPOSED:
                    candidates.append((-score, last - first, first, last, one, evidence))
    candidates.sort(key=lambda c: (c[0], c[1], c[2], c[4].written))
    for cost, _, first, last, one, evidence in candidates:
        if taken & set(range(first, last)):
            continue
        taken |= set(range(first, last))
        start, end = tokens[first].start, tokens[last - 1].end
        text = cue.text.file.text[start:end]
        reason = f"sounds like '{one.written}': " + ", ".join(evidence)
        yield Repair(0, at, start, end, text, _cased(text, one.written), reason, round(-cost, 3))


def _right_already(tokens: tuple[_Token, ...], known: tuple[_Said, ...]) -> set[int]:
    """The words of terms that stand there as they should, written or spelt out."""
    taken: set[int] = set()
    for one in known:
        shapes = {one.words, tuple(re.findall(r"[a-z0-9']+", one.written.lower()))}
        for shape in shapes:
            for first in range(len(tokens) - len(shape) + 1):
                if tuple(token.word for token in tokens[first : first + len(shape)]) == shape:
                    taken |= set(range(first, first + len(shape)))
    return taken


def _score(
    window: tuple[str, ...],
    sound: Sound,
    one: _Said,
    around: frozenset[str],
    sounds: Mapping[str, str],
    dictionary: Dictionary,
) -> tuple[float, tuple[str, ...]]:
    """How likely it is that a window is a misheard trade word, and what speaks for it."""
    likeness = alike(sound, one.sound)
    if likeness < _LIKELY:
        return 0.0, ()
    right = [word for word in window if word in one.words and word not in LEANING]
    if right and not _rest_alike(window, one.words, sounds):
        return 0.0, ()
    score = likeness
    evidence: list[str] = []
    near = sorted(one.trade.near & around)
    if near:
        evidence.append(f"'{near[0]}' stands near, as in the books")
    strange = [word for word in window if word not in dictionary and word.isalpha()]
    if strange:
        evidence.append(f"'{strange[0]}' is no common word")
    if sound.letters == one.sound.letters.replace("-", ""):
        evidence.append("the letters are the same, cut otherwise")
    elif sound.exact == one.sound.exact:
        evidence.append("it is said the same")
    if len(window) == 1 < len(one.words) and len(evidence) == len(near[:1]):
        return 0.0, ()  # a common word is no misheard phrase because of its neighbours: 'marked' is not 'Mk 2'
    score += _EVIDENCE * len(evidence)
    # 'the tank' is no misheard 'header tank': little words must have more against them.
    strong = any(word not in one.words and word not in LEANING for word in window)
    if right and len(one.words) > 1 and (strong or evidence):
        evidence.append(f"'{right[0]}' is right")
        score += _ONE_RIGHT
    return (score, tuple(evidence)) if evidence else (score + _NONE, ())


def _rest_alike(window: tuple[str, ...], words: tuple[str, ...], sounds: Mapping[str, str]) -> bool:
    """Whether what is left on both sides, without the words that are right, sounds alike by itself: 'rather' and
    'rudder', but not 'no' and 'hand'."""
    heard = tuple(word for word in window if word not in words)
    wanted = tuple(word for word in words if word not in window)
    return bool(heard and wanted) and alike(sound_of(heard, sounds), sound_of(wanted, sounds)) >= _REST


def _cased(text: str, written: str) -> str:
    """A capital where the text had one at its beginning: 'Car burettor' at the start of a sentence."""
    if text[:1].isupper() and written[:1].islower() and not text[1:2].isupper():
        return written[:1].upper() + written[1:]
    return written
