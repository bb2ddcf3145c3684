"""The parts, points and values of a chain of cause as its links carry them: by name, with their paragraphs."""

from collections.abc import Iterator, Sequence

from cutaway.handbook.records import Cite, given_on
from cutaway.inquiry.course import said
from cutaway.inquiry.questions.links import Broken, Is, Lasts, Link, Reads, Step, Tied
from cutaway.inquiry.questions.supplied import Ways
from cutaway.inquiry.questions.watched import Watched, is_shut
from cutaway.inquiry.signals import kind_on
from cutaway.machine import names
from cutaway.machine.expressions import parts_of_expression
from cutaway.parts.recipe import Across, Apply, Const, Element, Expr, Input, Mode, ModeIs, Signal

DIMENSIONS = {"petrol": "pressure", "oil": "pressure", "current": "voltage", "air": "pressure", "heat": "temperature",
              "shaft": "angular speed"}  # fmt: skip
STILL = "still"  # how a pump stands that does not pump
DATUMS = {"petrol": "gauge", "oil": "gauge", "air": "absolute"}


class Named:
    """What is so at one moment, by the names that its parts give it."""

    def __init__(self, seen: Watched, ways: Ways) -> None:
        self.seen, self.ways = seen, ways
        kinds = {name: seen.bound.kinds[part.kind] for name, part in seen.bound.parts.items()}
        self._sensed = {(str(name), c.name) for name, kind in kinds.items() for c in kind.couplings if c.to == "node"}

    def owner(self, name: str) -> str:
        """The part of an element, a point or a mode."""
        return self.seen.owners.get(name, name.split(".")[0])

    def cites(self, *parts: str) -> tuple[Cite, ...]:
        """The paragraphs of parts and of the values that they have on this subject, each once."""
        found: dict[tuple[str, str], Cite] = {}
        for name in dict.fromkeys(parts):
            record = self.seen.bound.parts.get(name)
            if record is None:
                continue
            given = [g for v in record.values if (g := given_on(record, v.name, self.seen.bound.subject.standard))]
            for cite in (*record.cites, *(c for one in given for c in one.cites)):
                found.setdefault((cite.source, cite.number), cite)
        return tuple(found.values())

    def is_of(self, node: str, part: str) -> bool:
        """Whether a point is one of a part's own."""
        joined = self.seen.bound.wiring.joined
        return any(at == node and full.startswith(f"{part}.") for full, at in joined.items())

    def known(self, name: str) -> bool:
        """Whether everything that a signal is read from can reach the statement, and so was watched."""
        try:
            self.seen.value(Signal(name))
        except KeyError:
            return False
        return True

    def broken(self, part: str, failure: str) -> Broken:
        """That something is wrong with a part."""
        kind = kind_on(self.seen.bound, part)
        says = next((f.says for f in kind.failures if f.name == failure), "") if kind is not None else ""
        return Broken(part, failure, says, self.cites(part))

    def lasts(self, mode: Mode) -> Lasts:
        """That a time must pass before the part of a mode heeds what is so already."""
        part = self.owner(mode.name)
        return Lasts(part, mode.called, mode.delay, self.cites(part))

    def is_in(self, name: str, part: str) -> Iterator[Link]:
        """That a part is in the state of a signal, or is not."""
        kind = kind_on(self.seen.bound, part)
        state = next((s for s in kind.states if names.signal_name(part, s.signal) == name), None) if kind else None
        if state is not None:
            on = self.seen.value(Signal(name)) > 0.5
            yield Is(part, state.words if on else state.opposite or f"not {state.words}", self.cites(part))

    def state_of(self, mode: str, part: str, sets: bool) -> str:
        """The state that a part is in while a mode is set, or is not; '' where no state is that of the mode alone."""
        kind = kind_on(self.seen.bound, part)
        for state in kind.states if kind is not None else ():
            if _rests_on(self.seen.signals.get(names.signal_name(part, state.signal)), mode):
                return state.words if sets else state.opposite or f"not {state.words}"
        return ""

    def tied(self, of: str, part: str) -> Tied | None:
        """How a part goes with another; None where it only joins it to a line."""
        by = next((n for (p, n), (to, _) in self.seen.bound.wiring.coupled.items() if p == of and to == part), "")
        kind = kind_on(self.seen.bound, part)
        if kind is None or not by:
            return None
        for state in kind.states:
            name = names.signal_name(part, state.signal)
            if name in self.seen.signals and self.known(name):
                on = self.seen.value(Signal(name)) > 0.5
                word = state.words if on else state.opposite or f"not {state.words}"
                return Tied(of, by, part, word, self.cites(of))
        return None if kind.controls else Tied(of, by, part, "", self.cites(of))

    def reads(self, value: Expr, limit: Expr, above: bool, of: str, becomes: str) -> Iterator[Link]:
        """A value against its limit, where the value has a plain name."""
        told = self._told_as(value, of)
        if told is None:
            return
        what, dimension, datum, zero = told
        numbers = self.seen.value(value) + zero, self.seen.value(limit) + zero
        yield Reads(of, what, *numbers, dimension, datum, above, self.cites(of), becomes)

    def _told_as(self, value: Expr, of: str) -> tuple[str, str, str, float] | None:
        """What is read, with its dimension, datum and the SI value of its nought; None where it has no plain name."""
        match value:
            case Across(node=node):
                medium = self.ways.nodes[node].medium
                if medium == "shaft" and self.owner(node) == of:
                    return None  # that it turns is told by what turns it
                zero = 273.15 if medium == "heat" else 0.0
                return self.point(node, of), DIMENSIONS[medium], DATUMS.get(medium, ""), zero
            case Signal(name=name):
                part = name.rsplit(": ", 1)[0]
                kind = kind_on(self.seen.bound, part)
                for reading in kind.readings if kind is not None else ():
                    if names.signal_name(part, reading.signal) == name:
                        return (
                            (part if reading.main else f"{part} {reading.name}"),
                            reading.dimension,
                            reading.datum,
                            0.0,
                        )
                return None
            case _:
                node = one_point(value)
                if node and self.ways.nodes[node].medium == "air":
                    datum = "gauge" if is_gauge(value) else ""
                    return self.point(node, of), "pressure", datum, 0.0
                return None

    def point(self, node: str, of: str) -> str:
        """A point as its part would call it: what it senses by name, its own port by the part's name."""
        wiring = self.seen.bound.wiring
        for (part, coupling), (to, inner) in wiring.coupled.items():
            if (
                part == of
                and (part, coupling) in self._sensed
                and wiring.joined.get(names.node_name(to, inner)) == node
            ):
                return f"{to} {inner}" if inner in ("inlet", "outlet") else self._side(str(to), inner)
        if any(wiring.joined.get(full) == node for full in wiring.joined if full.startswith(f"{of}.")):
            return of
        part, _, inner = node.partition(".")
        return self._side(part, inner)

    def _side(self, part: str, inner: str) -> str:
        """A port as a side of its part; one that has no other needs no name."""
        kind = kind_on(self.seen.bound, part)
        alone = kind is not None and len(kind.ports) == 1
        return part if not inner or inner == "any" or alone else f"{inner} side of the {part}"

    def steps(self, elements: Sequence[Element], first: str, last: str) -> tuple[Step, ...]:
        """The parts of a way in its order, each once, without its ends and what only joins."""
        found: dict[str, Step] = {}
        for element in elements:
            owner = self.owner(element.name)
            if owner not in (first, last) and owner not in found:
                found[owner] = Step(owner, self._setting(element), self._failure(element))
        return tuple(found.values())

    def _setting(self, element: Element) -> str:
        """How a part stands that an element belongs to, as far as its own control or state has to do with it."""
        owner, bound = self.owner(element.name), self.seen.bound
        kind = kind_on(bound, owner)
        for slot in bound.controls.values():
            if slot.part == owner:
                return said(slot, self.seen.value(Input("control", slot.input)))
        if element.family == "PDPUMP" and is_shut(self.seen, element):
            return STILL
        for state in kind.states if kind is not None and not kind.indicates else ():
            name = names.signal_name(owner, state.signal)
            if name in self.seen.signals and self.known(name) and state.opposite:
                return state.words if self.seen.value(Signal(name)) > 0.5 else state.opposite
        return ""

    def _failure(self, element: Element) -> str:
        wrong = [f for one in (element.gate, element.drive) for f in failures_in(one) if self.seen.value(f) > 0.5]
        return wrong[0].name.rsplit(": ", 1)[1] if wrong else ""


def one_point(expression: Expr) -> str:
    """The one point that an expression is read from, '' where there is none or more than one."""
    nodes = {one.node for one in parts_of_expression(expression) if isinstance(one, Across)}
    return nodes.pop() if len(nodes) == 1 else ""


def is_gauge(value: Expr) -> bool:
    """Whether a value of air is its pressure above the air outside; else it is how far it lies below, a suction."""
    return any(
        isinstance(one, Apply) and one.op == "sub" and isinstance(one.of[0], Across)
        for one in parts_of_expression(value)
    )


def _rests_on(expression: Expr | None, mode: str) -> bool:
    """Whether an expression is that of one mode, but for what can go wrong."""
    leaves = [] if expression is None else [e for e in parts_of_expression(expression) if not isinstance(e, Apply)]
    others = (e for e in leaves if e != ModeIs(mode))
    good = all(isinstance(e, Const) or (isinstance(e, Input) and e.sort == "failure") for e in others)
    return ModeIs(mode) in leaves and good


def failures_in(expression: Expr) -> Iterator[Input]:
    for one in parts_of_expression(expression):
        if isinstance(one, Input) and one.sort == "failure":
            yield one
