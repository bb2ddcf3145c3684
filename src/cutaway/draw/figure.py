"""What all charts share: the font, the paper, the captions, and files that are the same bytes every time."""

import io
import re
from collections.abc import Callable, Iterable
from html import escape
from typing import Any, Literal

from cutaway.draw.measure import font_file, text_width
from cutaway.draw.theme import THEMES, Theme

Ending = Literal["svg", "png"]
INCH = 72.0
"""Points to the inch."""


def figure_file(
    size: tuple[float, float],
    draw: Callable[[Any, Theme], None],
    words: tuple[str, tuple[str, ...]],
    ending: Ending,
    theme: str,
) -> bytes:
    """A figure as an SVG or PNG file. size: inches. words: its title and its text alternative, written into the file.

    The same arguments give the same bytes: ids are salted with a word of our own and no date is written.
    """
    # Loaded here: it takes a second, and no other drawing needs it.
    import matplotlib
    from matplotlib import font_manager
    from matplotlib.figure import Figure

    face = font_file()
    if face is not None:
        font_manager.fontManager.addfont(str(face))
    settings: Any = {"svg.hashsalt": "cutaway", "svg.fonttype": "none", "font.family": "DejaVu Sans", "font.size": 9.5}
    title, alternative = words
    with matplotlib.rc_context(settings):
        figure = Figure(figsize=size, dpi=150)
        draw(figure, THEMES[theme])
        out = io.BytesIO()
        png = {"Software": None, "Title": _latin(title), "Description": _latin(" ".join(alternative))}
        about = {"Date": None, "Title": title, "Creator": "Cutaway"} if ending == "svg" else png
        figure.savefig(out, format=ending, metadata=about, facecolor=THEMES[theme].ink("paper"))
    return _described(out.getvalue(), title, alternative) if ending == "svg" else out.getvalue()


def _latin(words: str) -> str:
    """Words as the plain text of a PNG can hold them."""
    return words.replace("−", "-").encode("latin-1", "replace").decode("latin-1")


def _described(svg: bytes, title: str, alternative: Iterable[str]) -> bytes:
    """The file with its title and text alternative where readers look for them."""
    told = escape(" ".join(alternative))
    head = f'<title id="chart-title">{escape(title)}</title>\n <desc id="chart-desc">{told}</desc>\n '
    text = svg.decode()
    text = re.sub("<svg ", '<svg role="img" aria-labelledby="chart-title chart-desc" ', text, count=1)
    # Not every renderer knows points: the same size in the units that all know.
    text = re.sub(r'\b(width|height)="([\d.]+)pt"', _in_pixels, text, count=2)
    # A reader's machine may not have the font.
    text = text.replace("font-family: 'DejaVu Sans'", "font-family: 'DejaVu Sans', Verdana, sans-serif")
    return text.replace("<metadata>", head + "<metadata>", 1).encode()


def _in_pixels(size: re.Match[str]) -> str:
    """A size in points as one in whole pixels, 96 to the inch."""
    return f'{size[1]}="{float(size[2]) * 96.0 / INCH:.0f}"'


def in_lines(sentences: Iterable[str], points: float, inches: float) -> list[str]:
    """Sentences as lines of words no wider than a width, at a size of letters in points."""
    lines: list[str] = [""]
    for word in " ".join(one for one in sentences if one).split():
        longer = f"{lines[-1]} {word}".strip()
        if lines[-1] and text_width(longer, points) > inches * INCH:
            lines.append(word)
        else:
            lines[-1] = longer
    return lines if lines[0] else []


def paper(axes: Any, theme: Theme) -> None:
    """The ground of a panel: its grid, its edge, its figures."""
    axes.set_facecolor(theme.ink("face"))
    axes.grid(True, color=theme.ink("band"), linewidth=0.8)
    axes.set_axisbelow(True)
    axes.tick_params(colors=theme.ink("quiet"))
    for spine in axes.spines.values():
        spine.set_color(theme.ink("quiet"))


def figure_words(value: float) -> str:
    """A figure of an axis: four digits, a true minus."""
    return f"{value:,.4g}".replace("-", "−")
