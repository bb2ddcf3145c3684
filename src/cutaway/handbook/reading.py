"""Opening the user's files: the only place that does so. What cannot be read is told, and the rest goes on."""

import stat
from dataclasses import dataclass
from pathlib import Path

from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import TextFile

# A type folder is typed by hand; a file of this size is a scan or a film put in the wrong place.
LARGEST = 2_000_000

SINGLE_FILES = (
    "type.yaml",
    "decided.yaml",
    "situations.yaml",
    "services.yaml",
    "glossary.yaml",
    "letters.yaml",
    "photographs.yaml",
    "charts.yaml",
    "explore.yaml",
    "handouts.yaml",
)
FILE_FOLDERS = (
    ("sources", ".md"),
    ("systems", ".yaml"),
    ("drills", ".md"),
    ("scripts", ".md"),
    ("sheets", ".yaml"),
)


@dataclass(frozen=True, slots=True)
class FolderText:
    """The texts of a type folder. unread: the shown paths of files that are there but could not be read."""

    root: str
    name: str
    files: tuple[TextFile, ...]
    unread: tuple[str, ...]

    def file(self, path: str) -> TextFile | None:
        """The file at a shown path."""
        return next((file for file in self.files if file.path == path), None)

    def under(self, folder: str) -> tuple[TextFile, ...]:
        """The files of one folder inside, by name."""
        return tuple(file for file in self.files if file.path.startswith(f"{folder}/"))


def read_folder(path: Path | str) -> tuple[FolderText | None, Problems]:
    """The texts of the type folder at `path`; None where there is no such folder or nothing of one in it."""
    root = Path(path)
    shown = _printable(str(path))
    try:
        home = root.resolve(strict=True)
        is_folder = home.is_dir()
    except (OSError, RuntimeError, ValueError):
        return None, (_no_folder(shown),)
    if not is_folder:
        return None, (
            Diagnostic(
                "H001", None, f"'{shown}' is a file, not a type folder.", "Name the folder that holds type.yaml."
            ),
        )
    names, problems = _names(home)
    files: list[TextFile] = []
    unread: list[str] = []
    for name in names:
        file, more = _read(home, name)
        problems += more
        if file is None:
            unread.append(name)
        else:
            files.append(file)
    if not names and not problems:
        return None, (_empty(shown),)
    return FolderText(str(home), _printable(home.name), tuple(files), tuple(unread)), problems


def decoded(data: bytes, path: str) -> tuple[TextFile | None, Problems]:
    """A file's bytes as text: UTF-8, with or without a byte order mark, with the line ends of any system."""
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        return None, (
            Diagnostic(
                "H002",
                None,
                f"'{path}' is not text in UTF-8: line {line} has something else in it.",
                "If it is text, open it in an editor and save it with the encoding UTF-8.",
            ),
        )
    if "\0" in text:
        return None, (
            Diagnostic(
                "H002",
                None,
                f"'{path}' is not text: it holds bytes that no text has.",
                "Put the text itself there, saved as UTF-8.",
            ),
        )
    return TextFile(path, text.replace("\r\n", "\n").replace("\r", "\n")), ()


def _names(home: Path) -> tuple[tuple[str, ...], Problems]:
    names = [name for name in SINGLE_FILES if _is_there(home / name)]
    problems: list[Diagnostic] = []
    for folder, ending in FILE_FOLDERS:
        if not _is_there(home / folder):
            continue
        inside = _leads_out(home, home / folder)
        if inside is not None:
            problems.append(inside)
            continue
        try:
            found = sorted(entry.name for entry in (home / folder).iterdir())
        except OSError as error:
            problems.append(_cannot(folder, error))
            continue
        for name in found:
            shown = f"{folder}/{_printable(name)}"
            if name.endswith(ending) and not name.startswith("."):
                names.append(f"{folder}/{name}")
            elif Path(name).suffix.lower() in (".yml", ".yaml", ".md", ".markdown", ".txt", ".json"):
                problems.append(
                    Diagnostic(
                        "H008",
                        None,
                        f"'{shown}' is not used: the files of {folder}/ end in {ending}.",
                        f"Rename it to {folder}/{_printable(Path(name).stem)}{ending}",
                    )
                )
    return tuple(names), tuple(problems)


def _read(home: Path, name: str) -> tuple[TextFile | None, Problems]:
    path, shown = home / name, _printable(name)
    outside = _leads_out(home, path)
    if outside is not None:
        return None, (outside,)
    try:
        about = path.stat()
        if not stat.S_ISREG(about.st_mode):
            return None, (Diagnostic("H003", None, f"'{shown}' is not a file.", "A plain text file is wanted there."),)
        if about.st_size > LARGEST:
            return None, (_too_large(shown, about.st_size),)
        data = path.read_bytes()
    except OSError as error:
        return None, (_cannot(shown, error),)
    return decoded(data, shown)


def _leads_out(home: Path, path: Path) -> Diagnostic | None:
    """Links are followed inside the folder only: a type folder that is handed on must not read its reader's files."""
    shown = _printable(path.relative_to(home).as_posix())
    try:
        real = path.resolve(strict=True)
    except (OSError, RuntimeError):
        return Diagnostic("H003", None, f"'{shown}' is a link that leads nowhere.", "Put the file itself there.")
    if real.is_relative_to(home):
        return None
    return Diagnostic("H005", None, f"'{shown}' is a link that leads out of the folder.", "Put the file itself there.")


def _is_there(path: Path) -> bool:
    try:
        return path.is_symlink() or path.exists()
    except OSError:
        return True


def _printable(name: str) -> str:
    return name.encode("utf-8", "replace").decode("utf-8")


def _no_folder(shown: str) -> Diagnostic:
    return Diagnostic(
        "H001", None, f"There is no folder '{shown}'.", "Name a type folder, or begin one with: cutaway new NAME"
    )


def _empty(shown: str) -> Diagnostic:
    return Diagnostic(
        "H007",
        None,
        f"'{shown}' has nothing of a type folder in it.",
        "Begin with a file type.yaml, or let 'cutaway new NAME' write a folder that runs.",
    )


def _cannot(shown: str, error: OSError) -> Diagnostic:
    why = (error.strerror or "the system refused").lower()
    return Diagnostic(
        "H003", None, f"'{shown}' could not be read: {why}.", "See that it is there and that you may read it."
    )


def _too_large(shown: str, size: int) -> Diagnostic:
    return Diagnostic(
        "H004",
        None,
        f"'{shown}' has {size / 1e6:.1f} million characters, more than the {LARGEST / 1e6:.0f} million that are read.",
        "Split it into several files, or take out what is not text of the handbook.",
    )
