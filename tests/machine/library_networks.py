"""Random networks of trade parts, by number: kinds of the whole library joined, coupled, moved and broken at random.

The same number always gives the same network. Figures are drawn over each quantity's stated range; every coupling that
a kind needs is met, by a part that offers what it wants; lines join ports of one medium at random; controls are moved
and failures come and go in the middle of the run. Nothing here is a sensible aeroplane: that is what it is for.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache

import numpy as np

from cutaway.machine import names
from cutaway.machine.bind import CONDITIONS, assemble, make_piece
from cutaway.machine.network import InputSlot, Network
from cutaway.machine.records import Change
from cutaway.machine.wiring import Wiring
from cutaway.parts.kind import Coupling, Fit, Kind, Port
from cutaway.parts.library import KINDS
from cutaway.parts.recipe import Medium
from cutaway.quantities.si import low_high_si
from tests.parts.fits import WAYS, fit_of, quantity, recipe_of
from tests.parts.stand import TURNER

Random = np.random.Generator
GIVERS: Mapping[str, tuple[str, ...]] = {
    "petrol": ("tank",),
    "oil": ("reservoir",),
    "air": ("air bottle", "vacuum pump"),
    "current": ("battery", "generator"),
}
MEDIA = tuple(GIVERS)
ORDER = tuple(sorted(KINDS))
DEEPEST = 4


@cache
def offered(kind: str) -> frozenset[str]:
    """The signals that a kind has."""
    made = TURNER if kind == TURNER.name else KINDS[kind]
    return frozenset(dict(recipe_of(made).signals))


@cache
def capable(needs: tuple[str, ...]) -> tuple[str, ...]:
    """The kinds that have all of these signals; the test part that turns things where no kind has."""
    return tuple(name for name in ORDER if set(needs) <= offered(name)) or (TURNER.name,)


@cache
def spans(kind: str) -> Mapping[str, tuple[float, float]]:
    """Each quantity's stated range, SI; its default, or the middle of what is usual, where there is none."""
    middle = fit_of(KINDS[kind]).si if kind in KINDS else {}
    wants = KINDS[kind].wants if kind in KINDS else ()
    return {
        want.name: low_high_si(quantity(want.between)) if want.between else (middle[want.name], middle[want.name])
        for want in wants
    }


@cache
def joinable(medium: Medium) -> tuple[str, ...]:
    """The kinds with a port of a medium."""
    return tuple(name for name in ORDER if any(port.medium == medium for port in KINDS[name].ports))


@dataclass
class Drawn:
    """A network being drawn: parts by name, ports by medium, couplings."""

    rng: Random
    parts: dict[str, Kind] = field(default_factory=dict)
    ports: dict[Medium, list[str]] = field(default_factory=dict)
    media: dict[str, Medium] = field(default_factory=dict)
    coupled: dict[tuple[str, str], tuple[str, str]] = field(default_factory=dict)
    joins: list[tuple[str, str]] = field(default_factory=list)

    def pick(self, of: tuple[str, ...]) -> str:
        """One of them."""
        return of[int(self.rng.integers(len(of)))]

    def add(self, kind_name: str, depth: int = 0, medium: Medium | None = None) -> str:
        """A part of a kind with all that it is coupled to."""
        kind = KINDS.get(kind_name, TURNER)
        name = f"{kind.name} {len(self.parts) + 1}"
        self.parts[name] = kind
        for port in kind.ports:
            for one in WAYS if port.each else (port.name,):
                self._port(name, one, port, medium or self.pick(MEDIA))  # type: ignore[arg-type]
        for coupling in kind.couplings:
            if coupling.required or self.rng.random() < 0.7:
                self._couple(name, coupling, depth)
        return name

    def _port(self, part: str, port: str, declared: Port, otherwise: Medium) -> None:
        full = names.node_name(part, port)
        self.media[full] = declared.medium or otherwise
        self.ports.setdefault(self.media[full], []).append(full)

    def _couple(self, part: str, coupling: Coupling, depth: int) -> None:
        if coupling.to == "signals":
            able = [n for n, k in self.parts.items() if n != part and set(coupling.needs) <= offered(k.name)]
            # What looks back, an engine at its carburettor, is not shared.
            able = [n for n in able if not coupling.back or (n, coupling.back) not in self.coupled]
            if (not able or self.rng.random() < 0.4) and depth < DEEPEST:
                able = [self.add(self.pick(capable(coupling.needs)), depth + 1)]
            if not able:
                able = [self.add(TURNER.name)] if set(coupling.needs) <= offered(TURNER.name) else []
            if able:
                target = self.pick(tuple(able))
                self.coupled[(part, coupling.name)] = (target, "")
                if coupling.back:
                    self.coupled[(target, coupling.back)] = (part, "")
            return
        medium: Medium = "current" if coupling.to == "port" else self.pick(MEDIA)  # type: ignore[assignment]
        there = [p for p in self.ports.get(medium, ()) if not p.startswith(f"{part}.")]
        if not there:
            self.add(self.pick(GIVERS[medium]), depth)
            there = [p for p in self.ports[medium] if not p.startswith(f"{part}.")]
        other, port = self.pick(tuple(there)).rsplit(".", 1)
        self.coupled[(part, coupling.name)] = (other, port)
        if coupling.to == "port":
            self.joins.append((names.node_name(part, coupling.port), names.node_name(other, port)))

    def join(self) -> None:
        """Lines between ports of one medium; most ports get one, and each medium has something that gives."""
        for medium in tuple(self.ports):
            if medium in GIVERS and self.rng.random() < 0.9:
                self.add(self.pick(GIVERS[medium]))
        for ports in self.ports.values():
            for port in ports:
                if len(ports) > 1 and self.rng.random() < 0.75:
                    other = self.pick(tuple(p for p in ports if p != port))
                    self.joins.append((port, other))

    def wiring(self) -> Wiring:
        """All of it as the machine wants it."""
        root = {name: name for name in self.media}

        def find(name: str) -> str:
            while root[name] != name:
                name = root[name]
            return name

        for a, b in self.joins:
            if self.media[a] == self.media[b]:
                first, second = sorted((find(a), find(b)))
                root[second] = first
        joined = {name: find(name) for name in root}
        owners = {name: name.rsplit(".", 1)[0] for name in root}
        return Wiring(joined, {node: self.media[node] for node in joined.values()}, self.coupled, owners=owners)

    def fit(self, name: str) -> Fit:
        """The part's figures, drawn over their ranges."""
        kind = self.parts[name]
        si = {want: float(self.rng.uniform(low, high)) for want, (low, high) in spans(kind.name).items()}
        has = frozenset(coupling for part, coupling in self.coupled if part == name)
        loose = next((self.media[names.node_name(name, p.name)] for p in kind.ports if p.medium is None), None)
        return Fit(si, dict.fromkeys(kind.lists, WAYS), has, loose)


def library_network(number: int) -> tuple[Network, tuple[Change, ...], float, frozenset[str]]:
    """The network of that number, what happens in it, for how long to run it, s, and the kinds in it."""
    rng = np.random.default_rng([5, number])
    drawn = Drawn(rng)
    media: tuple[Medium, ...] = tuple(rng.choice(MEDIA, int(rng.integers(1, 3)), replace=False))
    for _ in range(int(rng.integers(3, 13))):
        medium = media[int(rng.integers(len(media)))]
        drawn.add(drawn.pick(joinable(medium)) if rng.random() < 0.8 else drawn.pick(ORDER), medium=medium)
    drawn.join()
    wiring = drawn.wiring()
    pieces = {name: make_piece(name, kind, drawn.fit(name), wiring) for name, kind in drawn.parts.items()}
    slots = list(CONDITIONS)
    moves: list[tuple[str, list[float]]] = [("height", [0.0, 3000.0, 8000.0]), ("airspeed", [0.0, 60.0, 150.0])]
    for name, kind in drawn.parts.items():
        for control in kind.controls:
            slot = InputSlot(names.control_name(name, control.name), "control", 0.0)
            count = len(control.positions) + (len(WAYS) if control.each else 0)
            moves.append((slot.name, [0.0, 0.35, 1.0] if control.ranged else [float(i) for i in range(count)]))
            slots.append(slot)
        for failure in kind.failures:
            slot = InputSlot(names.failure_name(name, failure.name), "failure", 0.0)
            moves.append((slot.name, [0.0, 1.0]))
            slots.append(slot)
    network, _ = assemble(pieces, wiring, tuple(slots))
    seconds = float(10.0 ** rng.uniform(0.0, 2.0))
    times = np.sort(rng.uniform(0.0, seconds, 8))
    changes = []
    for time in (0.0, *times):
        slot_name, values = moves[int(rng.integers(len(moves)))]
        changes.append(Change(float(time), slot_name, float(rng.choice(values))))
    return network, tuple(changes), seconds, frozenset(kind.name for kind in drawn.parts.values())
