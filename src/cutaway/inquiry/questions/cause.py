"""The chain of cause behind a statement: from its signals back through what is active at the moment that decides.

For a thing that is fed: the way from its supply. For one that is dead: what stands in the way, nearest first. For a
mode (a pressure switch, a relay, a cut-out): its reading against its limit. Across couplings: the other part.
"""

from collections.abc import Iterator

from cutaway.inquiry.course import said
from cutaway.inquiry.judging import Looked
from cutaway.inquiry.questions.cause_agenda import Agenda, Ask
from cutaway.inquiry.questions.cause_ways import OverWays
from cutaway.inquiry.questions.cause_words import Named, is_gauge, one_point
from cutaway.inquiry.questions.leaves import Leaf, Limit
from cutaway.inquiry.questions.links import Given, Holds, Link, Reads, Same, Stands, Unmoved
from cutaway.inquiry.questions.supplied import DRY, Ways
from cutaway.inquiry.questions.watched import Watched, watched
from cutaway.inquiry.scenes import Question
from cutaway.inquiry.search.base import Base
from cutaway.inquiry.signals import atoms, kind_on, reading_of, state_of
from cutaway.language.syntax import AtPosition, Compare, InState
from cutaway.machine import names
from cutaway.machine.bind import CONDITIONS
from cutaway.machine.expressions import parts_of_expression
from cutaway.parts.recipe import Across, Apply, Const, Content, Element, Input, ModeIs, Signal, Through

# How many links a chain has at most, and how far it goes back: more is not read. Choices of ours.
MOST_LINKS = 14
DEEPEST = 7
PUSH = 5.0e4  # less than this does not move a piston, Pa: a choice of ours


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
        self.question, self.seen, self.so = question, seen, so
        self.ways = Ways(seen)
        self.named, self.agenda = Named(seen, self.ways), Agenda(seen)
        self.over = OverWays(question, self.named, self.agenda)
        self.done: dict[tuple[object, ...], str] = {}
        self.found: dict[Link, Link | None] = {}
        self.usual = {slot.name: slot.value for slot in CONDITIONS}

    def links(self) -> list[Link]:
        self._begin()
        while self.agenda.waiting and len(self.found) < MOST_LINKS:
            ask = self.agenda.waiting.popleft()
            key = (ask.leaf, ask.of if isinstance(ask.leaf, Limit) else "")
            if key in self.done:
                self._again(ask, self.done[key])
                continue
            if ask.depth > DEEPEST:
                continue
            self.done[key] = ask.of
            self.agenda.at = ask.by
            for link in self._answered(ask):
                self.found.setdefault(link, ask.by)
                self.agenda.at = link
        return list(self.found)[:MOST_LINKS]

    def _again(self, ask: Ask, before: str) -> None:
        """Of a reading that is as another part's is, for which it has been told already."""
        if isinstance(ask.by, Reads) and ask.of not in ("", before):
            self.found.setdefault(Same(ask.of, before, self.named.cites(ask.of)), ask.by)

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
                        self.agenda.ask(Signal(name), self.seen.value(Signal(name)) > 0.5, str(part), 0)
                case Compare(reading=ref) if ref.port:
                    node = question.bound.wiring.joined[names.node_name(ref.part, ref.port)]
                    self.agenda.ask(Across(node), self._is_high(atom, len(every)), str(ref.part), 0)
                case Compare(reading=ref):
                    kind = kind_on(question.bound, ref.part)
                    reading = reading_of(kind, ref.reading) if kind is not None else None
                    if reading is not None:
                        name = names.signal_name(ref.part, reading.signal)
                        self.agenda.ask(Signal(name), self._is_high(atom, len(every)), str(ref.part), 0)
                case AtPosition(control=control):
                    name = names.control_name(control.part, control.control)
                    self.agenda.ask(Input("control", name), True, str(control.part), 0)
                case _:
                    pass

    def _is_high(self, atom: Compare, among: int) -> bool:
        """Whether it is asked why a reading is as much as it is, rather than why no more. Of several readings in one
        statement it is asked as each is put, since any of them may be what is not so."""
        return (atom.op != "below") == (self.so or among > 1)

    def _answered(self, ask: Ask) -> Iterator[Link]:
        of, depth = ask.of, ask.depth
        match ask.leaf:
            case Limit(of=value, limit=limit, above=above):
                yield from self.named.reads(value, limit, above, of, ask.becomes)
                suction = one_point(value)
                self.over.limits.setdefault(suction, self.seen.value(limit))
                if isinstance(value, Apply) and suction and self.ways.nodes[suction].medium == "air":
                    # How far below the air outside a point is, or how far above it.
                    self.agenda.ask(Across(suction), above == is_gauge(value), of, depth)
                else:
                    self.agenda.further(value, above, of, depth)
                if not isinstance(limit, Const):
                    self.agenda.further(limit, not above, of, depth + 1)
            case Leaf(of=Input() as one):
                yield from self._input(one)
            case Leaf(of=ModeIs(mode=name)):
                yield from self._mode(name, depth)
            case Leaf(of=Signal(name=name), high=high):
                yield from self._signal(name, high, of, depth)
            case Leaf(of=Across(node=node), high=high):
                yield from self.over.point(node, high, of, depth)
            case Leaf(of=Content(element=name), high=high):
                element = next(e for e in self.seen.network.elements if e.name == name)
                yield from self._content(element, high, depth)
                if element.family in ("JACK", "RAM"):
                    yield from self._piston(element, depth + 1)
            case Leaf(of=Through(element=name), high=high):
                element = next(e for e in self.seen.network.elements if e.name == name)
                self.agenda.further(element.gate, high, self.named.owner(name), depth + 1)
                self.agenda.further(element.drive, high, self.named.owner(name), depth + 1)
                for node in element.at[: 1 if high else 2]:
                    self.agenda.ask(Across(node), high, self.named.owner(name), depth + 1)
            case _:
                pass

    def _piston(self, element: Element, depth: int) -> Iterator[Link]:
        """What comes to the first end of a piston and pushes it, is still to be asked; or that nothing pushes it."""
        pushed, of = self._pushed(element), self.named.owner(element.name)
        if pushed:
            self.agenda.ask(Across(element.at[0]), pushed > 0, of, depth)
        else:
            yield Unmoved(of, self.named.cites(of))

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
                    yield Stands(one.name.replace(".", " "), said(slot, value), self.named.cites(str(slot.part)))
        elif one.sort == "failure" and value > 0.5:
            part, failure = one.name.rsplit(": ", 1)
            yield self.named.broken(part, failure)
        elif one.sort == "condition" and value != self.usual.get(one.name):
            yield Given(one.name, value)

    def _mode(self, name: str, depth: int) -> Iterator[Link]:
        """Why a mode is set, or not: by what sets it, where that is so; else by what keeps it. One that is not set yet,
        since what sets it has not been so for long enough, is as it is for that time alone."""
        mode = next(m for m in self.seen.network.modes if m.name == name)
        part = name.rsplit(": ", 1)[0]
        on, sets, clears = (self.seen.value(one) > limit for one, limit in
                            ((ModeIs(name), 0.5), (mode.sets, 0.0), (mode.clears, 0.0)))  # fmt: skip
        if mode.delay > 0.0 and sets and not on and not clears:
            self.agenda.at = waits = self.named.lasts(mode)
            yield waits
            self.agenda.further(mode.sets, True, part, depth)
            return
        if self.seen.value(ModeIs(name)) > 0.5:
            by_setting = self.seen.value(mode.sets) > 0.0
        else:
            by_setting = not self.seen.value(mode.clears) > 0.0
        on = self.seen.value(ModeIs(name)) > 0.5
        rises = by_setting if on else not by_setting
        self.agenda.further(
            mode.sets if by_setting else mode.clears, rises, part, depth, self.named.state_of(name, part, by_setting)
        )

    def _signal(self, name: str, high: bool, of: str, depth: int) -> Iterator[Link]:
        part = name.rsplit(": ", 1)[0]
        if part != of and all(isinstance(e, Const | Apply) for e in parts_of_expression(self.seen.signals[name])):
            return  # a figure of another part, the speed that its gear is made for, is no reason
        if part != of:
            tied = self.named.tied(of, part)
            if tied is not None:
                yield tied
        elif depth == 0:
            yield from self.named.is_in(name, part)
        self.agenda.further(self.seen.signals[name], high, part, depth if part == of else depth + 1)

    def _content(self, element: Element, high: bool, depth: int) -> Iterator[Link]:
        name, part = element.name, self.named.owner(element.name)
        slot = self.seen.bound.contents.get(part)
        if slot is None or slot.element != name:
            return
        if slot.dimension == "pressure" and high:
            yield from self.over.charged(name, part, True, element.at[0], depth)
        elif slot.dimension != "pressure":
            held = self.seen.value(Content(name))
            yield Holds(part, held if held > DRY else 0.0, slot.dimension, self.named.cites(part))
