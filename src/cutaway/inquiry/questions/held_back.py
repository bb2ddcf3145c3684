"""What rules hold back: what has to be so before hands can put a control where a change wants it."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from cutaway.inquiry.course import BETWEEN_ACTIONS
from cutaway.inquiry.rules import rules_for
from cutaway.inquiry.search.base import Base
from cutaway.inquiry.search.changed import changed
from cutaway.inquiry.search.changes import ChangeSet, Put
from cutaway.inquiry.signals import needed
from cutaway.inquiry.truth import true_at_end
from cutaway.inquiry.workshop import Request
from cutaway.language.claims import ParsedRule
from cutaway.language.print_back import printed
from cutaway.language.syntax import ControlRef
from cutaway.machine.records import Run


@dataclass(frozen=True, slots=True)
class HeldBack:
    """A position that a control comes to only when something else is so, which it is not. asks: that, as rules have
    it."""

    control: str
    position: str
    asks: tuple[str, ...]


def asks_of(rules: Iterable[ParsedRule]) -> tuple[str, ...]:
    """What rules ask, each once."""
    return tuple(dict.fromkeys(printed(rule.only_when) for rule in rules if rule.only_when is not None))


def held_back(base: Base, sets: Sequence[ChangeSet]) -> list[tuple[HeldBack, ...]]:
    """Of each set, the positions that rules hold back, all else of the set being done already."""
    # What the scope's own actions move has been put to its rules with them.
    puts = [(i, put) for i, one in enumerate(sets) for put in one if isinstance(put, Put) and not put.instead]
    asked = [(i, put, rules) for i, put in puts for rules in [_rules(base, put)] if rules]
    found: list[list[HeldBack]] = [[] for _ in sets]
    if not asked:
        return [() for _ in sets]
    question = base.question
    bound, services = question.bound, question.told.services
    signals = frozenset(base.made.signals)
    for _, _, rules in asked:
        signals |= frozenset(s for rule in rules for s in needed(rule.only_when, bound, services).signals)  # type: ignore[arg-type]
    made = question.workshop.made(bound, signals)
    scenes = [changed(replace(base, made=made), sets[i] - {put}) for i, put, _ in asked]
    requests = [Request(made, scene.legs, scene.changes, BETWEEN_ACTIONS) for scene in scenes]
    for (i, put, rules), run in zip(asked, question.workshop.runs(requests), strict=True):
        against = [
            rule
            for rule in rules
            if not isinstance(run, Run) or not true_at_end(rule.only_when, run, bound, services)  # type: ignore[arg-type]
        ]
        if against:
            found[i].append(HeldBack(f"{put.part} {put.control}".strip(), put.words, asks_of(against)))
    return [tuple(sorted(one, key=lambda held: held.control)) for one in found]


def _rules(base: Base, one: Put) -> tuple[ParsedRule, ...]:
    """The rules that ask something before a control comes to a position."""
    question = base.question
    rules = rules_for(question.told.rules, question.bound, ControlRef(one.part, one.control), one.words)  # type: ignore[arg-type]
    return tuple(rule for rule in rules if rule.only_when is not None)
