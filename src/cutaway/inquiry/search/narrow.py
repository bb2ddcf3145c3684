"""The base narrowed to what a universe can still do: the rest is held where it stands, and most of it falls away.

What cannot reach the statement while nothing but the universe is moved cannot matter to any set of it, and need not be
run: with failures alone, every control stays where it is, and of an aeroplane a few dozen nodes are left. Runs of the
narrow machine only say where to look: whatever they find to do it is run on the whole machine (see `Trying`).
"""

from collections.abc import Sequence

from cutaway.inquiry.judging import looked_at, request_for
from cutaway.inquiry.scenes import Scene
from cutaway.inquiry.search.base import Base
from cutaway.inquiry.search.changes import Alteration, Assume, Break, Put
from cutaway.inquiry.verdicts import Undecided
from cutaway.inquiry.workshop import Made, looks
from cutaway.machine.dead import at_nothing
from cutaway.machine.narrowing import carried, narrowed
from cutaway.machine.network import Network
from cutaway.machine.reaching import Reaching
from cutaway.machine.records import Change, Job, Run, State
from cutaway.machine.state import started

# A machine that keeps more of its elements than this is not worth another.
WORTH = 0.85


class Narrow:
    """A base over the narrow machine. `of` gives None where it cannot be narrowed, or not by much."""

    def __init__(self, base: Base, made: Made, whole: State) -> None:
        self._base = base
        self._made = made
        self._whole = whole
        self._state = carried(base.made.machine, whole, made.machine)

    @staticmethod
    def of(base: Base, within: Sequence[Alteration]) -> "Narrow | None":
        """The base of a universe of positions, failures and conditions. With actions of its own, whose rules ask for
        more, or with something that fails just as the clock starts, it is left as it is."""
        scene, kind = base.scene, base.question.scope.when.kind
        if base.question.scope.actions or not within or any(isinstance(one, Assume) for one in within):
            return None
        if scene.changes and kind not in ("settled", "at"):
            return None
        state = base.question.workshop.reached(request_for(base.question, base.made, scene))
        if state is None:
            return None
        held = held_at(base, state)
        for one in within:
            held.pop(one.input if isinstance(one, Put | Break) else one.name, None)  # type: ignore[union-attr]
        network = narrowed(base.made.network, held, base.made.signals)
        if len(network.elements) > WORTH * len(base.made.network.elements):
            return None
        made = Made(network, base.made.signals, f"{base.made.digest} narrowed {sorted(held.items())}")
        whole = started(base.made.machine, state, scene.legs[-1].sets)
        return Narrow(base, made, whole)

    @property
    def network(self) -> Network:
        """What is left of the base's network."""
        return self._made.network

    def recording(self, network: Network, names: tuple[str, ...]) -> "Narrow":
        """The same with signals that its network does not have, by their names; nothing else of it may differ."""
        made = Made(network, self._made.signals | frozenset(names), f"{self._made.digest} recording {names}")
        return Narrow(self._base, made, self._whole)

    def stands(self, name: str) -> float:
        """Where an input stands as the clock starts."""
        return float(self._state.inputs[self._made.machine.inputs.index(name)])

    def does(self, scenes: Sequence[Scene], wanted: bool) -> list[bool | None]:
        """Whether the statement is as wanted in each scene, None where that could not be said."""
        question, runs = self._base.question, self.runs(scenes)
        looked = [looked_at(question, scene, run) for scene, run in zip(scenes, runs, strict=True)]
        return [None if isinstance(one, Undecided) else one.decision.holds == wanted for one in looked]

    def runs(self, scenes: Sequence[Scene], touched: Change | None = None) -> tuple[Run, ...]:
        """The run of each scene. touched: a change that is made at once in a scene that has none."""
        question = self._base.question
        requests = [request_for(question, self._base.made, scene) for scene in scenes]
        at_once = () if touched is None else (touched,)
        jobs = [
            Job(
                self._made.machine,
                self._state,
                (),
                tuple(c for c in request.changes if c.input in self._made.inputs) or at_once,
                request.seconds,
                until_rest=request.until != "end",
                looks=looks(request.changes, request.seconds) if request.until == "calm" else (),
            )
            for request in requests
        ]
        return question.workshop.gone_on(jobs)


def held_at(base: Base, state: State) -> dict[str, float]:
    """Where every input stands at a base, with what its scene changes at once; conditions are never held."""
    stands = dict(zip(base.made.machine.inputs, state.inputs.tolist(), strict=True))
    stands |= {change.input: change.value for change in base.scene.changes}
    return {slot.name: stands[slot.name] for slot in base.made.network.inputs if slot.sort != "condition"}


class Mattering:
    """Whether every part of a set can matter together with the others: without one that cannot reach the statement
    while all else stays where it is, the set would do the same, and be smaller. network: the base's, or narrowed."""

    def __init__(self, base: Base, network: Network) -> None:
        at = {**base.stands, **{change.input: change.value for change in base.scene.changes}}
        held = {slot.name: at.get(slot.name, slot.value) for slot in network.inputs if slot.sort != "condition"}
        self._all = bool(base.question.scope.actions)
        state = base.question.workshop.reached(request_for(base.question, base.made, base.scene))
        still = frozenset[str]() if state is None else at_nothing(base.made.machine, state)
        self._can: dict[str, bool] = {}
        self._reaching = Reaching(network, held, base.made.signals, still)

    def __call__(self, one: frozenset[Alteration]) -> bool:
        """False where some part of the set cannot matter. With actions of the scope's own, everything can."""
        inputs = [part.input for part in one if isinstance(part, Put | Break)]
        if self._all or len(inputs) < len(one):
            return True
        # The more is let go, the more can reach: of parts that can alone nothing need be found out together.
        return all(map(self._alone, inputs)) or (len(inputs) > 1 and self._reaches(inputs))

    def _alone(self, name: str) -> bool:
        if name not in self._can:
            self._can[name] = self._reaches([name])
        return self._can[name]

    def _reaches(self, inputs: list[str]) -> bool:
        return self._reaching.inputs(inputs).issuperset(inputs)
