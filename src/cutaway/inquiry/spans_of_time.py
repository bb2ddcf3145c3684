"""Stretches of time in which something is true, and how they combine."""

from dataclasses import dataclass

import numpy as np

from cutaway.machine.records import Floats


@dataclass(frozen=True, slots=True)
class Times:
    """Closed stretches (start, end), s, in order, inside a run of length `until`."""

    stretches: tuple[tuple[float, float], ...]
    until: float

    def holds_at(self, time: float) -> bool:
        """Whether it is true at a time."""
        return any(start <= time <= end for start, end in self.stretches)

    def first(self, since: float) -> float | None:
        """The first time at or after `since` at which it is true; what ends at that very instant is past."""
        for start, end in self.stretches:
            if end > since or since == end in (start, self.until):
                return max(start, since)
        return None

    def first_not(self, since: float) -> float | None:
        """The first time at or after `since` from which it is not true for a while."""
        for start, end in complement(self).stretches:
            if end > since:
                return max(start, since)
        return None


def of_flags(times: Floats, flags: Floats, until: float) -> Times:
    """From a recorded yes (> 0.5) or no; a change between two samples counts from the later."""
    on = flags > 0.5
    found: list[tuple[float, float]] = []
    start: float | None = None
    for i, yes in enumerate(on):
        if yes and start is None:
            start = float(times[i])
        elif not yes and start is not None:
            # What was so only before a jump at its very first instant was not so at all.
            if float(times[i]) > start:
                found.append((start, float(times[i])))
            start = None
    if start is not None:
        found.append((start, until))
    return Times(_joined(found), until)


def of_positive(times: Floats, values: Floats, until: float) -> Times:
    """Where a recorded number is at or above 0, with the crossings between samples on a straight line; a sample that
    is not a number (a dead instrument) counts as no."""
    found: list[tuple[float, float]] = []
    start: float | None = None
    for i in range(len(times)):
        value = float(values[i])
        yes = not np.isnan(value) and value >= 0.0
        if yes and start is None:
            start = _crossing(times, values, i) if i else float(times[0])
        elif not yes and start is not None:
            end = _crossing(times, values, i)
            if end > start:
                found.append((start, end))
            start = None
    if start is not None:
        found.append((start, until))
    return Times(_joined(found), until)


def _crossing(times: Floats, values: Floats, i: int) -> float:
    a, b = float(values[i - 1]), float(values[i])
    if np.isnan(a) or np.isnan(b) or a == b:
        return float(times[i])
    share = min(max(-a / (b - a), 0.0), 1.0)
    return float(times[i - 1] + share * (times[i] - times[i - 1]))


def _joined(found: list[tuple[float, float]]) -> tuple[tuple[float, float], ...]:
    out: list[tuple[float, float]] = []
    for start, end in sorted(found):
        if out and start <= out[-1][1]:
            out[-1] = (out[-1][0], max(out[-1][1], end))
        else:
            out.append((start, end))
    return tuple(out)


def complement(times: Times) -> Times:
    """Where it is not true. The instant of a change belongs to both."""
    out: list[tuple[float, float]] = []
    at = 0.0
    for start, end in times.stretches:
        if start > at:
            out.append((at, start))
        at = end
    if at < times.until or not times.stretches:
        out.append((at, times.until))
    return Times(tuple(out), times.until)


def both(a: Times, b: Times) -> Times:
    """Where both are true; a mere touch of two stretches at one instant does not count."""
    out = [
        (max(s1, s2), min(e1, e2))
        for s1, e1 in a.stretches
        for s2, e2 in b.stretches
        if max(s1, s2) < min(e1, e2) or (max(s1, s2) == min(e1, e2) and (s1 == e1 or s2 == e2))
    ]
    return Times(_joined(out), a.until)


def either(a: Times, b: Times) -> Times:
    """Where at least one is true."""
    return Times(_joined([*a.stretches, *b.stretches]), a.until)
