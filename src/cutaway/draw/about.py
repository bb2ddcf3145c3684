"""What a drawing says of a part in grey: what its state means, what moves it and what it acts on, where else it can
stand, at what it answers. Read from the folder and the kind."""

from collections.abc import Iterable
from dataclasses import dataclass

from cutaway.draw.measure import NO_BREAK, text_width, wrapped
from cutaway.draw.plan import ACTS, INTERLOCKED, Tie
from cutaway.draw.symbols.symbol import Look, Setting
from cutaway.handbook.records import Part, given_on
from cutaway.parts.kind import Kind, State
from cutaway.quantities.which import StandardName

ABOUT_SIZE = 14.5
ABOUT_WIDTH = 180.0
FEW = 2
"""Positions that need no list: whoever reads 'set to on' knows the other."""

MOVERS = frozenset({"moved by", "released by", "changed by", "primed by", INTERLOCKED})
"""Couplings that are told in words as well, since what moves what is easily lost in a drawing."""

ANSWERS = {"lights below": "lights below", "set at": "", "cut-out": "cuts out at", "cut-in": "cuts in again at"}
"""Quantities at which a part answers, each with words that make a sentence with the part's name; '' leaves them to the
kind."""

BEST_SAID = ("holds", "limits", "needs")
"""Which of several meanings of a figure says best what the part does at it."""


@dataclass(frozen=True, slots=True)
class Said:
    """One thing said of a part. now: in the state that is drawn, '' for nothing. ever: all that can stand there."""

    now: str
    ever: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class About:
    """The lines now, how many there can ever be, and how wide the widest of them is."""

    lines: tuple[str, ...] = ()
    most: int = 0
    width: float = 0.0


def about(part: Part, kind: Kind, look: Look, ties: Iterable[Tie], standard: StandardName, known: bool) -> About:
    """All that is said of a part. known: whether a state is drawn."""
    said = (
        *(_meaning(state, look) for state in kind.states if state.means or state.otherwise),
        *(
            _elsewhere(name, setting, known, drawn_at_ways(kind, name, look))
            for name, setting in look.controls.items()
            if _many(setting)
        ),
        *(Said(words, (words,)) for words in (*_coupled(part, ties), *_answers(part, kind, standard))),
    )
    every = [[_lines(words) for words in one.ever] for one in said]
    width = max((text_width(line, ABOUT_SIZE) for one in every for lines in one for line in lines), default=0.0)
    lines = tuple(line for one in said for line in _lines(one.now))
    return About(lines, sum(max(len(lines) for lines in one) for one in every), width)


def _lines(words: str) -> tuple[str, ...]:
    return wrapped(words, ABOUT_SIZE, ABOUT_WIDTH, even=True)


def _meaning(state: State, look: Look) -> Said:
    """What it means that a state is so, or is not."""
    so = look.states.get(state.words)
    return Said("" if so is None else state.means if so else state.otherwise, (state.means, state.otherwise))


def _many(setting: Setting) -> bool:
    return not setting.ranged and len(setting.positions) > FEW


def drawn_at_ways(kind: Kind, control: str, look: Look) -> tuple[str, ...]:
    """The positions of a control whose names stand in the symbol, each at the pipe that it opens."""
    each = next((c.each for c in kind.controls if c.name == control), "")
    return look.lists.get(each, ()) if each and any(port.each == each for port in kind.ports) else ()


def _elsewhere(name: str, setting: Setting, known: bool, drawn: tuple[str, ...]) -> Said:
    """Where a control stands not. drawn: positions that the symbol names."""
    whose = f"{name}: " if name else ""
    names = [position for position in setting.positions if position not in drawn]

    def told(positions: list[str], other: str) -> str:
        # In brackets, since a station's name may stand in the same grey below it.
        words = f"({whose}{other}position{'s' if len(positions) > 1 else ''}: "
        return f"{words}{', '.join(p.replace(' ', NO_BREAK) for p in positions)})" if positions else ""

    ever = [told([p for p in names if p != here], "other ") for here in setting.positions]
    every = told(names, "further " if drawn else "")
    place = None if setting.place is None or not known else round(setting.place)
    now = ever[place] if place is not None and 0 <= place < len(ever) else every
    return Said(now, (*ever, every))


def _coupled(part: Part, ties: Iterable[Tie]) -> Iterable[str]:
    """What moves the part, and what it acts on."""
    links = [tie for tie in ties if tie.sort == "link"]
    for tie in links:
        if tie.words in ACTS and tie.start.part == part.name:
            yield f"{tie.words} {tie.end.part}"
        elif tie.words == "primed by" and tie.start.part == part.name:
            yield f"primes {tie.end.part}"
        elif tie.words in MOVERS and tie.end.part == part.name:
            yield f"{tie.words} {tie.giver or tie.start.part}"


def _answers(part: Part, kind: Kind, standard: StandardName) -> Iterable[str]:
    """At what it answers, as the folder gives it."""
    for name, usual in ANSWERS.items():
        given = given_on(part, name, standard)
        if given is not None and not given.assumed:
            yield f"{usual or _does(kind, name)} {given.quantity.text}"


def _does(kind: Kind, quantity: str) -> str:
    """What a part does at one of its figures, 'opens at'; the figure's own name where the kind does not say."""
    said = (one.does for sort in BEST_SAID for one in kind.levels if one.quantity == quantity and one.sort == sort)
    return next(said, quantity)
