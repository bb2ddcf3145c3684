"""What a folder's situations, services and rules come to, once their words are resolved."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from cutaway.handbook.records import Folder
from cutaway.inquiry.course import Leg, Settings, content_change, input_change, legs_to
from cutaway.language.claims import ParsedClaims, ParsedRule, ParsedSituation
from cutaway.language.syntax import And, Earlier, If, Not, Or, Scope, Served, Statement
from cutaway.machine.bind import Bound
from cutaway.machine.records import Change, SetContent
from cutaway.quantities.si import to_si


@dataclass(frozen=True, slots=True, eq=False)
class Told:
    """services: what each means, by name. situations: by name. rules: all of the folder's."""

    services: Mapping[str, Statement]
    situations: Mapping[str, ParsedSituation]
    rules: tuple[ParsedRule, ...] = ()


def told_from(parsed: ParsedClaims) -> Told:
    """The folder's language as the questions use it."""
    services = {s.service.name: s.statement for s in parsed.services if s.statement is not None}
    return Told(
        {name: statement for name, statement in services.items() if not _in_a_circle(name, services)},
        {s.situation.name: s for s in parsed.situations},
        parsed.rules,
    )


def _in_a_circle(name: str, services: Mapping[str, Statement]) -> bool:
    """Whether a service is made of itself, so that it means nothing."""
    seen: set[str] = set()
    waiting = [name]
    while waiting:
        here = waiting.pop()
        inner = {s for s in _named(services[here]) if s in services}
        if name in inner:
            return True
        waiting.extend(inner - seen)
        seen |= inner
    return False


def _named(statement: Statement) -> Iterator[str]:
    match statement:
        case And(of=inner) | Or(of=inner):
            for one in inner:
                yield from _named(one)
        case Not(of=one):
            yield from _named(one)
        case If(then=one, condition=other) | Earlier(first=one, second=other):
            yield from _named(one)
            yield from _named(other)
        case Served(service=name):
            yield name
        case _:
            pass


def settings_for(
    told: Told, bound: Bound, scope_changes: tuple[Change, ...] = (), scope_sets: tuple[SetContent, ...] = ()
) -> Settings:
    """The situations as inputs of one subject; what the subject does not have is passed over."""
    out = []
    for name, situation in told.situations.items():
        moves = [input_change(bound, h.control, h.position, h.level, 0.0) for h in situation.sets]
        given = [Change(0.0, c.name, to_si(c.quantity)) for c in situation.given]
        sets = [content_change(bound, c.part, to_si(c.quantity)) for c in situation.starts]
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
