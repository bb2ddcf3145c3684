"""Ends of sentences for captions that have none: guessed from pauses and the ends of captions."""

import re
from collections.abc import Sequence
from dataclasses import replace

from cutaway.narrate.not_spoken import Piece

_SENTENCE_END = re.compile(r"[.!?…][\"'”’)\]]*(?=\s|$)")
# Words that nobody ends a sentence with.
_GOES_ON = frozenset((
    "a", "an", "and", "are", "as", "at", "but", "by", "for", "from", "has", "if", "in", "is", "its", "of", "on", "or",
    "so", "than", "that", "the", "their", "this", "to", "was", "when", "where", "which", "who", "with",
))  # fmt: skip
# More words than anybody speaks without an end are no sentence. Then a pause ends one; between two pauses that are
# far apart, sentences of about so many words end with a caption. Choices of ours.
_NO_SENTENCE = 40
_PAUSE = 0.5
_SHORTEST = 4
_LONGEST = 30
_USUAL = 20


def with_ends(pieces: Sequence[Piece]) -> tuple[tuple[Piece, ...], int]:
    """The pieces with full stops where a stretch of them has none, and how many were guessed."""
    done: list[Piece] = []
    for stretch in _stretches(pieces):
        done += _ended(stretch) if _words(stretch) > _NO_SENTENCE else stretch
    return tuple(done), sum(
        one.text != two.text and one.text.endswith(".") for one, two in zip(done, pieces, strict=True)
    )


def _words(pieces: Sequence[Piece]) -> int:
    return sum(len(piece.text.split()) for piece in pieces)


def _stretches(pieces: Sequence[Piece]) -> list[list[Piece]]:
    """The pieces parted after each one that has the end of a sentence in it."""
    parted: list[list[Piece]] = [[]]
    for piece in pieces:
        parted[-1].append(piece)
        if _SENTENCE_END.search(piece.text):
            parted.append([])
    return parted


def _ended(stretch: list[Piece]) -> list[Piece]:
    """The stretch as sentences: a capital at the beginning, a full stop at the end, but at its two edges."""
    sentences = [part for phrase in _phrases(stretch) for part in _parts(phrase)]
    done: list[Piece] = []
    for at, sentence in enumerate(sentences):
        first = sentence[0]
        if at > 0:
            sentence[0] = replace(first, text=first.text[:1].upper() + first.text[1:])
        if at + 1 < len(sentences):
            sentence[-1] = replace(sentence[-1], text=f"{sentence[-1].text.rstrip(',;:–—- ')}.")
        done += sentence
    return done


def _phrases(stretch: list[Piece]) -> list[list[Piece]]:
    """The pieces between two pauses or two speakers."""
    phrases: list[list[Piece]] = []
    for piece in stretch:
        if not phrases or ((piece.pause >= _PAUSE or piece.speaker) and _words(phrases[-1]) >= _SHORTEST):
            phrases.append([])
        phrases[-1].append(piece)
    return phrases


def _parts(phrase: list[Piece]) -> list[list[Piece]]:
    """A long phrase in parts that end with a caption, not with a word that goes on."""
    words = _words(phrase)
    if words <= _LONGEST:
        return [phrase]
    usual = words / -(-words // _USUAL)
    parts: list[list[Piece]] = [[]]
    for piece in phrase:
        before = parts[-1]
        if before and _words(before) >= usual - 3 and before[-1].text.split()[-1].lower() not in _GOES_ON:
            parts.append([])
        parts[-1].append(piece)
    if len(parts) > 1 and _words(parts[-1]) < _SHORTEST:
        parts[-2:] = [parts[-2] + parts[-1]]
    return parts
