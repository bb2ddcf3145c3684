"""Which assumed values are likeliest to turn a verdict over: those that have moved others, and those that lie near."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from cutaway.machine.bind import Bound
from cutaway.machine.fitting import Assumption

# How many values that have moved other verdicts are tried first. A choice of ours.
MOST_MOVING = 8
# Parts that more others are joined to at one point are not near to all of them. A choice of ours.
FEW = 6
# How many assumed values are taken to their ends together.
WORST = 6

Name = tuple[str, str]  # a part and its value


class Sensed:
    """How much assumed values have moved verdicts so far; grows as verdicts are tried."""

    def __init__(self) -> None:
        self._turned: dict[Name, int] = {}
        self._moved: dict[Name, float] = {}

    def turned(self, one: Assumption) -> None:
        """A value has turned a verdict over."""
        self._turned[_name(one)] = self._turned.get(_name(one), 0) + 1

    def moved(self, one: Assumption, share: float) -> None:
        """A value has moved a verdict by a share of what it would have to be moved."""
        self._moved[_name(one)] = max(share, self._moved.get(_name(one), 0.0))

    def by(self, one: Assumption) -> float:
        """How likely a value is to turn a verdict over, for the order alone."""
        return self._weight(_name(one))

    def likeliest(self) -> frozenset[Name]:
        """The values that moved verdicts most."""
        known = {*self._turned, *self._moved}
        return frozenset(sorted(known, key=lambda one: (-self._weight(one), one))[:MOST_MOVING])

    def _weight(self, one: Name) -> float:
        return self._turned.get(one, 0) + min(self._moved.get(one, 0.0), 0.99)


@dataclass(frozen=True, slots=True)
class Moved:
    """By how much one assumed value moves the margin at most."""

    assumption: Assumption
    move: float


def worst(values: Sequence[Assumption], margins: Sequence[float | None], nominal: float | None) -> list[Moved]:
    """The assumptions that move the margin of a verdict most, the most influential first. margins: what came of each
    value at an end of its range."""
    if nominal is None:
        return []
    moves: dict[int, Moved] = {}
    for assumption, margin in zip(values, margins, strict=True):
        if margin is not None and abs(margin - nominal) > 1e-6 * max(1.0, abs(nominal)):
            before = moves.get(id(assumption), Moved(assumption, 0.0))
            moves[id(assumption)] = Moved(assumption, max(before.move, abs(margin - nominal)))
    return sorted(moves.values(), key=lambda m: -m.move)[:WORST]


def near(bound: Bound, parts: Iterable[str]) -> frozenset[str]:
    """Some parts, and those that are joined or coupled to them; not all that hangs on one bus with them."""
    own = frozenset(parts)
    points: dict[str, set[str]] = {}
    for full, node in bound.wiring.joined.items():
        points.setdefault(node, set()).add(full.split(".")[0])
    beside = {part for joined in points.values() if joined & own and len(joined) <= FEW for part in joined}
    for (part, _), (to, _) in bound.wiring.coupled.items():
        beside |= {str(to)} if part in own else {str(part)} if to in own else set()
    return frozenset(own | beside)


def _name(one: Assumption) -> Name:
    return str(one.part), one.value
