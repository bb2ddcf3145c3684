"""What a run is asked for and what it gives back."""

from dataclasses import dataclass, replace
from typing import Any, Literal

import numpy as np
import numpy.typing as npt

Floats = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Change:
    """At `time`, s from the start of the job, the named input takes `value`."""

    time: float
    input: str
    value: float


@dataclass(frozen=True, slots=True)
class SetContent:
    """Before the job begins, the named element's content (or a jack's travel) is put to `value`, SI."""

    element: str
    value: float


@dataclass(frozen=True, slots=True, eq=False)
class State:
    """Everything that a run carries forward, so that another can go on from it. Opaque outside `machine`.

    inputs: the value of every input, in the order of the compiled machine.
    """

    x: Floats
    content: Floats
    modes: Floats
    timers: Floats
    inputs: Floats
    step: Floats
    digest: str


@dataclass(frozen=True, slots=True)
class Event:
    """A mode that changed at a located time."""

    time: float
    mode: str
    now: bool


@dataclass(frozen=True, slots=True)
class Outcome:
    """How a run ended: 'done' (ran to its end), 'gave up' (no solution), 'chatters' (modes that never come to rest).

    at: where it stopped. parts: the parts that have to do with it. sentence: for the user, no jargon.
    """

    kind: Literal["done", "gave up", "chatters"]
    at: float
    parts: tuple[str, ...]
    sentence: str


@dataclass(frozen=True, slots=True)
class Certificate:
    """What a run can be held to.

    residual: worst scaled residual of any accepted step. conservation: worst relative error of any medium's total
    content over the run. steps, cuts, transients, flips: counts. rest: s from the start of the job after which nothing
    moved any more, or -1. uniqueness: the class of each
    connected component. kernel: hash of all law and kernel sources.
    """

    residual: float
    conservation: float
    steps: int
    cuts: int
    transients: int
    flips: int
    rest: float
    uniqueness: tuple[tuple[str, str], ...]
    kernel: str


@dataclass(frozen=True, slots=True, eq=False)
class Run:
    """One lane, run. times: (n,), s, never falling; twice the same where a mode or an input jumped.

    values: (n, k), one column a signal of the machine, in the order of `names`.
    """

    names: tuple[str, ...]
    times: Floats
    values: Floats
    events: tuple[Event, ...]
    outcome: Outcome
    certificate: Certificate
    end: State

    def column(self, name: str) -> Floats:
        """The trace of one signal, (n,)."""
        column: Floats = self.values[:, self.names.index(name)]
        return column

    def at_its_end(self) -> "Run":
        """Its last moment, to be kept without its course."""
        return replace(self, times=self.times[-1:].copy(), values=self.values[-1:].copy(), events=())


@dataclass(frozen=True, slots=True, eq=False)
class Job:
    """One lane to run: a compiled machine from a state (None: its own start), with changes, for `seconds`.

    until_rest: stop early once nothing moves and no change is due (the run is then held to its end). looks: moments
    before that, s, after the last change, at which the run ends if it has been calm for a while or goes steadily to and
    fro (see `machine/ending.py`).
    """

    machine: Any
    start: State | None
    sets: tuple[SetContent, ...]
    changes: tuple[Change, ...]
    seconds: float
    until_rest: bool = False
    looks: tuple[float, ...] = ()
