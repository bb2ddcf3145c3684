"""What a folder's situations, services and rules come to, once their words are resolved."""

from collections.abc import Mapping
from dataclasses import dataclass

from cutaway.handbook.records import Folder
from cutaway.inquiry.scenes import Leg, Settings, content_change, input_change, legs_to
from cutaway.language.syntax import Action, Condition, ControlRef, Scope, Statement
from cutaway.machine.bind import Bound
from cutaway.machine.records import Change, SetContent
from cutaway.quantities.si import to_si


@dataclass(frozen=True, slots=True)
class Placed:
    """A control put somewhere by a situation."""

    control: ControlRef
    position: str
    level: float | None


@dataclass(frozen=True, slots=True)
class MoveRule:
    """A rule of movement: the position it is for, what must be so, what happens besides."""

    control: ControlRef
    to: str
    only_when: Statement | None
    then: tuple[Action, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Told:
    """services: by name. placed, given, starts: by situation name. rules: all of the folder's."""

    services: Mapping[str, Statement]
    placed: Mapping[str, tuple[Placed, ...]]
    given: Mapping[str, tuple[Condition, ...]]
    starts: Mapping[str, tuple[Condition, ...]]
    rules: tuple[MoveRule, ...] = ()


def settings_for(
    told: Told, bound: Bound, scope_changes: tuple[Change, ...] = (), scope_sets: tuple[SetContent, ...] = ()
) -> Settings:
    """The situations as inputs of one subject; what the subject does not have is passed over."""
    names = dict.fromkeys([*told.placed, *told.given, *told.starts])
    out = []
    for name in names:
        moves = [input_change(bound, p.control, p.position, p.level, 0.0) for p in told.placed.get(name, ())]
        given = [Change(0.0, c.name, to_si(c.quantity)) for c in told.given.get(name, ())]
        sets = [content_change(bound, c.part, to_si(c.quantity)) for c in told.starts.get(name, ())]
        changes = (*(m for m in moves if m is not None), *given)
        out.append((name, changes, tuple(s for s in sets if s is not None)))
    return Settings(tuple(out), scope_changes, scope_sets)


def legs_for(
    folder: Folder,
    told: Told,
    bound: Bound,
    scope: Scope,
    scope_changes: tuple[Change, ...] = (),
    scope_sets: tuple[SetContent, ...] = (),
) -> tuple[Leg, ...]:
    """The legs to a scope's situation on one subject."""
    return legs_to(folder, scope.situation, bound, settings_for(told, bound, scope_changes, scope_sets))


def placed_at_end(legs: tuple[Leg, ...]) -> dict[str, float]:
    """Where every input stands once the legs are over."""
    return {change.input: change.value for leg in legs for change in leg.changes}
