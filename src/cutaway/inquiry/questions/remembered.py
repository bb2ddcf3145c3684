"""What came of sets of changes in an earlier session: the same question on the same model is not tried anew."""

import time
from collections.abc import Callable, Sequence
from functools import lru_cache
from hashlib import blake2b
from pathlib import Path

from cutaway.inquiry.memory import Came, Memory, key_of
from cutaway.inquiry.search.base import Base
from cutaway.inquiry.search.changes import Alteration, Assume, Break, ChangeSet, Give, Put

Try = Callable[[Sequence[ChangeSet]], Sequence[bool | None]]

# How often what was found is written down while a search goes on, s. A choice of ours.
EVERY = 2.0


class Remembered:
    """Tries sets as `does` would, but asks it only of those of which nothing is remembered, and of those that are
    remembered to do it, so that what is seen with them can be told. Grows as the search goes on; `keep` writes it down.

    wanted: whether sets are asked to bring the base's statement about, or to undo it.
    """

    def __init__(self, does: Try, base: Base, wanted: bool, memory: Memory | None) -> None:
        self._does = does
        self._memory = memory
        self._key = _key(base, wanted) if memory is not None else ""
        self._came = memory.came(self._key) if memory is not None else {}
        self._written = time.monotonic()
        self._new = 0

    def __call__(self, sets: Sequence[ChangeSet]) -> list[bool | None]:
        """Whether each does it, None where that could not be said."""
        known = {one: self._came.get(_words(one)) for one in sets}
        asked = [one for one in sets if (came := known[one]) is None or came.so]
        found = dict(zip(asked, self._does(asked), strict=True)) if asked else {}
        for one, so in found.items():
            if known[one] is None:
                self._came[_words(one)] = Came(so, None)
                self._new += 1
        if time.monotonic() - self._written >= EVERY:
            self.keep()
        return [found[one] if one in found else came.so if (came := known[one]) is not None else None for one in sets]

    def keep(self) -> None:
        """Write down what was found."""
        self._written = time.monotonic()
        if self._memory is not None and self._new:
            self._memory.put_came(self._key, self._came)
            self._new = 0


def _key(base: Base, wanted: bool) -> str:
    """The digest of all that decides what comes of a set at a base."""
    text = repr((key_of(base.question, base.made, False), wanted, _searchers()))
    return blake2b(text.encode(), digest_size=20).hexdigest()


@lru_cache(maxsize=1)
def _searchers() -> str:
    """Stands for the sources of the search."""
    sources = sorted((Path(__file__).parents[1] / "search").glob("*.py"))
    return blake2b(b"".join(source.read_bytes() for source in sources), digest_size=16).hexdigest()


def _words(one: ChangeSet) -> str:
    return "; ".join(sorted(map(_place, one)))


def _place(one: Alteration) -> str:
    """Where one change puts what."""
    match one:
        case Put(input=name, value=value):
            return f"{name} at {value!r}"
        case Break(input=name):
            return name
        case Give(part=part, name=name, si=si):
            return f"{part} {name} is {si!r}"
        case Assume(part=part, value=value, si=si):
            return f"{part} {value} is {si!r}"
