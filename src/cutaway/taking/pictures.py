"""Pictures of pages made fit to read: turned upright, straightened, and freed of stains and shadows."""

import io

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageFilter

Grey = NDArray[np.float64]

PAPER, INK = 255, 0
_LARGEST = 3600
"""Dots of the longer side beyond which more dots cost time and read no better."""
_SMALL = 1000
"""Dots of the shorter side below which a page is enlarged before it is read."""


def fit(picture: Image.Image) -> Image.Image:
    """The picture in grey, at a size that can be read: a small one enlarged, a very large one made smaller."""
    grey = picture.convert("L") if picture.mode != "RGBA" else _on_paper(picture)
    longer, shorter = max(grey.size), min(grey.size)
    scale = min(_LARGEST / longer, 1.0)
    if shorter < _SMALL:
        scale = min(max(1, -(-_SMALL // max(shorter, 1))), 4, max(_LARGEST / longer, 1.0))
    if scale == 1.0:
        return grey
    size = (max(1, round(grey.width * scale)), max(1, round(grey.height * scale)))
    return grey.resize(size, Image.Resampling.LANCZOS)


def flattened(grey: Image.Image) -> Image.Image:
    """The page with its paper made evenly white: each dot against the brightest paper near it.

    The paper is found at a quarter of the size (letters filled in by the greatest, then the least, then blurred),
    since it changes slowly, and that is a sixteenth of the work.
    """
    quarter = grey.resize((max(1, grey.width // 4), max(1, grey.height // 4)), Image.Resampling.BOX)
    paper = (
        quarter.filter(ImageFilter.MaxFilter(9)).filter(ImageFilter.MinFilter(9)).filter(ImageFilter.GaussianBlur(3))
    )
    there = np.asarray(paper.resize(grey.size, Image.Resampling.BICUBIC), dtype=np.float32)
    here = np.asarray(grey, dtype=np.float32)
    even = np.clip(here / np.maximum(there, 1.0) * 235.0, 0, 255).astype(np.uint8)
    return Image.fromarray(even)


def ink(flat: Image.Image) -> float:
    """The share of a flattened page that is darker than paper, its outer edge apart.

    Counted on dots of four by four, so that a faint line of print counts and a speck of dust does not.
    """
    size = (max(1, flat.width // 4), max(1, flat.height // 4))
    dots = np.asarray(flat.resize(size, Image.Resampling.BOX))
    margin_y, margin_x = dots.shape[0] // 40, dots.shape[1] // 40
    inside = dots[margin_y : dots.shape[0] - margin_y or None, margin_x : dots.shape[1] - margin_x or None]
    return float((inside < 212).mean()) if inside.size else 0.0


def skew(flat: Image.Image, limit: float = 6.0) -> float:
    """Degrees by which the page must be rotated (anticlockwise) for its lines to lie level.

    Lines of print are level where the sums of ink along rows change most sharply from row to row.
    """
    scale = min(1.0, 700 / max(flat.size))
    size = (max(1, round(flat.width * scale)), max(1, round(flat.height * scale)))
    small = flat.resize(size, Image.Resampling.BOX)
    dark = np.clip(225.0 - np.asarray(small, dtype=np.float64), 0, None)
    edge = max(2, min(dark.shape) // 40)
    dark[:edge] = dark[-edge:] = 0
    dark[:, :edge] = dark[:, -edge:] = 0
    page = Image.fromarray(np.clip(dark, 0, 255).astype(np.uint8))

    def sharpness(degrees: float) -> float:
        rows = np.asarray(page.rotate(degrees, Image.Resampling.BILINEAR), dtype=np.float64).sum(axis=1)
        return float((np.diff(rows) ** 2).sum())

    best = 0.0
    for step, width in ((0.5, limit), (0.1, 0.5), (0.03, 0.09)):
        best = float(max(np.arange(best - width, best + width + 1e-9, step), key=sharpness))
    return best


def straightened(grey: Image.Image) -> tuple[Image.Image, Image.Image]:
    """The page with its lines level: as photographed, and flattened."""
    flat = flattened(grey)
    degrees = skew(flat)
    if abs(degrees) < 0.05:
        return grey, flat
    level = grey.rotate(degrees, Image.Resampling.BICUBIC, expand=True, fillcolor=_paper_tone(grey))
    return level, flattened(level)


def as_png(picture: Image.Image) -> bytes:
    """The picture as PNG, packed lightly: it goes to a reader and is thrown away."""
    buffer = io.BytesIO()
    picture.save(buffer, "PNG", compress_level=1)
    return buffer.getvalue()


def strip(picture: Image.Image, box: tuple[int, int, int, int]) -> bytes:
    """A strip of the page as JPEG, with a little of what is around it."""
    left, top, right, bottom = box
    above = max(6, (bottom - top) // 4)
    part = picture.crop(
        (max(0, left - 20), max(0, top - above), min(picture.width, right + 20), min(picture.height, bottom + above))
    )
    if part.width > 1400:
        part = part.resize((1400, max(1, round(part.height * 1400 / part.width))), Image.Resampling.LANCZOS)
    buffer = io.BytesIO()
    part.save(buffer, "JPEG", quality=60)
    return buffer.getvalue()


def _paper_tone(grey: Image.Image) -> int:
    return int(np.percentile(np.asarray(grey.resize((64, 64))), 80))


def _on_paper(picture: Image.Image) -> Image.Image:
    white = Image.new("RGBA", picture.size, (255, 255, 255, 255))
    white.alpha_composite(picture)
    return white.convert("L")
