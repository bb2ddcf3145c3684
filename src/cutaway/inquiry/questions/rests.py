"""Which assumed values can turn which verdicts over, the most influential first, and where in the books to look."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from cutaway.handbook.doubts import likely_paragraphs
from cutaway.handbook.head import Head
from cutaway.handbook.records import Cite, Folder
from cutaway.inquiry.check import Judged, not_yet
from cutaway.inquiry.verdicts import TOO_MANY, Fails, Holds, Influence, RestsOn, Verdict
from cutaway.language.syntax import Claim
from cutaway.parts.kind import Kind
from cutaway.quantities.which import StandardName


@dataclass(frozen=True, slots=True)
class Flip:
    """A verdict that a value turns over. flips: where in its range. holds: what the verdict is with the value as
    stated. together: with which other values at once, () where it does it alone."""

    claim: Claim
    standard: StandardName
    flips: str
    holds: bool
    together: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Influential:
    """An assumed value that turns at least one verdict over. likely: the paragraphs that most likely give it."""

    part: str
    value: str
    stated: str
    between: str
    because: str
    flips: tuple[Flip, ...]
    likely: tuple[Cite, ...]

    @property
    def alone(self) -> int:
        """How many verdicts it turns over by itself."""
        return sum(1 for flip in self.flips if not flip.together)


@dataclass(frozen=True, slots=True)
class Rests:
    """values: by influence. resting: how many verdicts rest on anything; firm: how many were tried with every assumed
    value at both ends and did not turn over; not_tried: how many would have taken too many runs; not_yet: how many were
    not come to."""

    values: tuple[Influential, ...]
    resting: int
    firm: int
    not_tried: int
    not_yet: int = 0


def rests(judged: Iterable[tuple[Claim, tuple[Judged, ...]]], folder: Folder, kinds: Mapping[str, Kind]) -> Rests:
    """What the verdicts of a check rest on. Ranked by how many verdicts a value turns over by itself, then by how many
    together with others."""
    flips: dict[tuple[str, str], list[tuple[Influence, Flip]]] = {}
    resting = firm = not_tried = left = 0
    for claim, several in judged:
        for one in several:
            left += not_yet(one.verdict)
            if isinstance(one.verdict, RestsOn):
                resting += 1
                for influence, flip in _flips(claim, one.subject.name, one.verdict):
                    flips.setdefault((influence.part, influence.value), []).append((influence, flip))
            else:
                firm += _tried(one.verdict) >= 0
                not_tried += _tried(one.verdict) == TOO_MANY
    values = [_influential(found) for found in flips.values()]
    ranked = sorted(values, key=lambda one: (-one.alone, -len(one.flips), one.part, one.value))
    head = _head(folder)
    return Rests(
        tuple(replace(one, likely=_likely(one, folder, head, kinds)) for one in ranked), resting, firm, not_tried, left
    )


def _flips(claim: Claim, standard: StandardName, verdict: RestsOn) -> Iterable[tuple[Influence, Flip]]:
    every = tuple((i.part, i.value) for i in verdict.influences)
    holds = isinstance(verdict.nominal, Holds)
    for influence in verdict.influences:
        mine = (influence.part, influence.value)
        others = tuple(one for one in every if one != mine) if verdict.together else ()
        yield influence, Flip(claim, standard, influence.flips, holds, others)


def _influential(found: list[tuple[Influence, Flip]]) -> Influential:
    first = found[0][0]
    flips = tuple(flip for _, flip in found)
    return Influential(first.part, first.value, first.stated, first.between, first.because, flips, ())


def _tried(verdict: Verdict) -> int:
    """How many assumed values were tried for a verdict; -1 where that was not asked."""
    return verdict.assumed if isinstance(verdict, Holds | Fails) else -1


def _head(folder: Folder) -> Head:
    paragraphs = {(source.key, one.number): one for source in folder.sources for one in source.paragraphs}
    return Head(folder.type, paragraphs, tuple(source.key for source in folder.sources), frozenset())


def _likely(one: Influential, folder: Folder, head: Head, kinds: Mapping[str, Kind]) -> tuple[Cite, ...]:
    """The paragraphs that speak of the part and the quantity and have a figure of its sort; those that the part cites
    come first among them."""
    parts = [part for part in folder.parts if part.name == one.part]
    wants = [want for part in parts for want in kinds[part.kind].wants if want.name == one.value]
    if not wants:
        return ()
    named = likely_paragraphs(head, one.part, wants[0])
    cited = {cite.key for part in parts for cite in part.cites}
    best = sorted(named, key=lambda name: name not in cited)
    by_name = {f"{key} {number}": Cite(key, number, p.span) for (key, number), p in head.paragraphs.items()}
    return tuple(by_name[name] for name in best if name in by_name)
