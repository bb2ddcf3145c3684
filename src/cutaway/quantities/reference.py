"""The reference page of units, made from the table."""

from collections.abc import Iterator
from itertools import groupby

from cutaway.quantities.quantity import Unit
from cutaway.quantities.units import UNITS, WORDS, spelling_key, spellings_of

_INTRODUCTION = """\
# Units

A figure is written as the handbook prints it: `4½ lb. per sq. in.`, `1,800 r.p.m.`, `6.5 to 6.75 gal`,
`7 ± 0.5 lb/sq in`, `1 min 30 s`. Case, full stops and blanks do not matter, and words may be short or long:
`lbs. per square inch` is `lb/sq in`. A pressure in lb/sq in is gauge unless `absolute` is written behind it; one in
another unit is a bare difference unless the table or a word says otherwise. Suction is written as a positive figure.

Each unit is defined from exact constants. The first of each table is the one that messages propose.
"""


_HEAD = "| unit | read aloud | also written | in SI | source |\n|---|---|---|---|---|\n"


def units_page() -> str:
    """The page, in Markdown."""
    return _INTRODUCTION + "".join(_lines()) + "\n" + _words()


def _lines() -> Iterator[str]:
    for dimension, units in groupby((u for u in UNITS if u.name), key=lambda unit: unit.dimension):
        yield f"\n## {dimension.capitalize()}\n\n{_HEAD}"
        for unit in units:
            cells = (f"`{unit.name}`", unit.spoken[1], _also(unit), _size(unit), unit.source)
            yield "| " + " | ".join(cells) + " |\n"


def _also(unit: Unit) -> str:
    """The spellings that the words below do not already give."""
    known = {spelling_key(unit.name)}
    found: list[str] = []
    for spelling in spellings_of(unit):
        if spelling_key(spelling) not in known and spelling not in unit.spoken:
            known.add(spelling_key(spelling))
            found.append(f"`{spelling}`")
    return ", ".join(found)


def _size(unit: Unit) -> str:
    zero = f" + {unit.zero:.10g}" if unit.zero else ""
    datum = f", {unit.datum}" if unit.datum else ""
    return f"× {unit.size:.10g}{zero}{datum}"


def _words() -> str:
    rows: dict[str, list[str]] = {}
    for word, short in WORDS.items():
        rows.setdefault(short, []).append(word)
    table = "".join(
        f"| `{short or 'left out'}` | {', '.join(words)} |\n" for short, words in sorted(rows.items()) if words
    )
    return (
        f"## Words\n\nIn any unit these words are the same as the short form.\n\n| short | words |\n|---|---|\n{table}"
    )
