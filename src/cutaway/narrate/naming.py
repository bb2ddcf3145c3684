"""Where a sentence or a claim names something: terms in the words that are spoken, parts in what is claimed."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import fields, is_dataclass

from cutaway.handbook.records import Term
from cutaway.language.syntax import Claim


def pattern_of(names: Iterable[str]) -> re.Pattern[str]:
    """A pattern that finds any of some names as whole words, in the plural too; the longest that fits is found.

    >>> pattern_of(["jack", "fuel lamp"]).findall("Fuel lamps, jacks and jackets")
    ['Fuel lamps', 'jacks']
    """
    words = sorted({name for name in names if name}, key=lambda name: (-len(name), name))
    if not words:
        return re.compile(r"(?!)")
    return re.compile(rf"(?<!\w)(?:{'|'.join(re.escape(word) for word in words)})(?:e?s)?(?!\w)", re.IGNORECASE)


def term_pattern(term: Term) -> re.Pattern[str]:
    """A pattern for a term: its name, the other words for it, and the way it is said."""
    return pattern_of((term.name, *term.also, term.said_as))


def parts_named(claim: Claim, names: frozenset[str]) -> tuple[str, ...]:
    """The parts that a claim speaks of: those of which something is said first, then those that are only set or have
    failed. names: those that there are."""
    words = (*_words(claim.statement), *_words(claim.scope))
    return tuple(dict.fromkeys(word for word in words if word in names))


def _words(record: object) -> Iterator[str]:
    """Every word that a record of the syntax holds, itself and inside; places in files are left out."""
    if isinstance(record, str):
        yield record
    elif isinstance(record, tuple):
        for one in record:
            yield from _words(one)
    elif is_dataclass(record) and not isinstance(record, type):
        for field in fields(record):
            if field.name not in ("span", "quantity"):
                yield from _words(getattr(record, field.name))
