"""Type folders for the tests of this room: the sample folder, with files of it replaced."""

import shutil
from pathlib import Path

from cutaway.handbook.load import load_folder
from cutaway.handbook.records import Folder
from cutaway.problems.diagnostic import Problems

SAMPLE = Path(__file__).parents[1] / "problems" / "sample"
WHINCHAT = Path(__file__).parents[2] / "demo" / "whinchat"


def write(folder: Path, files: dict[str, str]) -> Path:
    """The files written into a folder."""
    for name, text in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")
    return folder


def sample_with(folder: Path, files: dict[str, str]) -> Path:
    """A copy of the sample folder with files replaced."""
    target = folder / "sparrow"
    shutil.copytree(SAMPLE, target)
    return write(target, files)


def load_sample(folder: Path, files: dict[str, str]) -> tuple[Folder, Problems]:
    """The sample folder with files replaced, loaded."""
    loaded, problems = load_folder(sample_with(folder, files))
    assert loaded is not None
    return loaded, problems


def fuel(parts: str, lines: str = "", head: str = "system: Fuel\nsource: hb\n") -> dict[str, str]:
    """A systems/fuel.yaml of these parts and lines; other files that speak of the sample's parts are emptied."""
    text = (
        f"{head}parts:\n{_indented(parts)}lines:\n{_indented(lines)}" if lines else f"{head}parts:\n{_indented(parts)}"
    )
    return {
        "systems/fuel.yaml": text,
        "situations.yaml": "situations:\n  parked:\n",
        "services.yaml": "",
        "drills/starting.md": "---\nfrom: parked\n---\n\n1. Wait.\n",
    }


def codes(problems: Problems) -> list[str]:
    """The codes in the order in which they are shown."""
    return [problem.code for problem in problems]


def at_fault(problems: Problems, code: str) -> str:
    """The text that the one problem of this code marks."""
    (span,) = [problem.span for problem in problems if problem.code == code]
    assert span is not None
    return span.file.text[span.start : span.end]


def _indented(text: str) -> str:
    return "".join(f"  {line}\n" for line in text.strip("\n").split("\n"))
