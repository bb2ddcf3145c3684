"""A test stand: a few parts joined by hand and run, without a type folder."""

from dataclasses import dataclass, field

from cutaway.machine import names
from cutaway.machine.bind import CONDITIONS, assemble, make_piece
from cutaway.machine.compile import compile_network
from cutaway.machine.network import InputSlot
from cutaway.machine.records import Change, Job, Run, SetContent
from cutaway.machine.run import run_jobs, values_at
from cutaway.machine.wiring import Wiring
from cutaway.parts.kind import Control, Fit, Kind, Port
from cutaway.parts.library import KINDS
from cutaway.parts.recipe import Input, Medium, Node, Recipe, apply
from tests.parts.fits import WAYS, fit_of

RATED = 2300.0 * 2.0 * 3.141592653589793 / 60.0
TURN = Input("control", "")


def _turner(fit: Fit) -> Recipe:
    return Recipe(signals=(("speed", TURN), ("rate of turn", apply("mul", RATED, TURN)), ("demand", TURN)))


def supply(medium: Medium, scale: float) -> Kind:
    """A test part: its outlet stands at its control (0 to 1) times `scale`."""

    def build(fit: Fit) -> Recipe:
        return Recipe((Node("outlet", medium, boundary=apply("mul", scale, TURN)),))

    return Kind("supply", "A test part.", (Port("outlet", medium, "east", "out"),), build, (Control("", ranged=True),))


TURNER = Kind("turner", "A test part: turns what it drives at its control times the rated speed.", (), _turner,
              (Control("", ranged=True),))  # fmt: skip


@dataclass
class Stand:
    """Parts by name: a kind's name or a kind, with what is given.

    lines: 'a.port > b.port'. couplings: 'a: driven by > b'.
    """

    parts: dict[str, tuple[str | Kind, dict[str, str]]]
    lines: tuple[str, ...] = ()
    couplings: tuple[str, ...] = ()
    ran: Run | None = field(default=None)

    def run(
        self,
        seconds: float,
        *changes: tuple[float, str, float],
        starts: dict[str, float] | None = None,
    ) -> "Stand":
        """Runs it from its very beginning; changes are (time, input, value). It must end well and lose nothing."""
        network = self._network()
        machine, problems = compile_network(network)
        assert problems == ()
        known = {slot.name for slot in network.inputs}
        assert {name for _, name, _ in changes} <= known, known
        sets = tuple(SetContent(name, value) for name, value in (starts or {}).items())
        job = Job(machine, None, sets, tuple(Change(*change) for change in changes), seconds)
        (self.ran,) = run_jobs((job,), 1)
        assert self.ran.outcome.kind == "done", self.ran.outcome
        assert self.ran.certificate.conservation < 1e-6, self.ran.certificate
        return self

    def at(self, time: float, signal: str) -> float:
        """A signal ('tank: contents', 'tank.outlet') at a time of the run."""
        assert self.ran is not None
        return float(values_at(self.ran, time)[self.ran.names.index(signal)])

    def end(self, signal: str) -> float:
        """A signal at the end of the run."""
        assert self.ran is not None
        return float(self.ran.values[-1][self.ran.names.index(signal)])

    def when(self, mode: str, now: bool = True) -> float:
        """The first time at which a mode was set (or cleared); a failure where it never was."""
        assert self.ran is not None
        return next(event.time for event in self.ran.events if event.mode == mode and event.now is now)

    def ever(self, mode: str) -> bool:
        """Whether a mode was ever set during the run."""
        assert self.ran is not None
        return any(event.mode == mode and event.now for event in self.ran.events)

    def _network(self):  # type: ignore[no-untyped-def]
        kinds = {name: KINDS[kind] if isinstance(kind, str) else kind for name, (kind, _) in self.parts.items()}
        coupled = dict(self._coupled())
        wiring = self._wiring(kinds, coupled)
        pieces = {}
        for name, kind in kinds.items():
            has = frozenset(coupling for part, coupling in coupled if part == name)
            medium = next(
                (wiring.media[wiring.joined[f"{name}.{p.name}"]] for p in kind.ports if p.medium is None), None
            )
            pieces[name] = make_piece(name, kind, fit_of(kind, self.parts[name][1], has, medium), wiring)
        network, problems = assemble(pieces, wiring, self._inputs(kinds))
        assert problems == ()
        return network

    def _coupled(self):  # type: ignore[no-untyped-def]
        for text in self.couplings:
            part, rest = text.split(": ", 1)
            coupling, target = rest.split(" > ")
            other, _, port = target.partition(".")
            yield (part, coupling), (other, port)

    def _wiring(self, kinds: dict[str, Kind], coupled: dict[tuple[str, str], tuple[str, str]]) -> Wiring:
        media: dict[str, Medium | None] = {
            names.node_name(part, name): port.medium
            for part, kind in kinds.items()
            for port in kind.ports
            for name in (WAYS if port.each else (port.name,))
        }
        joined = {name: name for name in media}
        pairs = [tuple(line.split(" > ")) for line in self.lines]
        for (part, coupling), (other, port) in coupled.items():
            for one in kinds[part].couplings:
                if one.name == coupling and one.to == "port":
                    pairs.append((f"{part}.{one.port}", f"{other}.{port}"))
        for a, b in pairs:
            old, new = joined[b], joined[a]
            joined = {name: new if root == old else root for name, root in joined.items()}
        found: dict[str, Medium] = {}
        for name, medium in media.items():
            if medium is not None:
                assert found.setdefault(joined[name], medium) == medium, f"{name}: two media joined"
        return Wiring(joined, found, coupled)

    def _inputs(self, kinds: dict[str, Kind]) -> tuple[InputSlot, ...]:
        slots = list(CONDITIONS)
        for name, kind in kinds.items():
            slots += [InputSlot(names.control_name(name, c.name), "control", 0.0) for c in kind.controls]
            slots += [InputSlot(names.failure_name(name, f.name), "failure", 0.0) for f in kind.failures]
        return tuple(slots)
