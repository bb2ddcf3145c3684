"""The words of a type as they may be misheard: its glossary, parts, marks and mods, each as written and as said, with
the words that stand near it in the books."""

import re
from collections.abc import Iterable
from dataclasses import dataclass

from cutaway.handbook.records import Folder, Term
from cutaway.narrate.breaking import LEANING
from cutaway.narrate.script_words import words_said
from cutaway.narrate.spoken import spoken_form
from cutaway.quantities.prose import figures_in

# How far around a word its neighbours count, in words.
_REACH = 8


@dataclass(frozen=True, slots=True)
class TradeWord:
    """written: as a caption should have it. said: the words that it is said as. near: words that its books use with
    it."""

    written: str
    said: tuple[str, ...]
    near: frozenset[str]


def trade_words(folder: Folder) -> tuple[TradeWord, ...]:
    """All that a type has a word for, longest first."""
    names = [name for term in folder.glossary for name in (term.name, *term.also)]
    names += [part.name for part in folder.parts] + [group.name for group in folder.groups]
    names += [*folder.type.marks, *(mod.name for mod in folder.type.mods), folder.type.name, folder.type.maker]
    books = [" ".join((p.title, p.text, *p.cautions)) for source in folder.sources for p in source.paragraphs]
    return of_names(names, books, folder.glossary)


def of_names(names: Iterable[str], books: Iterable[str], glossary: tuple[Term, ...] = ()) -> tuple[TradeWord, ...]:
    """Trade words from names and from the paragraphs that use them; a name that is not said in words is left out."""
    paragraphs = [tuple(re.findall(r"[a-z']+", text.lower())) for text in books]
    found: dict[str, TradeWord] = {}
    for name in names:
        said = words_said(spoken_form(name, glossary))
        # A unit has figures before it, and slips of its own.
        if len("".join(said)) < 3 or figures_in(f"2 {name}"):
            continue
        near = {word for words in paragraphs for word in _near(words, words_said(name))} - set(words_said(name))
        found.setdefault(name.lower(), TradeWord(name, said, frozenset(near)))
    return tuple(sorted(found.values(), key=lambda word: (-len(word.said), word.written)))


def _near(words: tuple[str, ...], name: tuple[str, ...]) -> Iterable[str]:
    """The words of weight that stand within a few words of a name in a paragraph."""
    for at in range(len(words) - len(name) + 1):
        if words[at : at + len(name)] == name:
            around = words[max(0, at - _REACH) : at + len(name) + _REACH]
            yield from (word for word in around if len(word) > 3 and word not in LEANING)
