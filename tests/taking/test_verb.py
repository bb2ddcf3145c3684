"""The verb: what it prints, its exit codes, its record for programs."""

import json

from typer.testing import CliRunner

from cutaway.cli.main import app


def test_taking_a_text_and_finding_in_it(sample, tmp_path) -> None:
    (tmp_path / "notes.txt").write_text(
        "21. Bilge. The pump lifts 3 gallons.\n\n22. Anchor. Of iron.\n", encoding="utf-8"
    )
    done = CliRunner().invoke(app, ["take", str(tmp_path / "notes.txt"), "-C", str(sample), "--json"])
    assert done.exit_code == 0, done.output
    record = json.loads(done.stdout)
    assert record["sources"] == [{"key": "notes", "path": str(sample / "sources" / "notes.md"), "paragraphs": 2}]
    assert record["to confirm"] == 0 and record["problems"] == []
    found = CliRunner().invoke(app, ["find", "bilge", "-C", str(sample)])
    assert found.exit_code == 0 and "notes §21" in found.output


def test_a_file_that_is_not_there_ends_with_two_and_a_sentence(sample, tmp_path) -> None:
    done = CliRunner().invoke(app, ["take", str(tmp_path / "none.pdf"), "-C", str(sample)])
    assert done.exit_code == 2
    assert "none.pdf' cannot be read" in done.output and "T101" in done.output


def test_a_file_that_was_left_out_ends_with_one_and_is_named(sample, tmp_path) -> None:
    (tmp_path / "broken.png").write_bytes(b"\x89PNG\r\n\x1a\n broken")
    (tmp_path / "notes.txt").write_text("21. Bilge. The pump lifts 3 gallons.\n", encoding="utf-8")
    files = [str(tmp_path / "broken.png"), str(tmp_path / "notes.txt")]
    done = CliRunner().invoke(app, ["take", *files, "-C", str(sample), "--key", "notes"])
    assert done.exit_code == 1
    assert "Left out: " in done.stdout and "broken.png" in done.stdout and "The rest was taken." in done.stdout
    assert "1 paragraph\n" in done.stdout and "1 page." in done.stdout
