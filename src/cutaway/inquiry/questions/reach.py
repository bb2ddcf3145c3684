"""The shortest sequences of movements after which a statement is true, and why the direct way does not do."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from math import prod

from cutaway.handbook.records import Cite
from cutaway.inquiry.evidence import cites_of, seen_at
from cutaway.inquiry.judging import Looked
from cutaway.inquiry.questions.detour import Detour, detour_of
from cutaway.inquiry.questions.held_back import asks_of
from cutaway.inquiry.questions.ways import actions_within, looked_of
from cutaway.inquiry.search.base import Base
from cutaway.inquiry.search.minimal import Bound
from cutaway.inquiry.search.movements import Hand, Hands, Here, actions_of
from cutaway.inquiry.search.sequences import Ended, Going, Path, shortest
from cutaway.inquiry.search.trying import holds
from cutaway.inquiry.truth import truth
from cutaway.inquiry.verdicts import Seen, Undecided
from cutaway.language.syntax import Action, Wait
from cutaway.machine.records import Outcome

# The waits between two movements that an answer may name, s; the least that does is told. Choices of ours.
WAITS = (5.0, 10.0, 20.0, 30.0, 60.0, 120.0, 300.0, 600.0, 3600.0)


@dataclass(frozen=True, slots=True)
class Way:
    """One sequence. actions: with the waits that it wants, as a claim can repeat it. at: how long after its last
    movement began the statement came true for good, s. seen: what is so in the end. orders: in how many orders the same
    movements do; a control that springs back counts as moved alike however long it is held. choices: where each
    movement may put its control instead, any of them with any of another's; () where there is one place for each.
    slowest: how long the slowest of these takes, s, 0 where there are none."""

    moves: tuple[Hand, ...]
    actions: tuple[Action, ...]
    at: float
    seen: tuple[Seen, ...]
    cites: tuple[Cite, ...]
    orders: int = 1
    choices: tuple[tuple[str, ...], ...] = ()
    slowest: float = 0.0

    @property
    def ways(self) -> int:
        """How many ways these are."""
        return prod(map(len, self.choices))


@dataclass(frozen=True, slots=True)
class Refused:
    """A movement that a rule held back somewhere on the way, and what the rule asks, in the words of the folder. does:
    whether it would do it by itself, from where one stands, if nothing held it back."""

    hand: Hand
    asks: tuple[str, ...]
    does: bool = False


@dataclass(frozen=True, slots=True)
class Tries:
    """How far it was looked. controls: how many can matter; movements: to how many positions they can be put. asked:
    the most movements; done: the length gone through whole. tried: how many sequences were tried to their end,
    passed_over: how many were not, since they cannot matter; same: how many led to states reached before. runs: how
    many runs that took. undecided: of how many sequences nothing could be said. holds: how many positions of controls
    that spring back can be held while another is moved."""

    controls: int
    movements: int
    asked: int
    done: int
    tried: int
    passed_over: int
    same: int
    runs: int
    undecided: int
    ended: Ended
    holds: int = 0


@dataclass(frozen=True, slots=True)
class Reached:
    """seen: how the statement stands at first. ways: the shortest sequences, those without a wait first. detour: why
    the first way's end positions alone do not do, None where it has no detour or there is no way. more: how many ways
    were found besides those told."""

    seen: tuple[Seen, ...]
    ways: tuple[Way, ...]
    more: int
    detour: Detour | None
    refused: tuple[Refused, ...]
    tries: Tries


@dataclass(frozen=True, slots=True)
class AlreadyThere:
    """The statement is true to begin with."""

    seen: tuple[Seen, ...]


@dataclass(frozen=True, slots=True)
class NothingToMove:
    """No control can reach the statement from where things stand."""

    seen: tuple[Seen, ...]


ReachAnswer = Reached | AlreadyThere | NothingToMove | Undecided


def reach(
    base: Base,
    bound: Bound,
    most: int = 5,
    stop: Callable[[], bool] = lambda: False,
    as_found: Callable[[tuple[Action, ...]], None] = lambda one: None,
) -> ReachAnswer:
    """The shortest sequences of movements, of up to `bound.size`, after which a base's statement is true.

    most: how many are told. stop: asked now and then whether to end with what is known. as_found: told each at once.
    """
    first = holds(base).looked
    if isinstance(first, Undecided):
        return first
    seen = _seen(base, first)
    if first.decision.holds:
        return AlreadyThere(seen)
    hands = Hands(base)
    start = hands.start()
    if isinstance(start, Outcome):
        return Undecided(start.sentence)
    every = hands.moves(start[0])
    movements = sum(not hand.through for hand in every)
    if not movements and not hands.refused:
        return NothingToMove(seen)
    going: Going[Hand] = Going()
    for path in shortest(start, hands, bound, going, stop):
        as_found(actions_of(hands, path))
    ways, more, detour = _ways(base, hands, going.found, most)
    tries = Tries(
        len(hands.slots), movements, bound.size, going.length, going.tried, going.passed_over, going.same, hands.runs,
        len(going.undecided), going.ended or "stopped", len(every) - movements,
    )  # fmt: skip
    return Reached(seen, ways, more, detour, _refused(hands, start[0], bound.size, bool(ways)), tries)


def _seen(base: Base, looked: Looked) -> tuple[Seen, ...]:
    clock = looked.scene.clock
    moment = min(clock + looked.decision.at, float(looked.run.times[-1]))
    question = base.question
    return seen_at(question.statement, looked.run, question.bound, question.told.services, moment, clock)


def _ways(base: Base, hands: Hands, found: list[Path[Hand]], most: int) -> tuple[tuple[Way, ...], int, Detour | None]:
    """The sequences to tell, each with the shortest waits that do, run once more from the beginning as a claim would
    run them; and why the first one's end alone does not do."""
    ways: list[Way] = []
    detour: Detour | None = None
    left = 0
    for group in _grouped(_folded(found)):
        if len(ways) >= most:
            left += len(group)
            continue
        tried = [(path, orders, *_shortest_waits(base, hands, path)) for path, orders in group]
        told = [
            (path, replace(_way(base, path, actions, looked), orders=orders))
            for path, orders, actions, looked in tried
            if looked is not None
        ]
        if told and not ways:
            detour = detour_of(base, hands, told[0][0], told[0][1].actions)
        ways += _together([way for _, way in told]) if len(told) == len(group) else [way for _, way in told]
    return tuple(ways), left, detour


def _grouped(several: list[tuple[Path[Hand], int]]) -> list[list[tuple[Path[Hand], int]]]:
    """The sequences, together those that move the same controls alike and differ only in where some are put, if every
    combination of those places is among them."""
    alike: dict[object, list[tuple[Path[Hand], int]]] = {}
    for path, orders in several:
        moved = tuple((hand.input, hand.held, hand.through, wait) for hand, wait in path)
        alike.setdefault((moved, orders), []).append((path, orders))
    out: list[list[tuple[Path[Hand], int]]] = []
    for group in alike.values():
        places = _places([tuple(hand for hand, _ in path) for path, _ in group])
        out += [group] if prod(map(len, places)) == len(group) else [[one] for one in group]
    return out


def _places(several: Sequence[tuple[Hand, ...]]) -> tuple[tuple[str, ...], ...]:
    """Where each of some sequences of the same movements puts each control, each place once."""
    return tuple(tuple(dict.fromkeys(hand.words for hand in hands)) for hands in zip(*several, strict=True))


def _together(several: list[Way]) -> list[Way]:
    """Ways as one with its choices, where they go on alike: the waits that they want are the same."""
    first = several[0]
    waits = {tuple(one.seconds for one in way.actions if isinstance(one, Wait)) for way in several}
    if len(several) == 1 or len(waits) > 1:
        return several
    slowest = max(way.at for way in several)
    return [replace(first, choices=_places([way.moves for way in several]), slowest=slowest)]


def _folded(found: list[Path[Hand]]) -> list[tuple[Path[Hand], int]]:
    """The sequences that differ in more than their order, their waits and how long a control is held: of each sort the
    one with the fewest waits, then the fewest held while others are moved, then the shortest, and how many orders there
    are of it."""
    sorts: dict[frozenset[tuple[str, str, int]], list[Path[Hand]]] = {}
    for path in sorted(found, key=_effort):
        moves = [(hand.input, hand.words) for hand, _ in path]
        sorts.setdefault(frozenset((*move, moves.count(move)) for move in moves), []).append(path)
    return [(several[0], _orders(several)) for several in sorts.values()]


def _orders(several: list[Path[Hand]]) -> int:
    """In how many orders the movements of the first of some sequences do, as many being held the while as in it."""
    held = _holds(several[0])
    return len({tuple((hand.input, hand.words) for hand, _ in path) for path in several if _holds(path) == held})


def _holds(path: Path[Hand]) -> int:
    return sum(hand.through for hand, _ in path)


def _effort(path: Path[Hand]) -> tuple[int, int, int, float]:
    """How much it asks of hands: what stays where it is put is set first, a button or a starter pressed after it."""
    waits = [wait for _, wait in path if wait]
    pressed = [hand.held is not None and not hand.through for hand, _ in path]
    early = sum(not one for i, press in enumerate(pressed) if press for one in pressed[i + 1 :])
    return len(waits), _holds(path), early, sum(waits) + sum(hand.held or 0.0 for hand, _ in path)


def _shortest_waits(base: Base, hands: Hands, path: Path[Hand]) -> tuple[tuple[Action, ...], Looked | None]:
    whole = actions_of(hands, path)
    longest = max(wait for _, wait in path)
    shorter = [limit for limit in WAITS if limit < longest] if longest else []
    choices = [actions_within(whole, limit) for limit in shorter] + [whole]
    for actions, looked in zip(choices, looked_of(base, hands.base.made, choices), strict=True):
        if isinstance(looked, Looked) and looked.decision.holds:
            return actions, looked
    return whole, None


def _way(base: Base, path: Path[Hand], actions: tuple[Action, ...], looked: Looked) -> Way:
    question, clock = base.question, looked.scene.clock
    times = truth(question.statement, looked.run, question.bound, question.told.services)
    since = max((begin for begin, _ in times.stretches), default=clock)
    scope = replace(question.scope, actions=actions)
    cites = cites_of(question.statement, scope, question.bound, question.told.services)
    return Way(tuple(hand for hand, _ in path), actions, max(0.0, since - clock), _seen(base, looked), cites)


def _refused(hands: Hands, here: Here, length: int, found: bool) -> tuple[Refused, ...]:
    """The movements that rules held back, with what they ask: those that would do it by themselves; and, where nothing
    was found, those that could matter in sequences of a length, each alone or with others that are moved besides."""
    does = dict(zip(hands.refused, hands.arrive([(here, hand) for hand in hands.refused]), strict=True))
    told = (
        Refused(hand, asks_of(rules), does[hand] is True)
        for hand, rules in hands.refused.items()
        if does[hand] or (not found and hands.can_begin((), hand, length - 1))
    )
    return tuple(sorted(told, key=lambda one: not one.does))
