"""What must be known before anything is read: the folder, the key, what was taken under it last time, the answers."""

import json
import re
from pathlib import Path
from typing import Any

from cutaway.handbook.reading import decoded
from cutaway.handbook.records import AircraftType
from cutaway.handbook.type_file import read_type
from cutaway.handbook.yaml_tree import read_tree
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.taking.confirming import Answer, read_answers
from cutaway.taking.gathering import Given

_KEY = re.compile(r"[A-Za-z][A-Za-z0-9-]{0,59}")


def key_of(key: str, first: Path) -> tuple[str, Problems]:
    """The source's key: as said, or made from the file's name."""
    if not key:
        key = _made(first.stem)
    if _KEY.fullmatch(key) and not key.endswith("-"):
        return key, ()
    return key, (
        Diagnostic(
            "T109",
            None,
            f"'{key}' cannot be the short name of a source: it is written before every § that cites it.",
            f"Begin with a letter, and use letters, digits and hyphens: --key {_made(key)}",
        ),
    )


def _made(words: str) -> str:
    made = re.sub(r"[^a-z0-9]+", "-", words.lower()).strip("-")
    return made[:60].strip("-") if made and not made[0].isdigit() else "book"


def folder_problems(folder: Path) -> Problems:
    """Whether there is a type folder to take a book into: a book among other files would be found by nobody."""
    hint = "Begin a type folder with: cutaway new NAME    then take the book with -C NAME"
    if not folder.is_dir():
        return (Diagnostic("T116", None, f"There is no folder '{folder}' to take it into; nothing was taken.", hint),)
    if (folder / "type.yaml").is_file():
        return ()
    shown = "The folder you are in" if folder == Path() else f"'{folder}'"
    return (
        Diagnostic("T116", None, f"{shown} is no type folder, it has no type.yaml; nothing was taken.", hint),
    )  # fmt: skip


def type_of(folder: Path) -> AircraftType | None:
    """What type.yaml says, for the marks; what is wrong in it is for `cutaway check` to tell."""
    try:
        file, _ = decoded((folder / "type.yaml").read_bytes(), "type.yaml")
    except OSError:
        return None
    tree = read_tree(file)[0] if file is not None else None
    return read_type(tree, folder.resolve().name)[0] if tree is not None else None


def last_record(folder: Path, key: str, given: tuple[Given, ...], new_copy: bool) -> tuple[dict[str, Any], Problems]:
    """What is known of the last taking under this key; a problem where the key belongs to something else."""
    try:
        record = json.loads((folder / "taken" / key / "taken.json").read_text(encoding="utf-8"))
        record = {"files": list(record["files"]), "written": dict(record["written"])}
    except (OSError, ValueError, KeyError, TypeError):
        record = {"files": [], "written": {}}
        if (folder / "sources" / f"{key}.md").exists():
            return record, (
                Diagnostic(
                    "T108",
                    None,
                    f"'sources/{key}.md' is there already and was not taken from a file; nothing was written.",
                    f"Give this one a name of its own: --key {key}-2",
                ),
            )
    known = {str(file.get("digest")) for file in record["files"]}
    if known and not new_copy and not known <= {one.digest for one in given}:
        names = ", ".join(str(file.get("name")) for file in record["files"])
        return record, (
            Diagnostic(
                "T108",
                None,
                f"'sources/{key}.md' was taken from {names}, which is not what is given now; nothing was written.",
                f"Give this one a name of its own with --key, or say --new-copy where it is another copy of "
                f"the same book; to add pages, name the earlier files too: {names} and then the new ones.",
            ),
        )
    return record, ()


def answers_of(folder: Path, key: str) -> tuple[tuple[Answer, ...] | None, Problems]:
    """The answers given so far; None where they cannot be read."""
    path = folder / "taken" / key / "confirm.yaml"
    try:
        data = path.read_bytes()
    except FileNotFoundError:
        return (), ()
    except OSError as fault:
        return None, (Diagnostic("T101", None, f"'{path}' cannot be read: {fault.strerror}.", "Mend its rights."),)
    file, problems = decoded(data, f"taken/{key}/confirm.yaml")
    return read_answers(file) if file is not None else (None, problems)
