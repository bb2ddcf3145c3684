"""One linear solve: sparse elimination on a pattern known beforehand, and a pivoted one when a pivot fails."""

from cutaway.machine.layout import (
    FACTORS,
    FILL_AT,
    FREE,
    LOWER,
    MATRIX,
    MOVE,
    ORDER,
    ROW,
    UNBALANCE,
    UPPER,
    WORK,
    Fixed,
    Floats,
    Live,
)


def factored(fixed: Fixed, live: Live) -> bool:
    """`live.matrix` into lower and upper factors in `live.factors`, without exchanges. False where a pivot is too
    small."""
    values = live.matrix[FACTORS]
    for p in range(values.size):
        values[p] = live.matrix[MATRIX, p]
    target = 0
    for k in range(fixed.size[FREE]):
        pivot = values[k]
        if not abs(pivot) > 1.0e-13 * abs(live.matrix[MATRIX, k]):
            return False
        inverse = 1.0 / pivot
        upper, width = fixed.node[FILL_AT, k], fixed.node[FILL_AT, k + 1] - fixed.node[FILL_AT, k]
        for p in range(fixed.node[FILL_AT, k], fixed.node[FILL_AT, k + 1]):
            factor = values[fixed.fill[LOWER, p]] * inverse
            values[fixed.fill[LOWER, p]] = factor
            for q in range(width):
                values[fixed.target[target + q]] -= factor * values[fixed.fill[UPPER, upper + q]]
            target += width
    return True


def substituted(fixed: Fixed, live: Live) -> None:
    """`live.move` = minus the residual over the factored matrix."""
    values, work, n = live.matrix[FACTORS], live.node[WORK], fixed.size[FREE]
    for k in range(n):
        work[k] = -live.node[UNBALANCE, fixed.node[ORDER, k]]
    for k in range(n):
        for p in range(fixed.node[FILL_AT, k], fixed.node[FILL_AT, k + 1]):
            work[fixed.fill[ROW, p]] -= values[fixed.fill[LOWER, p]] * work[k]
    for k in range(n - 1, -1, -1):
        total = work[k]
        for p in range(fixed.node[FILL_AT, k], fixed.node[FILL_AT, k + 1]):
            total -= values[fixed.fill[UPPER, p]] * work[fixed.fill[ROW, p]]
        work[k] = total / values[k]
        live.node[MOVE, fixed.node[ORDER, k]] = work[k]


def pivoted(matrix: Floats, right: Floats) -> bool:
    """`right` becomes the solution of the dense system, by elimination with row exchanges. False where it is
    singular."""
    n = right.size
    for k in range(n):
        best = k
        for i in range(k + 1, n):
            if abs(matrix[i, k]) > abs(matrix[best, k]):
                best = i
        if not abs(matrix[best, k]) > 0.0:
            return False
        if best != k:
            for j in range(n):
                matrix[k, j], matrix[best, j] = matrix[best, j], matrix[k, j]
            right[k], right[best] = right[best], right[k]
        for i in range(k + 1, n):
            factor = matrix[i, k] / matrix[k, k]
            if factor != 0.0:
                for j in range(k + 1, n):
                    matrix[i, j] -= factor * matrix[k, j]
                right[i] -= factor * right[k]
    for k in range(n - 1, -1, -1):
        for j in range(k + 1, n):
            right[k] -= matrix[k, j] * right[j]
        right[k] /= matrix[k, k]
    return True


def solved(fixed: Fixed, live: Live) -> bool:
    """`live.move` from `live.matrix` and `live.residual`; False where no move could be found."""
    if factored(fixed, live):
        substituted(fixed, live)
        return True
    n = fixed.size[FREE]
    live.dense[:, :] = 0.0
    for p in range(fixed.place.shape[1]):
        live.dense[fixed.place[0, p], fixed.place[1, p]] = live.matrix[MATRIX, p]
    right = live.node[WORK, :n]
    for k in range(n):
        right[k] = -live.node[UNBALANCE, fixed.node[ORDER, k]]
    if not pivoted(live.dense, right):
        return False
    for k in range(n):
        live.node[MOVE, fixed.node[ORDER, k]] = right[k]
    return True
