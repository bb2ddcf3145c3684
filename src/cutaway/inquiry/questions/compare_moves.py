"""What the crew of two standards sees otherwise once a single control is put elsewhere, from each situation."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import chain, zip_longest

from cutaway.inquiry.judging import scenes_of
from cutaway.inquiry.positions import elsewhere
from cutaway.inquiry.questions.compare_records import Behaviour, Moment, nowhere, shared
from cutaway.inquiry.questions.indications import Indication, alike, shown_at_end, signals_of
from cutaway.inquiry.rules import needed_by_rules
from cutaway.inquiry.scenes import Question, Scene
from cutaway.inquiry.told import Told, legs_for, placed_at_end
from cutaway.inquiry.verdicts import NotModelled, Seen, Undecided
from cutaway.inquiry.workshop import Made, Request, Workshop
from cutaway.language.syntax import And, ControlRef, Move, Scope, When
from cutaway.machine.bind import Bound, ControlSlot
from cutaway.machine.records import Run

# How long after a movement it is looked, s: a horn sounds at once, an engine stops in less. A control that springs back
# is held for longer than that. Choices of ours.
LOOKED_AFTER = 20.0
HELD = 25.0
BATCH = 40


@dataclass(frozen=True, slots=True)
class Moved:
    """behaviours: what is otherwise after a movement, and was not before. tried: how many movements were; possible: of
    how many; nothing: of how many of them the model could not say what comes."""

    behaviours: tuple[Behaviour, ...] = ()
    tried: int = 0
    possible: int = 0
    nothing: int = 0


NONE_MOVED = Moved()


@dataclass(frozen=True, slots=True)
class _Try:
    """One control put elsewhere from a situation; move None: nothing, for comparison."""

    situation: str
    move: Move | None
    words: tuple[str, str] | None = None


@dataclass(frozen=True, slots=True, eq=False)
class _Side:
    """One of the two, with what both show recorded."""

    bound: Bound
    made: Made
    told: Told
    workshop: Workshop

    def scene(self, one: _Try) -> Scene | None:
        """The course of a try, its movement put to its rules; None where there is none."""
        scenes = scenes_of(Question(And((), nowhere()), _scope(one), self.bound, self.told, self.workshop), self.made)
        return None if isinstance(scenes, NotModelled | Undecided) else scenes.all[0]


Shown = tuple[Seen, ...]


def compare_moves(
    bounds: tuple[Bound, Bound],
    situations: Sequence[str],
    workshop: Workshop,
    told: Told,
    most: int,
    stop: Callable[[], bool] = lambda: False,
) -> Moved:
    """The differences after single movements of controls that both have, at most so many of them: those of all
    situations in turn."""
    both = shared(*bounds)
    sides = tuple(_side(bound, both, workshop, told) for bound in bounds)
    by_situation = [list(_tries(name, bounds, sides, workshop, told)) for name in situations]
    every = [one for one in chain.from_iterable(zip_longest(*by_situation)) if one is not None]
    chosen = every[:most]
    still = {one.situation: _Try(one.situation, None) for one in chosen}
    before = dict(zip(still, _shown(list(still.values()), sides, both), strict=True))
    found: list[Behaviour] = []
    tried = nothing = 0
    for start in range(0, len(chosen), BATCH):
        if stop():
            break
        batch = chosen[start : start + BATCH]
        for one, now in zip(batch, _shown(batch, sides, both), strict=True):
            tried += 1
            was = before[one.situation]
            if was is None or now is None:
                nothing += 1
                continue
            found += _behaviours(one, was, now)
    return Moved(tuple(found), tried, len(every), nothing)


def _side(bound: Bound, both: Sequence[Indication], workshop: Workshop, told: Told) -> _Side:
    """One of the two, over all that both show and all that the rules of its controls ask."""
    rules: frozenset[str] = frozenset()
    for slot in bound.controls.values():
        one = _Try("", _move(bound, slot, 0.0))
        need, missing = needed_by_rules(Question(And((), nowhere()), _scope(one), bound, told, workshop))
        rules |= frozenset() if missing else need
    return _Side(bound, workshop.made(bound, signals_of(both) | rules), told, workshop)


def _scope(one: _Try) -> Scope:
    actions = () if one.move is None else (one.move,)
    return Scope(None, one.situation, (), (), (), actions, When("at", 0.0), "", nowhere())


def _tries(
    situation: str, bounds: tuple[Bound, Bound], sides: Sequence[_Side], workshop: Workshop, told: Told
) -> Iterator[_Try]:
    """Every control that both have, with the same positions, at each place where neither has it in a situation."""
    stands = [placed_at_end(legs_for(workshop.folder, told, b, _scope(_Try(situation, None)))) for b in bounds]
    for key, slot in bounds[0].controls.items():
        other = bounds[1].controls.get(key)
        if other is None or other.positions != slot.positions or other.ranged != slot.ranged:
            continue
        if not any(slot.input in side.made.inputs for side in sides):
            continue
        there = elsewhere(other, stands[1])
        for value in (one for one in elsewhere(slot, stands[0]) if one in there and one != 0.5):
            move = _move(bounds[0], slot, value)
            position = move.position or f"{100.0 * value:.0f} %"
            yield _Try(situation, move, (slot.spoken, position))


def _move(bound: Bound, slot: ControlSlot, value: float) -> Move:
    named = next((p for p in slot.positions if abs(slot.value(p) - value) < 1e-9), "")
    ref = ControlRef(bound.parts[slot.part].name, slot.control)
    return Move(ref, named, None if named else value, HELD if slot.springs_back else None, nowhere())


def _shown(
    tries: Sequence[_Try], sides: Sequence[_Side], both: Sequence[Indication]
) -> list[tuple[Shown, Shown] | None]:
    """What both show in each try, None where one of them gave no answer."""
    columns = [_shown_on(tries, side, both) for side in sides]
    return [None if a is None or b is None else (a, b) for a, b in zip(*columns, strict=True)]


def _shown_on(tries: Sequence[_Try], side: _Side, both: Sequence[Indication]) -> list[Shown | None]:
    scenes = [side.scene(one) for one in tries]
    requests = [_request(side.made, scene) for scene in scenes if scene is not None]
    results = iter(side.workshop.runs(requests))
    out: list[Shown | None] = []
    for one, scene in zip(tries, scenes, strict=True):
        result = next(results) if scene is not None else None
        if scene is None or not isinstance(result, Run) or result.outcome.kind != "done":
            out.append(None)
            continue
        shown = tuple(shown_at_end(i, result) for i in both)
        if one.words is not None:
            shown += (Seen(one.words[0], 0.0, None, "", "held back by a rule" if scene.refused else "free to move"),)
        out.append(shown)
    side.workshop.forget(requests)
    return out


def _request(made: Made, scene: Scene) -> Request:
    began = min((change.time for change in scene.changes), default=0.0)
    return Request(made, scene.legs, scene.changes, began + LOOKED_AFTER)


def _behaviours(one: _Try, was: tuple[Shown, Shown], now: tuple[Shown, Shown]) -> Iterator[Behaviour]:
    """What differs after a movement, less what differed in the same way without it."""
    same = {(a.what, a.dimension): (a, b) for a, b in zip(*was, strict=True)}
    assert one.words is not None
    for a, b in zip(*now, strict=True):
        before = same.get((a.what, a.dimension))
        if not alike(a, b) and not (before and alike(before[0], a) and alike(before[1], b)):
            yield Behaviour(Moment(one.situation, move=one.words), a, b)
