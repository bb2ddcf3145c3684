"""Where a text may be broken: pieces that stay together, what a break costs, and the best two lines of a caption."""

import re
from collections.abc import Iterable
from functools import lru_cache

from cutaway.handbook.records import Term
from cutaway.narrate.settings import CaptionRules
from cutaway.quantities.prose import figures_in

# A break after one of these leaves a reader waiting for the word that belongs to it.
_LEANING_WORDS = """
a an the this that these those its his her their our your my no each every any some
of in on at to from by with for into onto over under above below between through during after before until
and or but nor so yet if when while as because than that which who is are was were be been will would can could
may might must shall should not has have had do does did one two three mark
i you he she it we they there
"""
LEANING = frozenset(_LEANING_WORDS.split())
_STOP = re.compile(r"[.!?…][\"'”’)\]]*$")
_CLAUSE = re.compile(r"[,;:–—][\"'”’)\]]*$")
# A mark is said otherwise with its number than alone: 'Mk 2' is 'mark two'.
_NUMBERED = re.compile(
    r"\b(?:(?:[Mm](?:ar)?ks?|[Mm]ods?|Nos?|Figs?|[Pp]aras?|A\.\s?L)\.?\s+[0-9]+[A-Za-z]?|[Mm](?:ar)?ks?\.?\s+[IVX]+)\b"
)
_NUMBER = re.compile(r"^[(\"'“‘]*[±+-]?\d[\d,.]*$")


def pieces(text: str, kept: Iterable[tuple[int, int]] = ()) -> tuple[str, ...]:
    """The words of a text; those that a stretch of `kept` (a figure and its unit) covers stay in one piece.

    >>> pieces("It lights below 2 lb/sq in, they say.", [(16, 26)])
    ('It', 'lights', 'below', '2 lb/sq in,', 'they', 'say.')
    """
    stretches = tuple(kept)
    found: list[str] = []
    last_end = -1
    for match in re.finditer(r"\S+", text):
        if any(start < last_end and match.start() < end for start, end in stretches):
            found[-1] += " " + match.group()
        else:
            found.append(match.group())
        last_end = match.end()
    return tuple(found)


def kept_together(text: str, glossary: tuple[Term, ...] = ()) -> tuple[tuple[int, int], ...]:
    """What neither a caption nor a line may part: a figure and its unit, a thing and its number, the words of a term.

    >>> pieces("On the Mk 2 with mod. 12.", kept_together("On the Mk 2 with mod. 12."))
    ('On', 'the', 'Mk 2', 'with', 'mod. 12.')
    """
    found: list[tuple[int, int]] = []
    at = 0
    for quantity in figures_in(text):
        start = text.find(quantity.text, at)
        if start >= 0:
            at = start + len(quantity.text)
            found.append((start, at))
    found.extend(match.span() for match in _NUMBERED.finditer(text))
    terms = [name for term in glossary for name in (term.name, *term.also) if " " in name]
    for name in terms:
        found.extend(match.span() for match in re.finditer(re.escape(name), text, re.IGNORECASE))
    return tuple(sorted(found))


@lru_cache(maxsize=4096)
def break_cost(piece: str) -> float:
    """How bad it is to break after this piece: 0 at the end of a sentence, most after a word that leans on the next.

    >>> break_cost("stop."), break_cost("off,"), break_cost("cock"), break_cost("the")
    (0.0, 1.0, 3.0, 7.0)
    """
    if _STOP.search(piece):
        return 0.0
    if _CLAUSE.search(piece):
        return 1.0
    if piece.lower().strip("\"'“”‘’()") in LEANING or _NUMBER.match(piece):
        return 7.0
    return 3.0


def best_lines(words: tuple[str, ...], rules: CaptionRules) -> tuple[tuple[str, ...], float] | None:
    """The words as lines that fit, with what the breaks inside cost; None if they do not fit.

    >>> best_lines(tuple("Shut the cock, and in a minute the lamp tells you.".split()), CaptionRules())[0]
    ('Shut the cock,', 'and in a minute the lamp tells you.')
    """
    whole = " ".join(words)
    if len(whole) <= rules.line_length:
        return (whole,), 0.0
    if rules.lines < 2 or len(whole) > 2 * rules.line_length + 1:
        return None
    best: tuple[int, float] | None = None
    above = -1
    for word in words[:-1]:
        above += 1 + len(word)
        below = len(whole) - above - 1
        if max(above, below) > rules.line_length:
            continue
        # Even lines read best; of two equal ones, the longer below, which hides less of the picture.
        uneven = abs(above - below) / rules.line_length + (0.1 if above > below else 0.0)
        cost = break_cost(word) + uneven
        if best is None or cost < best[1]:
            best = (above, cost)
    return None if best is None else ((whole[: best[0]], whole[best[0] + 1 :]), best[1])
