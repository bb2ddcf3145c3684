"""A script as the words that are said: each written piece of a sentence with the words that it is read as."""

import re
from dataclasses import dataclass

from cutaway.handbook.records import Sentence, Term
from cutaway.narrate.breaking import kept_together, pieces
from cutaway.narrate.spoken import spoken_form

_WORD = re.compile(r"[a-z]+(?:'[a-z]+)*")


@dataclass(frozen=True, slots=True)
class SaidWord:
    """One word as it is said. sentence, piece: where it is written, both counted from 0."""

    word: str
    sentence: int
    piece: int


def words_said(text: str) -> tuple[str, ...]:
    """The words of a spoken form, in small letters.

    >>> words_said("The Mark Two's lamp, twenty-two of them.")
    ('the', 'mark', "two's", 'lamp', 'twenty', 'two', 'of', 'them')
    """
    return tuple(_WORD.findall(text.lower().replace("’", "'")))


def sentence_pieces(text: str, glossary: tuple[Term, ...]) -> tuple[str, ...]:
    """The pieces of a sentence as captions keep them together: words, a figure with its unit, a term."""
    return pieces(text, kept_together(text, glossary))


def script_words(sentences: tuple[Sentence, ...], glossary: tuple[Term, ...]) -> tuple[SaidWord, ...]:
    """All words of a script in the order in which they are said."""
    return tuple(
        SaidWord(word, at, number)
        for at, sentence in enumerate(sentences)
        for number, piece in enumerate(sentence_pieces(sentence.text, glossary))
        for word in words_said(spoken_form(piece, glossary))
    )
