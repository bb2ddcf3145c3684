"""What can reach a signal while all inputs stay where they are but a few, for any few of them, worked out once.

`specialise.held_for_good` works out what is certain with some inputs held. Here everything is held, and for all that is
certain then it is kept which inputs that rests on (its grounds). What rests on none of the few that are let go is still
certain. So each question is a walk through a graph, not the working out of a whole network. It may let through a little
more than `cone(held_for_good(...))` would; less only by dead wires, on which a contact or a lamp comes to nothing
whatever is done with it (see `dead.py`).
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import product

from cutaway.machine.dead import Wires
from cutaway.machine.network import Network
from cutaway.machine.specialise import applied, is_never_set, passes_nothing
from cutaway.parts.recipe import (
    Across,
    Apply,
    Const,
    Content,
    Element,
    Expr,
    Input,
    Mode,
    ModeIs,
    Signal,
    Table,
    Through,
)

Thing = tuple[str, str]  # its sort and its name
# Grounds for something certain: each is a set of inputs, as bits, on which it may be rested; one that is free of what
# is let go is enough. So many are kept at most: fewer let more through.
Grounds = tuple[int, ...]
_MOST_GROUNDS = 6


@dataclass(frozen=True, slots=True)
class _Worked:
    """An expression worked out: what is left of it; its grounds where it is certain; all inputs that were used."""

    left: Expr
    grounds: Grounds
    used: int


class Reaching:
    """Which inputs can reach some signals of a network, inputs that `values` does not name being always loose.

    still: wires that stand at no volts now, with the inputs where `values` has them.
    """

    def __init__(
        self,
        network: Network,
        values: Mapping[str, float],
        signals: frozenset[str],
        still: frozenset[str] = frozenset(),
    ) -> None:
        self._values = dict(values)
        self._bit = {name: 1 << i for i, name in enumerate(self._values)}
        self._signals: dict[str, _Worked] = {}
        self._shut: dict[str, Grounds] = {}
        self._never: dict[str, Grounds] = {}
        self._known: dict[int, _Worked] = {}
        self._work_out(network)
        self._edges = self._all_edges(network)
        self._known.clear()
        self._wires = Wires(network, still)
        self._contacts = frozenset(name for name in self._wires.elements() if name in self._shut)
        self._known_dead: dict[frozenset[str], frozenset[Thing]] = {}
        modes = {mode.name for mode in network.modes}
        self._from: list[Thing] = [("mode" if name in modes else "signal", name) for name in sorted(signals)]

    def inputs(self, loose: Iterable[str]) -> frozenset[str]:
        """The inputs that can reach the signals while no input moves but those that are let go."""
        mask = sum({self._bit[name] for name in loose if name in self._bit})
        dead = self._dead(mask)
        seen: set[Thing] = set()
        waiting = list(self._from)
        while waiting:
            thing = waiting.pop()
            if thing in seen:
                continue
            seen.add(thing)
            if thing in dead:
                continue
            for cause, blocks in self._edges.get(thing, ()):
                if cause not in seen and (not blocks or all(block & mask for block in blocks)):
                    waiting.append(cause)
        return frozenset(name for sort, name in seen if sort == "input")

    def _dead(self, mask: int) -> frozenset[Thing]:
        """The dead wires while some inputs are let go: the same for all that open the same contacts in them."""
        opened = frozenset(name for name in self._contacts if all(ground & mask for ground in self._shut[name]))
        if opened not in self._known_dead:
            shut = self._contacts - opened
            self._known_dead[opened] = self._wires.dead(lambda name: name in shut)
        return self._known_dead[opened]

    # --- what is certain with everything held ------------------------------------------------------------------------

    def _work_out(self, network: Network) -> None:
        while True:
            self._known.clear()
            for name, expression in network.signals:
                self._signals[name] = self._worked(expression)
            shut = {e.name: g for e in network.elements if e.name not in self._shut for g in [self._shut_by(e)] if g}
            never = {m.name: g for m in network.modes if m.name not in self._never for g in [self._never_by(m)] if g}
            if not shut and not never:
                return
            self._shut |= shut
            self._never |= never

    def _shut_by(self, element: Element) -> Grounds:
        gate, drive = self._worked(element.gate), self._worked(element.drive)
        by_gate = gate.grounds if passes_nothing(replace(element, gate=gate.left)) else ()
        by_drive = drive.grounds if passes_nothing(replace(element, drive=drive.left)) else ()
        return _kept((*by_gate, *by_drive))

    def _never_by(self, mode: Mode) -> Grounds:
        sets, clears = self._worked(mode.sets), self._worked(mode.clears)
        never = is_never_set(replace(mode, sets=sets.left, clears=clears.left), from_the_start=False)
        return (sets.used | clears.used,) if never else ()

    def _worked(self, expression: Expr) -> _Worked:
        """An expression of the network worked out, once while no more is known to be certain."""
        known = self._known.get(id(expression))
        if known is None:
            known = self._known[id(expression)] = self._worked_anew(expression)
        return known

    def _worked_anew(self, expression: Expr) -> _Worked:
        match expression:
            case Const():
                return _Worked(expression, (0,), 0)
            case Input(name=name) if name in self._values:
                bit = self._bit[name]
                return _Worked(Const(self._values[name]), (bit,), bit)
            case Through(element=name) if name in self._shut:
                return _Worked(Const(0.0), self._shut[name], self._shut[name][0])
            case ModeIs(mode=name) if name in self._never:
                return _Worked(Const(0.0), self._never[name], self._never[name][0])
            case Signal(name=name, of="") if name in self._signals and self._signals[name].grounds:
                known = self._signals[name]
                return _Worked(known.left, known.grounds, known.grounds[0])
            case Apply(op=op, of=inner):
                return _applied(op, [self._worked(one) for one in inner])
            case Table(of=inner_one):
                of = self._worked(inner_one)
                return _Worked(replace(expression, of=of.left), (), of.used)
            case _:
                return _Worked(expression, (), 0)

    # --- the graph ---------------------------------------------------------------------------------------------------

    def _all_edges(self, network: Network) -> dict[Thing, list[tuple[Thing, Grounds]]]:
        """From each thing to what it depends on, with the grounds on which it does not."""
        edges: dict[Thing, list[tuple[Thing, Grounds]]] = {}
        on: dict[str, list[str]] = {node.name: [] for node in network.nodes}
        for element in network.elements:
            mine = edges.setdefault(("element", element.name), [])
            mine += [(("node", node), ()) for node in element.at]
            mine += [*self._leaves(element.gate, ()), *self._leaves(element.drive, ())]
            for node in dict.fromkeys(element.at):
                on[node].append(element.name)
        for one in network.nodes:
            if one.boundary is None:
                edges["node", one.name] = [(("element", name), self._shut.get(name, ())) for name in on[one.name]]
            else:
                edges["node", one.name] = list(self._leaves(one.boundary, ()))
        for name, expression in network.signals:
            edges["signal", name] = list(self._leaves(expression, ()))
        for mode in network.modes:
            edges["mode", mode.name] = [*self._leaves(mode.sets, ()), *self._leaves(mode.clears, ())]
        return edges

    def _leaves(self, expression: Expr, blocks: Grounds) -> Iterator[tuple[Thing, Grounds]]:
        """What an expression names, each with all the grounds on which it does not matter there."""
        blocks = (*blocks, *self._worked(expression).grounds)
        if 0 in blocks:
            return
        match expression:
            case Apply(op="if", of=(condition, then, otherwise)):
                known = self._worked(condition)
                yield from self._leaves(condition, blocks)
                first, second = then, otherwise
                if isinstance(known.left, Const) and known.left.value <= 0.0:
                    first, second = otherwise, then
                yield from self._leaves(first, blocks)
                yield from self._leaves(second, (*blocks, *known.grounds))
            case Apply(of=inner):
                for one in inner:
                    yield from self._leaves(one, blocks)
            case Table(of=inner_one):
                yield from self._leaves(inner_one, blocks)
            case Across(node=name):
                yield ("node", name), blocks
            case Through(element=name) | Content(element=name):
                yield ("element", name), blocks
            case ModeIs(mode=name):
                yield ("mode", name), blocks
            case Signal(name=name):
                yield ("signal", name), blocks
            case Input(name=name):
                yield ("input", name), blocks
            case _:
                pass


def _applied(op: str, of: list[_Worked]) -> _Worked:
    """An operation on what was worked out, with its grounds where it is certain."""
    left = applied(op, tuple(one.left for one in of))
    used = 0
    for one in of:
        used |= one.used
    if not isinstance(left, Const):
        return _Worked(left, (), used)
    constants = [(one.left.value, one.grounds) for one in of if isinstance(one.left, Const)]
    if op in ("mul", "and") and any(value == 0.0 for value, _ in constants):
        return _Worked(left, _kept(g for value, grounds in constants if value == 0.0 for g in grounds), used)
    if op == "or" and any(value > 0.0 for value, _ in constants):
        return _Worked(left, _kept(g for value, grounds in constants if value > 0.0 for g in grounds), used)
    if op == "if":
        condition, chosen = of[0], of[1] if _above_nought(of[0].left) else of[2]
        return _Worked(left, _together([condition.grounds, chosen.grounds]), used)
    return _Worked(left, _together([one.grounds for one in of]), used)


def _above_nought(expression: Expr) -> bool:
    return isinstance(expression, Const) and expression.value > 0.0


def _together(several: list[Grounds]) -> Grounds:
    """Grounds for all of several things at once."""
    found: list[int] = []
    for chosen in product(*several):
        one = 0
        for grounds in chosen:
            one |= grounds
        found.append(one)
        if len(found) > 4 * _MOST_GROUNDS:
            break
    return _kept(found)


def _kept(grounds: Iterable[int]) -> Grounds:
    """The grounds that need least, each once."""
    found: list[int] = []
    for one in sorted(dict.fromkeys(grounds), key=lambda g: (g.bit_count(), g)):
        if not any(other & one == other for other in found):
            found.append(one)
    return tuple(found[:_MOST_GROUNDS])
