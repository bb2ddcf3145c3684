"""The invented engine of the tests: a small type folder with a whole powerplant, and its engine on the bench."""

from pathlib import Path

from cutaway.inquiry.engine_bench import Bench, Setting, bench_for, measure
from tests.inquiry.folders import Folder, folder_at, system

FOOT, RPM, POUND, HORSEPOWER = 0.3048, 0.10471975511965977, 6_894.757293168361, 745.6998715822702

PARTS = """
tank: {kind: tank, capacity: 100 gal, head: 1.5 m}
master cock: {kind: cock}
carburettor: {kind: carburettor, full flow: 140 gal/h, lowest pressure: 0.5 lb/sq in}
throttle: {kind: gated throttle}
ignition: {kind: magneto switch}
battery: {kind: battery, capacity: 40 Ah, voltage: 24 V}
starter button: {kind: push-button}
starter: {kind: electric starter}
airscrew: {kind: constant-speed airscrew, lowest speed: 1800 rpm, highest speed: 2850 rpm}
boost control: {kind: automatic boost control, throttle: throttle, boost at gate: 7 lb/sq in, take-off boost: 9 lb/sq in}
blower: {kind: two-speed supercharger, M boost: 9 lb/sq in, M speed: 2850 rpm, M full-throttle height: 1500 m, M power: 1180 hp, S boost: 9 lb/sq in, S speed: 2850 rpm, S full-throttle height: 4300 m, S power: 1070 hp}
mixture: {kind: automatic mixture, weak below boost: 4 lb/sq in}
intake: {kind: hot air intake}
engine: {kind: supercharged engine, throttle: throttle, fuel from: carburettor, ignition: ignition, supercharger: blower, airscrew: airscrew, boost control: boost control, mixture: mixture, hot air: intake, starter: starter}
"""  # noqa: E501
LINES = "tank > master cock > carburettor\nbattery > starter button > starter"
STARTING = "after master cock to on then ignition to both then starter button to pressed for 4 s"


def powerplant(path: Path, without: tuple[str, ...] = (), **instead: str) -> Folder:
    """The folder. without: couplings of the engine to leave out. instead: parts in another form, by name with _."""
    parts = PARTS
    for coupling in without:
        name = {"hot air": "intake"}.get(coupling, coupling)
        parts = parts.replace(f", {coupling}: {name}", "")
    lines = []
    for line in parts.strip().splitlines():
        name = line.split(":")[0].replace(" ", "_")
        lines.append(f"{line.split(':')[0]}: {instead[name]}" if name in instead else line)
    return folder_at(path, {"systems/power.yaml": system("\n".join(lines), LINES)})


def on_bench(folder: Folder, engine: str = "engine") -> Bench:
    """The engine on the bench."""
    bound, problems = folder.workshop.bound(folder.subject())
    assert problems == ()
    bench = bench_for(bound, engine)
    assert bench is not None
    return bench


def boosts(bench: Bench, settings: list[Setting]) -> list[float]:
    """Boost at each setting, lb/sq in."""
    return [one.boost / POUND for one in measure(bench, settings, 1)]
