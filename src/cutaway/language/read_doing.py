"""From the parse tree of a predicate to a statement of what something does. One function a predicate."""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from lark import Token

from cutaway.handbook.names import a, listed
from cutaway.language.keywords import VERBS
from cutaway.language.name_index import key
from cutaway.language.predicates import complements, is_negated, reading_of, what_can_be, whole_part
from cutaway.language.read_relations import can_move, depends, trend
from cutaway.language.said import Said, choose, name_of, reading_name
from cutaway.language.subjects import Subject
from cutaway.language.syntax import (
    And,
    AtPosition,
    ComesOnAt,
    Compare,
    InState,
    Not,
    Served,
    Statement,
)
from cutaway.language.trees import Branch, branch, first_token, has_token, name_in, tokens
from cutaway.language.words import ControlWords, PartWords, ReadingWords
from cutaway.parts.kind import State
from cutaway.problems.span import Span, TextFile, whole
from cutaway.quantities.reading import read_quantity
from cutaway.quantities.si import low_high_si
from cutaway.quantities.units import unit_named

Reader = Callable[[Subject, Branch, Said, Span], Statement | None]


def _amount(tree: Branch) -> Token:
    return first_token(tree, "QUANTITY", "NUMBER")


# --- is: a state, a position, a service -----------------------------------------------------------------------------


def _is_so(subject: Subject, predicate: Branch, said: Said, span: Span) -> Statement | None:
    return so(subject, name_in(branch(predicate, 1)), is_negated(predicate), said, span)


def so(subject: Subject, word: Token, negated: bool, said: Said, span: Span) -> Statement | None:
    """The subject is what the word says: in a state, or at a position."""
    positions = _positions(subject, word)
    states = _states(subject.part, word)
    if positions and states:
        hint = f"Write {subject.name} is at {word} for the position."
        said.note("L204", word, f"'{word}' is both a state and a position of {subject.name}.", hint)
        return None
    if len(positions) > 1:
        names = [f"{name_of(control.ref)} is {position}" for control, position in positions]
        said.note(
            "L204",
            word,
            f"Several controls of {subject.name} have a position '{word}'.",
            f"Write {listed(names, 'or')}.",
        )
        return None
    if positions:
        control, position = positions[0]
        return AtPosition(control.ref, position, "is", None, negated, span)
    if states and subject.part is not None:
        name, opposite = _one_name(states, word)
        return InState(subject.part.name, name, negated != opposite, span)
    _note_cannot_be(subject, word, said)
    return None


def _positions(subject: Subject, word: Token) -> list[tuple[ControlWords, str]]:
    controls = subject.part.controls if subject.part else (subject.control,) if subject.control else ()
    return [(c, position) for c in controls for position in c.positions if key(position) == key(word)]


def _states(part: PartWords | None, word: Token) -> list[tuple[State, bool]]:
    """The states that the word means, each with whether it is the opposite's word."""
    states = part.states if part is not None else ()
    found = [(state, False) for state in states if key(state.words) == key(word)]
    return found + [(state, True) for state in states if state.opposite and key(state.opposite) == key(word)]


def _one_name(states: list[tuple[State, bool]], word: Token) -> tuple[str, bool]:
    """By which name a state goes on all standards, and whether the word is its opposite. Kinds that do not agree in
    this are each asked for the word itself."""
    state, opposite = states[0]
    if any((key(one.words), turned) != (key(state.words), opposite) for one, turned in states):
        return next(one.opposite if turned else one.words for one, turned in states), False
    return state.words, opposite


def _note_cannot_be(subject: Subject, word: Token, said: Said) -> None:
    can = complements(subject)
    if said.left_out(word):
        return
    hint = choose(str(word), can) if can else what_can_be(subject)
    said.note("L213", word, f"{subject.name} cannot be '{word}'.", hint)


def _is_served(subject: Subject, predicate: Branch, said: Said, span: Span) -> Statement | None:
    if not subject.service:
        names = list(said.words.services.values())
        hint = choose(subject.name, names).replace("It can be", "The services are") if names else ""
        said.note("L214", subject.token, f"{subject.name} is not a service, and only a service is served.", hint)
        return None
    return Served(subject.service, is_negated(predicate), span)


# --- is: a figure -----------------------------------------------------------------------------------------------


def _is_amount(subject: Subject, predicate: Branch, said: Said, span: Span) -> Statement | None:
    amount, negated = _amount(predicate), is_negated(predicate)
    control = _ranged(subject, amount, said)
    if control is not None:
        return _level_is(control, amount, negated, said, span)
    return _compare(subject, "is", amount, negated, False, said, span)


def _is_bounded(subject: Subject, predicate: Branch, said: Said, span: Span) -> Statement | None:
    amount, negated = _amount(predicate), is_negated(predicate)
    bound = next(t.type for t in tokens(predicate) if t.type in ("ABOVE", "BELOW", "AT_LEAST", "AT_MOST"))
    control = _ranged(subject, amount, said)
    if control is not None:
        level = said.level(control, amount)
        if level is None:
            return None
        if bound in ("ABOVE", "AT_MOST"):
            return AtPosition(control.ref, "", "above", level, negated != (bound == "AT_MOST"), span)
        return AtPosition(control.ref, "", "below", level, negated != (bound == "AT_LEAST"), span)
    match bound:
        case "ABOVE":
            return _compare(subject, "above", amount, negated, False, said, span)
        case "BELOW":
            return _compare(subject, "below", amount, negated, False, said, span)
        case "AT_LEAST":
            return _compare(subject, "at least", amount, negated, False, said, span)
        case _:
            return _compare(subject, "at most", amount, negated, False, said, span)


def _settles(subject: Subject, predicate: Branch, said: Said, span: Span) -> Statement | None:
    return _compare(subject, "is", _amount(predicate), False, True, said, span)


def _compare(
    subject: Subject, op: str, amount: Token, negated: bool, settles: bool, said: Said, span: Span
) -> Statement | None:
    reading = reading_of(subject, said)
    if reading is None:
        return None
    if _of_another_reading(subject, reading, amount, said):
        return None
    quantity = said.quantity(amount, reading.dimensions, reading.units)
    if quantity is None:
        return None
    if op != "is" and quantity.is_range:
        said.note(
            "L107",
            amount,
            f"'{amount}' is a range, and '{op}' wants one figure.",
            f"Write {op} {quantity.value:g} {quantity.unit.name}.",
        )
        return None
    match op:
        case "above" | "below" | "at least" | "at most":
            return Compare(reading.ref, op, quantity, settles, negated, span)
        case _:
            return Compare(reading.ref, "is", quantity, settles, negated, span)


def _of_another_reading(subject: Subject, reading: ReadingWords, amount: Token, said: Said) -> bool:
    """Notes a figure that a part does not read but something else of it does, as a jack's travel is not its pressure.
    Whether it was so."""
    quantity, _ = read_quantity(str(amount), whole(TextFile("", str(amount))))
    if subject.part is None or quantity is None or quantity.dimension in (*reading.dimensions, "number"):
        return False
    others = {
        reading_name(one): None
        for one in said.words.readings.values()
        if one.ref.part == subject.part.name and quantity.dimension in one.dimensions
    }
    if not others:
        return False
    figure = (
        f"Write {a(reading.dimensions[0])}{f' in {unit_named(reading.units[0]).spoken[1]}' if reading.units else ''}"
    )
    hint = f"{figure}, or name what is meant: {listed(list(others)[:4], 'or')}."
    is_a = f"{reading_name(reading).strip()} is {listed([a(one) for one in reading.dimensions], 'or')}"
    said.note("Q105", amount, f"'{amount}' is {a(quantity.dimension)}; {is_a}.", hint)
    return True


def _ranged(subject: Subject, amount: Token, said: Said) -> ControlWords | None:
    """The control that a level is said of: one that moves through a range, where the figure is a fraction."""
    control = subject.control
    if control is None or not control.ranged:
        return None
    reads = subject.reading is not None or (subject.part is not None and subject.part.main is not None)
    return None if reads and "%" not in amount and "cent" not in amount.lower() else control


def _level_is(control: ControlWords, amount: Token, negated: bool, said: Said, span: Span) -> Statement | None:
    quantity = said.quantity(amount, ("fraction",))
    if quantity is None:
        return None
    if not quantity.is_range:
        level = said.level(control, amount)
        return None if level is None else AtPosition(control.ref, "", "is", level, negated, span)
    low, high = low_high_si(quantity)
    between = And(
        (
            AtPosition(control.ref, "", "below", low, True, span),
            AtPosition(control.ref, "", "above", high, True, span),
        ),
        span,
    )
    return Not(between, span) if negated else between


# --- a state begins ---------------------------------------------------------------------------------------------


def _comes_on(subject: Subject, predicate: Branch, said: Said, span: Span) -> Statement | None:
    verb = first_token(predicate, "VERB")
    part = whole_part(subject, said)
    if part is None:
        return None
    for word in VERBS[key(verb)]:
        found = [(s, key(s.opposite) == word) for s in part.states if word in (key(s.words), key(s.opposite))]
        if found:
            state, opposite = found[0]
            return _begins(part, (state.words, opposite), predicate, said, span)
    states = [w for state in part.states for w in (state.words, state.opposite) if w]
    hint = f"Write {part.name} becomes {listed(states, 'or')} at …" if states else ""
    said.note("L213", verb, f"{subject.name} has no state that begins when it {verb}.", hint)
    return None


def _becomes(subject: Subject, predicate: Branch, said: Said, span: Span) -> Statement | None:
    word = name_in(predicate)
    part = whole_part(subject, said)
    if part is None:
        return None
    found = _states(part, word)
    if not found:
        _note_cannot_be(subject, word, said)
        return None
    name, opposite = _one_name(found, word)
    return _begins(part, (name, opposite != is_negated(predicate)), predicate, said, span)


def _begins(part: PartWords, state: tuple[str, bool], predicate: Branch, said: Said, span: Span) -> Statement | None:
    amount = _amount(predicate)
    quantity = said.quantity(amount)
    if not has_token(predicate, "FALLING", "RISING"):
        text = f"at {amount} falling, or at {amount} rising"
        said.note("L110", amount, f"'at {amount}' does not say which way the figure is going.", f"Write {text}.")
        return None
    if quantity is None:
        return None
    return ComesOnAt(part.name, state[0], state[1], quantity, has_token(predicate, "FALLING"), span)


DOING: Mapping[str, Reader] = MappingProxyType(
    {
        "is_so": _is_so,
        "is_amount": _is_amount,
        "is_bounded": _is_bounded,
        "is_served": _is_served,
        "settles": _settles,
        "comes_on": _comes_on,
        "becomes": _becomes,
        "trend": trend,
        "depends": depends,
        "does_not_depend": depends,
        "can_move": can_move,
        "cannot_move": can_move,
    }
)
"""From the grammar's name of a predicate to its reader."""
