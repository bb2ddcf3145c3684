"""An overlay of a sequence for Python users: a film with transparency for an editing timeline."""

from collections.abc import Callable
from dataclasses import dataclass
from importlib.util import find_spec
from itertools import pairwise
from pathlib import Path

from cutaway.api.sequence import Sequence, Wanted, sequences
from cutaway.api.stills import missing_library
from cutaway.draw.sequence import stills as pictures_of
from cutaway.draw.sequence import told
from cutaway.draw.svg import Ground, slug
from cutaway.draw.theme import Manner
from cutaway.problems.diagnostic import Diagnostic, Problems, has_error, in_order
from cutaway.publish.overlay import FORMATS, Film, Format, format_named, is_there, stamp, write_film
from cutaway.publish.single_file import write_file
from cutaway.publish.stills import SIZES, page_shape, size_named, still

LEAST, MOST = 0.2, 60.0
"""Between how little and how much a moment is shown where the film keeps the pace of the run, s."""


@dataclass(frozen=True, slots=True)
class FilmLook:
    """How an overlay looks. form: a format's name. hold: s that each moment is shown; pace: keep the run's own pace.

    fade: s of each change. rate: frames a second.
    """

    form: str = FORMATS[0].name
    size: str = SIZES[0].name
    ground: Ground = "clear"
    manner: Manner = "light"
    hold: float = 3.0
    pace: bool = False
    fade: float = 0.4
    rate: int = 25


@dataclass(frozen=True, slots=True)
class Overlay:
    """A film that is there. moments: when each begins, s of the film, with its words. fresh: whether it was written."""

    path: Path
    seconds: float
    moments: tuple[tuple[float, str], ...]
    words: tuple[str, ...]
    fresh: bool


def overlay(
    folder: Path | str,
    wanted: Wanted,
    look: FilmLook,
    out: Path | None = None,
    replace: bool = False,
    progress: Callable[[int], None] | None = None,
) -> tuple[Overlay | None, Problems]:
    """Write one system's sequence as a film; what is there and the same already is left as it is."""
    form, size = format_named(look.form), size_named(look.size)
    wrong = (*_missing(), *missing_library(), *_unknown(look, form is None, size is None), *_moments(wanted, out, form))
    if form is None or size is None or wrong:
        return None, wrong
    found, _, problems = sequences(folder, wanted, page_shape(size))
    if len(found) != 1 or has_error(problems):
        return None, in_order((*problems, *_not_one(found)))
    sequence = found[0]
    held = _held(sequence, look)
    pictures = tuple(still(one, size, look.manner, look.ground) for one in pictures_of(sequence.moments))
    film = Film(pictures, held, look.fade, look.rate)
    path = out if out is not None else Path(f"{slug(sequence.of)}{form.ending}")
    starts = [sum(film.counts[:n]) / film.rate for n in range(len(held) + 1)]
    moments = tuple(zip(starts, (one.words for one in sequence.moments), strict=False))
    made = Overlay(path, starts[-1], moments, told(sequence.moments), not is_there(path, stamp(film, form)))
    if made.fresh:
        problems += _write(path, film, form, replace, progress)
    return (None if has_error(problems) else made), in_order(problems)


def _write(path: Path, film: Film, form: Format, replace: bool, progress: Callable[[int], None] | None) -> Problems:
    if path.is_dir() or (path.exists() and not replace):
        return write_file(path, b"", replace)[1]  # which refuses, in its own words
    try:
        return write_film(path, film, form, progress)
    except OSError as fault:
        reason = (fault.strerror or str(fault)).lower()
        return (Diagnostic("K507", None, f"'{path}' could not be written: {reason}.", "Choose a folder of your own."),)


def _held(sequence: Sequence, look: FilmLook) -> tuple[float, ...]:
    """How long each moment is shown; at the pace of the run until the next, the first and the last as told."""
    if not look.pace:
        return (look.hold,) * len(sequence.times)
    steps = [look.hold if a < 0.0 else min(MOST, max(LEAST, b - a)) for a, b in pairwise(sequence.times)]
    return (*steps, look.hold)


def _missing() -> Problems:
    if find_spec("imageio_ffmpeg") is not None:
        return ()
    message = "Films are written with imageio-ffmpeg, which is not installed."
    return (Diagnostic("K506", None, message, "pip install -c constraints.txt -e '.[overlay]'"),)


def _unknown(look: FilmLook, no_form: bool, no_size: bool) -> Problems:
    problems: list[Diagnostic] = []
    if no_form:
        known = ", ".join(f"{one.name} ({one.ending}, {one.says})" for one in FORMATS)
        problems.append(Diagnostic("K505", None, f"There is no film format '{look.form}'.", f"There are: {known}."))
    if no_size:
        known = ", ".join(one.name for one in SIZES)
        problems.append(Diagnostic("K505", None, f"There is no size '{look.size}'.", f"There are: {known}."))
    return tuple(problems)


def _moments(wanted: Wanted, out: Path | None, form: Format | None) -> Problems:
    problems: list[Diagnostic] = []
    if not wanted.moving:
        message = "An overlay shows a sequence, and no moment of it is named."
        hint = "Name some: --at before --at '2 s' --at '10 s'; or say --events."
        problems.append(Diagnostic("K502", None, message, hint))
    if out is not None and form is not None and out.suffix.lower() != form.ending:
        message = f"A film as {form.name} ends with {form.ending}, and '{out}' does not."
        problems.append(Diagnostic("K505", None, message, f"Write --out {out.with_suffix(form.ending)}."))
    return tuple(problems)


def _not_one(found: tuple[Sequence, ...]) -> Problems:
    if len(found) < 2:
        return ()
    names = ", ".join(one.system for one in found)
    hint = f"Name one with --system: {names}."
    return (Diagnostic("K508", None, f"An overlay shows one system, and here are {len(found)}.", hint),)


def overlay_record(made: Overlay) -> dict[str, object]:
    """The film for a program: the moments with when each begins, and all in words."""
    return {
        "file": str(made.path),
        "seconds": made.seconds,
        "moments": [{"from": start, "moment": words} for start, words in made.moments],
        "words": list(made.words),
        "written": made.fresh,
    }
