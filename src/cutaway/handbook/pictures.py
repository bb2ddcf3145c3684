"""Looking at the head of a picture file: whether it is there and a picture, and how large it is when held upright.

Nothing is decoded here, so that a folder with large photographs loads as quickly as one without.
"""

import warnings
from dataclasses import dataclass
from pathlib import Path

from cutaway.handbook.names import did_you_mean, nearest

FORMATS = ("JPEG", "PNG", "WEBP", "TIFF")
"""The formats of photographs that are read, as the picture library names them."""
READ = "JPEG, PNG, WebP and TIFF are read"
_OTHERS = (
    (b"GIF8", "a GIF"),
    (b"BM", "a BMP"),
    (b"%PDF", "a PDF"),
    (b"<svg", "an SVG drawing"),
    (b"<?xml", "an XML file, perhaps an SVG drawing"),
)
"""How files of other sorts begin, whatever their name ends with."""
LARGEST = 160_000_000
"""The most dots that a photograph may have: more than any camera's, and decoded in half a gigabyte."""

_ORIENTATION = 0x0112  # the tag of EXIF that says how the camera was held
_LYING = frozenset({5, 6, 7, 8})


@dataclass(frozen=True, slots=True)
class Unseen:
    """Why a picture cannot be used. sort: 'missing', 'outside' the folder, or 'unreadable'."""

    sort: str
    message: str
    hint: str


def upright_size(root: Path, file: str) -> tuple[int, int] | Unseen:
    """Pixels across and down of a picture of the folder, turned as the camera was held; or why it cannot be used."""
    path = root / file
    if Path(file).is_absolute() or "\0" in file or ".." in Path(file).parts:
        return _outside(file)
    try:
        real = path.resolve(strict=True)
        home = root.resolve()
    except (OSError, RuntimeError):
        return _missing(root, file)
    if not real.is_relative_to(home):
        return _outside(file)
    if not real.is_file():
        return _missing(root, file)
    return _size(real, file)


def _size(path: Path, file: str) -> tuple[int, int] | Unseen:
    # Loaded here: most folders have no photographs, and loading them must stay quick.
    from PIL import Image

    Image.init()
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)
            with Image.open(path, formats=FORMATS) as picture:
                width, height = picture.size
                # Not by the format's own way, which of a PNG would decode the whole.
                turned = Image.Image.getexif(picture).get(_ORIENTATION) in _LYING
    except Image.DecompressionBombError:
        return _too_large(file)
    # What a damaged head makes the library raise is any of these, by format.
    except (OSError, ValueError, SyntaxError, EOFError, KeyError, TypeError, OverflowError, MemoryError):
        return _not_read(path, file)
    if width * height > LARGEST:
        return _too_large(file)
    return (height, width) if turned else (width, height)


def _not_read(path: Path, file: str) -> Unseen:
    """What the file is instead of a picture that is read, so far as its first bytes tell."""
    hint = f"Export it again as JPEG: {READ}."
    try:
        with path.open("rb") as content:
            first = content.read(16)
    except OSError as fault:
        return Unseen("unreadable", f"'{file}' cannot be opened: {(fault.strerror or str(fault)).lower()}.", hint)
    if not first:
        return Unseen("unreadable", f"'{file}' is empty.", "Copy the picture once more.")
    sort = next((words for begins, words in _OTHERS if first.lstrip().startswith(begins)), "")
    if first[4:8] == b"ftyp":
        sort = "a HEIC or AVIF picture, or a film"
    if sort:
        return Unseen("unreadable", f"'{file}' is {sort}, which is not read here.", hint)
    return Unseen("unreadable", f"'{file}' is not a picture that can be read.", hint)


def _missing(root: Path, file: str) -> Unseen:
    if (root / file).is_dir():
        first = next((one.name for one in sorted((root / file).iterdir()) if one.is_file()), "cockpit.jpg")
        hint = f"Write the picture's own name behind it: file: {file.rstrip('/')}/{first}"
        return Unseen("missing", f"'{file}' is a folder, not a picture.", hint)
    try:
        there = sorted(one.name for one in (root / file).parent.iterdir() if one.is_file())
    except OSError:
        there = []
    folder = Path(file).parent.as_posix()
    beside = folder if folder != "." else ""
    there = [one for one in there if nearest(Path(file).stem, [Path(one).stem])]
    near = did_you_mean(file, [f"{beside}/{one}".lstrip("/") for one in there])
    hint = near if near else f"Put the picture into {folder if folder != '.' else 'photographs'}/ of the type folder."
    return Unseen("missing", f"There is no picture '{file}' in the folder.", hint)


def _outside(file: str) -> Unseen:
    hint = f"Copy it into the folder and write file: photographs/{Path(file.replace(chr(0), '')).name}"
    return Unseen("outside", f"'{file}' lies outside the type folder.", hint)


def _too_large(file: str) -> Unseen:
    message = f"'{file}' has more than the {LARGEST // 1_000_000} million dots that are read."
    return Unseen("unreadable", message, "Save it smaller: 4,000 dots along its longer side are plenty.")
