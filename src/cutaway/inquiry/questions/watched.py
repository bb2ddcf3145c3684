"""Everything at one moment of a run: what stands at each point, flows through each element, and each mode and input."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

import numpy as np

from cutaway.inquiry.judging import Looked
from cutaway.inquiry.search.base import Base
from cutaway.inquiry.search.trying import outcomes
from cutaway.inquiry.verdicts import Undecided
from cutaway.inquiry.workshop import Made, Workshop
from cutaway.machine.bind import Bound
from cutaway.machine.kernel_signals import calculated
from cutaway.machine.layout import OPERATIONS
from cutaway.machine.network import Network
from cutaway.machine.records import Run
from cutaway.parts.laws.elements import family
from cutaway.parts.recipe import Across, Apply, Const, Content, Element, Expr, Input, ModeIs, Signal, Table, Through

HOLDING = frozenset({"STORE", "TANK", "ACCUM", "JACK", "RAM"})


@dataclass(frozen=True, slots=True, eq=False)
class Watched:
    """network: of all that can reach the statement. values: of the expressions that were recorded, by expression.
    owners: the part of each element, node and mode. signals: the expression of each signal of the subject."""

    bound: Bound
    network: Network
    values: Mapping[Expr, float]
    owners: Mapping[str, str]
    signals: Mapping[str, Expr]
    _known: dict[Expr, float] = field(default_factory=dict)

    def value(self, expression: Expr) -> float:
        """What an expression comes to at the moment."""
        if expression not in self._known:
            self._known[expression] = self._worked_out(expression)
        return self._known[expression]

    def _worked_out(self, expression: Expr) -> float:
        match expression:
            case Const(value=value):
                return value
            case Signal(name=name):
                return self.value(self.signals[name])
            case Table(of=of, xs=xs, ys=ys):
                return float(np.interp(self.value(of), xs, ys))
            case Apply(op=op, of=of):
                a, b, c = (*(self.value(one) for one in of), 0.0, 0.0)[:3]
                return float(calculated(OPERATIONS[op], a, b, c))
            case _:
                return self.values[expression]


def watched(base: Base, looked: Looked) -> Watched | None:
    """All that is so at the moment that decides a base's statement; None where the run could not be made again."""
    question, network = base.question, base.made.network
    made, named = watching(question.workshop, question.bound, network, base.made.signals)
    again = outcomes(replace(base, made=made), (frozenset(),))[0].looked
    if isinstance(again, Undecided):
        return None
    run, clock = again.run, again.scene.clock
    moment = min(clock + again.decision.at, float(run.times[-1]))
    row = max(0, int(np.searchsorted(run.times, moment + 1e-9, side="right")) - 1)
    return watched_in(question.bound, network, named, run, row)


def watching(
    workshop: Workshop, bound: Bound, network: Network, signals: frozenset[str]
) -> tuple[Made, Mapping[str, Expr]]:
    """A machine that records all that a network is made of besides some signals, and what each further record is."""
    named = {f"watched {i}": leaf for i, leaf in enumerate(_leaves(network))}
    over = replace(bound, network=_with(bound.network, named))
    return workshop.made(over, signals | frozenset(named)), named


def watched_in(bound: Bound, network: Network, named: Mapping[str, Expr], run: Run, row: int) -> Watched:
    """All that is so at one row of a run of such a machine."""
    column = {name: i for i, name in enumerate(run.names)}
    values = {leaf: float(run.values[row, column[name]]) for name, leaf in named.items()}
    return Watched(bound, network, values, dict(bound.network.owners), dict(bound.network.signals))


def _with(network: Network, named: Mapping[str, Expr]) -> Network:
    return replace(network, signals=(*network.signals, *named.items()))


def _leaves(network: Network) -> list[Expr]:
    """Every leaf that an expression of the network can have."""
    found: list[Expr] = [Across(node.name) for node in network.nodes]
    for element in network.elements:
        found += [Through(element.name, i) for i in range(family(element.family).terminals)]
        if element.family in HOLDING:
            found.append(Content(element.name))
    found += [ModeIs(mode.name) for mode in network.modes]
    found += [Input(slot.sort, slot.name) for slot in network.inputs]
    return found


def is_shut(watched: Watched, element: Element) -> bool:
    """Whether an element passes nothing at the moment, by its gate or for want of a drive."""
    if watched.value(element.gate) <= 1e-6:
        return True
    return element.family in ("PDPUMP", "DRAW") and watched.value(element.drive) <= 1e-6
