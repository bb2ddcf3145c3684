"""The panels of a standard for Python users, once a situation has come to rest or at the end of a run."""

from dataclasses import dataclass
from pathlib import Path

from cutaway.api.loading import Loaded
from cutaway.api.running import Asked, course, unreached
from cutaway.api.stills import missing_library
from cutaway.draw.panel import panel_pictures
from cutaway.draw.shapes import Picture
from cutaway.draw.svg import slug, write_svg
from cutaway.draw.theme import Manner
from cutaway.inquiry.workshop import Request, Workshop
from cutaway.machine.records import Outcome
from cutaway.problems.diagnostic import Problems, has_error, in_order
from cutaway.publish.single_file import refused_by_disk, write_files
from cutaway.publish.stills import size_named, still


@dataclass(frozen=True, slots=True)
class Look:
    """How panels are written. png: as pictures for paper (A4 at 300 to the inch) in place of drawings."""

    manner: Manner = "light"
    png: bool = False


def panels(
    folder: Path | str | Loaded, asked: Asked, workshop: Workshop | None = None
) -> tuple[tuple[Picture, ...], Problems]:
    """The panels of one standard, a picture a page, as they stand at the end of what is asked (`asked.length` after the
    last action; `show` is not looked at)."""
    ready, problems = course(folder, asked, workshop)
    if ready is None:
        return (), problems
    scene, bound = ready.scene, ready.bound
    length = scene.clock + ready.length if scene.changes else 0.05
    (run,) = ready.workshop.runs([Request(ready.made, scene.legs, scene.changes, length)])
    if isinstance(run, Outcome):
        return (), in_order((*problems, unreached(ready, asked, run)))
    if run.outcome.kind != "done":
        return (), in_order((*problems, unreached(ready, asked, run.outcome)))
    values = dict(zip(run.names, map(float, run.values[-1]), strict=True))
    name = " ".join(part for part in (str(bound.subject.name), *_words(asked)) if part)
    loaded = ready.loaded
    return panel_pictures(loaded.folder, bound.subject, values, loaded.kinds, _says(loaded, asked), name), problems


def write_panels(
    folder: Path | str | Loaded, asked: Asked, look: Look, out: Path, replace: bool = False
) -> tuple[tuple[Path, ...], Problems]:
    """Write the panels into a folder; the files that were written."""
    wrong = missing_library(look.png) or refused_by_disk(out)
    if wrong:
        return (), wrong
    pictures, problems = panels(folder, asked)
    if not pictures or has_error(problems):
        return (), problems
    dark = "-dark" if look.manner == "dark" else ""
    ending = "png" if look.png else "svg"
    files = tuple(
        (out / f"panels-{slug(picture.name)}{dark}.{ending}", _content(picture, look)) for picture in pictures
    )
    written, more = write_files(files, replace)
    return written, in_order(problems + more)


def _content(picture: Picture, look: Look) -> bytes:
    if not look.png:
        return write_svg(picture, look.manner).encode()
    size = size_named("a4")
    assert size is not None
    return still(picture, size, look.manner)


def _words(asked: Asked) -> tuple[str, ...]:
    return (asked.situation, *asked.failed, asked.do, asked.length if asked.do or asked.failed else "")


def _says(loaded: Loaded, asked: Asked) -> str:
    """The case in words."""
    here = next((one for one in loaded.folder.situations if one.name.casefold() == asked.situation.casefold()), None)
    told = f"{asked.situation}: {here.says}" if here is not None and here.says else asked.situation
    done = [f"with {one}" for one in asked.failed]
    done += [f"after {asked.do}"] if asked.do else []
    return f"{told.rstrip('.')}; {', '.join(done)}, {asked.length} on." if done else told
