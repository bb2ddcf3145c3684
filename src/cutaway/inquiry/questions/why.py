"""Why a thing is so, or not so: the chain of cause, the minimal reasons, and what would change it."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from cutaway.handbook.records import Cite
from cutaway.inquiry.course import said
from cutaway.inquiry.evidence import cites_of
from cutaway.inquiry.memory import Memory
from cutaway.inquiry.questions.asked import HowFar, how_far, in_order
from cutaway.inquiry.questions.cause import chain_as_it_hangs
from cutaway.inquiry.questions.failures import cites_for, seen_in
from cutaway.inquiry.questions.held_back import HeldBack, held_back
from cutaway.inquiry.questions.links import Given, Link, Stands
from cutaway.inquiry.questions.remembered import Remembered
from cutaway.inquiry.search.base import Base
from cutaway.inquiry.search.changes import Alteration, Break, ChangeSet, Give, Put
from cutaway.inquiry.search.hitting import hitting_sets
from cutaway.inquiry.search.minimal import Bound, Search, minimal_sets
from cutaway.inquiry.search.trying import Trying, holds
from cutaway.inquiry.search.twins import folded
from cutaway.inquiry.search.universe import universe
from cutaway.inquiry.verdicts import Seen, Undecided

CHANGES = frozenset({"control", "action", "condition"})
# How many reasons are looked for: more are not read.
MOST_REASONS = 12


@dataclass(frozen=True, slots=True)
class Whole:
    """One thing that a reason rests on: a part that is whole, as against a failure that would change the answer."""

    part: str
    failure: str


@dataclass(frozen=True, slots=True)
class Moved:
    """One thing that a reason rests on: that a control is moved by the actions. control: its name with its part."""

    control: str
    position: str


Standing = Stands | Given | Whole | Moved


@dataclass(frozen=True, slots=True)
class Found:
    """One minimal set of changes that turns the answer over. twins: those the same but for port and starboard. held:
    what of it, or of a twin, rules hold back until something else is so."""

    of: tuple[Alteration, ...]
    twins: tuple[tuple[Alteration, ...], ...]
    cites: tuple[Cite, ...]
    held: tuple[HeldBack, ...] = ()


@dataclass(frozen=True, slots=True)
class Cause:
    """Whether it is so, what was seen, and the links of the chain, the most direct first. under: of each link the place
    of the one that it explains, -1 for what was asked."""

    so: bool
    seen: tuple[Seen, ...]
    links: tuple[Link, ...]
    cites: tuple[Cite, ...]
    under: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Why:
    """reasons: minimal sets of things as they stand, each enough, as far as was looked, to keep it so. changes: what
    would turn it over, smallest first."""

    cause: Cause
    reasons: tuple[tuple[Standing, ...], ...]
    changes: tuple[Found, ...]
    far: HowFar


def cause(base: Base) -> Cause | Undecided:
    """Whether a base's statement is so, and the chain of cause behind that."""
    looked = holds(base).looked
    if isinstance(looked, Undecided):
        return looked
    question = base.question
    cites = cites_of(question.statement, question.scope, question.bound, question.told.services)
    links, under = chain_as_it_hangs(base, looked)
    return Cause(looked.decision.holds, seen_in(base, looked), links, cites, under)


def why(
    base: Base,
    found: Cause,
    bound: Bound,
    failures: bool = False,
    stop: Callable[[], bool] = lambda: False,
    as_found: Callable[[ChangeSet], None] = lambda one: None,
    memory: Memory | None = None,
) -> Why:
    """What would turn over what was found of a base, and so its reasons. failures: whether failures are changes too."""
    every = universe(base, CHANGES | {"failure"} if failures else CHANGES)
    within = tuple(one for one in every if not isinstance(one, Give) or one.name in _given(base))
    trying, search = Trying(base, not found.so, within, bound.size > 1), Search[Alteration]()
    does = Remembered(trying, base, not found.so, memory)
    for one in minimal_sets(within, does, bound, search, stop, trying.can_matter):
        as_found(one)
    does.keep()
    groups = folded(search.found, base.question.bound.parts)
    flat = [one for g in groups for one in (g.first, *g.twins)]
    held = dict(zip(flat, held_back(base, flat), strict=True))
    changes = tuple(
        Found(
            in_order(g.first),
            tuple(in_order(twin) for twin in g.twins),
            cites_for(base, g.first),
            tuple(dict.fromkeys(h for one in (g.first, *g.twins) for h in held[one])),
        )
        for g in groups
    )
    return Why(found, reasons(base, search.found), changes, how_far(len(within), bound, search))


def _given(base: Base) -> frozenset[str]:
    """The conditions that the scope gives or the situation came by: of an aeroplane that has never left the apron it is
    not told what a wind of 200 knots would do."""
    before = (change.input for leg in base.scene.legs for change in leg.changes)
    return frozenset(before) | {change.input for change in base.scene.changes}


def reasons(base: Base, change_sets: Sequence[ChangeSet]) -> tuple[tuple[Standing, ...], ...]:
    """The minimal reasons: sets of things whose standing as they do keeps every one of the change sets from being made.
    None where nothing was found that would change it."""
    standing = [frozenset(_standing(base, one) for one in several) for several in change_sets]
    found = (tuple(sorted(one, key=repr)) for one in hitting_sets(standing, MOST_REASONS))
    return tuple(sorted(found, key=lambda one: (len(one), repr(one))))


def _standing(base: Base, one: Alteration) -> Standing:
    """How the thing that a change alters stands at the base."""
    stands = {**base.stands, **{change.input: change.value for change in base.scene.changes}}
    match one:
        case Put(part=part, control=control, instead=instead) if instead:
            return Moved(f"{part} {control}".strip(), instead)
        case Put(part=part, control=control, input=name):
            slot = base.question.bound.controls[(part, control)]
            return Stands(f"{part} {control}".strip(), said(slot, stands.get(name, 0.0)), ())
        case Give(name=name):
            usual = {slot.name: slot.value for slot in base.made.network.inputs}
            return Given(name, stands.get(name, usual.get(name, 0.0)))
        case Break(part=part, failure=failure):
            return Whole(part, failure)
        case _:
            raise AssertionError(f"not a change that is asked of here: {type(one).__name__}")
