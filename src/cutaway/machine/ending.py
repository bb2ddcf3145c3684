"""When a run may end before its time: it is calm, or goes steadily to and fro and would do so for ever."""

from collections.abc import Sequence

from cutaway.machine.records import Event

# How long it must have been calm, s. Choices of ours, as are all that follow.
CALM_FOR = 1.0
# A run that has cost fewer steps than this is gone on with, since that costs little.
MANY_STEPS = 2_000
# How often a mode must have come about in the later half of the run, and how alike the times between must be.
TIMES = 5
ALIKE = 0.02


def is_calm(at: float, still_since: float) -> bool:
    """Whether at a moment nothing but slow stores has moved for a while. still_since: -1 where something does."""
    return 0.0 <= still_since <= at - CALM_FOR


def may_end(at: float, still_since: float, steps: int, events: Sequence[Event]) -> bool:
    """Whether a run that was looked at may end there: calm, or much run already and steadily to and fro."""
    return is_calm(at, still_since) or goes_to_and_fro(at, steps, events)


def goes_to_and_fro(at: float, steps: int, events: Sequence[Event]) -> bool:
    """Whether a run has gone to and fro for long enough to end: much run already, and steadily."""
    return steps >= MANY_STEPS and period(at, events) > 0.0


def period(at: float, events: Sequence[Event]) -> float:
    """The longest time, s, after which some mode has come about again and again in the later half of a run; 0 where
    there is none, or where some mode that comes about there does so otherwise.

    >>> period(100.0, [Event(t, "made", True) for t in (45.0, 52.0, 62.0, 72.0, 82.0, 92.0)])
    10.0
    """
    came: dict[str, list[float]] = {}
    for event in events:
        if event.now and event.time > 0.5 * at:
            came.setdefault(event.mode, []).append(event.time)
    longest = 0.0
    for times in came.values():
        between = [later - earlier for earlier, later in zip(times[-TIMES:], times[-TIMES + 1 :], strict=False)]
        if len(between) < TIMES - 1 or max(between) - min(between) > ALIKE * max(between):
            return 0.0
        longest = max(longest, between[-1])
    return longest
