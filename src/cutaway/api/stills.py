"""Stills and moving drawings for Python users: files in a folder of one's own, written where they are not yet."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path

from cutaway.api.sequence import Sequence, Wanted, sequences
from cutaway.draw.sequence import stills as pictures_of
from cutaway.draw.sequence import told, write_moving_svg
from cutaway.draw.svg import Ground, slug
from cutaway.draw.theme import Manner
from cutaway.problems.diagnostic import Diagnostic, Problems, has_error, in_order
from cutaway.publish.single_file import refused_by_disk, write_file
from cutaway.publish.stills import SIZES, Size, drawing, page_shape, size_named, still


@dataclass(frozen=True, slots=True)
class Look:
    """How stills look. size: 'frame', 'a4' or 'square'. svg: drawings that stay sharp at any size, in place of PNG.

    seconds: how long a moving drawing shows each moment.
    """

    size: str = "frame"
    ground: Ground = "paper"
    manner: Manner = "light"
    svg: bool = False
    moving: bool = False
    seconds: float = 3.0


@dataclass(frozen=True, slots=True)
class Still:
    """A file that was asked for. moment: its words, '' for a still without. fresh: whether it had to be written."""

    path: Path
    system: str
    standard: str
    situation: str
    moment: str
    words: tuple[str, ...]
    fresh: bool


def stills(
    folder: Path | str,
    wanted: Wanted,
    look: Look,
    out: Path,
    replace: bool = False,
    progress: Callable[[int], None] | None = None,
) -> tuple[tuple[Still, ...], Problems]:
    """Write the stills of some systems of a type folder, and each sequence as one moving drawing where it is asked for.

    A file that is there and is the same already is left as it is; one that differs is written over only if `replace`.
    """
    size = size_named(look.size)
    wrong = (*missing_library(not look.svg), *_no_size(look.size, size), *_no_moments(wanted, look))
    wrong = wrong or refused_by_disk(out)
    if size is None or wrong:
        return (), wrong
    found, _, problems = sequences(folder, wanted, page_shape(size))
    written: list[Still] = []
    for sequence in found:
        for name, moment, words, content in _files(sequence, look, size):
            path, more = _written(out / name, content, replace)
            problems += more
            if progress is not None:
                progress(1)
            if path is not None:
                place = (sequence.system, sequence.standard, sequence.situation)
                written.append(Still(out / name, *place, moment, words, path))
    return tuple(written), in_order(problems)


def missing_library(needed: bool = True) -> Problems:
    """That pictures cannot be made from drawings in this installation, where they are needed."""
    if not needed or find_spec("resvg_py") is not None:
        return ()
    message = "Stills are made with the library resvg_py, which is not installed."
    hint = "pip install -c constraints.txt -e '.[handout]', or write drawings with --svg."
    return (Diagnostic("K504", None, message, hint),)


def _no_size(name: str, size: Size | None) -> Problems:
    known = ", ".join(f"{one.name} ({one.across} × {one.down})" for one in SIZES)
    return () if size else (Diagnostic("K505", None, f"There is no size '{name}'.", f"There are: {known}."),)


def _no_moments(wanted: Wanted, look: Look) -> Problems:
    if not look.moving or wanted.moving:
        return ()
    message = "A moving drawing needs moments, and none is named."
    return (Diagnostic("K502", None, message, "Name some: --at before --at '2 s' --at '10 s'; or say --events."),)


def _files(sequence: Sequence, look: Look, size: Size) -> Iterator[tuple[str, str, tuple[str, ...], bytes]]:
    """Name, moment, words and content of each file of a sequence."""
    base = "-".join((slug(sequence.of), *_marks(look)))
    moments = sequence.moments
    shown = pictures_of(moments)
    ending = "svg" if look.svg else "png"
    for number, (moment, picture) in enumerate(zip(moments, shown, strict=True), 1):
        name = f"{base}-{number:0{max(2, len(str(len(moments))))}}.{ending}" if moment.words else f"{base}.{ending}"
        content = (
            drawing(picture, look.manner, look.ground).encode()
            if look.svg
            else still(picture, size, look.manner, look.ground)
        )
        yield name, moment.words, picture.description, content
    if look.moving:
        content = write_moving_svg(moments, look.manner, look.seconds, look.ground).encode()
        yield f"{base}-moving.svg", "", told(moments), content


def _marks(look: Look) -> tuple[str, ...]:
    """What of a look stands in the file names, so that several fit in one folder."""
    size = look.size.lower()
    return tuple(
        word
        for word, there in (
            (size, size != SIZES[0].name),
            ("clear", look.ground == "clear"),
            (look.manner, look.manner != "light"),
        )
        if there
    )


def _written(path: Path, content: bytes, replace: bool) -> tuple[bool | None, Problems]:
    """Whether the file had to be written; None where it could not be."""
    if path.is_file() and path.read_bytes() == content:
        return False, ()
    done, problems = write_file(path, content, replace)
    return (None if done is None or has_error(problems) else True), problems


def stills_record(written: tuple[Still, ...]) -> list[dict[str, object]]:
    """The stills for a program: each file, what it shows, and the same in words."""
    return [
        {
            "file": str(one.path),
            "system": one.system,
            "standard": one.standard,
            "situation": one.situation,
            "moment": one.moment,
            "words": list(one.words),
            "written": one.fresh,
        }
        for one in written
    ]
