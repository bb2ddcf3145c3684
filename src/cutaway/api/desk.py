"""The script desk for Python users: what a script says of itself, and its files for the pack."""

import re
from pathlib import Path

from cutaway.api.loading import Loaded, load
from cutaway.narrate.desk import Desk
from cutaway.narrate.desk import desk as look_over
from cutaway.narrate.shots import Picture
from cutaway.problems.diagnostic import Diagnostic, Problems, in_order
from cutaway.publish.glossary_page import glossary_page
from cutaway.publish.prompter import prompter_page
from cutaway.publish.shot_list import shot_list_csv, shot_list_page
from cutaway.publish.single_file import write_files

_PAGE = (".html", ".htm")
_LIST = (".csv", *_PAGE)


def script_place(path: Path) -> tuple[Path, str]:
    """The type folder and the script's name that a path means: a folder, or one file of its `scripts/`."""
    if path.suffix == ".md" and not path.is_dir():
        folder = path.parent.parent if path.parent.name == "scripts" else path.parent
        return folder, path.stem
    return path, ""


def desk(place: Path | str, script: str = "") -> tuple[Desk | None, Problems]:
    """The script desk of a type folder, or of one script where a file of `scripts/` is named."""
    folder, named = script_place(Path(place))
    loaded, problems = load(folder)
    if loaded is None:
        return None, problems
    name, more = script_named(loaded, script or named)
    if name is None:
        return None, in_order(problems + more)
    looked, more = look_over(loaded.folder, loaded.parsed, loaded.kinds, name)
    return looked, in_order(problems + more)


def script_named(loaded: Loaded, name: str) -> tuple[str | None, Problems]:
    """The script of that name; '' stays ''."""
    known = tuple(script.name for script in loaded.folder.scripts)
    if not name or name in known:
        return name, ()
    hint = f"There are: {', '.join(known)}." if known else "Write one in scripts/."
    return None, (Diagnostic("C102", None, f"There is no script '{name}'.", hint),)


def desk_files(looked: Desk, there: frozenset[str] = frozenset()) -> dict[str, bytes]:
    """The files of the desk by their path in the pack: prompters, shot lists, the glossary of two levels.

    there: the paths of the pack's other files, so that a shot leads to its sheet where there is one.
    """
    pictures = {shot.picture for script in looked.scripts for shot in script.shots if shot.picture is not None}
    found = {
        (one.system, one.standard, one.situation): f"../{path}"
        for one in pictures
        if (path := sheet_path(one)) in there
    }
    files: dict[str, bytes] = {}
    for script in looked.scripts:
        files[f"prompter/{script.name}.html"] = prompter_page(script).encode()
        files[f"shots/{script.name}.csv"] = shot_list_csv(script)
        files[f"shots/{script.name}.html"] = shot_list_page(script, found, looked.folder.type.notice, "../").encode()
    if looked.terms:
        files["glossary.html"] = glossary_page(looked).encode()
    return files


def sheet_path(picture: Picture) -> str:
    """Where a pack has the sheet that a picture is."""
    words = f"{picture.system} {picture.standard} {picture.situation}".casefold()
    return f"sheets/{re.sub(r'[^a-z0-9]+', '-', words).strip('-')}.svg"


def write_desk_files(
    looked: Desk, prompter: Path | None, shots: Path | None, replace: bool = False
) -> tuple[tuple[Path, ...], Problems]:
    """Write the prompter and the shot list of the one script on the desk where they were asked for."""
    asked = tuple(path for path in (prompter, shots) if path is not None)
    if not asked:
        return (), ()
    wrong = _endings(prompter, shots)
    if wrong:
        return (), wrong
    if len(looked.scripts) != 1:
        names = ", ".join(script.name for script in looked.scripts)
        message = "A prompter or a shot list is of one script, and the folder has several."
        return (), (Diagnostic("C201", None, message, f"Name one of their files in scripts/: {names}."),)
    script = looked.scripts[0]
    files: list[tuple[Path, bytes]] = []
    if prompter is not None:
        files.append((prompter, prompter_page(script).encode()))
    if shots is not None:
        page = shots.suffix.lower() in _PAGE
        notice = looked.folder.type.notice
        files.append((shots, shot_list_page(script, {}, notice).encode() if page else shot_list_csv(script)))
    return write_files(tuple(files), replace)


def _endings(prompter: Path | None, shots: Path | None) -> Problems:
    """A problem for each file whose ending says that it is something else; then none is written."""
    asked = (("A prompter", "is a page", prompter, _PAGE), ("A shot list", "is a table or a page", shots, _LIST))
    return tuple(
        Diagnostic("C203", None, f"{what} {so}, and '{path}' does not end so.", f"Write {path.with_suffix(known[0])}.")
        for what, so, path, known in asked
        if path is not None and path.suffix.lower() not in known
    )
