"""What a cold engine wants before it catches: petrol in its induction pipe, put there by a priming pump."""

from cutaway.parts.kind import Coupling, Fit
from cutaway.parts.kinds.common import either, fixed, latch
from cutaway.parts.recipe import ONE, Across, Const, Element, Expr, Mode, ModeIs, Node, Signal

# Warmth in hundredths of that of an engine long at work. All engineering judgement: warm after most of a minute at
# work, and for some twenty minutes afterwards.
WARMS_UP, COOLS_DOWN = 120.0, 900.0  # s, to two thirds
WARM, COLD = 30.0, 20.0

PRIMED_BY = Coupling(
    "primed by",
    "signals",
    "Its priming pump. With it, an engine that is cold catches only while it is primed; it is warm after most of a "
    "minute's work and for some twenty minutes afterwards.",
    needs=("primed",),
)


def can_catch(fit: Fit) -> Expr:
    """Whether it is primed or warm; always so where nothing primes it."""
    return either(Signal("primed", of=PRIMED_BY.name), ModeIs("warm")) if PRIMED_BY.name in fit.coupled else ONE


def warmth(fit: Fit, running: Expr) -> tuple[tuple[Node, ...], tuple[Element, ...], tuple[Mode, ...]]:
    """What remembers that an engine has run; nothing where nothing primes it."""
    if PRIMED_BY.name not in fit.coupled:
        return (), (), ()
    nodes = (
        Node("warmth", "heat", start=0.0, store=1.0),
        fixed("at work", "heat", Const(100.0)),
        fixed("cold", "heat"),
    )
    elements = (
        Element("warming up", "LIN", ("at work", "warmth"), (1.0 / WARMS_UP,), gate=running),
        Element("cooling down", "LIN", ("warmth", "cold"), (1.0 / COOLS_DOWN,)),
    )
    return nodes, elements, (latch("warm", Across("warmth"), WARM, COLD),)
