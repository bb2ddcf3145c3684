"""Figures of one part that must lie one below the other: a pump that is let off must not be called back above that."""

from collections.abc import Iterable
from dataclasses import dataclass

from cutaway.handbook.doubts import Owner, own_quantity
from cutaway.handbook.names import listed
from cutaway.handbook.records import Given, Value
from cutaway.parts.kind import Kind, Order, Want
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.quantities.quantity import Quantity
from cutaway.quantities.si import low_high_si, to_si
from cutaway.quantities.which import StandardName

_SHARES = {0.8: "four fifths of "}


@dataclass(frozen=True, slots=True)
class _Figure:
    """One quantity on some standards: as given, or the kind's own where `given` is None. reach: its ends, SI."""

    want: Want
    quantity: Quantity
    given: Given | None
    reach: tuple[float, float]


def out_of_order(values: tuple[Value, ...], kind: Kind, owner: Owner) -> Problems:
    """An error for each pair of the kind's orders that stands the wrong way round, with the standards where it does."""
    wants = {want.name: want for want in kind.wants}
    given = {value.name: value.givens for value in values}
    problems: Problems = ()
    for order in kind.orders:
        low, high = wants[order.lower], wants[order.upper]
        wrong: dict[tuple[_Figure, _Figure], list[StandardName]] = {}
        for name in sorted(owner.on.names):
            pair = _figure(low, given.get(low.name, ()), name), _figure(high, given.get(high.name, ()), name)
            if pair[0] and pair[1] and (pair[0].given or pair[1].given) and not _in_order(pair[0], pair[1], order):
                wrong.setdefault((pair[0], pair[1]), []).append(name)
        problems += tuple(_told(lower, upper, order, owner, names) for (lower, upper), names in wrong.items())
    return problems


def _figure(want: Want, givens: Iterable[Given], standard: StandardName) -> _Figure | None:
    given = next((one for one in givens if standard in one.on.names), None)
    quantity = given.quantity if given else own_quantity(want.default, want)
    if quantity is None:
        return None
    reach = (to_si(quantity, want.datum),) * 2
    # The range that the author states counts with it; that of the library gives way to what the author states.
    if given and given.between is not None and given.between != own_quantity(want.between, want):
        low, high = low_high_si(given.between, want.datum)
        reach = (min(low, *reach), max(high, *reach))
    return _Figure(want, quantity, given, reach)


def _in_order(lower: _Figure, upper: _Figure, order: Order) -> bool:
    least, most = order.share * upper.reach[0], lower.reach[1]
    slack = 1e-9 * max(abs(least), abs(most))
    return most <= least + slack if order.alike else most < least - slack


def _told(lower: _Figure, upper: _Figure, order: Order, owner: Owner, names: list[StandardName]) -> Diagnostic:
    here, other = (lower, upper) if lower.given else (upper, lower)
    assert here.given is not None
    partly = "" if frozenset(names) == owner.on.names else f" on {listed(names)}"
    of_it = _SHARES.get(order.share, "")
    if of_it or order.alike:
        must = f"{order.lower} must not be above {of_it}{order.upper}"
    else:
        must = f"{order.lower} must be below {order.upper}"
    also = ((other.given.span, f"'{other.want.name}' is {_words(other)}:"),) if other.given else ()
    return Diagnostic(
        "H344",
        here.given.span,
        f"'{here.want.name}' of {owner.name} is {_words(here)} and '{other.want.name}' {_words(other)}{partly}, but "
        f"{must}. {order.says}",
        _hint(here, other),
        also,
    )


def _words(figure: _Figure) -> str:
    """The figure as written, with the range that is stated for it."""
    if figure.given is None:
        return f"{figure.quantity.text} where nothing is said"
    between = figure.given.between if figure.reach[0] < figure.reach[1] else None
    return f"{figure.quantity.text} ({between.text})" if between else figure.quantity.text


def _hint(here: _Figure, other: _Figure) -> str:
    if other.given is None:
        return f"Look whether the figure is as the book has it; if so, give {other.want.name} too."
    if here.reach[0] < here.reach[1] or other.reach[0] < other.reach[1]:
        return "Look whether the figures are as the book has them, and keep their ranges apart."
    if here.reach == other.reach:
        return "Look whether the figures are as the book has them."
    return (
        f"Look whether the two were changed over: {here.want.name}: {other.quantity.text}, "
        f"{other.want.name}: {here.quantity.text}"
    )
