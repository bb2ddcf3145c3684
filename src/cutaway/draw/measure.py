"""How wide words are, so that boxes can be made to fit them."""

from functools import lru_cache
from importlib.util import find_spec
from pathlib import Path

from PIL import ImageFont

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


def wrapped(words: str, size: float, width: float, bold: bool = False) -> tuple[str, ...]:
    """The words broken into lines no wider than `width`; a single word that is wider stands alone.

    >>> wrapped("port contents gauge", 16.0, 120.0)
    ('port contents', 'gauge')
    """
    lines: list[str] = []
    for word in words.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, size, bold) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return tuple(lines)
