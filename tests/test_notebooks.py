"""The notebooks of the docs, run from top to bottom, and what they show."""

from pathlib import Path

import nbformat
import pytest
from nbclient import NotebookClient

NOTEBOOKS = sorted((Path(__file__).parents[1] / "docs" / "notebooks").glob("*.ipynb"))


@pytest.fixture(scope="module", params=NOTEBOOKS, ids=lambda path: path.stem)
def ran(request: pytest.FixtureRequest) -> nbformat.NotebookNode:
    """A notebook after a run; a cell that raises fails the test."""
    notebook = nbformat.read(request.param, as_version=4)
    place = {"metadata": {"path": str(request.param.parent)}}
    return NotebookClient(notebook, timeout=900, kernel_name="python3", resources=place).execute()


def test_there_is_a_notebook() -> None:
    assert [path.name for path in NOTEBOOKS] == ["whinchat.ipynb"]


def test_it_is_committed_without_output() -> None:
    for path in NOTEBOOKS:
        cells = nbformat.read(path, as_version=4).cells
        assert not any(cell.get("outputs") for cell in cells)


def test_its_answers_show_themselves(ran: nbformat.NotebookNode) -> None:
    pages = [out.data.get("text/html", "") for cell in ran.cells for out in cell.get("outputs", ()) if "data" in out]
    html = "\n".join(pages)
    assert "Whinchat: Mk 1, Mk 2, Mk 2 with mod 12" in html
    assert html.count("<polyline") >= 3  # the courses of the lamp, the gauge and the engine
    assert "Because " in html and "engine pump has failed (seized)" in html
    assert "Only Mk 1 has the fuel pressure gauge." in html
    assert "Did you mean fuel lamp?" in html
    assert not [out for cell in ran.cells for out in cell.get("outputs", ()) if out.output_type == "error"]
