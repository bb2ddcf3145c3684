"""The nodes of a YAML text: words, lists and blocks, each frozen and knowing its place."""

from dataclasses import dataclass

from cutaway.handbook.names import fold
from cutaway.problems.span import Span


@dataclass(frozen=True, slots=True)
class Words:
    """A piece of text: as it reads, and where its characters stand (without quotes). '' where nothing was written."""

    text: str
    span: Span

    @property
    def empty(self) -> bool:
        """Whether nothing was written."""
        return not self.text


@dataclass(frozen=True, slots=True)
class Items:
    """A list."""

    items: tuple["Node", ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Entry:
    """A key with its value."""

    key: Words
    value: "Node"


@dataclass(frozen=True, slots=True)
class Block:
    """Keys with values, in order; no key stands twice."""

    entries: tuple[Entry, ...]
    span: Span

    def get(self, key: str) -> "Node | None":
        """The value of a key, None where the key is missing."""
        entry = self.entry(key)
        return entry.value if entry else None

    def entry(self, key: str) -> Entry | None:
        """The entry of a key."""
        wanted = fold(key)
        return next((entry for entry in self.entries if fold(entry.key.text) == wanted), None)


@dataclass(frozen=True, slots=True)
class Faulty:
    """Something that was written wrongly and has been told; whatever needs it is left out without more words."""

    span: Span


Node = Words | Items | Block | Faulty
