"""How wide words are, so that boxes can be made to fit them."""

import re
from collections.abc import Sequence
from functools import lru_cache
from importlib.util import find_spec
from pathlib import Path

from PIL import ImageFont

from cutaway.quantities.prose import figures_in

NO_BREAK = "\N{NO-BREAK SPACE}"

_EM = 1000
_FACES = {False: "DejaVuSans.ttf", True: "DejaVuSans-Bold.ttf"}
_GUESSED_EM = {False: 0.66, True: 0.74}
"""Width of a letter in ems where no font is at hand: wider than most, so that words still fit."""


def font_file(bold: bool = False) -> Path | None:
    """The font that sheets are measured for. It comes with the charting library; None where that is not installed."""
    found = find_spec("matplotlib")
    if found is None or found.origin is None:
        return None
    path = Path(found.origin).parent / "mpl-data" / "fonts" / "ttf" / _FACES[bold]
    return path if path.is_file() else None


@lru_cache(maxsize=2)
def _face(bold: bool) -> ImageFont.FreeTypeFont | None:
    path = font_file(bold)
    return None if path is None else ImageFont.truetype(str(path), _EM, layout_engine=ImageFont.Layout.BASIC)


@lru_cache(maxsize=4096)
def text_width(words: str, size: float, bold: bool = False) -> float:
    """Width of one line of words at a font size, in the units of the size.

    >>> text_width("", 16.0)
    0.0
    >>> text_width("ww", 16.0) > text_width("ii", 16.0)
    True
    """
    face = _face(bold)
    ems = len(words) * _GUESSED_EM[bold] if face is None else face.getlength(words) / _EM
    return round(ems * size, 2)


def wrapped(words: str, size: float, width: float, bold: bool = False, even: bool = False) -> tuple[str, ...]:
    """The words broken into lines no wider than `width`; a single word that is wider stands alone. A figure and its
    unit stay on one line, as do words that are joined by a no-break space. even: lines of about one length.

    >>> wrapped("port contents gauge", 16.0, 120.0)
    ('port contents', 'gauge')
    >>> wrapped("starboard brake 0 lb/sq in", 16.0, 130.0)
    ('starboard brake', '0 lb/sq in')
    """
    pieces = _unbroken(words)
    lines = _filled(pieces, size, width, bold)
    if even and len(lines) > 1:
        least = max(text_width(piece, size, bold) for piece in pieces)
        tried = sorted({text_width(" ".join(pieces[i:j]), size, bold) for i in range(len(pieces))
                        for j in range(i + 1, len(pieces) + 1)})  # fmt: skip
        narrow = next((w for w in tried if w >= least and len(_filled(pieces, size, w, bold)) == len(lines)), width)
        lines = _filled(pieces, size, narrow, bold) if narrow < width else lines
    return tuple(lines)


@lru_cache(maxsize=4096)
def _unbroken(words: str) -> tuple[str, ...]:
    """The pieces that words may be broken into."""
    for quantity in figures_in(words):
        words = words.replace(quantity.text, NO_BREAK.join(quantity.text.split()))
    return tuple(piece.replace(NO_BREAK, " ") for piece in re.split(f"[^\\S{NO_BREAK}]+", words) if piece)


def _filled(pieces: Sequence[str], size: float, width: float, bold: bool) -> list[str]:
    lines: list[str] = []
    for piece in pieces:
        longer = f"{lines[-1]} {piece}" if lines else piece
        if lines and text_width(longer, size, bold) <= width:
            lines[-1] = longer
        else:
            lines.append(piece)
    return lines
