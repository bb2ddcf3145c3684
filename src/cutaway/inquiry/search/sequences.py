"""The shortest sequences of moves that get there, breadth first. Knows nothing of machines: what a move does is asked
of whoever can try it."""

import time
from collections.abc import Callable, Hashable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Generic, Literal, Protocol, TypeVar

from cutaway.inquiry.search.minimal import Bound

M = TypeVar("M", bound=Hashable)
S = TypeVar("S")
Path = tuple[tuple[M, float], ...]
Ended = Literal["found", "complete", "length", "tries", "time", "stopped"]


@dataclass(frozen=True, slots=True)
class After(Generic[S]):
    """Where one is after a move and a wait. wait: s, 0 for none. like: the same for states that go on alike."""

    wait: float
    like: str
    state: S


class World(Protocol[M, S]):
    """What can be done where, and what comes of it."""

    def moves(self, state: S) -> Sequence[M]:
        """The moves that can be made from a state."""
        ...

    def can_end(self, move: M) -> bool:
        """Whether a sequence may end with a move; False where the move only begins something."""
        ...

    def can_matter(self, path: Path[M], move: M) -> bool:
        """Whether a sequence can get there at all that a shorter one does not; True where that is not known."""
        ...

    def can_begin(self, path: Path[M], move: M, left: int) -> bool:
        """The same of a sequence with so many more moves at most."""
        ...

    def arrive(self, pairs: Sequence[tuple[S, M]]) -> Sequence[bool | None]:
        """Whether one is there after each move; None where that cannot be said."""
        ...

    def go_on(self, pairs: Sequence[tuple[S, M]]) -> Sequence[Sequence[After[S]]]:
        """Where one can go on from after each move, one for each wait; none where the move leads nowhere."""
        ...


@dataclass(slots=True)
class Going(Generic[M]):
    """A search as it goes. found: the shortest sequences so far, each move with the wait before it. length: the longest
    that was gone through whole. tried: how many last moves were tried; passed_over: how many were not, since they
    cannot matter. same: how many states were reached a second time. undecided: sequences of which nothing could be
    said. ended: why it ended, '' while it goes on; 'complete' where there is nowhere else to go."""

    found: list[Path[M]] = field(default_factory=list)
    undecided: list[Path[M]] = field(default_factory=list)
    length: int = 0
    tried: int = 0
    passed_over: int = 0
    same: int = 0
    ended: Ended | Literal[""] = ""


@dataclass(slots=True)
class _Node(Generic[M, S]):
    """A state, the sequences of one length that lead to it, each with the wait that follows its last move."""

    state: S
    paths: list[tuple[Path[M], float]]


def shortest(
    start: tuple[S, str], world: World[M, S], bound: Bound, going: Going[M], stop: Callable[[], bool] = lambda: False
) -> Iterator[Path[M]]:
    """Every shortest sequence up to the bound, as each is found; `going` tells how far it got.

    start: the state to begin from and what it is like; the caller knows that one is not there yet. A state that was
    reached with fewer moves is not gone on from again, since whatever follows was to be had by a shorter sequence; of
    two sequences of one length that reach states alike, one is gone on with for both.
    """
    until = None if bound.seconds is None else time.monotonic() + bound.seconds
    seen = {start[1]}
    nodes: list[_Node[M, S]] = [_Node(start[0], [((), 0.0)])]
    for length in range(1, bound.size + 1):
        pairs = [(node, move) for node in nodes for move in world.moves(node.state)]
        yield from _arrivals(pairs, world, bound, going, until, stop)
        if going.ended:
            return
        going.length = length
        if going.found:
            going.ended = "found"
            return
        if length == bound.size:
            going.ended = "length"
            return
        nodes = []
        left = bound.size - length
        pairs = [(node, move) for node, move in pairs if any(world.can_begin(p, move, left) for p, _ in node.paths)]
        for some in _gone_on(pairs, world, bound, going, seen):
            nodes = some
            going.ended = _over(going, bound, until, stop)
            if going.ended:
                return
        if not nodes:
            going.ended = "complete"
            return


def _arrivals(
    pairs: Sequence[tuple[_Node[M, S], M]],
    world: World[M, S],
    bound: Bound,
    going: Going[M],
    until: float | None,
    stop: Callable[[], bool],
) -> Iterator[Path[M]]:
    """Try every pair that can matter as a last move."""
    waiting: list[tuple[_Node[M, S], M]] = []
    for node, move in pairs:
        if not world.can_end(move):
            continue
        if not any(world.can_matter(path, move) for path, _ in node.paths):
            going.passed_over += 1
            continue
        waiting.append((node, move))
        if len(waiting) == max(1, min(bound.batch, bound.tries - going.tried)):
            yield from _tried(waiting, world, going)
            waiting = []
            going.ended = _over(going, bound, until, stop)
            if going.ended:
                return
    if waiting:
        yield from _tried(waiting, world, going)
        going.ended = _over(going, bound, until, stop)


def _tried(several: Sequence[tuple[_Node[M, S], M]], world: World[M, S], going: Going[M]) -> Iterator[Path[M]]:
    done = world.arrive([(node.state, move) for node, move in several])
    for (node, move), does in zip(several, done, strict=True):
        going.tried += 1
        if does is False:
            continue
        for path, wait in node.paths:
            whole = (*path, (move, wait))
            if does is None:
                going.undecided.append(whole)
            else:
                going.found.append(whole)
                yield whole


def _gone_on(
    pairs: Sequence[tuple[_Node[M, S], M]], world: World[M, S], bound: Bound, going: Going[M], seen: set[str]
) -> Iterator[list[_Node[M, S]]]:
    """The nodes after every pair, a batch at a time; states seen at a smaller length are left out."""
    nodes: dict[str, _Node[M, S]] = {}
    for first in range(0, len(pairs), bound.batch):
        some = pairs[first : first + bound.batch]
        afters = world.go_on([(node.state, move) for node, move in some])
        for (node, move), several in zip(some, afters, strict=True):
            paths = [(*path, (move, wait)) for path, wait in node.paths]
            for after in several:
                if after.like in seen:
                    going.same += 1
                    continue
                going.same += after.like in nodes
                here = nodes.setdefault(after.like, _Node(after.state, []))
                here.paths.extend((path, after.wait) for path in paths)
        yield list(nodes.values())
    seen.update(nodes)


def _over(going: Going[M], bound: Bound, until: float | None, stop: Callable[[], bool]) -> Ended | Literal[""]:
    if stop():
        return "stopped"
    if going.tried >= bound.tries:
        return "tries"
    return "time" if until is not None and time.monotonic() >= until else ""
