"""What the letters and the small signs in the symbols of a sheet stand for, so that none has to be guessed."""

import math
from collections.abc import Iterable, Iterator, Mapping

from cutaway.draw.blocks import Block
from cutaway.draw.plan import Plan
from cutaway.draw.shapes import Group, Shape, Text
from cutaway.draw.symbols.symbol import Symbol
from cutaway.handbook.records import Part
from cutaway.parts.kind import Kind

OF_THE_TRADE = {
    "A": "amperes", "B": "boost", "E": "empty", "F": "full", "G": "generator", "M": "motor", "P": "pressure",
    "S": "suction", "V": "volts",
}  # fmt: skip
"""Letters that stand for no opening, position, state or reading of their part."""

BESIDE = 0.6
"""How near to an opening a letter is that names it, in units of symbols."""


def signs_on(plan: Plan, blocks: Mapping[str, Block], kinds: Mapping[str, Kind]) -> tuple[str, ...]:
    """A sentence about the letters of a sheet, and one for each other sign; nothing where there are none."""
    letters: dict[str, set[str]] = {}
    signs: dict[str, None] = {}
    for item in plan.items:
        symbol = blocks[item.key].symbol
        if item.reference or symbol is None:
            continue
        signs |= dict.fromkeys(symbol.signs)
        for text in _letters(symbol.shapes):
            told = _meaning(text, symbol, item.part, kinds[item.part.kind])
            if told and told != text.words:
                letters.setdefault(text.words, set()).add(told)
    each = [f"{letter} {' or '.join(sorted(told))}" for letter, told in sorted(letters.items())]
    return (*((f"Letters: {', '.join(each)}.",) if each else ()), *signs)


def _letters(shapes: Iterable[Shape]) -> Iterator[Text]:
    for shape in shapes:
        if isinstance(shape, Group):
            yield from _letters(shape.shapes)
        elif isinstance(shape, Text) and len(shape.words) == 1 and shape.words.isupper():
            yield shape


def _meaning(letter: Text, symbol: Symbol, part: Part, kind: Kind) -> str:
    """What a letter begins the name of: an opening beside it, a position, a state, a reading; or what the trade uses it
    for."""
    near = sorted(symbol.anchors, key=lambda anchor: math.dist(anchor.at, letter.at))
    lists = dict(part.lists)
    ports = {port.name for port in kind.ports}
    names = [a.port for a in near if a.port in ports and math.dist(a.at, letter.at) < BESIDE]
    names += [p for c in kind.controls for p in (*c.positions, *lists.get(c.each, ()))]
    names += [words for state in kind.states for words in (state.words, state.opposite) if words]
    names += [reading.name for reading in sorted(kind.readings, key=lambda reading: reading.main)]
    found = next((name for name in names if name[:1].upper() == letter.words), "")
    return found or OF_THE_TRADE.get(letter.words, "")
