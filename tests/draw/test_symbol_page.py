"""All symbols in all their states on one page: drawn by an outside renderer, and no words over other words."""

import io
import itertools
from dataclasses import replace

import numpy as np
import pytest
import resvg_py
from PIL import Image

from cutaway.draw.measure import font_file
from cutaway.draw.shapes import Text
from cutaway.draw.svg import write_svg
from cutaway.draw.symbols import table
from cutaway.draw.theme import Manner
from cutaway.parts.library import KINDS
from tests.draw.symbol_page import page

PAGES = {"petrol": table.PETROL, "engines": table.ENGINES, "current": table.CURRENT, "air": table.AIR, "oil": table.OIL}
EACH = pytest.mark.parametrize("name", PAGES)


@EACH
@pytest.mark.parametrize("theme", ["light", "dark"])
def test_every_symbol_is_drawn(name: str, theme: Manner) -> None:
    """Each adds ink to the page: one that the renderer cannot draw would not."""
    plain = font_file()
    assert plain is not None

    def ink(kinds: list[str]) -> float:
        picture = replace(page([KINDS[k] for k in kinds], name), size=(1900.0, 1200.0))
        fonts = [str(plain), str(font_file(bold=True))]
        png = resvg_py.svg_to_bytes(
            svg_string=write_svg(picture, theme),
            skip_system_fonts=True,
            font_files=fonts,
            sans_serif_family="DejaVu Sans",
        )
        grey = np.asarray(Image.open(io.BytesIO(bytes(png))).convert("L"), dtype=np.float64)
        return float(np.abs(grey - grey[-1, -1]).sum())

    whole = list(PAGES[name])
    assert ink(whole) > 3 * ink(whole[:3]) > 0


@EACH
def test_no_words_of_a_page_lie_over_others(name: str) -> None:
    words = [s for s in page([KINDS[k] for k in PAGES[name]], name).shapes if isinstance(s, Text) and s.width]
    boxes = []
    for s in words:
        left = s.at[0] - (s.width / 2 if s.align == "middle" else 0.0)
        boxes.append((s.words, left, s.at[1] - 0.76 * s.size, left + s.width, s.at[1] + 0.22 * s.size))
    for (a, ax, ay, az, aw), (b, bx, by, bz, bw) in itertools.combinations(boxes, 2):
        assert min(az, bz) - max(ax, bx) <= 0 or min(aw, bw) - max(ay, by) <= 0, (a, b)


def test_each_symbol_stands_in_one_group() -> None:
    groups = list(PAGES.values())
    assert sum(len(g) for g in groups) == len(table.SYMBOLS)


@pytest.mark.parametrize("name", sorted(table.SYMBOLS))
def test_no_letter_is_too_small_to_read(name: str) -> None:
    """Letters in a symbol are as large as the notes of a sheet, near enough."""
    for shape in page([KINDS[name]], name).shapes:
        assert not isinstance(shape, Text) or shape.width or shape.size >= 14.0, shape.words
