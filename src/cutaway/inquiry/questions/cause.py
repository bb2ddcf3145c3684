"""The chain of cause behind a statement: from its signals back through what is active at the moment that decides.

For a thing that is fed: the way from its supply. For one that is dead: what stands in the way, nearest first. For a
mode (a pressure switch, a relay, a cut-out): its reading against its limit. Across couplings: the other part.
"""

from collections import deque
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from cutaway.handbook.records import Cite, given_on
from cutaway.inquiry.course import said
from cutaway.inquiry.judging import Looked
from cutaway.inquiry.questions.leaves import Leaf, Limit, deciding
from cutaway.inquiry.questions.links import (
    Broken,
    Charged,
    Cut,
    Fed,
    Given,
    Holds,
    Is,
    Link,
    Other,
    Reads,
    Stands,
    Step,
    Tied,
    Unjoined,
)
from cutaway.inquiry.questions.supplied import Way, Ways
from cutaway.inquiry.questions.watched import Watched, is_shut, watched
from cutaway.inquiry.scenes import Question
from cutaway.inquiry.search.base import Base
from cutaway.inquiry.signals import atoms, kind_on, reading_of, state_of
from cutaway.inquiry.told import legs_for
from cutaway.language.syntax import AtPosition, Compare, InState
from cutaway.machine import names
from cutaway.machine.bind import CONDITIONS
from cutaway.machine.expressions import parts_of_expression
from cutaway.parts.recipe import Across, Apply, Const, Content, Element, Expr, Input, ModeIs, Signal, Through

# How many links a chain has at most, and how far it goes back: more is not read. Choices of ours.
MOST_LINKS = 14
DEEPEST = 7
DIMENSIONS = {"petrol": "pressure", "oil": "pressure", "current": "voltage", "air": "pressure", "heat": "temperature",
              "shaft": "angular speed"}  # fmt: skip
# How many supplies are named that could give what is missing. A choice of ours.
MOST_SUPPLIES = 4
PUSH = 5.0e4  # less than this does not move a piston, Pa: a choice of ours
STILL = "still"  # how a pump stands that does not pump
DATUMS = {"petrol": "gauge", "oil": "gauge", "air": "absolute"}


@dataclass(frozen=True, slots=True)
class _Ask:
    """A question that is still to be answered: why a leaf is as high, or as low, as it is, for the part `of`. by: the
    link that it came of. becomes: the state that the part comes to at a limit."""

    leaf: Leaf | Limit
    of: str
    depth: int
    by: Link | None = None
    becomes: str = ""


def chain(base: Base, looked: Looked) -> tuple[Link, ...]:
    """The links behind a base's statement as it was found, the most direct first; none where it could not be seen."""
    seen = watched(base, looked)
    return links_behind(base.question, seen, looked.decision.holds) if seen is not None else ()


def chain_as_it_hangs(base: Base, looked: Looked) -> tuple[tuple[Link, ...], tuple[int, ...]]:
    """The links as `chain` has them, and of each the place of the one that it explains, -1 for the statement."""
    seen = watched(base, looked)
    if seen is None:
        return (), ()
    tracing = _Tracing(base.question, seen, looked.decision.holds)
    links = tracing.links()
    at = {link: i for i, link in enumerate(links)}
    return tuple(links), tuple(-1 if (by := tracing.found[link]) is None else at[by] for link in links)


def links_behind(question: Question, seen: Watched, so: bool) -> tuple[Link, ...]:
    """The links behind a question's statement at a moment that was watched. so: whether it is so there."""
    return tuple(_Tracing(question, seen, so).links())


class _Tracing:
    """One tracing back; grows its list of links and of questions that are answered."""

    def __init__(self, question: Question, seen: Watched, so: bool) -> None:
        self.question, self.seen, self.ways, self.so = question, seen, Ways(seen), so
        self.waiting: deque[_Ask] = deque()
        self.done: set[tuple[object, ...]] = set()
        self.found: dict[Link, Link | None] = {}
        self.at: Link | None = None
        self.usual = {slot.name: slot.value for slot in CONDITIONS}
        kinds = {name: seen.bound.kinds[part.kind] for name, part in seen.bound.parts.items()}
        self.sensed = {(str(name), c.name) for name, kind in kinds.items() for c in kind.couplings if c.to == "node"}

    def links(self) -> list[Link]:
        self._begin()
        while self.waiting and len(self.found) < MOST_LINKS:
            ask = self.waiting.popleft()
            key = (ask.leaf, ask.of if isinstance(ask.leaf, Limit) else "")
            if key in self.done or ask.depth > DEEPEST:
                continue
            self.done.add(key)
            self.at = ask.by
            for link in self._answered(ask):
                self.found.setdefault(link, ask.by)
                self.at = link
        return list(self.found)[:MOST_LINKS]

    def _begin(self) -> None:
        question = self.question
        every = tuple(atoms(question.statement, question.told.services))
        for atom in every:
            match atom:
                case InState(part=part, state=words):
                    kind = kind_on(question.bound, part)
                    state = state_of(kind, words) if kind is not None else None
                    if state is not None:
                        name = names.signal_name(part, state.signal)
                        self._ask(Signal(name), self.seen.value(Signal(name)) > 0.5, str(part), 0)
                case Compare(reading=ref) if ref.port:
                    node = question.bound.wiring.joined[names.node_name(ref.part, ref.port)]
                    self._ask(Across(node), self._is_high(atom, len(every)), str(ref.part), 0)
                case Compare(reading=ref):
                    kind = kind_on(question.bound, ref.part)
                    reading = reading_of(kind, ref.reading) if kind is not None else None
                    if reading is not None:
                        name = names.signal_name(ref.part, reading.signal)
                        self._ask(Signal(name), self._is_high(atom, len(every)), str(ref.part), 0)
                case AtPosition(control=control):
                    name = names.control_name(control.part, control.control)
                    self._ask(Input("control", name), True, str(control.part), 0)
                case _:
                    pass

    def _is_high(self, atom: Compare, among: int) -> bool:
        """Whether it is asked why a reading is as much as it is, rather than why no more. Of several readings in one
        statement it is asked as each is put, since any of them may be what is not so."""
        return (atom.op != "below") == (self.so or among > 1)

    def _ask(self, leaf: Expr, high: bool, of: str, depth: int) -> None:
        self.waiting.append(_Ask(Leaf(leaf, high), of, depth, self.at))

    def _further(self, expression: Expr, high: bool, of: str, depth: int, becomes: str = "") -> None:
        several = list(deciding(self.seen, expression, high))
        alone = len(several) == 1  # of several limits none alone makes the part what it becomes
        for one in several:
            self.waiting.append(_Ask(one, of, depth, self.at, becomes if alone else ""))

    # --- one question -----------------------------------------------------------------------------------------------

    def _answered(self, ask: _Ask) -> Iterator[Link]:
        of, depth = ask.of, ask.depth
        match ask.leaf:
            case Limit(of=value, limit=limit, above=above):
                yield from self._reads(value, limit, above, of, ask.becomes)
                suction = _one_point(value)
                if isinstance(value, Apply) and suction and self.ways.nodes[suction].medium == "air":
                    # How far below the air outside a point is, or how far above it.
                    self._ask(Across(suction), above == _is_gauge(value), of, depth)
                else:
                    self._further(value, above, of, depth)
                if not isinstance(limit, Const):
                    self._further(limit, not above, of, depth + 1)
            case Leaf(of=Input() as one):
                yield from self._input(one)
            case Leaf(of=ModeIs(mode=name)):
                self._mode(name, depth)
            case Leaf(of=Signal(name=name), high=high):
                yield from self._signal(name, high, of, depth)
            case Leaf(of=Across(node=node), high=high):
                yield from self._point(node, high, of, depth)
            case Leaf(of=Content(element=name), high=high):
                yield from self._content(name, high)
                element = next(e for e in self.seen.network.elements if e.name == name)
                if element.family in ("JACK", "RAM") and self._pushed(element):  # by what comes to its first end
                    self._ask(Across(element.at[0]), self._pushed(element) > 0, self._owner(name), depth + 1)
            case Leaf(of=Through(element=name), high=high):
                element = next(e for e in self.seen.network.elements if e.name == name)
                self._further(element.gate, high, self._owner(name), depth + 1)
                self._further(element.drive, high, self._owner(name), depth + 1)
                for node in element.at[: 1 if high else 2]:
                    self._ask(Across(node), high, self._owner(name), depth + 1)
            case _:
                pass

    def _pushed(self, element: Element) -> int:
        """Which way the fluid pushes a piston: 1 outwards, -1 inwards, 0 where it stands without."""
        first, *other = (self.seen.value(Across(node)) for node in element.at[:2])
        push = first - (other[0] if other else 0.0)
        return 0 if abs(push) < PUSH else 1 if push > 0.0 else -1

    def _input(self, one: Input) -> Iterator[Link]:
        bound = self.question.bound
        value = self.seen.value(one)
        if one.sort == "control":
            for slot in bound.controls.values():
                if slot.input == one.name:
                    yield Stands(one.name.replace(".", " "), said(slot, value), self._cites(str(slot.part)))
        elif one.sort == "failure" and value > 0.5:
            part, failure = one.name.rsplit(": ", 1)
            yield self._broken(part, failure)
        elif one.sort == "condition" and value != self.usual.get(one.name):
            yield Given(one.name, value)

    def _broken(self, part: str, failure: str) -> Broken:
        kind = kind_on(self.question.bound, part)
        says = next((f.says for f in kind.failures if f.name == failure), "") if kind is not None else ""
        return Broken(part, failure, says, self._cites(part))

    def _mode(self, name: str, depth: int) -> None:
        """Why a mode is set, or not: by what sets it, where that is so; else by what keeps it."""
        mode = next(m for m in self.seen.network.modes if m.name == name)
        part = name.rsplit(": ", 1)[0]
        if self.seen.value(ModeIs(name)) > 0.5:
            by_setting = self.seen.value(mode.sets) > 0.0
        else:
            by_setting = not self.seen.value(mode.clears) > 0.0
        on = self.seen.value(ModeIs(name)) > 0.5
        rises = by_setting if on else not by_setting
        self._further(
            mode.sets if by_setting else mode.clears, rises, part, depth, self._state_of(name, part, by_setting)
        )

    def _state_of(self, mode: str, part: str, sets: bool) -> str:
        """The state that a part is in while a mode is set, or is not; '' where no state is that of the mode alone."""
        kind = kind_on(self.question.bound, part)
        for state in kind.states if kind is not None else ():
            if _rests_on(self.seen.signals.get(names.signal_name(part, state.signal)), mode):
                return state.words if sets else state.opposite or f"not {state.words}"
        return ""

    def _signal(self, name: str, high: bool, of: str, depth: int) -> Iterator[Link]:
        part = name.rsplit(": ", 1)[0]
        if part != of and all(isinstance(e, Const | Apply) for e in parts_of_expression(self.seen.signals[name])):
            return  # a figure of another part, the speed that its gear is made for, is no reason
        if part != of:
            tied = self._tied(of, part)
            if tied is not None:
                yield tied
        elif depth == 0:
            yield from self._is(name, part)
        self._further(self.seen.signals[name], high, part, depth if part == of else depth + 1)

    def _is(self, name: str, part: str) -> Iterator[Link]:
        kind = kind_on(self.question.bound, part)
        state = next((s for s in kind.states if names.signal_name(part, s.signal) == name), None) if kind else None
        if state is not None:
            on = self.seen.value(Signal(name)) > 0.5
            yield Is(part, state.words if on else state.opposite or f"not {state.words}", self._cites(part))

    def _tied(self, of: str, part: str) -> Tied | None:
        """How a part goes with another; None where it only joins it to a line."""
        by = next((n for (p, n), (to, _) in self.seen.bound.wiring.coupled.items() if p == of and to == part), "")
        kind = kind_on(self.seen.bound, part)
        if kind is None or not by:
            return None
        for state in kind.states:
            name = names.signal_name(part, state.signal)
            if name in self.seen.signals and self._known(name):
                on = self.seen.value(Signal(name)) > 0.5
                word = state.words if on else state.opposite or f"not {state.words}"
                return Tied(of, by, part, word, self._cites(of))
        return None if kind.controls else Tied(of, by, part, "", self._cites(of))

    def _known(self, name: str) -> bool:
        """Whether everything that a signal is read from can reach the statement, and so was watched."""
        try:
            self.seen.value(Signal(name))
        except KeyError:
            return False
        return True

    def _content(self, name: str, high: bool) -> Iterator[Link]:
        part = self._owner(name)
        slot = self.seen.bound.contents.get(part)
        if slot is None or slot.element != name:
            return
        if slot.dimension != "pressure":
            yield Holds(part, max(0.0, self.seen.value(Content(name))), slot.dimension, self._cites(part))

    # --- readings against limits ------------------------------------------------------------------------------------

    def _reads(self, value: Expr, limit: Expr, above: bool, of: str, becomes: str) -> Iterator[Link]:
        told = self._told_as(value, of)
        if told is None:
            return
        what, dimension, datum, zero = told
        numbers = self.seen.value(value) + zero, self.seen.value(limit) + zero
        yield Reads(of, what, *numbers, dimension, datum, above, self._cites(of), becomes)

    def _told_as(self, value: Expr, of: str) -> tuple[str, str, str, float] | None:
        """What is read, with its dimension, datum and the SI value of its nought; None where it has no plain name."""
        match value:
            case Across(node=node):
                medium = self.ways.nodes[node].medium
                if medium == "shaft" and self._owner(node) == of:
                    return None  # that it turns is told by what turns it
                zero = 273.15 if medium == "heat" else 0.0
                return self._point_name(node, of), DIMENSIONS[medium], DATUMS.get(medium, ""), zero
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
                node = _one_point(value)
                if node and self.ways.nodes[node].medium == "air":
                    datum = "gauge" if _is_gauge(value) else ""
                    return self._point_name(node, of), "pressure", datum, 0.0
                return None

    def _point_name(self, node: str, of: str) -> str:
        """A point as its part would call it: what it senses by name, its own port by the part's name."""
        wiring = self.seen.bound.wiring
        for (part, coupling), (to, inner) in wiring.coupled.items():
            if part == of and (part, coupling) in self.sensed and wiring.joined.get(names.node_name(to, inner)) == node:
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

    # --- ways -------------------------------------------------------------------------------------------------------

    def _point(self, node: str, high: bool, of: str, depth: int) -> Iterator[Link]:
        point = self.ways.nodes.get(node)
        if point is None:
            return
        if point.boundary is not None:
            self._further(point.boundary, high, self._owner(node), depth + 1)
            return
        if point.medium == "shaft":
            yield from self._turning(node, high, of, depth)
            return
        if point.medium == "heat":
            self._into(node, high, depth)
            return
        drawn = self.ways.drawn(node)
        if high != drawn:
            yield from self._fed(node, point.medium, drawn, of, depth)
        else:
            yield from self._cut(node, point.medium, drawn, of, depth)

    def _turning(self, node: str, high: bool, of: str, depth: int) -> Iterator[Link]:
        """A shaft goes as what turns it."""
        owner = self._owner(node)
        if owner != of:
            tied = self._tied(of, owner)
            if tied is not None:
                yield tied
        self._into(node, high, depth)

    def _into(self, node: str, high: bool, depth: int) -> None:
        """Ask of the gates of what flows into a point, or of all that could."""
        for element in self.ways.on[node]:
            flow = -self.seen.values[Through(element.name, element.at.index(node))]
            if flow > 0.0 if high else self.seen.value(element.gate) <= 1e-6:
                self._further(element.gate, high, self._owner(element.name), depth + 1)

    def _fed(self, node: str, medium: str, drawn: bool, of: str, depth: int) -> Iterator[Link]:
        way = self.ways.fed(node, drawn)
        if way is None:
            return
        supply = self._owner(way.end)
        steps = self._steps(way.elements, of, supply)
        what = self._point_name(node, of)
        # What a thing holds comes to it from nowhere, and so it is for what only reads it.
        if not steps and (supply == of or (what != of and self._is_of(node, supply) and way.end in self.ways.stores)):
            yield from self._charged(way.end, supply, True, node, depth)
            return
        owners = (of, *(step.part for step in steps), supply)
        yield Fed(what, supply, tuple(reversed(steps)), medium, drawn, self._cites(*owners))
        for element in way.elements:
            self._because_open(element, depth + 1)
        self._of_supply(way, True, depth + 1)

    def _cut(self, node: str, medium: str, drawn: bool, of: str, depth: int) -> Iterator[Link]:
        own = frozenset(name for name in self.ways.stores if self._owner(name) == of)
        way = self.ways.nearest(node, drawn)
        empty = ""
        if way is not None and way.end in own and not way.shut:
            empty = way.end
            way = self.ways.nearest(node, drawn, own) or way  # it is empty: what would fill it
        if way is None:
            yield Unjoined(self._point_name(node, of), medium, drawn, bool(self._lines_at(node, of)), self._cites(of))
            return
        supply = self._owner(way.end)
        pumps = self.ways.idle(way) if medium == "petrol" or not way.shut else ()
        hindering = tuple(dict.fromkeys((*way.shut, *pumps)))
        shut = self._steps(hindering, "", "")
        if not shut and (supply == of or medium == "oil"):
            return  # oil that is under no pressure waits behind an open way: that says nothing
        others = self._other_supplies(node, supply, shut) if not (drawn or empty or medium == "oil") else ()
        named = (*shut, *(step for other in others for step in other.steps))
        cites = self._cites(*(step.part for step in named), supply, *(other.supply for other in others))
        yield Cut(self._point_name(node, of), supply, shut, medium, drawn, cites, others)
        for element in hindering:
            self._further(element.gate, False, self._owner(element.name), depth + 1)
            if element.family in ("PDPUMP", "DRAW"):
                self._further(element.drive, False, self._owner(element.name), depth + 1)
        if not way.shut:
            self._of_supply(way, False, depth + 1)
        yield from self._wrong_on(way, node)
        if empty:
            yield from self._charged(empty, of, False, node, depth)

    def _other_supplies(self, node: str, nearest: str, shut: tuple[Step, ...]) -> tuple[Other, ...]:
        """The other supplies of what is missing, the nearest first, each with what shuts the way to it alone."""
        found: list[Other] = []
        known = {nearest}
        while len(found) < MOST_SUPPLIES:
            way = self.ways.nearest(node, False, without=frozenset(known))
            if way is None:
                break
            supply = self._owner(way.end)
            known.add(supply)
            steps = self._steps(tuple(dict.fromkeys((*way.shut, *self.ways.idle(way)))), "", "")
            found.append(Other(supply, tuple(step for step in steps if step not in shut)))
        return tuple(found)

    def _charged(self, element: str, part: str, high: bool, node: str, depth: int) -> Iterator[Link]:
        """That what a bottle holds was in it to begin with, or came to it and by what way; of one that is empty, that
        nothing was in it."""
        slot = self.seen.bound.contents.get(part)
        if slot is None or slot.element != element or slot.dimension != "pressure":
            return
        question = self.question
        legs = legs_for(question.workshop.folder, question.told, question.bound, question.scope)
        given = any(one.element == element for leg in legs for one in leg.sets)
        own = frozenset(name for name in self.ways.stores if self._owner(name) == part)
        way = self.ways.nearest(node, False, own) if high and not given else None
        if way is None:
            yield Charged(part, given, not high, self._cites(part))
            return
        supply = self._owner(way.end)
        steps = tuple(reversed(self._steps((*way.elements, *self.ways.idle(way)), part, supply)))
        owners = (part, *(step.part for step in steps), supply)
        yield Charged(part, given, not high, self._cites(*owners), supply, steps)
        for one in way.elements:
            if is_shut(self.seen, one):  # why no more comes
                self._further(one.gate, False, self._owner(one.name), depth + 1)
            else:
                self._because_open(one, depth + 1)
        for step in steps:  # a cut-out that lets the pump off shuts nothing
            kind = kind_on(self.seen.bound, step.part)
            for state in kind.states if kind is not None else ():
                if state.words == step.setting:
                    name = names.signal_name(step.part, state.signal)
                    self._further(self.seen.signals[name], True, step.part, depth + 1)

    def _is_of(self, node: str, part: str) -> bool:
        """Whether a point is one of a part's own."""
        joined = self.seen.bound.wiring.joined
        return any(at == node and full.startswith(f"{part}.") for full, at in joined.items())

    def _lines_at(self, node: str, of: str) -> tuple[Element, ...]:
        """What else than a part's own elements stands at a point."""
        return tuple(e for e in self.ways.on[node] if self._owner(e.name) != of)

    def _wrong_on(self, way: Way, node: str) -> Iterator[Link]:
        """What is wrong with anything that stands on a way: a short circuit, a leak, a choked filter."""
        points = {node, *(at for element in way.elements for at in element.at)}
        for element in dict.fromkeys(e for at in sorted(points) for e in self.ways.on[at]):
            for one in (element.gate, element.drive):
                for failure in _failures_in(one):
                    if self.seen.value(failure) > 0.5:
                        yield self._broken(*failure.name.rsplit(": ", 1))

    def _because_open(self, element: Element, depth: int) -> None:
        """Ask of modes and other parts by which an element is open; how controls stand is told with the way."""
        owner = self._owner(element.name)
        for expression in (element.gate, element.drive):
            for one in deciding(self.seen, expression, True):
                # A mode that is not set leaves a thing as it should be: a fuse that has not melted.
                usual = isinstance(one, Leaf) and isinstance(one.of, ModeIs) and not one.high
                if not usual and not (isinstance(one, Leaf) and isinstance(one.of, Input)):
                    self.waiting.append(_Ask(one, owner, depth))

    def _of_supply(self, way: Way, high: bool, depth: int) -> None:
        point = self.ways.nodes.get(way.end)
        if point is not None and point.boundary is not None:
            self._further(point.boundary, high, self._owner(way.end), depth)
        elif point is None and not high:
            self._ask(Content(way.end), high, self._owner(way.end), depth)

    def _steps(self, elements: Sequence[Element], first: str, last: str) -> tuple[Step, ...]:
        """The parts of a way in its order, each once, without its ends and what only joins."""
        found: dict[str, Step] = {}
        for element in elements:
            owner = self._owner(element.name)
            if owner not in (first, last) and owner not in found:
                found[owner] = Step(owner, self._setting(element), self._failure(element))
        return tuple(found.values())

    def _setting(self, element: Element) -> str:
        """How a part stands that an element belongs to, as far as its own control or state has to do with it."""
        owner, bound = self._owner(element.name), self.seen.bound
        kind = kind_on(bound, owner)
        for slot in bound.controls.values():
            if slot.part == owner:
                return said(slot, self.seen.value(Input("control", slot.input)))
        if element.family == "PDPUMP" and is_shut(self.seen, element):
            return STILL
        for state in kind.states if kind is not None and not kind.indicates else ():
            name = names.signal_name(owner, state.signal)
            if name in self.seen.signals and self._known(name) and state.opposite:
                return state.words if self.seen.value(Signal(name)) > 0.5 else state.opposite
        return ""

    def _failure(self, element: Element) -> str:
        wrong = [f for one in (element.gate, element.drive) for f in _failures_in(one) if self.seen.value(f) > 0.5]
        return wrong[0].name.rsplit(": ", 1)[1] if wrong else ""

    def _owner(self, name: str) -> str:
        return self.seen.owners.get(name, name.split(".")[0])

    def _cites(self, *parts: str) -> tuple[Cite, ...]:
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


def _one_point(expression: Expr) -> str:
    """The one point that an expression is read from, '' where there is none or more than one."""
    nodes = {one.node for one in parts_of_expression(expression) if isinstance(one, Across)}
    return nodes.pop() if len(nodes) == 1 else ""


def _is_gauge(value: Expr) -> bool:
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


def _failures_in(expression: Expr) -> Iterator[Input]:
    for one in parts_of_expression(expression):
        if isinstance(one, Input) and one.sort == "failure":
            yield one
