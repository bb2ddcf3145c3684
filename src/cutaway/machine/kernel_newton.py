"""One implicit step: Newton's rule with a line search, and a pseudo-transient when it makes no headway."""

from cutaway.machine.kernel_assembly import assemble
from cutaway.machine.kernel_linear import solved
from cutaway.machine.layout import (
    DIAGONAL,
    FREE,
    MATRIX,
    MOVE,
    Q_SCALE,
    SIZE,
    SOLVES,
    TRANSIENTS,
    UNBALANCE,
    X_BASE,
    X_SCALE,
    X_TRY,
    Fixed,
    Live,
    Numbers,
)

LONGEST_MOVE = 20.0  # in scales, so that no across value runs away in one move
ALLOWED = 1.0e-9
NEWTON_TRIES = 25
TRANSIENT_TRIES = 200


def unbalance(fixed: Fixed, numbers: Numbers, live: Live, i: int, step: float) -> float:
    """What is left over at a node: 1e-9 is just allowed.

    Allowed is a part of the medium's scale (in a long step less, so that it leaves no more behind than a short one),
    and the round-off of what is summed at the node: without that, a stiff store would look like failure.
    """
    stiff = abs(live.matrix[MATRIX, fixed.node[DIAGONAL, i]] * live.node[X_TRY, i])
    scale = numbers.node[Q_SCALE, i] / max(1.0, step) + 4.0e-3 * (live.node[SIZE, i] + 1.0e-3 * stiff)
    return float(abs(live.node[UNBALANCE, i]) / scale)


def converged(fixed: Fixed, numbers: Numbers, live: Live, step: float) -> bool:
    """Whether every node's flows balance."""
    for i in range(fixed.size[FREE]):  # noqa: SIM110 (numba takes no generators)
        if not unbalance(fixed, numbers, live, i, step) <= ALLOWED:
            return False
    return True


def shortened(fixed: Fixed, numbers: Numbers, live: Live) -> float:
    """By how much the move must be shortened so that no across value moves too far."""
    longest = 0.0
    for i in range(fixed.size[FREE]):
        longest = max(longest, abs(live.node[MOVE, i]) / numbers.node[X_SCALE, i])
    return 1.0 if longest <= LONGEST_MOVE else LONGEST_MOVE / longest


def moved(fixed: Fixed, live: Live, part: float) -> None:
    """`live.x_try` = base + part of the move."""
    for i in range(fixed.size[FREE]):
        live.node[X_TRY, i] = live.node[X_BASE, i] + part * live.node[MOVE, i]


def newton(fixed: Fixed, numbers: Numbers, live: Live, step: float) -> bool:
    """Solves the step from `live.x_try`, which then holds the solution, with flows and matrix of the same place."""
    n = fixed.size[FREE]
    live.counts[SOLVES] += 1
    merit = assemble(fixed, numbers, live, step)
    short = 0
    for _ in range(NEWTON_TRIES):
        if converged(fixed, numbers, live, step):
            return True
        if not merit < 1.0e300 or not solved(fixed, live):
            return False
        for i in range(n):
            live.node[X_BASE, i] = live.node[X_TRY, i]
        part = shortened(fixed, numbers, live)
        trial, halvings = merit, 0
        for halving in range(11):
            halvings = halving
            moved(fixed, live, part)
            trial = assemble(fixed, numbers, live, step)
            if trial <= merit * (1.0 - 1.0e-4 * part):
                break
            part *= 0.5
        merit = trial
        short = short + 1 if halvings > 2 else 0
        if short >= 3:
            break
    if converged(fixed, numbers, live, step):
        return True
    return pseudo_transient(fixed, numbers, live, step, merit)


def pseudo_transient(fixed: Fixed, numbers: Numbers, live: Live, step: float, merit: float) -> bool:
    """Walks to the solution as if every node had a larger store, which shrinks as the residual falls."""
    n = fixed.size[FREE]
    live.counts[TRANSIENTS] += 1
    tau = 1.0
    for _ in range(TRANSIENT_TRIES):
        for i in range(n):
            live.matrix[MATRIX, fixed.node[DIAGONAL, i]] += numbers.node[Q_SCALE, i] / (numbers.node[X_SCALE, i] * tau)
        if not merit < 1.0e300 or not solved(fixed, live):
            return False
        for i in range(n):
            live.node[X_BASE, i] = live.node[X_TRY, i]
        moved(fixed, live, shortened(fixed, numbers, live))
        trial = assemble(fixed, numbers, live, step)
        if trial < merit:
            tau *= min(1.5 * (merit / max(trial, 1.0e-300)) ** 0.5, 10.0)
            merit = trial
        else:
            for i in range(n):
                live.node[X_TRY, i] = live.node[X_BASE, i]
            assemble(fixed, numbers, live, step)
            tau *= 0.2
        if converged(fixed, numbers, live, step):
            return True
        if tau < 1.0e-12:
            return False
    return False
