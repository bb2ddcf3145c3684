"""`docs/adding-a-part.md` is run: its file becomes a kind, the kind passes the library's tests, its folder works."""

import re
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from cutaway.inquiry.verdicts import Holds, Stated
from cutaway.parts import kinds, library
from cutaway.parts.kind import Kind
from tests.inquiry.folders import folder_at, system
from tests.parts import test_library

PAGE = Path(__file__).parent.parent / "docs" / "adding-a-part.md"
ASKED = [
    test_library.test_every_port_is_a_node_of_its_medium,
    test_library.test_names_are_given_once,
    test_library.test_elements_obey_their_family,
    test_library.test_the_families_declared_are_the_families_used,
    test_library.test_every_name_in_an_expression_is_there,
    test_library.test_what_can_be_asked_is_a_signal,
    test_library.test_every_failure_and_control_has_a_part_in_it,
    test_library.test_every_quantity_has_a_part_in_it,
    test_library.test_every_figure_that_can_be_can_be_built,
]


def block(language: str) -> str:
    """The one block of the page in a language."""
    (found,) = re.findall(rf"^```{language}\n(.*?)^```$", PAGE.read_text(encoding="utf-8"), re.DOTALL | re.MULTILINE)
    return str(found)


@pytest.fixture
def new(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Kind]:
    """The kind of the page, found by the library in a folder of kinds as if it stood with the others."""
    (name,) = re.findall(r"src/cutaway/parts/kinds/(\w+)\.py`\.", PAGE.read_text(encoding="utf-8"))
    (tmp_path / f"{name}.py").write_text(block("python"), encoding="utf-8")
    monkeypatch.setattr(kinds, "__path__", [*kinds.__path__, str(tmp_path)])
    found = {kind.name: kind for kind in library.declared()}
    (extra,) = found.keys() - library.KINDS.keys()
    monkeypatch.setattr(library, "KINDS", found)
    yield found[extra]
    sys.modules.pop(f"{kinds.__name__}.{name}", None)


def test_the_page_makes_a_kind_that_the_library_finds_sound(new: Kind) -> None:
    for test in ASKED:
        test(new)
    assert new.example is not None


def test_its_example_and_its_folder_work(new: Kind, tmp_path: Path) -> None:
    assert new.example is not None
    example = system(new.example.parts, new.example.lines)
    for name, text, claims in (
        ("example", example, new.example.claims),
        ("author", block("yaml"), tuple(block("claim").split("\n")[:-1])),
    ):
        folder = folder_at(tmp_path / name, {"systems/oil.yaml": text}, {**library.KINDS})
        assert folder.problems == ()
        verdicts = {claim: folder.verdict(claim) for claim in claims}
        assert claims and {c: v for c, v in verdicts.items() if not isinstance(v, Holds | Stated)} == {}
