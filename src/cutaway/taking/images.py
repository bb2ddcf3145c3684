"""Pictures of pages: photographs and scans, one page or several in a file."""

import io
from collections.abc import Callable

from PIL import Image, ImageSequence, UnidentifiedImageError

from cutaway.problems.diagnostic import Diagnostic, Problems

_MOST_DOTS = 120_000_000


def open_pictures(data: bytes, shown: str) -> tuple[tuple[Callable[[], Image.Image], ...], Problems]:
    """One opener for each picture in the file; none where it is broken or beyond all size."""
    try:
        with Image.open(io.BytesIO(data)) as file:
            if file.width * file.height > _MOST_DOTS:
                return (), (_too_large(shown, file.width, file.height),)
            count = sum(1 for _ in ImageSequence.Iterator(file))
            file.seek(0)
            file.load()
    except Image.DecompressionBombError:
        return (), (_too_large(shown, 0, 0),)
    except (UnidentifiedImageError, OSError, ValueError, SyntaxError, EOFError):
        return (), (
            Diagnostic(
                "T105",
                None,
                f"'{shown}' begins as a picture but cannot be opened: it is cut short or damaged.",
                "Scan or copy it again; PNG, JPEG and TIFF are read.",
            ),
        )
    return tuple(_opener(data, frame) for frame in range(count)), ()


def _opener(data: bytes, frame: int) -> Callable[[], Image.Image]:
    def opened() -> Image.Image:
        file = Image.open(io.BytesIO(data))
        file.seek(frame)
        file.load()
        return file

    return opened


def _too_large(shown: str, width: int, height: int) -> Diagnostic:
    size = f"{width} by {height} dots" if width else "far too many dots"
    return Diagnostic(
        "T105", None, f"'{shown}' has {size}, more than are read.", "Save it at 300 dots an inch and take that."
    )
