"""What `cutaway new NAME` writes: a small type folder that runs as it stands, to be changed file by file."""

from collections.abc import Iterator
from importlib.resources import files
from importlib.resources.abc import Traversable


def template_files(name: str) -> tuple[tuple[str, str], ...]:
    """The files of a new type folder: paths inside it and their texts. name: the aircraft's, as a person writes it."""
    root = files("cutaway.handbook") / "template"
    return tuple((path, text.replace("{name}", _in_yaml(name))) for path, text in sorted(_texts(root, "")))


def _texts(folder: Traversable, path: str) -> Iterator[tuple[str, str]]:
    for entry in folder.iterdir():
        if entry.is_dir():
            yield from _texts(entry, f"{path}{entry.name}/")
        elif entry.name.endswith((".yaml", ".md")):
            yield f"{path}{entry.name}", entry.read_text(encoding="utf-8")


def _in_yaml(name: str) -> str:
    """The name as YAML text; quoted, so that a colon or a hash in it does no harm."""
    words = " ".join(name.split()) or "Unnamed"
    if (
        words.lower() != "null"
        and all(letter.isalnum() or letter in " -.&/" for letter in words)
        and words[0].isalpha()
    ):
        return words
    return "'" + words.replace("'", "''") + "'"
