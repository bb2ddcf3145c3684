"""What would change nothing along a course that was run: at every step each equation reads the same with it.

An input that is moved is met only where an expression names it. If none of these comes to anything else at any step of
a run, or only scales a flow that is nothing, then the run that has it moved besides is the same run, step for step.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import reduce

from cutaway.machine.expressions import parts_of_expression, renamed
from cutaway.machine.network import Network
from cutaway.machine.records import Run
from cutaway.machine.scales import BY_MEDIUM
from cutaway.parts.recipe import Across, Apply, Const, Element, Expr, Input, Mode, Through

# What is less than this share of its medium's scale is nothing: the solver itself leaves more unsaid. A choice of ours.
NOTHING = 1.0e-9
# Families whose flow, once it is nothing, is nothing for every gate above 0 and every drive above 0.
_SCALED = frozenset(
    {"LIN", "ROOT", "GASROOT", "ONEWAY", "GASWAY", "RELIEF", "REDUCE", "MAINTAIN", "PDPUMP", "DRAW", "SOURCE", "JACK"}
)
# Those through which nothing flows where both ends stand alike, whatever the gate.
_LEVEL = frozenset({"LIN", "ROOT", "GASROOT"})

Moved = tuple[str, float]  # an input, and where it would be put


@dataclass(frozen=True, slots=True)
class _Witness:
    """of: the name of the signal that is above 0 where a move would change something. closely: of the signal that is
    above 0 where it would change by how much a condition of one of some modes is met or missed; '' for none."""

    of: str
    closely: str
    modes: frozenset[str]


class Witnesses:
    """Signals that tell, at every moment of a run, which of some moves would change something there."""

    def __init__(self, network: Network, moves: Sequence[Moved]) -> None:
        self._network = network
        media = {node.name: node.medium for node in network.nodes}
        self._scale = {e.name: BY_MEDIUM[media[e.at[0]]] for e in network.elements}
        wanted = {name for name, _ in moves}
        self._flows: dict[str, list[tuple[Expr, Element]]] = {name: [] for name in wanted}
        self._modes: dict[str, list[tuple[Expr, Mode]]] = {name: [] for name in wanted}
        self._other: dict[str, list[Expr]] = {name: [] for name in wanted}
        self._find(wanted)
        signals: list[tuple[str, Expr]] = []
        witnesses: list[_Witness] = []
        for i, move in enumerate(moves):
            closely = [_differs(_with(e, move), e) for e, _ in self._modes[move[0]]]
            signals.append((f"moved {i}", _any(self._matters(move))))
            signals += [(f"moved closely {i}", _any(iter(closely)))] if closely else []
            modes = frozenset(mode.name for _, mode in self._modes[move[0]])
            witnesses.append(_Witness(f"moved {i}", f"moved closely {i}" if closely else "", modes))
        self._witnesses = tuple(witnesses)
        self.network = replace(network, signals=(*network.signals, *signals))
        self.names = tuple(name for name, _ in signals)

    def inert(self, run: Run) -> list[bool]:
        """Of each move, whether it would have changed nothing in a run of the network with these signals."""
        came = {event.mode for event in run.events}
        at = {name: i for i, name in enumerate(run.names)}
        ever = (run.values.max(axis=0) > 0.0).tolist()
        return [
            not ever[at[one.of]] and not (one.closely and one.modes & came and ever[at[one.closely]])
            for one in self._witnesses
        ]

    def _find(self, wanted: set[str]) -> None:
        for element in self._network.elements:
            for one in _named(element.gate, wanted):
                self._flows[one].append((element.gate, element))
            for one in _named(element.drive, wanted):
                self._flows[one].append((element.drive, element))
        for mode in self._network.modes:
            for expression in (mode.sets, mode.clears):
                for one in _named(expression, wanted):
                    self._modes[one].append((expression, mode))
        boundaries = (node.boundary for node in self._network.nodes if node.boundary is not None)
        for expression in (*boundaries, *(e for _, e in self._network.signals)):
            for one in _named(expression, wanted):
                self._other[one].append(expression)

    def _matters(self, move: Moved) -> Iterator[Expr]:
        for expression, element in self._flows[move[0]]:
            yield self._flows_otherwise(expression, element, move)
        for expression, _ in self._modes[move[0]]:
            yield _differs(_is_met(_with(expression, move)), _is_met(expression))
        for expression in self._other[move[0]]:
            yield _differs(_with(expression, move), expression)

    def _flows_otherwise(self, expression: Expr, element: Element, move: Moved) -> Expr:
        """Above 0 where an element's gate or drive would be otherwise, and that makes another flow."""
        other, scale = _with(expression, move), self._scale[element.name]
        differs = _differs(other, expression)
        is_drive = expression is element.drive and expression is not element.gate
        if element.family not in _SCALED or (is_drive and element.family not in ("PDPUMP", "DRAW")):
            return differs
        flows = Apply("gt", (Apply("abs", (Through(element.name, 0),)), Const(NOTHING * scale.through)))
        opened = Apply("and", (_is_met(element.gate), _is_met(element.drive)))
        opens = Apply("and", (Apply("not", (opened,)), Apply("gt", (other, expression))))
        if element.family in _LEVEL:
            drop = Apply("sub", (Across(element.at[0]), Across(element.at[1])))
            opens = Apply("and", (opens, Apply("gt", (Apply("abs", (drop,)), Const(NOTHING * scale.across)))))
        return Apply("and", (differs, Apply("or", (flows, opens))))


def _named(expression: Expr, wanted: set[str]) -> set[str]:
    return {one.name for one in parts_of_expression(expression) if isinstance(one, Input)} & wanted


def _with(expression: Expr, move: Moved) -> Expr:
    name, value = move
    return renamed(expression, lambda one: Const(value) if isinstance(one, Input) and one.name == name else one)


def _differs(one: Expr, other: Expr) -> Expr:
    return Apply("not", (Apply("eq", (one, other)),))


def _is_met(expression: Expr) -> Expr:
    return Apply("gt", (expression, Const(0.0)))


def _any(of: Iterator[Expr]) -> Expr:
    none: Expr = Const(0.0)
    return reduce(lambda a, b: Apply("or", (a, b)), of, none)
