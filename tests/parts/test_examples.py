"""The worked example of each kind: its small network runs, and everything that is said of it holds."""

from pathlib import Path

import pytest

from cutaway.inquiry.verdicts import Holds, Stated
from cutaway.parts.kind import Kind
from cutaway.parts.library import KINDS
from tests.inquiry.folders import folder_at, system


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.name)
def test_the_example_of_a_kind_holds(kind: Kind, tmp_path: Path) -> None:
    assert kind.example is not None, "a kind has a worked example"
    folder = folder_at(tmp_path, {"systems/example.yaml": system(kind.example.parts, kind.example.lines)})
    assert any(part.kind == kind.name for part in folder.loaded.folder.parts)
    assert kind.example.claims
    if kind.failures:
        assert any(f"{failure.name}" in claim for failure in kind.failures for claim in kind.example.claims)
    verdicts = {claim: folder.verdict(claim) for claim in kind.example.claims}
    assert {c: v for c, v in verdicts.items() if not isinstance(v, Holds | Stated)} == {}
