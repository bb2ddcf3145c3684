"""Manuscripts for Python users: scripts as DOCX with footnotes, figures and a bibliography."""

from collections.abc import Callable
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path

from cutaway.api.checking import check
from cutaway.api.desk import desk, script_place, sheet_path
from cutaway.api.places import pack_folder
from cutaway.draw.measure import font_file
from cutaway.handbook.names import listed
from cutaway.handbook.records import Folder
from cutaway.narrate.checked import Checked, CheckedSentence
from cutaway.narrate.shots import Picture
from cutaway.problems.diagnostic import Diagnostic, Problems, in_order
from cutaway.publish.manuscript import Manuscript
from cutaway.publish.manuscript import manuscript as manuscript_of
from cutaway.publish.published import pack_record
from cutaway.publish.single_file import in_the_way, refused_by_disk, write_file
from cutaway.publish.snapshot import drawn_from

_WIDTH = 1800


@dataclass(frozen=True, slots=True)
class Book:
    """A manuscript that was written. path: where. footnotes, figures: how many."""

    path: Path
    footnotes: int
    figures: int


def manuscript(
    places: tuple[Path, ...],
    out: Path | None = None,
    rests: bool = True,
    replace: bool = False,
    progress: Callable[[int], None] | None = None,
) -> tuple[Book | None, Problems]:
    """Write some scripts of one type folder as a DOCX. places: their files, or the folder for all of them."""
    missing = _library()
    if missing is not None:
        return None, (missing,)
    folders = tuple(dict.fromkeys(script_place(place)[0].resolve() for place in places))
    if len(folders) != 1:
        several = listed(str(folder) for folder in folders)
        message = f"The scripts are of several type folders: {several}."
        return None, (Diagnostic("K403", None, message, "Write a manuscript for each."),)
    path = out if out is not None else Path(f"{script_place(places[0])[1] or folders[0].name}.docx")
    if path.suffix.lower() != ".docx":
        message = f"A manuscript is a DOCX, and '{path}' does not end so; nothing was written."
        return None, (Diagnostic("K406", None, message, f"Write {path.with_suffix('.docx')}."),)
    standing = in_the_way(path, replace) or refused_by_disk(path.parent)
    if standing:
        return None, standing
    checked, problems = check(folders[0], rests=rests, progress=progress)
    looked, more = desk(folders[0])
    problems = in_order(problems + more)
    if checked is None or looked is None:
        return None, problems
    names, more = _names(places, checked.folder)
    if more:
        return None, more
    shots = {script.name: script for script in looked.scripts}
    made = manuscript_of(
        checked.folder,
        tuple((shots[name].title, _said(checked, name), shots[name].shots) for name in names if name in shots),
    )
    return _written(made, path, folders[0], checked.folder, replace, problems)


def _written(
    made: Manuscript, path: Path, home: Path, folder: Folder, replace: bool, problems: Problems
) -> tuple[Book | None, Problems]:
    from cutaway.publish.docx_file import docx_of

    figures = tuple(figure for part in made.parts for one in part.paragraphs for figure in one.figures)
    pictures, more = _pictures(tuple(figure.picture for figure in figures), home, folder)
    written, again = write_file(path, docx_of(made, pictures), replace)
    problems = in_order(problems + more + again)
    if written is None:
        return None, problems
    notes = sum(1 for part in made.parts for one in part.paragraphs for run in one.runs if run.footnote)
    return Book(written, notes, len(figures)), problems


def _library() -> Diagnostic | None:
    if find_spec("docx") is not None:
        return None
    message = "A manuscript is written with the library python-docx, which is not installed."
    return Diagnostic("K401", None, message, "pip install -c constraints.txt -e '.[manuscript]'")


def _names(places: tuple[Path, ...], folder: Folder) -> tuple[tuple[str, ...], Problems]:
    """The scripts that are meant, in the order in which they were named."""
    known = tuple(script.name for script in folder.scripts)
    asked: list[str] = []
    for place in places:
        own = script_place(place)[1]
        asked.extend((own,) if own else known)
    for name in asked:
        if name not in known:
            message = f"There is no script '{name}'."
            return (), (Diagnostic("C102", None, message, f"There are: {', '.join(known)}."),)
    return tuple(dict.fromkeys(asked)), ()


def _said(checked: Checked, name: str) -> tuple[CheckedSentence, ...]:
    return tuple(one for one in checked.sentences if one.script.name == name)


def _pictures(pictures: tuple[Picture, ...], home: Path, folder: Folder) -> tuple[dict[str, bytes], Problems]:
    """The figures as PNG from the pack's sheets; what is missing is told, and leaves a frame."""
    sheets = tuple(picture for picture in pictures if picture.system)
    if not sheets:
        return {}, ()
    pack = pack_folder(home)
    says = pack_record(pack)
    if says is None or says.drawn_from != drawn_from(folder):
        message = "There is no pack" if says is None else "The pack is older than the type folder"
        hint = "Say `cutaway make` first, then the drawings stand in the manuscript."
        return {}, (Diagnostic("K405", None, f"{message}, so the figures are frames without drawings.", hint),)
    if find_spec("resvg_py") is None:
        message = "The library resvg_py is not installed, so the figures are frames without drawings."
        return {}, (Diagnostic("K405", None, message, "pip install -c constraints.txt -e '.[manuscript]'"),)
    found: dict[str, bytes] = {}
    for picture in sheets:
        path = pack / sheet_path(picture)
        if path.is_file():
            found[picture.words] = _png(path.read_text(encoding="utf-8"))
    return found, ()


def _png(svg: str) -> bytes:
    import resvg_py

    files = [str(path) for path in (font_file(), font_file(bold=True)) if path is not None]
    return bytes(
        resvg_py.svg_to_bytes(
            svg_string=svg, width=_WIDTH, skip_system_fonts=True, font_files=files, sans_serif_family="DejaVu Sans"
        )
    )
