"""Which signals a kind offers to others, and which it takes of what is coupled to it: found by making one."""

from collections.abc import Iterator
from functools import lru_cache

from cutaway.parts.kind import Fit, Kind, Want
from cutaway.parts.recipe import Apply, Expr, Medium, Recipe, Signal, Table
from cutaway.problems.span import TextFile, whole
from cutaway.quantities.reading import read_quantity
from cutaway.quantities.si import to_si

_ITEMS = ("one", "other")


def signals_offered(kind: Kind) -> frozenset[str]:
    """The names of the signals that a part of this kind has, whatever its figures and couplings."""
    return frozenset(name for name, _ in _made(kind).signals)


def signals_taken(kind: Kind, coupling: str) -> frozenset[str]:
    """The names of the signals that it uses of the part at the other end of a coupling."""
    used = (one for expression in _expressions(_made(kind)) for one in _signals(expression))
    return frozenset(one.name for one in used if one.of == coupling)


@lru_cache(maxsize=1024)
def _made(kind: Kind) -> Recipe:
    """One part of the kind with the library's figures, all its couplings made."""
    si = {want.name: _figure(want) for want in kind.wants}
    coupled = frozenset(coupling.name for coupling in kind.couplings)
    medium: Medium | None = "petrol" if any(port.medium is None for port in kind.ports) else None
    return kind.build(Fit(si, dict.fromkeys(kind.lists, _ITEMS), coupled, medium))


def _figure(want: Want) -> float:
    """The default of a quantity, or the middle of what is usual where an author must give it; SI."""
    text = want.default or want.usual or want.between
    quantity, problems = read_quantity(text, whole(TextFile("part library", text)))
    assert quantity is not None, f"part library: {text!r}: {problems}"
    return to_si(quantity, want.datum)


def _expressions(recipe: Recipe) -> Iterator[Expr]:
    yield from (expression for _, expression in recipe.signals)
    yield from (node.boundary for node in recipe.nodes if node.boundary is not None)
    yield from (e for element in recipe.elements for e in (element.gate, element.drive))
    yield from (e for mode in recipe.modes for e in (mode.sets, mode.clears))


def _signals(expression: Expr) -> Iterator[Signal]:
    match expression:
        case Apply(of=inner):
            for one in inner:
                yield from _signals(one)
        case Table(of=inner_one):
            yield from _signals(inner_one)
        case Signal(otherwise=other):
            yield expression
            if other is not None:
                yield from _signals(other)
        case _:
            pass
