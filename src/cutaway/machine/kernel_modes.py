"""Modes: when each is due, flipping all that are due at one instant, and noticing that they will not come to rest."""

from cutaway.machine.kernel_signals import evaluate
from cutaway.machine.layout import (
    AGE,
    CLEARS,
    DELAY,
    DWELL,
    EVENTS,
    FLIP_MEMORY,
    FLIPPED,
    FLIPS,
    IS_SET,
    LAST,
    NOW,
    NOW_SET,
    PENDING,
    RINGING,
    SETS,
    TIME,
    WHICH,
    Fixed,
    Live,
    Numbers,
)

MOST_ROUNDS = 12
CHATTER_TIME = 0.1  # more than 20 flips of one mode in this time is chatter, s
RINGS = 2  # a mode that has flipped so often at one instant has come round
JUST = 1.0e-12  # a timer this near its end has ended, s


def urge(fixed: Fixed, live: Live, at: int, m: int) -> float:
    """How far the condition for the mode's next flip is exceeded; it is due where this is above 0. Clearing goes
    first."""
    clears = live.register[at, fixed.mode[CLEARS, m]]
    if live.mode[IS_SET, m] > 0.0:
        return float(clears)
    return float(live.register[at, fixed.mode[SETS, m]]) if clears <= 0.0 else -1.0


def rested(numbers: Numbers, live: Live, m: int) -> bool:
    """Whether the mode has been as it is for its least time."""
    return bool(live.mode[AGE, m] >= numbers.mode[DWELL, m] - JUST)


def watched(numbers: Numbers, live: Live, m: int) -> bool:
    """Whether the moment at which the mode's condition comes true must be located (no timer stands in between)."""
    return rested(numbers, live, m) and live.mode[PENDING, m] < 0.0


def flip(numbers: Numbers, live: Live, m: int) -> None:
    """The mode changes, now; the event is noted."""
    live.mode[IS_SET, m] = 0.0 if live.mode[IS_SET, m] > 0.0 else 1.0
    live.mode[AGE, m] = 0.0
    live.mode[PENDING, m] = -1.0
    live.flip_time[m, live.tally[FLIPPED, m] % FLIP_MEMORY] = live.clock[NOW]
    live.tally[FLIPPED, m] += 1
    live.counts[FLIPS] += 1
    k = live.counts[EVENTS]
    live.event[TIME, k] = live.clock[NOW]
    live.event[WHICH, k] = m
    live.event[NOW_SET, k] = live.mode[IS_SET, m]
    live.counts[EVENTS] += 1


def flip_due(fixed: Fixed, numbers: Numbers, live: Live) -> bool:
    """Flips every mode that is due, in order, by the registers as they stand; starts and stops timers. True if any
    flipped."""
    flipped = False
    for m in range(fixed.mode.shape[1]):
        wants = urge(fixed, live, LAST, m) > 0.0
        if not wants:
            live.mode[PENDING, m] = -1.0
        elif rested(numbers, live, m):
            waits = live.mode[IS_SET, m] <= 0.0 and numbers.mode[DELAY, m] > 0.0
            if waits and live.mode[PENDING, m] < 0.0:
                live.mode[PENDING, m] = 0.0
            if not waits or live.mode[PENDING, m] >= numbers.mode[DELAY, m] - JUST:
                flip(numbers, live, m)
                live.tally[RINGING, m] += 1
                flipped = True
    return flipped


def settle(fixed: Fixed, numbers: Numbers, live: Live, current: bool) -> tuple[bool, bool]:
    """Signals and modes until nothing more is due at this instant: whether any flipped, and whether they came to rest.

    current: the registers already are those of this instant.
    """
    any_flipped = False
    live.tally[RINGING] = 0
    for k in range(MOST_ROUNDS):
        if k > 0 or not current:
            evaluate(fixed, numbers, live, LAST)
        if not flip_due(fixed, numbers, live):
            return any_flipped, not chattering(fixed, live)
        any_flipped = True
    return True, False


def chattering(fixed: Fixed, live: Live) -> bool:
    """Whether a mode has flipped more than 20 times in a short time; those that have are marked in `live.ringing`."""
    found = False
    for m in range(fixed.mode.shape[1]):
        quick = False
        if live.tally[FLIPPED, m] >= FLIP_MEMORY:
            oldest = live.flip_time[m, live.tally[FLIPPED, m] % FLIP_MEMORY]
            quick = live.clock[NOW] - oldest <= CHATTER_TIME
        live.tally[RINGING, m] = RINGS if quick else 0
        found = found or quick
    return found


def passed(fixed: Fixed, numbers: Numbers, live: Live, step: float) -> None:
    """Timers and ages grow by a step."""
    for m in range(fixed.mode.shape[1]):
        live.mode[AGE, m] += step
        if live.mode[PENDING, m] >= 0.0:
            live.mode[PENDING, m] += step


def next_timer(fixed: Fixed, numbers: Numbers, live: Live) -> float:
    """How long until the first timer or dwell ends, s; a large number where none runs."""
    soonest = 1.0e30
    for m in range(fixed.mode.shape[1]):
        if live.mode[PENDING, m] >= 0.0:
            soonest = min(soonest, max(numbers.mode[DELAY, m] - live.mode[PENDING, m], 0.0))
        elif not rested(numbers, live, m):
            soonest = min(soonest, numbers.mode[DWELL, m] - live.mode[AGE, m])
    return soonest
