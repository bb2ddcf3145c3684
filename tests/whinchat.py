"""The demo, and the five sentences of it that the tests make wrong."""

from pathlib import Path

from ruamel.yaml import YAML

HERE = Path(__file__).parent
WHINCHAT = HERE.parent / "demo" / "whinchat"
WRONG = YAML(typ="safe").load((HERE / "whinchat_wrong.yaml").read_text(encoding="utf-8"))


def made_wrong(folder: Path, edits: list[dict[str, str]], file: str) -> None:
    """Put the edits of one entry into a copy of the type folder."""
    script = folder / file
    text = script.read_text(encoding="utf-8")
    for edit in edits:
        assert text.count(edit["find"]) == 1, f"{file} has no, or more than one: {edit['find']}"
        text = text.replace(edit["find"], edit["replace with"])
    script.write_text(text, encoding="utf-8")
