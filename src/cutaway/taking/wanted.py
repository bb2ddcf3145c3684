"""Which pages were asked for: '1-40, 45'."""

import re
from dataclasses import dataclass

from cutaway.problems.diagnostic import Diagnostic, Problems


@dataclass(frozen=True, slots=True)
class Wanted:
    """Stretches of pages, first and last; none for all pages."""

    stretches: tuple[tuple[int, int], ...] = ()

    @property
    def all(self) -> bool:
        """Whether all pages are wanted."""
        return not self.stretches

    def has(self, number: int) -> bool:
        """Whether a page is wanted."""
        return self.all or any(first <= number <= last for first, last in self.stretches)


ALL = Wanted()
"""Every page."""


def read_wanted(text: str) -> tuple[Wanted, Problems]:
    """The pages that some words name.

    >>> read_wanted("1-40, 45")[0].stretches
    ((1, 40), (45, 45))
    """
    stretches: list[tuple[int, int]] = []
    for piece in text.split(",") if text.strip() else ():
        match = re.fullmatch(r"\s*(\d{1,6})(?:\s*(?:-|–|to)\s*(\d{1,6}))?\s*", piece)
        first = int(match[1]) if match else 0
        last = int(match[2] or match[1]) if match else 0
        if not 1 <= first <= last:
            return Wanted(), (
                Diagnostic("T110", None, f"'{piece.strip()}' is no stretch of pages.", "Write --pages 1-40,45"),
            )
        stretches.append((first, last))
    return Wanted(tuple(stretches)), ()
