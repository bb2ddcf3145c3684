"""What hands can do from where things stand, and what comes of it: moves as runs from state to state.

A movement is made as a claim's action would be; before the next one either a moment passes, or things are let come to
rest (as long as it takes of `CALM_AFTER`). A control that springs back is pressed for a moment or longer, or held while
the next movement is made. So every sequence is a list of actions that a claim can repeat.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

from cutaway.inquiry.course import BETWEEN_ACTIONS, course_of, said
from cutaway.inquiry.deciding import LONGEST_REST, horizon
from cutaway.inquiry.judging import looked_at
from cutaway.inquiry.rules import rules_for
from cutaway.inquiry.scenes import Scene
from cutaway.inquiry.search.base import Base
from cutaway.inquiry.search.movable import as_it_stands, places, reachable
from cutaway.inquiry.search.sequences import After, Path
from cutaway.inquiry.truth import true_at_end
from cutaway.inquiry.verdicts import Undecided
from cutaway.inquiry.workshop import Request, looks
from cutaway.language.claims import ParsedRule
from cutaway.language.syntax import Action, ControlRef, Move, Wait
from cutaway.machine.bind import ControlSlot
from cutaway.machine.dead import at_nothing
from cutaway.machine.ending import is_calm
from cutaway.machine.likeness import likeness
from cutaway.machine.names import control_name
from cutaway.machine.reaching import Reaching
from cutaway.machine.records import Change, Job, Outcome, Run, State

# For how long a control that springs back is held, s: a moment, and long enough for an engine to be turned. Choices of
# ours.
HELD = (BETWEEN_ACTIONS, 10.0)
_HOLDS = (*((one, False) for one in HELD), (None, True))


@dataclass(frozen=True, slots=True)
class Hand:
    """A control is put somewhere. held: for how long, where it springs back, else None. words: the position. through:
    whether it springs back and is held while the next movement is made."""

    part: str
    control: str
    input: str
    value: float
    held: float | None
    words: str
    through: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class Here:
    """Where one stands: the state, and the last moment of the run that led there, for what rules ask. holding: what the
    other hand holds while the next movement is made."""

    state: State
    last: Run
    holding: Hand | None = None

    @property
    def key(self) -> str:
        """The same for all from which the same movement leads on alike."""
        return self.state.digest if self.holding is None else f"{self.state.digest} {self.holding.input}"


@dataclass(frozen=True, slots=True, eq=False)
class _Made:
    """A movement as it is made from a state: what changes, and when it is over, s."""

    changes: tuple[Change, ...]
    over: float


class Hands:
    """The moves from the states of one base. What each run came to is kept, so that none is made twice."""

    def __init__(self, base: Base) -> None:
        self.base, self.slots = reachable(base)
        self.rules = base.question.told.rules
        self.runs = 0
        self.refused: dict[Hand, tuple[ParsedRule, ...]] = {}
        self._places: dict[tuple[str, float], tuple[tuple[Hand, tuple[ParsedRule, ...]], ...]] = {}
        self._movements: dict[tuple[Hand, str], _Made] = {}
        self._came: dict[tuple[str, Hand], bool | None] = {}
        self._calmed: dict[tuple[str, Hand], tuple[Run, float | None]] = {}
        self._matter: dict[frozenset[str], bool] = {}
        self._index = {name: i for i, name in enumerate(self.base.made.machine.inputs)}
        self._start = self._begun()
        made, start = self.base.made, self._start
        still = frozenset[str]() if isinstance(start, Outcome) else at_nothing(made.machine, start[0].state)
        self._reaching = Reaching(made.network, as_it_stands(self.base), made.signals, still)

    def start(self) -> tuple[Here, str] | Outcome:
        """Where the base stands, with what has failed in it; or why it cannot be reached."""
        return self._start

    def _begun(self) -> tuple[Here, str] | Outcome:
        changes = self.base.scene.changes
        seconds = BETWEEN_ACTIONS if changes else 0.0
        (run,) = self.base.question.workshop.runs([Request(self.base.made, self.base.scene.legs, changes, seconds)])
        if isinstance(run, Outcome):
            return run
        return self._here(run) if run.outcome.kind == "done" else run.outcome

    # --- what sequences.World asks -----------------------------------------------------------------------------------

    def moves(self, here: Here) -> tuple[Hand, ...]:
        """Every position of every control that can matter, other than where it stands, that the rules let through."""
        found: list[Hand] = []
        holding = here.holding
        for slot in self.slots if holding is None else [s for s in self.slots if s.input != holding.input]:
            for hand, rules in self._from(slot, float(here.state.inputs[self._index[slot.input]])):
                if hand.through and (holding is not None or len(self.slots) == 1):
                    continue
                against = self._against(rules, here)
                if against and not hand.through:
                    self.refused.setdefault(hand, against)
                elif not against:
                    found.append(hand)
        return tuple(found)

    def _from(self, slot: ControlSlot, stands: float) -> tuple[tuple[Hand, tuple[ParsedRule, ...]], ...]:
        """Where a control can be put from where it stands, each with its rules."""
        key = (slot.input, stands)
        if key not in self._places:
            hands = [
                Hand(str(slot.part), slot.control, slot.input, value, held, said(slot, value), through)
                for value in places(slot, {slot.input: stands})
                for held, through in (_HOLDS if slot.springs_back and value != 0.0 else ((None, False),))
            ]
            self._places[key] = tuple((hand, self._rules(hand)) for hand in hands)
        return self._places[key]

    def _rules(self, hand: Hand) -> tuple[ParsedRule, ...]:
        return rules_for(self.rules, self.base.question.bound, ControlRef(hand.part, hand.control), hand.words)  # type: ignore[arg-type]

    def can_end(self, move: Hand) -> bool:
        """False for a control that is held for the next movement."""
        return not move.through

    def can_matter(self, path: Path[Hand], move: Hand) -> bool:
        """False where one of the controls moved cannot reach the statement while all others stay where they are: a
        sequence without it would do as well, and is shorter."""
        return self._all_matter(frozenset((*(hand.input for hand, _ in path), move.input)))

    def can_begin(self, path: Path[Hand], move: Hand, left: int) -> bool:
        """False where the same is true however many controls are moved besides in the moves that are left."""
        moved = frozenset((*(hand.input for hand, _ in path), move.input))
        others = [slot.input for slot in self.slots if slot.input not in moved]
        return any(
            self._all_matter(moved.union(more)) for size in range(left + 1) for more in combinations(others, size)
        )

    def _all_matter(self, moved: frozenset[str]) -> bool:
        if moved not in self._matter:
            by_rules = {
                control_name(action.control.part, action.control.control)
                for rule in self.rules
                if control_name(rule.control.part, rule.control.control) in moved
                for action in rule.then
                if isinstance(action, Move)
            }
            self._matter[moved] = moved <= self._reaching.inputs(moved | by_rules)
        return self._matter[moved]

    def arrive(self, pairs: Sequence[tuple[Here, Hand]]) -> list[bool | None]:
        """Whether the statement is true after each move, when it is looked for."""
        keys = [(here.key, hand) for here, hand in pairs]
        new = {key: pair for key, pair in zip(keys, pairs, strict=True) if key not in self._came}
        for key, run in zip(new, self._last(tuple(new.values())), strict=True):
            self._came[key] = self._true(run)
        return [self._came[key] for key in keys]

    def go_on(self, pairs: Sequence[tuple[Here, Hand]]) -> list[tuple[After[Here], ...]]:
        """After each move: a moment later, and once it is calm; with a control held, a moment later alone. A run that
        gave up leads nowhere."""
        made = [self._made(hand, here.holding) for here, hand in pairs]
        soon = self._run([(here, one, one.over + BETWEEN_ACTIONS) for (here, _), one in zip(pairs, made, strict=True)])
        calm = iter(self._calm([pair for pair in pairs if not pair[1].through]))
        found: list[tuple[After[Here], ...]] = []
        for run, (_, hand) in zip(soon, pairs, strict=True):
            afters: list[After[Here]] = []
            if run.outcome.kind == "done":
                here, like = self._here(run, hand if hand.through else None)
                afters.append(After(0.0, like, here))
            quiet, wait = next(calm) if not hand.through else (run, None)
            if wait is not None and quiet.outcome.kind == "done":
                here, like = self._here(quiet)
                afters.append(After(wait, like, here))
            found.append(tuple(afters))
        return found

    # --- runs ----------------------------------------------------------------------------------------------------

    def _last(self, pairs: Sequence[tuple[Here, Hand]]) -> list[Run]:
        """The run after each move until the statement is looked at."""
        if self.base.question.scope.when.kind == "settled":
            return [run for run, _ in self._becalmed(pairs)]
        length = horizon(self.base.question.scope.when, 0.0)[0]
        return self._run([(here, self._made(hand, here.holding), length) for here, hand in pairs])

    def _true(self, run: Run) -> bool | None:
        scene = Scene((), (), (), 0.0, 0, ())
        looked = looked_at(self.base.question, scene, run)
        return None if isinstance(looked, Undecided) else looked.decision.holds

    def _calm(self, pairs: Sequence[tuple[Here, Hand]]) -> list[tuple[Run, float | None]]:
        """The ends of runs until it is calm, and how long that was waited for after the move; None where it never is.
        Most were made when it was asked what comes of the move as the last."""
        keys = [(here.key, hand) for here, hand in pairs]
        self._becalmed([pair for key, pair in zip(keys, pairs, strict=True) if key not in self._calmed])
        return [self._calmed[key] for key in keys]

    def _becalmed(self, pairs: Sequence[tuple[Here, Hand]]) -> list[tuple[Run, float | None]]:
        """Runs until it is calm. Their ends are kept."""
        # The longest rest counts from the movement, as a claim's does.
        made = [self._made(hand, here.holding) for here, hand in pairs]
        looked = [looks(one.changes, LONGEST_REST) for one in made]
        wanted = [(here, one, LONGEST_REST) for (here, _), one in zip(pairs, made, strict=True)]
        found: list[tuple[Run, float | None]] = []
        for run, at, one in zip(self._run(wanted, looked), looked, made, strict=True):
            end = float(run.times[-1])
            wait = end - one.changes[-1].time if end < LONGEST_REST else LONGEST_REST
            found.append((run, wait if end in at or is_calm(end, run.certificate.rest) else None))
        for (here, hand), (run, calm_after) in zip(pairs, found, strict=True):
            self._calmed[here.key, hand] = run.at_its_end(), calm_after
        return found

    def _run(
        self, wanted: Sequence[tuple[Here, _Made, float]], looked: Sequence[tuple[float, ...]] | None = None
    ) -> list[Run]:
        """Runs for so long. looked: when each is looked at on the way, to end once all is calm."""
        machine = self.base.made.machine
        self.runs += len(wanted)
        jobs = [
            Job(machine, here.state, (), one.changes, seconds, looked is not None, looked[i] if looked else ())
            for i, (here, one, seconds) in enumerate(wanted)
        ]
        return list(self.base.question.workshop.gone_on(jobs))

    def _here(self, run: Run, holding: Hand | None = None) -> tuple[Here, str]:
        like = likeness(self.base.made.machine, run.end)
        here = Here(run.end, run.at_its_end(), holding)
        return here, like if holding is None else f"{like} holding {holding.input}"

    # --- movements and their rules -----------------------------------------------------------------------------------

    def _made(self, hand: Hand, holding: Hand | None = None) -> _Made:
        """A movement with its letting go, and what its rules move with it: the same wherever it is made from, since a
        control that is let go springs back. What the other hand holds meanwhile is let go a moment after."""
        key = (hand, "" if holding is None else holding.input)
        if key not in self._movements:
            bound = self.base.question.bound
            movements = course_of((self.action(hand),), bound, 0.0, {}).movements
            changes = [movement.change for movement in (movements[:1] if hand.through else movements)]
            over = changes[-1].time
            for rule in self._rules(hand):
                changes += [m.change for m in course_of(rule.then, bound, 0.0, {}).movements]
            if holding is not None:
                over += BETWEEN_ACTIONS
                changes.append(Change(over, holding.input, 0.0))
            inside = tuple(change for change in changes if change.input in self.base.made.inputs)
            self._movements[key] = _Made(inside, over)
        return self._movements[key]

    def _against(self, rules: tuple[ParsedRule, ...], here: Here) -> tuple[ParsedRule, ...]:
        """Those of a movement's rules that hold it back where one stands."""
        question = self.base.question
        services = question.told.services
        return tuple(
            rule
            for rule in rules
            if rule.only_when is not None and not true_at_end(rule.only_when, here.last, question.bound, services)
        )

    def action(self, hand: Hand) -> Move:
        """The movement as the grammar has it."""
        slot = self.base.question.bound.controls[(hand.part, hand.control)]
        named = hand.words in slot.positions
        return Move(
            ControlRef(hand.part, hand.control),  # type: ignore[arg-type]
            hand.words if named else "",
            None if named else hand.value,
            hand.held,
            self.base.question.statement.span,
            int(hand.through),
        )


def actions_of(hands: Hands, path: Path[Hand]) -> tuple[Action, ...]:
    """A sequence as actions of the grammar."""
    found: list[Action] = []
    for hand, wait in path:
        if wait:
            found.append(Wait(wait, hands.base.question.statement.span))
        found.append(hands.action(hand))
    return tuple(found)
