"""`cutaway photographs`: what is drawn, written and told."""

import json
from pathlib import Path

import pytest

from tests.cli.running import cutaway


@pytest.fixture
def shots(sample: Path) -> Path:
    text = (
        "photographs:\n  the cock: {file: photographs/cock.png, rights: Ours., station: wall, "
        "points: {fuel cock: [50 %, 50 %]}}\n  draft: {file: photographs/cock.png}\n"
    )
    (sample / "photographs.yaml").write_text(text, encoding="utf-8")
    return sample


def test_what_there_is_and_where_each_thing_is_seen(shots: Path) -> None:
    result = cutaway("photographs", shots)
    assert result.exit_code == 0 and "H909" in result.stderr
    assert result.stdout.splitlines() == [
        "the cock: 1 point; wall", "draft: 0 points", "  for drafts only: it has no rights", "By part:",
        "  fuel cock: the cock", "By station:", "  wall: the cock", "By standard:", "  Mk 1: the cock, draft",
        "  Mk 2: the cock, draft",
    ]  # fmt: skip


def test_drawings_are_written_and_never_over_others_unasked(shots: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    result = cutaway("photographs", shots, "--name", "The Cock", "--out", out)
    assert result.exit_code == 0 and sorted(p.name for p in out.iterdir()) == ["the-cock.svg"]
    assert cutaway("photographs", shots, "--name", "the cock", "--out", out).exit_code == 0
    (out / "the-cock.svg").write_text("mine")
    assert "K402" in cutaway("photographs", shots, "--name", "the cock", "--out", out).stderr
    assert (out / "the-cock.svg").read_text() == "mine"
    assert cutaway("photographs", shots, "--name", "the cock", "--out", out, "--replace", "--dark").exit_code == 0
    assert (out / "the-cock-dark.svg").exists()


def test_for_a_program(shots: Path) -> None:
    record = json.loads(cutaway("photographs", shots, "--json", "--name", "the cock").stdout)
    assert [one["name"] for one in record["photographs"]] == ["the cock"]
    assert record["by part"] == {"fuel cock": ["the cock"]}


def test_wrong_use(shots: Path, sample: Path) -> None:
    result = cutaway("photographs", shots, "--name", "the cok")
    assert (result.exit_code, "C132" in result.stderr, "Did you mean the cock?" in result.stderr) == (2, True, True)
    assert cutaway("photographs", shots, "--light", "--dark").exit_code == 2
    (sample / "photographs.yaml").unlink()
    result = cutaway("photographs", sample)
    assert result.exit_code == 1 and "C131" in result.stderr
