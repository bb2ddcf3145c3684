"""From records to text in the canonical form; reading the text again gives the same records, places apart."""

import re
from decimal import Decimal
from typing import assert_never

from cutaway.language.keywords import VERBS
from cutaway.language.syntax import (
    Action,
    AgainstScope,
    And,
    AtPosition,
    Built,
    CanMove,
    Claim,
    ComesOnAt,
    Compare,
    Condition,
    ControlRef,
    Earlier,
    FailureChoice,
    FailureRef,
    Held,
    If,
    Independent,
    InState,
    Move,
    Not,
    Or,
    ReadingRef,
    Scope,
    Served,
    Statement,
    Trend,
    Wait,
    When,
)
from cutaway.language.words import CONDITIONS
from cutaway.problems.counting import plural
from cutaway.quantities.quantity import Unit
from cutaway.quantities.si import from_si
from cutaway.quantities.units import units_of


def printed_claim(claim: Claim) -> str:
    """A claim: 'on Mk 1, in cruising, within 40 s: fuel lamp is lit'."""
    scope = printed_scope(claim.scope)
    return f"{scope}: {printed(claim.statement)}" if scope else printed(claim.statement)


def printed_scope(scope: Scope) -> str:
    """A scope, its items in a fixed order; '' if it says nothing."""
    items: list[str] = []
    if scope.on is not None:
        items.append(f"on {scope.on.words}")
    if scope.situation:
        items.append(f"in {scope.situation}")
    given: tuple[FailureChoice | Condition | Held, ...] = (*scope.failures, *scope.conditions, *scope.held)
    items.extend(f"with {printed_given(one)}" for one in given)
    if scope.actions:
        items.append(f"after {printed_actions(scope.actions)}")
    items.extend(_when(scope.when))
    if scope.modality:
        items.append(scope.modality)
    return ", ".join(items)


def _when(when: When) -> list[str]:
    match when.kind:
        case "settled":
            return []
        case "never":
            return ["never"]
        case "takes":
            return [f"takes {_number(when.first)} to {_number(when.second)} s"]
        case "within" | "throughout" | "at":
            return [f"{when.kind} {_number(when.first)} s"]
        case _:
            assert_never(when.kind)


def printed_given(given: FailureChoice | Condition | Held) -> str:
    """What stands behind 'with'."""
    match given:
        case FailureChoice(options=options):
            return _failures(options)
        case Condition(part=part, name=name, quantity=quantity):
            return f"{part} at {quantity.text}" if part else f"{name} {quantity.text}"
        case Held(control=control, position=position, level=level):
            return f"{_control(control)} at {_place(position, level)}"
        case _:
            assert_never(given)


def _failures(options: tuple[FailureRef, ...]) -> str:
    failures = list(dict.fromkeys(option.failure for option in options))
    if len(options) == 1:
        return f"{options[0].part} {options[0].failure}"
    # Parts that fail in different ways have each the failure that 'failed' means for it.
    word = failures[0] if len(failures) == 1 else "failed"
    return f"any of ({', '.join(option.part for option in options)}) {word}"


def printed_actions(actions: tuple[Action, ...]) -> str:
    """Actions in order, joined by 'then'; those during which a control is held stand behind its 'while'."""
    out: list[str] = []
    at = 0
    while at < len(actions):
        action, inner = actions[at], actions[at + 1 : at + 1 + _through(actions[at])]
        during = f" while ({printed_actions(inner)})" if inner else ""
        out.append(printed_action(action) + during)
        at += 1 + len(inner)
    return " then ".join(out)


def _through(action: Action) -> int:
    return action.through if isinstance(action, Move) else 0


def printed_action(action: Action) -> str:
    """One action: 'hand pump to pumping for 20 s', 'wait 10 s'."""
    match action:
        case Wait(seconds=seconds):
            return f"wait {_number(seconds)} s"
        case Move(control=control, position=position, level=level, held=held):
            hold = "" if held is None else f" for {_number(held)} s"
            return f"{_control(control)} to {_place(position, level)}{hold}"
        case _:
            assert_never(action)


# --- statements ----------------------------------------------------------------------------------------------------


def printed(statement: Statement) -> str:
    """A statement."""
    match statement:
        case Not(of=of):
            return f"not {_clause(of)}"
        case And(of=of):
            return " and ".join(_unit(one) for one in of)
        case Or(of=of):
            return " or ".join(printed(one) if isinstance(one, And) else _unit(one) for one in of)
        case If(then=then, condition=condition, kind=kind):
            return f"{_side(then)} {kind} {_side(condition)}"
        case Earlier(first=first, second=second):
            return f"{_clause(first)} before {_clause(second)}"
        case _:
            return _simple(statement)


def _bracketed(statement: Statement, *kinds: type) -> str:
    text = printed(statement)
    return f"({text})" if isinstance(statement, kinds) else text


def _clause(statement: Statement) -> str:
    return _bracketed(statement, And, Or, If, Earlier)


def _unit(statement: Statement) -> str:
    # 'on Mk 1 or …' would go on to name standards.
    if isinstance(statement, AgainstScope) and statement.other.on is not None:
        return f"({printed(statement)})"
    return _bracketed(statement, And, Or, If)


def _side(statement: Statement) -> str:
    return _bracketed(statement, If)


def _simple(
    statement: InState
    | AtPosition
    | Compare
    | ComesOnAt
    | Served
    | Trend
    | Independent
    | AgainstScope
    | CanMove
    | Built,
) -> str:
    match statement:
        case InState(part=part, state=state, negated=negated):
            return f"{part} {_is(negated)} {state}"
        case AtPosition():
            return _at_position(statement)
        case Compare():
            return _compare(statement)
        case ComesOnAt():
            return _comes_on(statement)
        case Served(service=service, negated=negated):
            return f"{service} {_is(negated)} served"
        case Trend():
            return _trend(statement)
        case Independent(part=part, controls=controls, negated=negated):
            verb = "depends on" if negated else "does not depend on"
            return f"{part} {verb} {', '.join(_control(c) for c in controls)}"
        case AgainstScope(reading=reading, op=op, other=other):
            words = "the same as" if op == "same" else f"{op} than"
            return f"{_reading(reading)} is {words} {printed_scope(other)}"
        case CanMove(control=control, position=position, negated=negated):
            return f"{_control(control)} {'cannot' if negated else 'can'} be moved to {position}"
        case Built():
            return _built(statement)
        case _:
            assert_never(statement)


def _at_position(statement: AtPosition) -> str:
    where = _place(statement.position, statement.level)
    op = "" if statement.op == "is" else f"{statement.op} "
    return f"{_control(statement.control)} {_is(statement.negated)} {op}{where}"


def _compare(statement: Compare) -> str:
    reading, quantity = _reading(statement.reading), statement.quantity.text
    if statement.settles:
        return f"{reading} settles at {quantity}"
    op = "" if statement.op == "is" else f"{statement.op} "
    return f"{reading} {_is(statement.negated)} {op}{quantity}"


def _comes_on(statement: ComesOnAt) -> str:
    direction = "falling" if statement.falling else "rising"
    word = statement.state
    verb = next((verb for verb, states in VERBS.items() if states == (word,)), None)
    begins = verb if verb and not statement.negated else f"becomes {'not ' if statement.negated else ''}{word}"
    return f"{statement.part} {begins} at {statement.quantity.text} {direction}"


def _trend(statement: Trend) -> str:
    unit = _exact_unit(statement.condition, (statement.start, statement.stop))
    way = "rises" if statement.rises else "falls"
    turn = "rises" if statement.stop > statement.start else "falls"
    show = _number if unit.size == 1.0 else _rounded
    ends = [f"{show(from_si(end, unit))} {unit.name}".strip() for end in (statement.start, statement.stop)]
    return f"{_reading(statement.reading)} {way} as {statement.condition} {turn} from {ends[0]} to {ends[1]}"


def _exact_unit(condition: str, ends: tuple[float, float]) -> Unit:
    """The period's unit if the ends come back from it as they were, else the first that does that: SI at the last."""
    units = units_of(CONDITIONS[condition])
    exact = (u for u in units if all(float(_rounded(from_si(e, u))) * u.size + u.zero == e for e in ends))
    return next(exact, next(u for u in units if u.zero == 0.0 and u.size == 1.0))


def _built(statement: Built) -> str:
    subject, names = statement.subject, ", ".join(statement.words)
    match statement.what:
        case "fitted":
            return f"{subject} {_is(statement.negated)} fitted"
        case "at" | "marked" | "worked by":
            return f"{subject} {_is(statement.negated)} {statement.what} {_text(names)}"
        case "driven by":
            return f"{subject} {_is(statement.negated)} driven by {names}"
        case "positions":
            control = f".{statement.value}" if statement.value else ""
            return f"{subject}{control} has positions {names}"
        case "count":
            return f"there are {statement.number} {plural(subject)}"
        case "feeds" | "works":
            verb = statement.what
            return f"{subject} {f'does not {verb[:-1]}' if statement.negated else verb} {names}"
        case "set at":
            assert statement.quantity is not None
            if statement.value:
                return f"{subject} has {statement.value} of {statement.quantity.text}"
            return f"{subject} {_is(statement.negated)} set at {statement.quantity.text}"
        case _:
            assert_never(statement.what)


# --- small things ----------------------------------------------------------------------------------------------


def _is(negated: bool) -> str:
    return "is not" if negated else "is"


def _text(words: str) -> str:
    """The words as they stand, between quotation marks where something in them could be taken for a link."""
    return f'"{words}"' if _LINKING.search(words) else words


_LINKING = re.compile(r"[()0-9]|\b(and|or|if|before|when)\b", re.IGNORECASE)


def _control(ref: ControlRef) -> str:
    return f"{ref.part}.{ref.control}" if ref.control else str(ref.part)


def _reading(ref: ReadingRef) -> str:
    return f"{ref.part}.{ref.port or ref.reading}".removesuffix(".")


def _place(position: str, level: float | None) -> str:
    return position if level is None else f"{_rounded(level * 100.0)} %"


def _number(value: float) -> str:
    """A figure as it is, without an exponent."""
    return f"{Decimal(repr(value)):f}".removesuffix(".0")


def _rounded(value: float) -> str:
    """A figure without what only the change of unit has put behind its digits."""
    return f"{Decimal(f'{value:.12g}'):f}"
