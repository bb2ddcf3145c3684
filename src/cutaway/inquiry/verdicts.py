"""The verdict on a claim for one standard: a closed set of records with evidence. Not known is not false."""

from dataclasses import dataclass
from typing import Literal

from cutaway.handbook.records import Cite

TOO_MANY = -2
"""In place of how many assumed values were tried: it was asked, and would have taken too many runs."""
NOT_YET = -3
"""In place of how many assumed values were tried: it was asked, and not come to before the time was up."""


@dataclass(frozen=True, slots=True)
class Seen:
    """One thing seen in a run: a reading with its value (SI) or a state, at a time (s after the actions began)."""

    what: str
    time: float
    value: float | None
    dimension: str
    state: str
    datum: str = ""


@dataclass(frozen=True, slots=True)
class Setup:
    """One choice of positions, failures or values, as words: (('tank selector', 'off'), …)."""

    chosen: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Influence:
    """An assumed value that can flip the verdict.

    stated, between: as the author wrote them. flips: where in the range the verdict changes, as words
    ('below 0.2 lb/sq in'), or the corner of several values that flips it.
    """

    part: str
    value: str
    stated: str
    between: str
    flips: str
    because: str


@dataclass(frozen=True, slots=True)
class Holds:
    """True. at: when it became so, s from the clock's start. witness: for 'sometimes'. tried: how many combinations of
    positions, failures and given values were run. assumed: how many assumed values were taken to both ends of their
    ranges without a change of the verdict, -1 where that was not asked, `TOO_MANY` or `NOT_YET` if not done."""

    at: float
    seen: tuple[Seen, ...]
    cites: tuple[Cite, ...]
    tried: int = 1
    witness: Setup | None = None
    assumed: int = -1


@dataclass(frozen=True, slots=True)
class Fails:
    """False. at: the moment. counterexample: for 'always' the smallest one, for 'any of' the failure. found: what is so
    instead, in the words of the records, where nothing was run. assumed: as for `Holds`."""

    at: float
    why: Literal[
        "never came", "too late", "too early", "stopped being so", "was so", "not so", "refused", "moved", "depends",
        "order", "trend", "built otherwise", "no case", "not lower", "not higher", "not the same",
    ]  # fmt: skip
    seen: tuple[Seen, ...]
    cites: tuple[Cite, ...]
    counterexample: Setup | None = None
    found: str = ""
    tried: int = 1
    assumed: int = -1


@dataclass(frozen=True, slots=True)
class RestsOn:
    """Would flip inside the stated range of an assumed value. nominal: the verdict with the stated values.

    together: whether the influences flip it only all at once; else each does by itself.
    """

    nominal: "Holds | Fails"
    influences: tuple[Influence, ...]
    together: bool = False


@dataclass(frozen=True, slots=True)
class Stated:
    """The records or a paragraph say so; nothing was run."""

    cites: tuple[Cite, ...]
    words: str


@dataclass(frozen=True, slots=True)
class NotModelled:
    """Cannot be run: what is missing on this standard."""

    missing: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Empty:
    """The condition of the claim never arises in anything that was run, so nothing was tested."""

    condition: str
    tried: int


@dataclass(frozen=True, slots=True)
class Undecided:
    """A bound was reached, or a run gave up."""

    because: str


Verdict = Holds | Fails | RestsOn | Stated | NotModelled | Empty | Undecided
