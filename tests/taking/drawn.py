"""Pages drawn from invented text, as an old typed handbook comes out of a scanner: skewed, stained, blurred."""

import functools
import random
from pathlib import Path

import numpy as np
from PIL import Image, ImageDraw, ImageFilter, ImageFont

PARAGRAPHS = (
    "41. Float cocks. Two cocks on the rear spar shut the pipes to the wing floats. Each is turned with the long key "
    "stowed behind seat 3, and both must be open before the bilge pump is worked. The pump lifts 2.5 gallons a minute.",
    "42. Petrol. The main tank holds 48 gallons, of which 45 can be used. The gravity tank holds 6 gallons and lasts "
    "about 20 minutes at cruising throttle. The lamp marked PETROL lights when the pressure falls below 2 lb/sq in.",
    "43. Suction. With the engine at 1,850 r.p.m. the gauge reads 4.5 in. Hg. Below 3.2 in. Hg the turn indicator is "
    "not to be trusted, and the pilot flies by the cross level until the pump has been seen to.",
    "44. Battery. The accumulator is of 12 volts and 40 ampere hours. It is charged at no more than 14 amps, and the "
    "cut-out opens when the dynamo falls below 13.2 volts. The fuse beside it is of 25 amps.",
    "45. Flaps. Some 17 strokes of the hand pump bring the flaps down through 60 degrees. They may not be lowered "
    "above 95 knots. The relief valve is set at 750 lb/sq in and is sealed by the maker.",
)  # fmt: skip

FONTS = {
    "mono": "/usr/share/fonts/truetype/dejavu/DejaVuSansMono.ttf",
    "serif": "/usr/share/fonts/truetype/dejavu/DejaVuSerif.ttf",
}


@functools.cache
def font(face: str, size: int) -> ImageFont.FreeTypeFont | ImageFont.ImageFont:
    """The face, or Pillow's own where the machine has none."""
    path = Path(FONTS[face])
    return ImageFont.truetype(str(path), size) if path.exists() else ImageFont.load_default(size=size)


def wrapped(text: str, face, width: int) -> list[str]:
    lines, line = [], ""
    for word in text.split():
        longer = f"{line} {word}".strip()
        if line and face.getlength(longer) > width:
            lines.append(line)
            line = word
        else:
            line = longer
    return [*lines, line]


def page(paragraphs=PARAGRAPHS, face: str = "mono", size: int = 22, dots=(1240, 1754)) -> Image.Image:
    """A clean page, A4 at 150 dots an inch."""
    picture = Image.new("L", dots, 246)
    draw = ImageDraw.Draw(picture)
    letters = font(face, size)
    y = 130
    for text in paragraphs:
        for line in wrapped(text, letters, dots[0] - 240):
            draw.text((120, y), line, font=letters, fill=40)
            y += int(size * 1.55)
        y += int(size * 1.3)
    return picture


def worn(picture: Image.Image, degrees: float = 0.0, blur: float = 0.0, stains: int = 0, speckle: float = 0.0, seed=7):
    """The page skewed, stained, speckled and blurred; the same seed gives the same page."""
    chance = random.Random(seed)
    noise = np.random.default_rng(seed)
    if degrees:
        picture = picture.rotate(degrees, Image.Resampling.BICUBIC, fillcolor=240)
    dots = np.asarray(picture, dtype=np.float64)
    height, width = dots.shape
    rows, columns = np.mgrid[0:height, 0:width]
    for _ in range(stains):
        x, y, wide = chance.uniform(0, width), chance.uniform(0, height), chance.uniform(80, 320)
        dots *= 1 - chance.uniform(0.2, 0.5) * np.exp(-(((columns - x) ** 2 + (rows - y) ** 2) / (2 * wide**2)))
    if stains:  # and the shadow of the spine
        dots *= 0.6 + 0.4 * np.clip(columns / (0.3 * width), 0, 1)
    if speckle:
        dots[noise.random(dots.shape) < speckle] -= 120
        dots += noise.normal(0, 6, dots.shape)
    picture = Image.fromarray(np.clip(dots, 0, 255).astype(np.uint8))
    return picture.filter(ImageFilter.GaussianBlur(blur)) if blur else picture


def distance(a: str, b: str) -> int:
    """Letters to change, put in or take out to make one text the other."""
    from rapidfuzz.distance import Levenshtein

    return Levenshtein.distance(a, b)
