"""Figures of one part of which an author gives one or the other: with both, the part would be two parts."""

from cutaway.handbook.doubts import Owner, own_quantity
from cutaway.handbook.names import listed
from cutaway.handbook.records import Given, Value
from cutaway.parts.kind import Either, Kind, Want
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.quantities.si import to_si


def both_given(values: tuple[Value, ...], kind: Kind, owner: Owner) -> Problems:
    """An error for each pair of which both are given on some standard. What is given as if it were not ('opens below:
    0 %') does not count."""
    wants = {want.name: want for want in kind.wants}
    given = {value.name: value.givens for value in values}
    problems: Problems = ()
    for pair in kind.either:
        one, other = (_said(given.get(name, ()), wants[name]) for name in (pair.one, pair.other))
        both = next(((a, b) for a in one for b in other if a.on.names & b.on.names), None)
        problems += (_told(*both, pair, owner),) if both else ()
    return problems


def _said(givens: tuple[Given, ...], want: Want) -> tuple[Given, ...]:
    """The figures that say something: not nought, or a whole, where that means that nothing is given."""
    unsaid = own_quantity(want.default, want)
    means_nothing = unsaid is not None and to_si(unsaid) in (0.0, 1.0)
    return tuple(one for one in givens if not (means_nothing and unsaid and to_si(one.quantity) == to_si(unsaid)))


def _told(one: Given, other: Given, pair: Either, owner: Owner) -> Diagnostic:
    both = one.on.names & other.on.names
    partly = "" if both == owner.on.names else f" on {listed(sorted(both))}"
    return Diagnostic(
        "H345",
        other.span,
        f"{owner.name} is given both '{pair.one}' ({one.quantity.text}) and '{pair.other}' ({other.quantity.text})"
        f"{partly}, and one alone can hold. {pair.says}",
        f"Keep the one that the book has: {pair.one}: {one.quantity.text}, or {pair.other}: {other.quantity.text}.",
        ((one.span, f"'{pair.one}' is {one.quantity.text}:"),),
    )
