"""The machines, states and runs of one folder, each made once: what all questions on that folder share.

A workshop has a life: it grows as questions are asked and goes with whoever owns it. What it returns is frozen.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from hashlib import blake2b
from typing import Literal

from cutaway.handbook.records import Folder
from cutaway.inquiry.course import Leg
from cutaway.machine import loose_ends, out_of_reach
from cutaway.machine.bind import Bound, bind, vary_within
from cutaway.machine.compile import Machine, compile_network
from cutaway.machine.expressions import driving
from cutaway.machine.network import Network
from cutaway.machine.records import Change, Job, Outcome, Run, SetContent, State
from cutaway.machine.renumbered import renumbered
from cutaway.machine.run import run_jobs
from cutaway.machine.slicing import Slicer
from cutaway.machine.subjects import Subject, subjects
from cutaway.parts.kind import Kind
from cutaway.problems.diagnostic import Problems

Values = tuple[tuple[tuple[str, str], float], ...]
Until = Literal["end", "rest", "calm"]

# When it is looked whether a model has calmed down, s after the last change. Choices of ours.
CALM_AFTER = (120.0, 600.0)
# How many numbers the traces that are kept may have: about 160 MB.
ROOM_FOR = 20_000_000


@dataclass(frozen=True, eq=False)
class Made:
    """A machine over a cone. It is compiled when it is first run: of a verdict that is remembered only the digest is
    wanted.

    signals: what it records. digest: stands for the network's content and what is recorded. like: one that may differ
    from it in numbers only, whose structure then does for both. values: which, where it is that one with other values.
    """

    network: Network
    signals: frozenset[str]
    digest: str
    like: "Made | None" = None
    values: Values = ()

    @cached_property
    def _compiled(self) -> tuple[Machine, Problems]:
        known = None if self.like is None else renumbered(self.like.machine, self.network)
        return known or compile_network(self.network, tuple(sorted(self.signals)))

    @property
    def machine(self) -> Machine:
        """The arrays that are run."""
        return self._compiled[0]

    @property
    def problems(self) -> Problems:
        """What compiling it told."""
        return self._compiled[1]

    @cached_property
    def inputs(self) -> frozenset[str]:
        """What can be set in it from outside."""
        return frozenset(slot.name for slot in self.network.inputs)

    @cached_property
    def elements(self) -> frozenset[str]:
        """Its elements, of which some hold something that can be set."""
        return frozenset(element.name for element in self.network.elements)

    @cached_property
    def cone(self) -> str:
        """Stands for what moves in it, whatever is looked at: two with one cone do the same."""
        things = (self.network.nodes, self.network.elements)
        text = repr([[one.name for one in group] for group in things])
        return blake2b(text.encode(), digest_size=16).hexdigest()

    @cached_property
    def physical(self) -> str:
        """Stands for all that decides its states: everything but the signals that are only looked at."""
        if self.like is not None and self.values:  # writing out a whole network for each value takes longer than runs
            return f"{self.like.physical} with {self.values}"
        network, used = self.network, driving(self.network)
        signals = tuple((name, e) for name, e in network.signals if name in used)
        text = repr((network.nodes, network.elements, network.modes, network.inputs, signals))
        return blake2b(text.encode(), digest_size=16).hexdigest()


@dataclass(frozen=True, slots=True, eq=False)
class Request:
    """A run that is wanted: legs to the situation, then changes, for `seconds` at most.

    until: 'end' of that time; 'rest', when nothing moves any more; 'calm', when nothing moves but what tanks, batteries
    and bottles slowly gain or lose: looked for after two minutes, ten minutes and the whole time.
    """

    made: Made
    legs: tuple[Leg, ...]
    changes: tuple[Change, ...]
    seconds: float
    until: Until = "end"


class Workshop:
    """All that has been made for one folder so far. `progress` is told how many runs a batch has, as it begins."""

    def __init__(
        self,
        folder: Folder,
        kinds: Mapping[str, Kind],
        threads: int | None = None,
        progress: Callable[[int], None] | None = None,
    ) -> None:
        self.folder = folder
        self.kinds = kinds
        self.runs_made = 0
        self._threads = threads
        self._progress = progress
        self._bound: dict[str, tuple[Bound, Problems]] = {}
        self._slicers: dict[Bound, Slicer] = {}
        self._made: dict[tuple[Bound, frozenset[str], Values], Made] = {}
        self._states: dict[tuple[str, tuple[Leg, ...]], State | Outcome] = {}
        self._runs: dict[tuple[object, ...], Run] = {}
        self._wanted: dict[tuple[Bound, str], set[str]] = {}

    def bound(self, subject: Subject) -> tuple[Bound, Problems]:
        """The subject's whole network."""
        if subject.name not in self._bound:
            self._bound[subject.name] = bind(self.folder, subject, self.kinds)
        return self._bound[subject.name]

    def problems(self) -> Problems:
        """What is wrong with the networks of all subjects, as binding and compiling them tells; each thing once."""
        found: list[Problems] = []
        bounds: list[Bound] = []
        for subject in subjects(self.folder):
            bound, problems = self.bound(subject)
            whole = self.made(bound, frozenset(name for name, _ in bound.network.signals))
            found.extend((problems, whole.problems))
            if subject.name == subject.standard:
                bounds.append(bound)
        if not self.folder.left_out:  # what was left out leaves loose ends behind, which are not the user's
            found.append((*loose_ends.told(bounds), *out_of_reach.told(bounds)))
        return tuple(dict.fromkeys(problem for problems in found for problem in problems))

    def made(self, bound: Bound, signals: frozenset[str]) -> Made:
        """The machine over all that can reach the signals, with the values as stated."""
        key = (bound, signals, ())
        if key not in self._made:
            slicer = self._slicer(bound)
            network = slicer.cone(signals)
            self._made[key] = Made(network, signals, slicer.digest(network, signals))
        return self._made[key]

    def expected(self, bound: Bound, made: Made) -> None:
        """Tell beforehand of a machine whose values will be varied, so that `widest` records what it does as well."""
        self._wanted.setdefault(_cone_key(bound, made), set()).update(made.signals)

    def widest(self, bound: Bound, made: Made) -> Made:
        """The same cone recording what all that were told of beforehand want: varied once for all of them."""
        wanted = self._wanted.get(_cone_key(bound, made), set())
        return self.made(bound, frozenset(wanted)) if made.signals < wanted else made

    def _slicer(self, bound: Bound) -> Slicer:
        if bound not in self._slicers:
            self._slicers[bound] = Slicer(bound.network)
        return self._slicers[bound]

    def varied(self, bound: Bound, made: Made, values: Values) -> Made:
        """The same machine with some values other than as stated; `made` itself where they cannot reach it."""
        key = (bound, made.signals, values)
        if key not in self._made:
            network = vary_within(bound, made.network, dict(values), made.signals)
            if network is made.network:
                self._made[key] = made
            else:
                self._made[key] = Made(network, made.signals, f"{made.digest}{values}", made, values)
        return self._made[key]

    def runs(self, requests: Sequence[Request]) -> list[Run | Outcome]:
        """Run what is wanted, lanes side by side; a request whose situation cannot be reached gives that outcome."""
        requests = [_within(request) for request in requests]
        self._reach([(request.made, request.legs) for request in requests])
        keyed = {_run_key(request): request for request in requests if self._state(request) is not None}
        waiting = {key: request for key, request in keyed.items() if key not in self._runs}
        found = self._run([self._job(request) for request in waiting.values()])
        self._runs.update(zip(waiting, found, strict=True))
        return [self._result(request) for request in requests]

    def forget(self, requests: Sequence[Request]) -> None:
        """Let go of runs that hardly anybody will ask for again, once those that are kept are a lot to carry. The
        states that they began from are kept."""
        if sum(run.values.size for run in self._runs.values()) < ROOM_FOR:
            return
        for request in requests:
            self._runs.pop(_run_key(_within(request)), None)

    def gone_on(self, jobs: Sequence[Job]) -> tuple[Run, ...]:
        """Runs from states that an earlier run left, side by side. They are not kept: whoever goes on step by step
        knows best what to keep."""
        return self._run(list(jobs))

    def reached(self, request: Request) -> State | None:
        """The state at the end of a request's legs, None where it cannot be reached."""
        request = _within(request)
        self._reach([(request.made, request.legs)])
        return self._state(request)

    def _state(self, request: Request) -> State | None:
        state = self._states[_state_key(request.made, request.legs)]
        return state if isinstance(state, State) else None

    def _job(self, request: Request) -> Job:
        """The job of a request; one that is to become calm is looked at on the way."""
        return Job(
            request.made.machine,
            self._state(request),
            request.legs[-1].sets,
            request.changes,
            request.seconds,
            until_rest=request.until != "end",
            looks=looks(request.changes, request.seconds) if request.until == "calm" else (),
        )

    def _result(self, request: Request) -> Run | Outcome:
        state = self._states[_state_key(request.made, request.legs)]
        return state if isinstance(state, Outcome) else self._runs[_run_key(request)]

    def _reach(self, wanted: Iterable[tuple[Made, tuple[Leg, ...]]]) -> None:
        """Reach the end of the legs, those of one depth as one batch."""
        prefixes = {
            _state_key(made, legs[: depth + 1]): (made, legs[: depth + 1])
            for made, legs in wanted
            for depth in range(len(legs))
        }
        for depth in range(1, 1 + max((len(legs) for _, legs in prefixes.values()), default=0)):
            batch = {
                key: job
                for key, (made, legs) in prefixes.items()
                if len(legs) == depth and key not in self._states
                for job in [self._leg_job(made, legs, key)]
                if job is not None
            }
            for key, run in zip(batch, self._run(list(batch.values())), strict=True):
                self._states[key] = run.end if run.outcome.kind == "done" else run.outcome

    def _leg_job(self, made: Made, legs: tuple[Leg, ...], key: tuple[str, tuple[Leg, ...]]) -> Job | None:
        start: State | None = None
        sets: tuple[SetContent, ...] = ()
        if len(legs) > 1:
            before = self._states[_state_key(made, legs[:-1])]
            if isinstance(before, Outcome):
                self._states[key] = before
                return None
            start, sets = before, legs[-2].sets
        return Job(made.machine, start, sets, legs[-1].changes, legs[-1].settle)

    def _run(self, jobs: list[Job]) -> tuple[Run, ...]:
        if not jobs:
            return ()
        self.runs_made += len(jobs)
        if self._progress is not None:
            self._progress(len(jobs))
        return run_jobs(jobs, self._threads)


def looks(changes: Sequence[Change], seconds: float) -> tuple[float, ...]:
    """When a run that is to become calm is looked at, s, before its end."""
    last = max((change.time for change in changes), default=0.0)
    return tuple(last + after for after in CALM_AFTER if last + after < seconds)


def _within(request: Request) -> Request:
    """The request without what lies outside the cone and so cannot matter."""
    made = request.made
    legs = tuple(
        Leg(
            tuple(c for c in leg.changes if c.input in made.inputs),
            leg.settle,
            tuple(s for s in leg.sets if s.element in made.elements),
        )
        for leg in request.legs
    )
    return replace(request, legs=legs, changes=tuple(c for c in request.changes if c.input in made.inputs))


def _cone_key(bound: Bound, made: Made) -> tuple[Bound, str]:
    return bound, made.cone


def _state_key(made: Made, legs: tuple[Leg, ...]) -> tuple[str, tuple[Leg, ...]]:
    return (made.physical, legs)


def _run_key(request: Request) -> tuple[object, ...]:
    return (request.made.digest, request.legs, request.changes, request.seconds, request.until)
