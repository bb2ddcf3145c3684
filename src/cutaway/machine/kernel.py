"""The march in time: steps, their error, located events, rest, and the rows that are recorded.

`advance` is the one entry. Everything it needs to go on stands in the arrays of `Live`, so that it may come back for
more room and be called again without a bit of difference. Written as plain Python, run in machine code (`compiled.py`).
"""

from cutaway.machine.kernel_assembly import refresh
from cutaway.machine.kernel_modes import (
    next_timer,
    passed,
    settle,
    urge,
    watched,
)
from cutaway.machine.kernel_newton import newton, unbalance
from cutaway.machine.kernel_signals import evaluate
from cutaway.machine.layout import (
    AT_REST,
    BEFORE,
    BEGUN,
    CHATTERS,
    CUTS,
    DIAGONAL,
    DONE,
    DRIVE,
    DRIVE_FROM,
    END,
    ERROR,
    EVENTS,
    FREE,
    FRESH,
    FULL,
    GAS,
    GAS_TRY,
    GATE,
    GATE_FROM,
    GROSS,
    HOLDS,
    HOLDS_TRY,
    JACK,
    KIND,
    LAST,
    LEAK,
    MATRIX,
    MEDIUM,
    NEXT_CHANGE,
    NO_SOLUTION,
    NOW,
    OWED,
    PENDING,
    RAM,
    RATE,
    REJECTED,
    RESIDUAL,
    ROWS,
    SLOW,
    SPEED,
    SPEED_TRY,
    STARTED,
    STEADY,
    STEP_SIZE,
    STEPS,
    STIFF,
    STILL_SINCE,
    SUPPLY,
    TAKEN,
    TERM,
    TIME,
    TOO_LONG,
    TRAVEL,
    TRIAL,
    UNBALANCE,
    UNTIL_REST,
    VALUE,
    WEIGHT,
    WHOLE,
    X_END,
    X_SCALE,
    X_TRY,
    Fixed,
    Live,
    Numbers,
    X,
)

STAY, GO_ON, SHARE = range(3)  # ways to begin a step
FIRST_STEP = 1.0e-4  # after an event, s: longer than any small store needs to find its level
LONGEST_STEP = 60.0
SHORTEST_STEP = 1.0e-5  # below this the error is no longer asked, s
LOCATED = 1.0e-7  # an event is located this closely, s
MOST_CUTS = 12
MOST_STEPS = 40_000
STILL_RATE = 1.0e-5  # a node that moves less than this many scales a second is still
STILL_SPEED = 1.0e-6  # a piston slower than this is still, m/s
SLAVED = 0.1  # a node that follows its neighbours within this time moves only because they do, s


def begin(fixed: Fixed, numbers: Numbers, live: Live) -> None:
    """Constants into their registers, contents from the across values, all signals; the first row."""
    for i in range(numbers.constants.size):
        live.register[LAST, i] = numbers.constants[i]
        live.register[TRIAL, i] = numbers.constants[i]
    refresh(fixed, numbers, live)
    evaluate(fixed, numbers, live, LAST)
    record(fixed, live)
    restart(live)


def record(fixed: Fixed, live: Live) -> None:
    """One row of the recorded signals, at this moment."""
    row = live.counts[ROWS]
    live.rows[row, 0] = live.clock[NOW]
    for j in range(fixed.out.size):
        live.rows[row, 1 + j] = live.register[LAST, fixed.out[j]]
    live.counts[ROWS] += 1


def roomless(live: Live) -> bool:
    """Whether the next step might not find room for its rows and events."""
    rows_left = live.rows.shape[0] - live.counts[ROWS]
    events_left = live.event.shape[1] - live.counts[EVENTS]
    return bool(rows_left < 4 or events_left < 26 * max(1, live.mode.shape[1]))


def apply_changes(live: Live) -> bool:
    """Puts every input change that is due; True if any was."""
    due = False
    for k in range(live.counts[NEXT_CHANGE], live.change.shape[1]):
        if live.change[TIME, k] > live.clock[NOW]:
            break
        live.inputs[live.change_input[k]] = live.change[VALUE, k]
        live.counts[NEXT_CHANGE] = k + 1
        due = True
    return due


def restart(live: Live) -> None:
    """Something jumped: the next step is short and is not judged by what went before."""
    live.counts[FRESH] = 0
    live.clock[STEP_SIZE] = FIRST_STEP
    live.clock[STILL_SINCE] = -1.0


def instant(fixed: Fixed, numbers: Numbers, live: Live) -> bool:
    """Everything that happens without time passing, once a step has ended: modes, then input changes. False on
    chatter."""
    for stage in range(2):
        if stage == 1 and not apply_changes(live):
            return True
        flipped, calm = settle(fixed, numbers, live, stage == 0)
        if flipped or stage == 1:
            record(fixed, live)
            restart(live)
        if not calm:
            return False
    return True


def forced(fixed: Fixed, numbers: Numbers, live: Live) -> float:
    """The next moment that no step may pass: the end, a change, a timer."""
    soonest = live.clock[END]
    if live.counts[NEXT_CHANGE] < live.change.shape[1]:
        soonest = min(soonest, live.change[TIME, live.counts[NEXT_CHANGE]])
    return float(min(soonest, live.clock[NOW] + next_timer(fixed, numbers, live)))


def prepare(fixed: Fixed, live: Live) -> None:
    """Gates, drives and boundaries for the coming step, from the signals as they stand at its start."""
    for e in range(fixed.element.shape[0]):
        live.element[GATE, e] = max(live.register[LAST, fixed.element[e, GATE_FROM]], 0.0)
        live.element[DRIVE, e] = max(live.register[LAST, fixed.element[e, DRIVE_FROM]], 0.0)
    n = fixed.size[FREE]
    for j in range(fixed.boundary.size):
        value = live.register[LAST, fixed.boundary[j]]
        live.node[X, n + j] = value
        live.node[X_TRY, n + j] = value


def foresee(fixed: Fixed, live: Live, way: int, step: float) -> None:
    """Where to begin a step: from where its nodes are, where they would go on to, or their share of the whole step's
    move."""
    for i in range(fixed.size[FREE]):
        x = live.node[X, i]
        if way == GO_ON:
            x += step * live.node[RATE, i]
        elif way == SHARE:
            x += (live.node[X_END, i] - x) * step / live.clock[WHOLE]
        live.node[X_TRY, i] = x


def attempt(fixed: Fixed, numbers: Numbers, live: Live, way: int, step: float) -> bool:
    """One step of that size, begun that way, or if that fails from where its nodes are."""
    for other in range(2):
        if other == 1 and way == STAY:
            return False
        foresee(fixed, live, STAY if other == 1 else way, step)
        if newton(fixed, numbers, live, step):
            return True
    return False


def step_error(fixed: Fixed, numbers: Numbers, live: Live, step: float) -> float:
    """Half the worst distance between the solution and what was foreseen, in scales (pistons: in tenths of a
    stroke)."""
    worst = 0.0
    for i in range(fixed.size[FREE]):
        foreseen = live.node[X, i] + step * live.node[RATE, i] if live.counts[FRESH] > 1 else live.node[X, i]
        worst = max(worst, abs(live.node[X_TRY, i] - foreseen) / numbers.node[X_SCALE, i])
    for j in range(fixed.stores.size):
        e = fixed.stores[j]
        kind = fixed.element[e, KIND]
        if kind in (JACK, RAM):
            first = 7 if kind == JACK else 6
            stroke = numbers.parameters[e, first + 1] - numbers.parameters[e, first]
            worst = max(worst, 10.0 * step * abs(live.element[SPEED_TRY, e] - live.element[SPEED, e]) / stroke)
    return 0.5 * worst


def crossing(fixed: Fixed, live: Live, at: int) -> float:
    """The largest urge among the modes under watch (those with a weight), before the step or at its trial's end."""
    largest = -1.0
    for m in range(fixed.mode.shape[1]):
        if live.mode[WEIGHT, m] > 0.0:
            largest = max(largest, live.mode[WEIGHT, m] * urge(fixed, live, at, m))
    return largest


def crossed(fixed: Fixed, numbers: Numbers, live: Live) -> bool:
    """Whether a watched mode's condition came true within the step; weights are set for those, scaled to the step's
    change."""
    any_crossed = False
    for m in range(fixed.mode.shape[1]):
        live.mode[WEIGHT, m] = 0.0
        if watched(numbers, live, m):
            after = urge(fixed, live, TRIAL, m)
            if after > 0.0:
                live.mode[WEIGHT, m] = 1.0 / (after + abs(urge(fixed, live, LAST, m)))
                any_crossed = True
    return any_crossed


def look(fixed: Fixed, numbers: Numbers, live: Live) -> None:
    """The signals at the end of the trial step."""
    evaluate(fixed, numbers, live, TRIAL)


def located(fixed: Fixed, numbers: Numbers, live: Live, whole: float) -> float:
    """The size of the step that ends just where the first watched mode comes due; the trial is left there.

    False position with the Illinois rule, and every third try a bisection, since a condition may jump.
    """
    for i in range(fixed.size[FREE]):
        live.node[X_END, i] = live.node[X_TRY, i]
    live.clock[WHOLE] = whole
    low, high, at = 0.0, whole, whole
    high_urge = crossing(fixed, live, TRIAL)
    low_urge = min(crossing(fixed, live, LAST), -1.0e-12)
    side = 0
    for k in range(60):
        last = high - low <= LOCATED or high_urge <= 1.0e-6
        if last and at == high:
            break
        if last:
            at = high
        elif k % 3 == 2:
            at = 0.5 * (low + high)
        else:
            at = high - high_urge * (high - low) / (high_urge - low_urge)
            at = min(max(at, low + 0.01 * (high - low)), high - 0.01 * (high - low))
        if not attempt(fixed, numbers, live, SHARE, at):
            return 0.0
        look(fixed, numbers, live)
        now_urge = crossing(fixed, live, TRIAL)
        if last:
            break
        if now_urge > 0.0:
            high, high_urge = at, now_urge
            if side == 1:
                low_urge *= 0.5
            side = 1
        else:
            low, low_urge = at, min(now_urge, -1.0e-12)
            if side == -1:
                high_urge *= 0.5
            side = -1
    return at


def accept(fixed: Fixed, numbers: Numbers, live: Live, step: float) -> None:
    """The trial becomes the state. What its residual leaves unaccounted is owed to the next step."""
    n = fixed.size[FREE]
    for i in range(n):
        live.node[RATE, i] = (live.node[X_TRY, i] - live.node[X, i]) / step
        live.node[X, i] = live.node[X_TRY, i]
        live.node[OWED, i] = -live.node[UNBALANCE, i] * step
        live.clock[RESIDUAL] = max(live.clock[RESIDUAL], unbalance(fixed, numbers, live, i, step))
        live.medium[SUPPLY, fixed.node[MEDIUM, i]] -= step * numbers.node[LEAK, i] * live.node[X, i]
        live.medium[GROSS, fixed.node[MEDIUM, i]] += step * numbers.node[LEAK, i] * abs(live.node[X, i])
    for j in range(fixed.boundary.size):
        medium = fixed.node[MEDIUM, n + j]
        live.medium[SUPPLY, medium] += step * live.node[UNBALANCE, n + j]
        live.medium[GROSS, medium] += step * abs(live.node[UNBALANCE, n + j])
    for e in range(fixed.element.shape[0]):
        for r in range(3):
            live.flow[LAST, e, r] = live.flow[TRIAL, e, r]
        if fixed.element[e, TERM + 2] >= 0:  # a motor: its torque comes from no other node of the shaft's medium
            live.medium[SUPPLY, fixed.node[MEDIUM, fixed.element[e, TERM + 2]]] -= step * live.flow[LAST, e, 2]
    for j in range(fixed.stores.size):
        e = fixed.stores[j]
        live.element[HOLDS, e] = live.element[HOLDS_TRY, e]
        live.element[GAS, e] = live.element[GAS_TRY, e]
        live.element[SPEED, e] = live.element[SPEED_TRY, e]
        if fixed.element[e, KIND] == JACK or fixed.element[e, KIND] == RAM:
            live.element[TRAVEL, e] = live.element[HOLDS_TRY, e]
    for i in range(numbers.constants.size + fixed.size[STEADY], live.register.shape[1]):
        live.register[LAST, i] = live.register[TRIAL, i]
    passed(fixed, numbers, live, step)
    live.counts[STEPS] += 1
    live.counts[FRESH] += 1


def stillness(fixed: Fixed, numbers: Numbers, live: Live, step: float) -> int:
    """0: something moves. 1: only slow stores do (tank, battery, bottle) and what follows them. 2: nothing does."""
    still = 2
    if live.counts[FRESH] < 3 or step < 1.0e-3:
        return 0
    for i in range(fixed.size[FREE]):
        rate = abs(live.node[RATE, i]) / numbers.node[X_SCALE, i]
        slow = fixed.node[SLOW, i] == 1 or (
            fixed.node[SLOW, i] == 2 and abs(live.node[RATE, i]) * 600.0 < abs(live.node[X, i])
        )
        if slow:
            if rate > 0.01 * STILL_RATE:
                still = min(still, 1)
        elif rate > STILL_RATE:
            follows = live.node[STIFF, i] * step < SLAVED * (
                live.matrix[MATRIX, fixed.node[DIAGONAL, i]] - live.node[STIFF, i]
            )
            if not follows:
                return 0
            still = min(still, 1)
    for j in range(fixed.stores.size):
        e = fixed.stores[j]
        if (fixed.element[e, KIND] == JACK or fixed.element[e, KIND] == RAM) and abs(
            live.element[SPEED, e]
        ) > STILL_SPEED:
            return 0
    for m in range(fixed.mode.shape[1]):
        if live.mode[PENDING, m] >= 0.0:
            return 0
    return still


def sized(numbers: Numbers, step: float, error: float) -> float:
    """The next step's size from this one's error."""
    grown = 0.9 * (numbers.tolerance[0] / max(error, 1.0e-12)) ** 0.5
    most = 3.0 if error < 0.02 * numbers.tolerance[0] else 1.6
    return float(min(LONGEST_STEP, step * min(max(grown, 0.2), most)))


def solve_step(fixed: Fixed, numbers: Numbers, live: Live, room: float) -> float:
    """Finds an acceptable step of at most `room`, leaves it as the trial, and returns its size; 0 where there is
    none."""
    step = min(live.clock[STEP_SIZE], room)
    if room - step < 0.2 * step:
        step = room
    cuts = 0
    while True:
        if not attempt(fixed, numbers, live, GO_ON if live.counts[FRESH] > 1 else STAY, step):
            cuts += 1
            live.counts[CUTS] += 1
            if cuts > MOST_CUTS:
                return 0.0
            step *= 0.25
            continue
        error = step_error(fixed, numbers, live, step)
        live.clock[ERROR] = error
        if live.counts[FRESH] > 0 and error > 3.0 * numbers.tolerance[0] and step > SHORTEST_STEP:
            live.counts[REJECTED] += 1
            step = max(SHORTEST_STEP, sized(numbers, step, error))
            continue
        return float(step)


def judge(fixed: Fixed, numbers: Numbers, live: Live) -> bool:
    """After a step without a jump: the size of the next one, and whether everything is at rest. True if the run may
    stop."""
    step = live.clock[TAKEN]
    live.clock[STEP_SIZE] = 2.0 * FIRST_STEP if live.counts[FRESH] == 1 else sized(numbers, step, live.clock[ERROR])
    still = stillness(fixed, numbers, live, step)
    if still == 0:
        live.clock[STILL_SINCE] = -1.0
        return False
    if live.clock[STILL_SINCE] < 0.0:
        live.clock[STILL_SINCE] = live.clock[BEFORE]
    none_due = live.counts[NEXT_CHANGE] >= live.change.shape[1]
    if still == 2 and (none_due or live.change[TIME, live.counts[NEXT_CHANGE]] - live.clock[NOW] > 1.0):
        live.clock[STEP_SIZE] = LONGEST_STEP
    return bool(still == 2 and none_due and live.counts[UNTIL_REST] == 1)


def take(fixed: Fixed, numbers: Numbers, live: Live) -> bool:
    """One step, cut short where a mode comes due in it, accepted and recorded. False where there is no solution."""
    stop = forced(fixed, numbers, live)
    room = stop - live.clock[NOW]
    prepare(fixed, live)
    step = solve_step(fixed, numbers, live, room)
    if step == 0.0:
        return False
    look(fixed, numbers, live)
    if crossed(fixed, numbers, live):
        step = located(fixed, numbers, live, step)
        if step == 0.0:
            return False
    accept(fixed, numbers, live, step)
    live.clock[BEFORE], live.clock[TAKEN] = live.clock[NOW], step
    live.clock[NOW] = stop if step == room else live.clock[NOW] + step
    record(fixed, live)
    return True


def advance(fixed: Fixed, numbers: Numbers, live: Live) -> int:
    """Begins, or runs on until the end, rest, trouble, or want of room for rows; says which."""
    if live.counts[STARTED] == 0:
        live.counts[STARTED] = 1
        begin(fixed, numbers, live)
        return BEGUN
    while True:
        # All up to `take` may be done twice at one instant without a difference: the run may have come back for room.
        if not instant(fixed, numbers, live):
            return CHATTERS
        if live.counts[FRESH] > 0 and judge(fixed, numbers, live):
            return AT_REST
        if live.clock[NOW] >= live.clock[END]:
            return DONE
        if roomless(live):
            return FULL
        if live.counts[STEPS] >= MOST_STEPS:
            return TOO_LONG
        if not take(fixed, numbers, live):
            return NO_SOLUTION
