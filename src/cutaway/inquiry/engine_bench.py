"""An engine on the test bench: its shaft held at a speed of our choosing, its boost and power read from the model.

The bench has the part's own network around it: throttle, supercharger, boost control, mixture. Where a ram changes
the gear, the supercharger's own lever does it here, so that each gear can be asked for by itself.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from cutaway.machine import names
from cutaway.machine.assembling import assemble
from cutaway.machine.bind import Bound
from cutaway.machine.compile import Machine, compile_network
from cutaway.machine.network import InputSlot, Network
from cutaway.machine.pieces import make_piece
from cutaway.machine.records import Change, Job
from cutaway.machine.run import run_jobs
from cutaway.machine.slicing import cone
from cutaway.parts.kinds.superchargers import M_GEAR, RATED, S_GEAR
from cutaway.parts.recipe import Input

SHAFT = "bench shaft"
# Longer than any change of gear takes; a longer one is the author's, and is waited for.
SETTLES = 10.0
BOOST, POWER = "boost", "power if running"


@dataclass(frozen=True, slots=True)
class Bench:
    """A machine of an engine with its shaft held. gear, throttle: names of their inputs; gear '' where there is one."""

    engine: str
    supercharger: str
    machine: Machine
    throttle: str
    gear: str
    seconds: float


@dataclass(frozen=True, slots=True)
class Setting:
    """What the bench is set to. lever: share of the lever's travel. gear: index of the lever's position. SI."""

    height: float
    lever: float
    gear: int
    speed: float


@dataclass(frozen=True, slots=True)
class Measured:
    """What was read at one setting, SI; boost above the standard atmosphere."""

    at: Setting
    boost: float
    power: float


@dataclass(frozen=True, slots=True)
class RatedGear:
    """One gear with its rating, SI. name: '' of a blower of one speed. wants: the names of boost, speed, height, power
    among the supercharger's quantities."""

    name: str
    index: int
    wants: tuple[str, str, str, str]
    boost: float
    speed: float
    height: float
    power: float


def gears_of(bound: Bound, bench: Bench) -> tuple[RatedGear, ...]:
    """The gears of the engine's supercharger, in the order of its lever."""
    si = bound.fits[bench.supercharger].si
    found = (("M", 0, M_GEAR), ("S", 1, S_GEAR)) if bench.gear else (("", 0, RATED),)
    return tuple(RatedGear(name, i, wants, *(si[want] for want in wants)) for name, i, wants in found)


def bench_for(bound: Bound, engine: str) -> Bench | None:
    """The bench for an engine of the subject; None where the part is no engine with a supercharger."""
    ends = {coupling: bound.wiring.coupled.get((engine, coupling)) for coupling in ("supercharger", "throttle")}
    supercharger, throttle = ends["supercharger"], ends["throttle"]
    if supercharger is None or throttle is None or engine not in bound.pieces:
        return None
    signals = frozenset(names.signal_name(engine, name) for name in (BOOST, POWER))
    network = cone(_held(bound, engine, supercharger[0]), signals)
    machine, problems = compile_network(network, tuple(sorted(signals)))
    if any(problem.severity == "error" for problem in problems):
        return None
    gear = bound.controls.get((supercharger[0], "gear"))
    waits = bound.fits[supercharger[0]].si.get("change time", 0.0)
    return Bench(
        engine,
        supercharger[0],
        machine,
        bound.controls[(throttle[0], "")].input,
        gear.input if gear else "",
        max(SETTLES, 3.0 * waits),
    )


def _held(bound: Bound, engine: str, supercharger: str) -> Network:
    """The whole network once more, the shaft a boundary and the gear changed by its own lever."""
    coupled = {key: end for key, end in bound.wiring.coupled.items() if key != (supercharger, "changed by")}
    wiring = replace(bound.wiring, coupled=coupled)
    fit = bound.fits[supercharger]
    alone = replace(fit, coupled=fit.coupled - {"changed by"})
    piece = make_piece(supercharger, bound.kinds[bound.parts[supercharger].kind], alone, wiring)
    slots = (*bound.network.inputs, InputSlot(SHAFT, "condition", 0.0))
    network, _ = assemble({**bound.pieces, supercharger: piece}, wiring, slots, {})
    shaft = names.node_name(engine, "shaft")
    nodes = tuple(replace(n, boundary=Input("condition", SHAFT)) if n.name == shaft else n for n in network.nodes)
    return replace(network, nodes=nodes)


def measure(bench: Bench, settings: Sequence[Setting], threads: int | None = None) -> tuple[Measured, ...]:
    """The readings at each setting, one lane each."""
    runs = run_jobs([_job(bench, setting) for setting in settings], threads)
    boost, power = (names.signal_name(bench.engine, name) for name in (BOOST, POWER))
    return tuple(
        Measured(setting, float(run.column(boost)[-1]), float(run.column(power)[-1]))
        for setting, run in zip(settings, runs, strict=True)
    )


def _job(bench: Bench, setting: Setting) -> Job:
    values = {
        "height": setting.height,
        SHAFT: setting.speed,
        bench.throttle: setting.lever,
        bench.gear: float(setting.gear),
    }
    known = set(bench.machine.inputs)
    changes = tuple(Change(0.0, name, value) for name, value in values.items() if name in known)
    return Job(bench.machine, None, (), changes, bench.seconds, until_rest=True)
