"""Standards (a mark with its mods) and the expressions that say to which of them a thing belongs."""

from dataclasses import dataclass
from typing import NewType

StandardName = NewType("StandardName", str)


@dataclass(frozen=True, slots=True)
class Standard:
    """One build standard that is judged by itself: `Mk 2 with mod 40` is mark 'Mk 2' with mods ('mod 40',)."""

    name: StandardName
    mark: str
    mods: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Which:
    """A set of standards with the words that named it. words: '' where nothing was said, which means all."""

    words: str
    names: frozenset[StandardName]
