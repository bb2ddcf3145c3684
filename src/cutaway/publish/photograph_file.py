"""A photograph as it is published: upright, in the colours of screens, of moderate size, and with nothing hidden in it.

What cameras and programs write beside the picture (place, time, owner, small previews, comments) does not go out.
"""

import io
import warnings
from pathlib import Path

from PIL import Image, ImageCms, ImageOps

from cutaway.handbook.pictures import FORMATS, READ
from cutaway.handbook.records import Photograph
from cutaway.problems.diagnostic import Diagnostic, Problems

LONGEST = 2000
"""Pixels along the longer side: sharp on A4 and on any screen."""
_QUALITY = 86
_WHITE = (255, 255, 255)


def published_picture(root: Path, photograph: Photograph) -> tuple[bytes | None, Problems]:
    """The photograph as JPEG; None where its file turns out to be damaged. The same file gives the same bytes."""
    try:
        # Its size was looked at when the folder was read.
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)
            with Image.open(root / photograph.file, formats=FORMATS) as picture:
                picture.thumbnail((LONGEST, LONGEST), Image.Resampling.LANCZOS, reducing_gap=3.0)
                upright = ImageOps.exif_transpose(picture)
                plain = _flat(_on_screen(upright))
    # What a damaged picture makes the library raise is any of these, by format.
    except (OSError, ValueError, SyntaxError, EOFError, KeyError, TypeError, IndexError, OverflowError, MemoryError):
        message = f"'{photograph.file}' begins as a picture but cannot be opened: it is cut short or damaged."
        return None, (Diagnostic("K601", photograph.span, message, f"Export it again; {READ}."),)
    out = io.BytesIO()
    plain.save(out, "JPEG", quality=_QUALITY, optimize=True)
    return out.getvalue(), ()


def _on_screen(picture: Image.Image) -> Image.Image:
    """The picture in the colours of screens, by its own profile where it has one that can be read."""
    profile = picture.info.get("icc_profile")
    if not profile or picture.mode not in ("RGB", "RGBA", "CMYK", "L"):
        return picture
    try:
        given = ImageCms.ImageCmsProfile(io.BytesIO(profile))
        mode = "RGBA" if picture.mode == "RGBA" else "RGB"
        found = ImageCms.profileToProfile(picture, given, ImageCms.createProfile("sRGB"), outputMode=mode)
    except (ImageCms.PyCMSError, OSError, ValueError):
        return picture
    return picture if found is None else found


def _flat(picture: Image.Image) -> Image.Image:
    """The picture alone, without what was written beside it; what is clear in it lies on white."""
    if picture.mode.startswith(("I", "F")):
        picture = _eight_bits(picture)
    clear = "A" in picture.getbands() or "transparency" in picture.info
    whole = picture.convert("RGBA" if clear else "RGB")
    plain = Image.new("RGB", whole.size, _WHITE)
    plain.paste(whole, (0, 0), whole if clear else None)
    return plain


def _eight_bits(picture: Image.Image) -> Image.Image:
    """A picture of more than eight bits a dot, its whole range kept."""
    wide = picture.convert("F")
    low, high = wide.getextrema()
    assert isinstance(low, float) and isinstance(high, float)
    # Sixteen bits mean the same in every picture; other ranges are stretched from their darkest to their lightest.
    sixteen = picture.mode.startswith("I;16") or (low >= 0.0 and 255.0 < high <= 65535.0)
    first, last = (0.0, 65535.0) if sixteen else (low, high)
    scale = 255.0 / ((last - first) or 1.0)
    return wide.point(lambda dot: dot * scale - first * scale).convert("L")
