"""Pictures by two renderers that share no code, and how far they may differ."""

import io
from typing import Any

import numpy as np
import numpy.typing as npt
import resvg_py
from PIL import Image

from cutaway.draw.measure import font_file

Grey = npt.NDArray[np.float64]


def grey(png: bytes) -> Grey:
    """The picture in shades of grey, 0 to 1, a quarter as wide and high."""
    image = Image.open(io.BytesIO(png)).convert("L")
    small = image.resize((image.width // 4, image.height // 4), Image.Resampling.BOX)
    return np.asarray(small, dtype=np.float64) / 255


def by_resvg(svg: str) -> Grey:
    """Drawn by the renderer that stills are made with."""
    plain = font_file()
    assert plain is not None
    fonts = [str(plain), str(font_file(bold=True)), str(plain.with_name("DejaVuSansMono.ttf"))]
    png = resvg_py.svg_to_bytes(
        svg_string=svg, skip_system_fonts=True, font_files=fonts, sans_serif_family="DejaVu Sans"
    )
    return grey(bytes(png))


def by_chromium(svg: str, browser: Any) -> Grey:
    """Drawn by a browser, as large as the drawing says."""
    page = browser.new_page(viewport={"width": 1800, "height": 1400})
    page.set_content(f'<body style="margin:0">{svg[svg.index("<svg") :]}</body>')
    wide, high = page.evaluate("(b => [b.width, b.height])(document.querySelector('svg').getBoundingClientRect())")
    png = page.screenshot(clip={"x": 0, "y": 0, "width": int(wide), "height": int(high)}, full_page=True)
    page.close()
    return grey(png)


def drawn_alike(one: Grey, other: Grey, mean: float = 0.004, most: float = 0.4) -> None:
    """That two pictures differ by so much on the whole and at any place, and that both show something."""
    high, wide = (min(a, b) for a, b in zip(one.shape, other.shape, strict=True))
    assert abs(one.shape[0] - other.shape[0]) <= 1 and abs(one.shape[1] - other.shape[1]) <= 1
    difference = np.abs(one[:high, :wide] - other[:high, :wide])
    assert difference.mean() < mean and difference.max() < most, (difference.mean(), difference.max())
    assert one.std() > 5 * difference.mean()
