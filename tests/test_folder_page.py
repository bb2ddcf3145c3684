"""The page of the type folder: its samples are one folder that loads, and every key of the files stands on it."""

import re
import shutil
from pathlib import Path

import pytest

from cutaway.api.loading import load
from cutaway.handbook import shapes
from tests.conftest import SAMPLE

PAGE = (Path(__file__).parent.parent / "docs" / "folder.md").read_text(encoding="utf-8")
SHAPES = [one for one in vars(shapes).values() if isinstance(one, type) and issubclass(one, shapes.Shape)]


def samples() -> dict[str, str]:
    found = re.findall(r"^(`{3,4})(?:yaml|markdown) (\S+)\n(.*?)^\1$", PAGE, re.DOTALL | re.MULTILINE)
    return {name: text for _, name, text in found}


def test_the_samples_are_a_folder_that_loads(tmp_path: Path) -> None:
    assert len(samples()) == 17
    (tmp_path / "photographs").mkdir()
    shutil.copy(SAMPLE / "photographs" / "cock.png", tmp_path / "photographs" / "tank.png")
    for name, text in samples().items():
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text(text, encoding="utf-8")
    loaded, problems = load(tmp_path)
    assert loaded is not None and [(p.code, p.message) for p in problems if p.severity == "error"] == []
    assert [a.name for a in loaded.folder.sources[0].amendments] == ["A.L. 1", "A.L. 2"]


@pytest.mark.parametrize("shape", SHAPES, ids=lambda one: one.__name__)
def test_every_key_of_every_file_is_on_the_page(shape: type[shapes.Shape]) -> None:
    for name, field in shape.model_fields.items():
        assert re.search(rf"\b{re.escape(field.alias or name)}\b", PAGE), f"{shape.__name__}: {field.alias or name}"
