"""Paragraphs of an amendment that only say what to delete and what to put in: read as the sentences that they make."""

import re
from dataclasses import dataclass, replace

from cutaway.handbook.amendments import superseded
from cutaway.handbook.records import Folder, Paragraph, Source
from cutaway.narrate.overlap import sentences_of

_OPEN, _SHUT = "[\"“‘']", "[\"”’']"
_PUT = r"\s*,?\s*(?:and\s+)?(?:substitute|read|insert|write|put)\s+(?:the\s+(?:words?|figures?)\s+)?"
_TAKE = r"\b(?:delete|for|cancel|strike out)\s+(?:the\s+(?:words?|figures?)\s+)?"
_QUOTED = re.compile(
    rf"{_TAKE}{_OPEN}(?P<old>[^\"”]+?){_SHUT}{_PUT}{_OPEN}(?P<new>[^\"”]+?){_SHUT}", re.IGNORECASE | re.DOTALL
)
_BARE = re.compile(
    rf"{_TAKE}(?!para|§|\")(?P<old>[^\"“”;:]+?){_PUT}(?P<new>[^\"“”;:]+?)(?:\.?\s*$|\.\s+(?=(?-i:[A-Z])))",
    re.IGNORECASE | re.DOTALL,
)
_INSTRUCTS = re.compile(
    r"\b(?:delete|substitute|insert|strike out|amend(?:ed)? to read|for\b.{1,60}\bread)\b", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class Amended:
    """A folder with such paragraphs read as what they make. taken: the words that each puts out of use, by the key of
    its paragraph. unread: paragraphs whose instruction was not understood."""

    folder: Folder
    taken: dict[tuple[str, str], tuple[str, ...]]
    unread: frozenset[tuple[str, str]]


def as_amended(folder: Folder) -> Amended:
    """The folder with 'For X substitute Y' worked into the sentences that it alters."""
    taken: dict[tuple[str, str], tuple[str, ...]] = {}
    unread: set[tuple[str, str]] = set()
    sources = tuple(_source(one, taken, unread) for one in folder.sources)
    return Amended(replace(folder, sources=sources), taken, frozenset(unread))


def _source(source: Source, taken: dict[tuple[str, str], tuple[str, ...]], unread: set[tuple[str, str]]) -> Source:
    instead: dict[str, Paragraph] = {}
    for one in superseded(source, None):
        new = one.new
        if not _INSTRUCTS.search(new.text) or new.number in instead:
            continue
        made, words = _made(one.old, new)
        key = (str(new.source), new.number)
        if made:
            instead[new.number] = replace(new, text=made)
            taken[key] = words
            unread.discard(key)
        else:
            unread.add(key)
    if not instead:
        return source
    return replace(source, paragraphs=tuple(instead.get(one.number, one) for one in source.paragraphs))


def _made(old: Paragraph, new: Paragraph) -> tuple[str, tuple[str, ...]]:
    """The sentences of the old paragraph that are altered, as they then read; with the words put out of use."""
    found = list(_QUOTED.finditer(new.text)) or list(_BARE.finditer(new.text))
    pairs = [(_pattern(one["old"]), one["old"], " ".join(one["new"].split())) for one in found]
    made: list[str] = []
    used: list[str] = []
    for sentence, _ in sentences_of(old):
        after = " ".join(sentence.split())
        for pattern, words, put in pairs:
            altered, times = pattern.subn(put.replace("\\", r"\\"), after)
            if times:
                after = altered
                used.append(words)
        if after != " ".join(sentence.split()):
            made.append(after if after.endswith((".", "!", "?")) else after + ".")
    return " ".join(made), tuple(dict.fromkeys(used))


def _pattern(words: str) -> re.Pattern[str]:
    inner = r"\s+".join(map(re.escape, words.strip().removesuffix(".").split()))
    return re.compile(rf"(?<!\w){inner}\b\.?(?!\w)" if inner[-1:].isalnum() else inner, re.IGNORECASE)
