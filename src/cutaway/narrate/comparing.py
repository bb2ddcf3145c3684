"""Captions laid beside the script that they should give: what was misheard, what was said otherwise than written."""

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace

from cutaway.handbook.records import Script, Term
from cutaway.narrate.alignment import Alignment, Departure, align
from cutaway.narrate.breaking import kept_together
from cutaway.narrate.caption_reading import ReadCue, without_tags
from cutaway.narrate.language_model import NUMBER_WORDS
from cutaway.narrate.pronounce import Dictionary, said
from cutaway.narrate.recogniser import Heard
from cutaway.narrate.repair import Repair, numbered
from cutaway.narrate.same_said import same_said
from cutaway.narrate.script_words import SaidWord, script_words, sentence_pieces, words_said
from cutaway.narrate.sounding import alike, sound_of
from cutaway.narrate.spoken import spoken_form

# So alike must captions and script sound for the one to be the other misheard. A choice of ours.
_MISHEARD = 0.6
_EDGES = "\"'“”‘’()[].,;:!?…–—"


@dataclass(frozen=True, slots=True)
class CaptionWord:
    """A word of a caption as it is said, and where the piece that it belongs to stands in the file."""

    heard: Heard
    cue: int
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Compared:
    """repairs: what sounds like the script and is written otherwise. departures: the rest, to be checked.
    agreed: the places in the file where captions and script say the same."""

    repairs: tuple[Repair, ...]
    departures: tuple[Departure, ...]
    agreed: tuple[tuple[int, int], ...]
    share: float


def compare(cues: tuple[ReadCue, ...], script: Script, glossary: tuple[Term, ...], dictionary: Dictionary) -> Compared:
    """What captions and script make of each other; both must have words."""
    words = caption_words(cues, glossary)
    written = script_words(script.sentences, glossary)
    found = align(written, tuple(word.heard for word in words), cuts=True)
    proposed: list[Repair] = []
    left: list[Departure] = []
    for one in found.departures:
        as_letters = one.written.replace(" ", "") == one.said.replace(" ", "")
        if same_said(one.written, one.said) and not as_letters:
            continue
        repair = _repair(_widened(one, words, written), cues, words, written, script, glossary, dictionary)
        if repair is not None:
            proposed.append(repair)
        elif not as_letters:
            left.append(one)
    return Compared(numbered(proposed), tuple(left), _agreed(found, words), found.share)


def caption_words(cues: tuple[ReadCue, ...], glossary: tuple[Term, ...]) -> tuple[CaptionWord, ...]:
    """The words of captions as they are said, each with a share of its caption's time."""
    found: list[CaptionWord] = []
    for at, cue in enumerate(cues):
        plain = without_tags(cue.raw).replace("\n", " ")
        spoken = [
            (word, start, end) for start, end in _places(plain, glossary)
            for word in words_said(spoken_form(plain[start:end], glossary))
        ]  # fmt: skip
        length = max(cue.end - cue.start, 0.0) / max(len(spoken), 1)
        for number, (word, start, end) in enumerate(spoken):
            heard = Heard(word, cue.start + number * length, cue.start + (number + 1) * length)
            found.append(CaptionWord(heard, at, cue.text.start + start, cue.text.start + end))
    return tuple(found)


def _places(plain: str, glossary: tuple[Term, ...]) -> Iterable[tuple[int, int]]:
    """Where the pieces of a caption stand, without the punctuation around them."""
    kept = kept_together(plain, glossary)
    runs: list[tuple[int, int]] = []
    for match in re.finditer(r"\S+", plain):
        if runs and any(start < runs[-1][1] and match.start() < end for start, end in kept):
            runs[-1] = (runs[-1][0], match.end())
        else:
            runs.append(match.span())
    for start, end in runs:
        text = plain[start:end]
        left = len(text) - len(text.lstrip(_EDGES))
        right = len(text.rstrip(_EDGES))
        yield (start + left, start + right) if right > left else (start, end)


def _agreed(found: Alignment, words: tuple[CaptionWord, ...]) -> tuple[tuple[int, int], ...]:
    return tuple((words[at].start, words[at].end) for at in sorted(found.agreed))


def _repair(
    one: Departure,
    cues: tuple[ReadCue, ...],
    words: tuple[CaptionWord, ...],
    written: tuple[SaidWord, ...],
    script: Script,
    glossary: tuple[Term, ...],
    dictionary: Dictionary,
) -> Repair | None:
    """The departure as a repair, if both sides are whole pieces of one caption and one sentence and sound alike."""
    heard, own = words[slice(*one.of_heard)], written[slice(*one.of_script)]
    if one.kind != "differs" or heard[0].cue != heard[-1].cue or not _whole(one, words, written):
        return None
    sides = tuple(w.heard.word for w in heard), tuple(w.word for w in own)
    sounds = {word: ways[0] for word, ways in said((*sides[0], *sides[1]), dictionary).items()}
    if _other_figures(*sides):
        return None  # perhaps it was said so: a person has to listen
    score = alike(sound_of(sides[0], sounds), sound_of(sides[1], sounds))
    if score < _MISHEARD and "".join(sides[0]) != "".join(sides[1]):
        return None
    pieces = sentence_pieces(script.sentences[one.sentence].text, glossary)
    right = " ".join(pieces[own[0].piece : own[-1].piece + 1]).strip(_EDGES)
    start, end = heard[0].start, heard[-1].end
    text = cues[heard[0].cue].text.file.text[start:end]
    reason = f"the script has '{right}' here, and it sounds like that"
    return Repair(0, heard[0].cue, start, end, text, right, reason, round(1.0 + score, 3))


def _one_piece(at: int, to: int, words: tuple[CaptionWord, ...], written: tuple[SaidWord, ...]) -> bool:
    """Whether the words before and at these places belong together, in the script or in the captions."""
    before, after = written[at - 1], written[at]
    together = (before.sentence, before.piece) == (after.sentence, after.piece)
    return together or words[to - 1].start == words[to].start


def _other_figures(heard: tuple[str, ...], written: tuple[str, ...]) -> bool:
    """Whether both sides have figures, and others."""
    said, own = (tuple(word for word in side if word in NUMBER_WORDS) for side in (heard, written))
    return bool(said and own) and said != own


def _widened(one: Departure, words: tuple[CaptionWord, ...], written: tuple[SaidWord, ...]) -> Departure:
    """The departure with the words around it that agree and belong to the same piece: 'petrol clock' for 'clock',
    where the script has 'petrol cock' as one."""
    (first, last), (low, high) = one.of_script, one.of_heard

    while (
        0 < first < len(written)
        and 0 < low < len(words)
        and written[first - 1].word == words[low - 1].heard.word
        and _one_piece(first, low, words, written)
    ):
        first, low = first - 1, low - 1
    while (
        0 < last < len(written)
        and 0 < high < len(words)
        and written[last].word == words[high].heard.word
        and _one_piece(last, high, words, written)
    ):
        last, high = last + 1, high + 1
    return replace(one, of_script=(first, last), of_heard=(low, high))


def _whole(one: Departure, words: tuple[CaptionWord, ...], written: tuple[SaidWord, ...]) -> bool:
    """Whether neither side begins or ends inside a piece."""
    low, high = one.of_heard
    first, last = one.of_script
    cut_heard = any(
        0 < at < len(words) and words[at - 1].start == words[at].start for at in (low, high)
    )  # fmt: skip
    cut_written = any(
        0 < at < len(written)
        and (written[at - 1].sentence, written[at - 1].piece) == (written[at].sentence, written[at].piece)
        for at in (first, last)
    )
    return not cut_heard and not cut_written
