"""From the parse tree of a predicate to a statement of what has to do with what: trends, dependence, movement."""

from lark import Token

from cutaway.language.name_index import key
from cutaway.language.predicates import reading_of, whole_part
from cutaway.language.said import Said, choose, name_of
from cutaway.language.subjects import Subject
from cutaway.language.syntax import CanMove, ControlRef, Independent, Statement, Trend
from cutaway.language.trees import Branch, branch, branches, first_token, name_in, names_in, tokens
from cutaway.language.words import CONDITIONS
from cutaway.problems.span import Span
from cutaway.quantities.reading import read_quantity
from cutaway.quantities.si import to_si


def _amount(tree: Branch) -> Token:
    return first_token(tree, "QUANTITY", "NUMBER")


def trend(subject: Subject, predicate: Branch, said: Said, span: Span) -> Statement | None:
    """'boost falls as height rises from 8000 ft to 12000 ft'."""
    reading = reading_of(subject, said)
    name = name_in(predicate)
    condition = said.words.conditions.get(key(name))
    if condition is None:
        said.unknown(name, "condition", said.words.conditions.values(), "L215")
        return None
    ways = [t.type for t in tokens(predicate) if t.type in ("RISES", "FALLS")]
    first, last = (_amount(tree) for tree in branches(predicate) if tree.data == "amount")
    ends = _ends(first, last, condition, said)
    if reading is None or ends is None:
        return None
    start, stop = ends
    if start == stop or (start < stop) != (ways[1] == "RISES"):
        other = "falls" if ways[1] == "RISES" else "rises"
        said.note(
            "L111",
            said.span(first, last),
            f"From {first} to {last} the {condition} does not {ways[1].lower()[:-1]}.",
            f"Write as {condition} {other} from {first} to {last}.",
        )
        return None
    return Trend(reading.ref, ways[0] == "RISES", condition, start, stop, span)


def _ends(first: Token, last: Token, condition: str, said: Said) -> tuple[float, float] | None:
    """Both ends in SI; 'from 8000 to 12000 ft' says the unit once."""
    stop = said.quantity(last, (CONDITIONS[condition],))
    if stop is None:
        return None
    if first.type == "NUMBER":
        start, problems = read_quantity(f"{first} {stop.unit.name}", said.span(first), CONDITIONS[condition])
        said.pass_on(problems)
    else:
        start = said.quantity(first, (CONDITIONS[condition],))
    return None if start is None else (to_si(start), to_si(stop))


def depends(subject: Subject, predicate: Branch, said: Said, span: Span) -> Statement | None:
    """'horn does not depend on outer throttles'."""
    part = whole_part(subject, said)
    controls: list[ControlRef] = []
    for name in names_in(predicate):
        found = _controls(name, said)
        if found is None:
            return None
        controls.extend(found)
    if part is None:
        return None
    return Independent(part.name, tuple(controls), predicate.data == "depends", span)


def _controls(name: Token, said: Said) -> list[ControlRef] | None:
    """The controls of a name: one, all of a part, or those of a group's parts."""
    if key(name) in said.words.controls:
        return [said.words.controls[key(name)].ref]
    many = said.words.collections.get(key(name))
    parts = said.parts(name) if many or key(name) in said.words.parts else None
    refs = [control.ref for part in parts or () for control in part.controls]
    if refs:
        return refs
    said.control(name) if many is None else said.note(
        "L208", name, f"Nothing of '{name}' can be moved.", "Name controls."
    )
    return None


def can_move(subject: Subject, predicate: Branch, said: Said, span: Span) -> Statement | None:
    """'undercarriage lever can be moved to up'."""
    control = subject.control or said.control(subject.token)
    place = branch(predicate)
    if control is None:
        return None
    if place.data == "amount":
        amount = _amount(place)
        said.note(
            "L205",
            amount,
            f"'{amount}' is no named position of {name_of(control.ref)}.",
            choose(str(amount), control.positions),
        )
        return None
    position = said.position(control, name_in(place))
    return None if position is None else CanMove(control.ref, position, predicate.data == "cannot_move", span)
