"""What happens on the way from one stop of an exploration to the next: states that come and go, with their times."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from cutaway.machine.records import Run

# How often a state may come and go before it is told once with its number of times.
OFTEN = 2


@dataclass(frozen=True, slots=True)
class Watch:
    """A state to be watched. words: while its signal is so; opposite: while it is not, '' where nothing is said."""

    part: str
    signal: str
    words: str
    opposite: str


@dataclass(frozen=True, slots=True)
class Happening:
    """A part came to be so, s after the movement began. times: how often that came about, the first time then."""

    time: float
    part: str
    words: str
    times: int = 1


def happenings(run: Run, watch: Sequence[Watch]) -> tuple[Happening, ...]:
    """What changed in a run of the states that are watched, in order of time."""
    column = {name: i for i, name in enumerate(run.names)}
    found: list[Happening] = []
    for one in watch:
        if one.signal in column:
            found += _of(run, one, run.values[:, column[one.signal]] > 0.5)
    return tuple(sorted(found, key=lambda happening: happening.time))


def _of(run: Run, one: Watch, so: npt.NDArray[np.bool_]) -> list[Happening]:
    turns = np.flatnonzero(so[1:] != so[:-1]) + 1
    found: list[Happening] = []
    for becomes, words in ((True, one.words), (False, one.opposite)):
        if not words:
            continue  # that it is no longer so is seen by what it comes to
        times = [float(run.times[i]) for i in turns if bool(so[i]) is becomes]
        if len(times) > OFTEN:
            found.append(Happening(times[0], one.part, words, len(times)))
        else:
            found += [Happening(time, one.part, words) for time in times]
    return found
