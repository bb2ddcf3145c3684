"""Find paragraphs in a folder's books; make a new folder; the schemas for an editor."""

from dataclasses import dataclass
from pathlib import Path

from cutaway.api.loading import load
from cutaway.handbook.known import Known, known_by
from cutaway.handbook.new_folder import template_files
from cutaway.handbook.schema import json_schema
from cutaway.handbook.search import Hit, ParagraphIndex
from cutaway.parts.library import KINDS
from cutaway.problems.diagnostic import Diagnostic, Problems


@dataclass(frozen=True, slots=True)
class Found:
    """What a search found: the parts, controls and terms of that very name, and the paragraphs, best first."""

    known: tuple[Known, ...]
    hits: tuple[Hit, ...]


def find(folder: Path | str, words: str, limit: int = 8) -> tuple[Found | None, Problems]:
    """The paragraphs that speak of some words, and what of the folder is called so; None where there is no folder."""
    loaded, problems = load(folder)
    if loaded is None:
        return None, problems
    index = ParagraphIndex(loaded.folder.sources, loaded.folder.glossary)
    return Found(known_by(loaded.folder, words, index), index.search(words, limit)), ()


def new(folder: Path) -> tuple[Path | None, Problems]:
    """Write a small type folder that runs as it stands. Nothing that is there already is touched."""
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        words = f"'{folder}' is there already, and is not an empty folder."
        return None, (Diagnostic("C101", None, words, "Choose another name; nothing was written."),)
    try:
        for name, text in template_files(folder.resolve().name):
            path = folder / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
    except OSError as fault:
        return None, (
            Diagnostic("C105", None, f"'{folder}' cannot be written: {fault.strerror}.", "Choose a place of your own."),
        )
    return folder, ()


def schemas() -> dict[str, dict[str, object]]:
    """A JSON Schema for each sort of file, by the pattern of its path in a type folder."""
    return dict(json_schema(KINDS))
