"""One linear solve: sparse elimination on a pattern known beforehand, and a pivoted one when a pivot fails."""

import numpy as np

from cutaway.machine.layout import Fixed, Floats, Live


def factored(fixed: Fixed, live: Live) -> bool:
    """`live.matrix` into lower and upper factors in `live.factors`, without exchanges. False where a pivot is too small."""
    values = live.factors
    values[:] = live.matrix
    for k in range(fixed.pivot.size):
        pivot = values[fixed.pivot[k]]
        if not abs(pivot) > 1.0e-13 * abs(live.matrix[fixed.pivot[k]]):
            return False
        inverse = 1.0 / pivot
        upper, width = fixed.upper_at[k], fixed.upper_at[k + 1] - fixed.upper_at[k]
        target = fixed.target_at[k]
        for p in range(fixed.lower_at[k], fixed.lower_at[k + 1]):
            factor = values[fixed.lower[p]] * inverse
            values[fixed.lower[p]] = factor
            for q in range(width):
                values[fixed.target[target + q]] -= factor * values[fixed.upper[upper + q]]
            target += width
    return True


def substituted(fixed: Fixed, live: Live) -> None:
    """`live.move` = minus the residual over the factored matrix."""
    values, work, n = live.factors, live.work, fixed.pivot.size
    for k in range(n):
        work[k] = -live.residual[fixed.order[k]]
    for k in range(n):
        for p in range(fixed.lower_at[k], fixed.lower_at[k + 1]):
            work[fixed.lower_row[p]] -= values[fixed.lower[p]] * work[k]
    for k in range(n - 1, -1, -1):
        total = work[k]
        for p in range(fixed.upper_at[k], fixed.upper_at[k + 1]):
            total -= values[fixed.upper[p]] * work[fixed.upper_column[p]]
        work[k] = total / values[fixed.pivot[k]]
        live.move[fixed.order[k]] = work[k]


def pivoted(matrix: Floats, right: Floats) -> bool:
    """`right` becomes the solution of the dense system, by elimination with row exchanges. False where it is singular."""
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
    n = fixed.pivot.size
    dense = np.zeros((n, n))
    right = np.zeros(n)
    for p in range(fixed.row_of.size):
        dense[fixed.row_of[p], fixed.column_of[p]] = live.matrix[p]
    for k in range(n):
        right[k] = -live.residual[fixed.order[k]]
    if not pivoted(dense, right):
        return False
    for k in range(n):
        live.move[fixed.order[k]] = right[k]
    return True
