"""Two renderers that share no code draw a sheet alike, and the words are there in both."""

import io
import re
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt
import pytest
import resvg_py
from PIL import Image

from cutaway.draw.measure import font_file, text_width
from cutaway.draw.sheet import make_sheet
from cutaway.draw.theme import Manner
from cutaway.parts.library import KINDS
from tests.draw import by_hand

Grey = npt.NDArray[np.float64]


def sheet(theme: Manner, cache: Path) -> str:
    text, problems = make_sheet(by_hand.FUEL, by_hand.MK, "Fuel", by_hand.STARVED, KINDS, theme, "Starved.", cache)
    assert problems == ()
    return text


def grey(png: bytes) -> Grey:
    """The picture in shades of grey, 0 to 1, a quarter as wide and high."""
    image = Image.open(io.BytesIO(png)).convert("L")
    small = image.resize((image.width // 4, image.height // 4), Image.Resampling.BOX)
    return np.asarray(small, dtype=np.float64) / 255


def by_resvg(svg: str) -> Grey:
    plain = font_file()
    assert plain is not None
    fonts = [str(plain), str(font_file(bold=True)), str(plain.with_name("DejaVuSansMono.ttf"))]
    png = resvg_py.svg_to_bytes(
        svg_string=svg, skip_system_fonts=True, font_files=fonts, sans_serif_family="DejaVu Sans"
    )
    return grey(bytes(png))


def by_chromium(svg: str, browser: Any) -> Grey:
    page = browser.new_page(viewport={"width": 1600, "height": 900})
    page.set_content(f'<body style="margin:0">{svg}</body>')
    png = page.screenshot()
    page.close()
    return grey(png)


def on_white(words: str, style: str) -> str:
    """One line of words on a white ground, from its left edge."""
    ground = '<rect width="1200" height="80" fill="white"/>'
    text = f'<text x="0" y="60" {style}>{words}</text>'
    return f'<svg xmlns="http://www.w3.org/2000/svg" width="1200" height="80">{ground}{text}</svg>'


def inked_to(svg: str) -> int:
    """How far to the right anything is drawn."""
    return int(np.flatnonzero(by_resvg(svg).min(axis=0) < 0.95).max() + 1) * 4


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_both_renderers_draw_alike(theme: Manner, layouts: Path, browser: Any) -> None:
    svg = sheet(theme, layouts)
    one, other = by_resvg(svg), by_chromium(svg, browser)
    assert one.shape == other.shape
    difference = np.abs(one - other)
    assert difference.mean() < 0.003
    assert difference.max() < 0.35
    blank = by_chromium(re.sub(r"(?s)<g .*</g>", "", svg), browser)
    assert np.abs(blank - other).mean() > 10 * difference.mean()  # so the bounds are far below what a sheet is


def test_words_are_drawn(layouts: Path) -> None:
    svg = sheet("light", layouts)
    without = re.sub(r"<text .*?</text>", "", svg)
    assert np.abs(by_resvg(svg) - by_resvg(without)).mean() > 0.005


def test_a_wider_font_cannot_overflow(layouts: Path) -> None:
    """The words take up the width that they were measured for, whatever font is used."""
    words, size = "starboard contents gauge", 17.0
    width = text_width(words, size)
    fitted = f'textLength="{width}" lengthAdjust="spacingAndGlyphs"'
    ends = [inked_to(on_white(words, f'font-family="DejaVu Sans Mono" font-size="{size}" {f}')) for f in ("", fitted)]
    assert ends[0] > width + 12 and abs(ends[1] - width) <= 8


def test_measured_as_drawn() -> None:
    for bold, weight in ((False, "normal"), (True, "bold")):
        words, size = "flap non-return valve WAVE", 40.0
        svg = on_white(words, f'font-family="DejaVu Sans" font-weight="{weight}" font-size="{size}"')
        assert abs(inked_to(svg) - text_width(words, size, bold)) <= 12
