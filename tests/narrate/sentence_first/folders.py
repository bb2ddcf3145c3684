"""Type folders with books and scripts and no model."""

from pathlib import Path

from cutaway.handbook.load import load_folder
from cutaway.handbook.records import Folder, Script, Sentence
from cutaway.problems.span import Span, TextFile, whole

HERE = Path(__file__).parent
WHINCHAT = HERE.parents[2] / "demo" / "whinchat"


def write(root: Path, files: dict[str, str]) -> Path:
    """A folder of these files."""
    for name, text in files.items():
        (root / name).parent.mkdir(parents=True, exist_ok=True)
        (root / name).write_text(text, encoding="utf-8")
    return root


def bare_whinchat(root: Path, script: str = "") -> Path:
    """The Whinchat with its model taken away: type, book and one script."""
    about = (WHINCHAT / "type.yaml").read_text(encoding="utf-8").replace("    missing: [hand pump]\n", "")
    text = script or (HERE / "script.md").read_text(encoding="utf-8")
    book = (WHINCHAT / "sources/hb.md").read_text(encoding="utf-8")
    return write(root, {"type.yaml": about, "sources/hb.md": book, "scripts/01-all.md": text})


def loaded(root: Path) -> Folder:
    """The folder, which must have nothing wrong in it."""
    folder, problems = load_folder(root)
    assert folder is not None and problems == ()
    return folder


def spoken(*lines: str) -> Script:
    """A script of these sentences, each a chapter of its own, so that none leans on the one before."""
    file = TextFile("scripts/x.md", "\n".join(lines))
    sentences: list[Sentence] = []
    at = 0
    for place, line in enumerate(lines):
        sentences.append(Sentence(line, str(place), 1, (), (), False, Span(file, at, at + len(line))))
        at += len(line) + 1
    return Script("x", "x", tuple(sentences), whole(file))
