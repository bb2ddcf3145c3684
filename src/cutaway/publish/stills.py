"""Stills: any sheet as PNG, in the sizes that films, papers and screens want; the same sheet gives the same bytes."""

import re
from dataclasses import dataclass

from cutaway.draw.measure import font_file
from cutaway.draw.over_film import over_film
from cutaway.draw.pages import SHAPES
from cutaway.draw.shapes import Picture
from cutaway.draw.svg import Ground, write_svg
from cutaway.draw.theme import Manner


@dataclass(frozen=True, slots=True)
class Size:
    """A size of stills: its name, its shape as sheets know it, its pixels across and down."""

    name: str
    shape: str
    across: int
    down: int


SIZES = (
    Size("frame", "16:9", 1920, 1080),
    Size("a4", "A4", 3508, 2480),  # 300 to the inch
    Size("square", "square", 2160, 2160),
)


NEARLY = 0.005
"""How much a picture may be of another shape than its size before it is set into it whole."""


def size_named(name: str) -> Size | None:
    """The size of that name."""
    return next((size for size in SIZES if size.name == name.lower()), None)


def page_shape(size: Size) -> float:
    """Width by height of the sheets for a size."""
    return SHAPES[size.shape]


def drawing(picture: Picture, manner: Manner = "light", ground: Ground = "paper", style: str = "") -> str:
    """A picture as SVG on its ground. style: rules beyond the theme's."""
    return write_svg(over_film(picture) if ground == "clear" else picture, manner, ground, style)


def still(picture: Picture, size: Size, manner: Manner = "light", ground: Ground = "paper", style: str = "") -> bytes:
    """A picture as PNG of exactly that size."""
    import resvg_py

    # Its measures in pixels, since the renderer rounds a page that is a hair too high up to another row; and filled to
    # the edge, since a hair of no colour would be left of one that is too low.
    whole = abs(picture.size[0] * size.down / (picture.size[1] * size.across) - 1.0) < NEARLY
    fill = ' preserveAspectRatio="none"' if whole else ""
    pixels = f'width="{size.across}" height="{size.down}"{fill} class="sheet"'
    svg = re.sub(
        r'width="[\d.]+" height="[\d.]+" class="sheet"', pixels, drawing(picture, manner, ground, style), count=1
    )
    files = [str(path) for path in (font_file(), font_file(bold=True)) if path is not None]
    return bytes(
        resvg_py.svg_to_bytes(
            svg_string=svg,
            skip_system_fonts=True,
            font_files=files,
            sans_serif_family="DejaVu Sans",
        )
    )
