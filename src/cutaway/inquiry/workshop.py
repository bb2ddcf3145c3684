"""The machines, states and runs of one folder, each made once: what all questions on that folder share.

A workshop has a life: it grows as questions are asked and goes with whoever owns it. What it returns is frozen.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from hashlib import blake2b

from cutaway.handbook.records import Folder
from cutaway.inquiry.scenes import Leg
from cutaway.machine.bind import Bound, bind, vary_within
from cutaway.machine.compile import Machine, compile_network
from cutaway.machine.network import Network
from cutaway.machine.records import Change, Job, Outcome, Run, SetContent, State
from cutaway.machine.run import run_jobs
from cutaway.machine.slicing import cone
from cutaway.machine.subjects import Subject
from cutaway.parts.kind import Kind
from cutaway.problems.diagnostic import Problems

Values = tuple[tuple[tuple[str, str], float], ...]


@dataclass(frozen=True, slots=True, eq=False)
class Made:
    """A machine over a cone.

    signals: what it records. inputs, elements: what can be set in it. digest: stands for the network's content.
    """

    machine: Machine
    network: Network
    signals: frozenset[str]
    inputs: frozenset[str]
    elements: frozenset[str]
    digest: str
    problems: Problems


@dataclass(frozen=True, slots=True, eq=False)
class Request:
    """A run that is wanted: legs to the situation, then changes, for `seconds` (or until nothing moves)."""

    made: Made
    legs: tuple[Leg, ...]
    changes: tuple[Change, ...]
    seconds: float
    until_rest: bool = False


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
        self._made: dict[tuple[str, frozenset[str], Values], Made] = {}
        self._states: dict[tuple[str, tuple[Leg, ...]], State | Outcome] = {}
        self._runs: dict[tuple[object, ...], Run] = {}

    def bound(self, subject: Subject) -> tuple[Bound, Problems]:
        """The subject's whole network."""
        if subject.name not in self._bound:
            self._bound[subject.name] = bind(self.folder, subject, self.kinds)
        return self._bound[subject.name]

    def made(self, bound: Bound, signals: frozenset[str]) -> Made:
        """The machine over all that can reach the signals, with the values as stated."""
        key = (bound.subject.name, signals, ())
        if key not in self._made:
            network = cone(bound.network, signals)
            digest = blake2b(repr((network, sorted(signals))).encode(), digest_size=16).hexdigest()
            self._made[key] = self._compiled(network, signals, digest)
        return self._made[key]

    def varied(self, bound: Bound, made: Made, values: Values) -> Made:
        """The same machine with some values other than as stated; `made` itself where they cannot reach it."""
        key = (bound.subject.name, made.signals, values)
        if key not in self._made:
            network = vary_within(bound, made.network, dict(values))
            if network is made.network:
                self._made[key] = made
            else:
                self._made[key] = self._compiled(network, made.signals, f"{made.digest}{values}")
        return self._made[key]

    def _compiled(self, network: Network, signals: frozenset[str], digest: str) -> Made:
        machine, problems = compile_network(network, tuple(sorted(signals)))
        return Made(
            machine,
            network,
            signals,
            frozenset(slot.name for slot in network.inputs),
            frozenset(element.name for element in network.elements),
            digest,
            problems,
        )

    def runs(self, requests: Sequence[Request]) -> list[Run | Outcome]:
        """Run what is wanted, lanes side by side; a request whose situation cannot be reached gives that outcome."""
        requests = [_within(request) for request in requests]
        self._reach([(request.made, request.legs) for request in requests])
        wanted: dict[tuple[object, ...], Job] = {}
        for request in requests:
            state = self._states[_state_key(request.made, request.legs)]
            if isinstance(state, State) and _run_key(request) not in self._runs:
                wanted.setdefault(
                    _run_key(request),
                    Job(
                        request.made.machine,
                        state,
                        request.legs[-1].sets,
                        request.changes,
                        request.seconds,
                        request.until_rest,
                    ),
                )
        self._runs.update(zip(wanted, self._run(list(wanted.values())), strict=True))
        return [self._result(request) for request in requests]

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


def _state_key(made: Made, legs: tuple[Leg, ...]) -> tuple[str, tuple[Leg, ...]]:
    return (made.digest, legs)


def _run_key(request: Request) -> tuple[object, ...]:
    return (*_state_key(request.made, request.legs), request.changes, request.seconds, request.until_rest)
