"""How something comes to a point of a pipe, a wire or a shaft, or what stands in its way: the links for it."""

from collections.abc import Iterator

from cutaway.inquiry.questions.cause_agenda import Agenda, Ask
from cutaway.inquiry.questions.cause_words import Named, failures_in
from cutaway.inquiry.questions.leaves import Leaf, deciding
from cutaway.inquiry.questions.links import Charged, Cut, Fed, Link, Other, Step, Unjoined
from cutaway.inquiry.questions.supplied import Way
from cutaway.inquiry.questions.watched import is_shut
from cutaway.inquiry.scenes import Question
from cutaway.inquiry.signals import kind_on
from cutaway.inquiry.told import legs_for
from cutaway.machine import names
from cutaway.parts.recipe import Content, Element, Input, ModeIs, Through

# How many supplies are named that could give what is missing. A choice of ours.
MOST_SUPPLIES = 4


class OverWays:
    """Answers for points of one moment; what stands behind the answers goes on the agenda."""

    def __init__(self, question: Question, named: Named, agenda: Agenda) -> None:
        self.question, self.named, self.agenda = question, named, agenda
        self.seen, self.ways = named.seen, named.ways
        self.charges: set[str] = set()  # the stores of which it is told what came to them
        self.limits: dict[str, float] = {}  # what is asked of points, SI

    def point(self, node: str, high: bool, of: str, depth: int) -> Iterator[Link]:
        """Why a point is as high, or as low, as it is, for the part `of`."""
        point = self.ways.nodes.get(node)
        if point is None:
            return
        if point.boundary is not None:
            self.agenda.further(point.boundary, high, self.named.owner(node), depth + 1)
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
        owner = self.named.owner(node)
        if owner != of:
            tied = self.named.tied(of, owner)
            if tied is not None:
                yield tied
        self._into(node, high, depth)

    def _into(self, node: str, high: bool, depth: int) -> None:
        """Ask of the gates of what flows into a point, or of all that could."""
        for element in self.ways.on[node]:
            flow = -self.seen.values[Through(element.name, element.at.index(node))]
            if flow > 0.0 if high else self.seen.value(element.gate) <= 1e-6:
                self.agenda.further(element.gate, high, self.named.owner(element.name), depth + 1)

    def _fed(self, node: str, medium: str, drawn: bool, of: str, depth: int) -> Iterator[Link]:
        way = self.ways.fed(node, drawn)
        if way is None:
            return
        supply = self.named.owner(way.end)
        steps = self.named.steps(way.elements, of, supply)
        what = self.named.point(node, of)
        # What a thing holds comes to it from nowhere, and so it is for what only reads it.
        held_there = what != of and self.named.is_of(node, supply) and way.end in self.ways.stores
        if not steps and (supply == of or held_there):
            yield from self.charged(way.end, supply, True, node, depth)
            return
        if way.end in self.charges and not steps:
            return  # that what fills a store has its pressure says nothing more
        owners = (of, *(step.part for step in steps), supply)
        yield Fed(what, supply, tuple(reversed(steps)), medium, drawn, self.named.cites(*owners))
        for element in way.elements:
            self._because_open(element, depth + 1)
        self._of_supply(way, True, depth + 1)

    def _cut(self, node: str, medium: str, drawn: bool, of: str, depth: int) -> Iterator[Link]:
        own = frozenset(name for name in self.ways.stores if self.named.owner(name) == of)
        way = self.ways.nearest(node, drawn)
        empty = ""
        if way is not None and way.end in own and not way.shut:
            empty = way.end
            way = self.ways.nearest(node, drawn, own) or way  # it is empty: what would fill it
        if way is None:
            lines = bool(self._lines_at(node, of))
            yield Unjoined(self.named.point(node, of), medium, drawn, lines, self.named.cites(of))
            return
        supply = self.named.owner(way.end)
        hindering = self._hindering(way, node, medium)
        shut = self.named.steps(hindering, "", "")
        if not shut and (supply == of or medium == "oil"):
            return  # oil that is under no pressure waits behind an open way: that says nothing
        others = self._other_supplies(node, supply, shut) if not (drawn or empty or medium == "oil") else ()
        every = (*shut, *(step for other in others for step in other.steps))
        cites = self.named.cites(*(step.part for step in every), supply, *(other.supply for other in others))
        yield Cut(self.named.point(node, of), supply, shut, medium, drawn, cites, others)
        for element in hindering:
            self.agenda.further(element.gate, False, self.named.owner(element.name), depth + 1)
            if element.family in ("PDPUMP", "DRAW"):
                self.agenda.further(element.drive, False, self.named.owner(element.name), depth + 1)
        if not way.shut or self.ways.is_dry(way):
            self._of_supply(way, False, depth + 1)
        yield from self._wrong_on(way, node)
        if empty:
            yield from self.charged(empty, of, False, node, depth)

    def _hindering(self, way: Way, node: str, medium: str) -> tuple[Element, ...]:
        """What stands in a way: what is shut, and pumps that stand still where nothing else brings it to the point."""
        pumping = medium == "petrol" or not way.shut
        missed = pumping and self.ways.wants_pump(way, self.limits.get(node))
        return tuple(dict.fromkeys((*way.shut, *(self.ways.idle(way) if missed else ()))))

    def _other_supplies(self, node: str, nearest: str, shut: tuple[Step, ...]) -> tuple[Other, ...]:
        """The other supplies of what is missing, the nearest first, each with what shuts the way to it alone."""
        found: list[Other] = []
        known = {nearest}
        while len(found) < MOST_SUPPLIES:
            way = self.ways.nearest(node, False, without=frozenset(known))
            if way is None:
                break
            supply = self.named.owner(way.end)
            known.add(supply)
            steps = self.named.steps(self._hindering(way, node, self.ways.nodes[node].medium), "", "")
            found.append(Other(supply, tuple(step for step in steps if step not in shut)))
        return tuple(found)

    def charged(self, element: str, part: str, high: bool, node: str, depth: int) -> Iterator[Link]:
        """That what a bottle holds was in it to begin with, or came to it and by what way; of one that is empty, that
        nothing was in it."""
        slot = self.seen.bound.contents.get(part)
        if slot is None or slot.element != element or slot.dimension != "pressure":
            return
        question = self.question
        legs = legs_for(question.workshop.folder, question.told, question.bound, question.scope)
        given = any(one.element == element for leg in legs for one in leg.sets)
        own = frozenset(name for name in self.ways.stores if self.named.owner(name) == part)
        way = self.ways.nearest(node, False, own) if high and not given else None
        if way is None:
            yield Charged(part, given, not high, self.named.cites(part))
            return
        self.charges.add(element)
        supply = self.named.owner(way.end)
        steps = tuple(reversed(self.named.steps((*way.elements, *self.ways.idle(way)), part, supply)))
        owners = (part, *(step.part for step in steps), supply)
        yield Charged(part, given, not high, self.named.cites(*owners), supply, steps)
        for one in way.elements:
            if is_shut(self.seen, one):  # why no more comes
                self.agenda.further(one.gate, False, self.named.owner(one.name), depth + 1)
            else:
                self._because_open(one, depth + 1)
        for step in steps:  # a cut-out that lets the pump off shuts nothing
            kind = kind_on(self.seen.bound, step.part)
            for state in kind.states if kind is not None else ():
                if state.words == step.setting:
                    name = names.signal_name(step.part, state.signal)
                    self.agenda.further(self.seen.signals[name], True, step.part, depth + 1)

    def _lines_at(self, node: str, of: str) -> tuple[Element, ...]:
        """What else than a part's own elements stands at a point."""
        return tuple(e for e in self.ways.on[node] if self.named.owner(e.name) != of)

    def _wrong_on(self, way: Way, node: str) -> Iterator[Link]:
        """What is wrong with anything that stands on a way: a short circuit, a leak, a choked filter."""
        points = {node, *(at for element in way.elements for at in element.at)}
        for element in dict.fromkeys(e for at in sorted(points) for e in self.ways.on[at]):
            for one in (element.gate, element.drive):
                for failure in failures_in(one):
                    if self.seen.value(failure) > 0.5:
                        yield self.named.broken(*failure.name.rsplit(": ", 1))

    def _because_open(self, element: Element, depth: int) -> None:
        """Ask of modes and other parts by which an element is open; how controls stand is told with the way."""
        owner = self.named.owner(element.name)
        for expression in (element.gate, element.drive):
            for one in deciding(self.seen, expression, True):
                # A mode that is not set leaves a thing as it should be: a fuse that has not melted.
                usual = isinstance(one, Leaf) and isinstance(one.of, ModeIs) and not one.high
                if not usual and not (isinstance(one, Leaf) and isinstance(one.of, Input)):
                    self.agenda.waiting.append(Ask(one, owner, depth, self.agenda.at))

    def _of_supply(self, way: Way, high: bool, depth: int) -> None:
        point = self.ways.nodes.get(way.end)
        if point is not None and point.boundary is not None:
            self.agenda.further(point.boundary, high, self.named.owner(way.end), depth)
        elif point is None and (not high or self._is_charged(way.end)):
            self.agenda.ask(Content(way.end), high, self.named.owner(way.end), depth)

    def _is_charged(self, element: str) -> bool:
        """Whether a store holds what is at a pressure, and so was put there by something."""
        slot = self.seen.bound.contents.get(self.named.owner(element))
        return slot is not None and slot.element == element and slot.dimension == "pressure"
