"""Files that are missing, not text, too large, linked elsewhere: H001 to H008."""

import os
import sys
from pathlib import Path

import pytest

from cutaway.handbook.load import load_folder
from cutaway.handbook.reading import LARGEST, read_folder
from tests.handbook.folders import SAMPLE, codes, sample_with, write


def load(folder: Path) -> list[str]:
    return codes(load_folder(folder)[1])


def test_no_such_folder_is_h001(tmp_path):
    folder, problems = load_folder(tmp_path / "sparow")
    assert folder is None
    assert codes(problems) == ["H001"]
    assert "sparow" in problems[0].message


def test_a_file_in_place_of_the_folder_is_h001(tmp_path):
    (tmp_path / "type.yaml").write_text("name: Sparrow")
    assert load(tmp_path / "type.yaml") == ["H001"]


def test_a_path_that_no_system_takes_is_h001():
    assert codes(load_folder("a\0b")[1]) == ["H001"]


def test_an_empty_folder_is_h007(tmp_path):
    folder, problems = load_folder(tmp_path)
    assert folder is None
    assert codes(problems) == ["H007"]
    assert "cutaway new" in problems[0].hint


def test_a_folder_without_type_yaml_is_h006(tmp_path):
    folder, problems = load_folder(write(tmp_path, {"situations.yaml": "situations:\n  parked:\n"}))
    assert folder is None
    assert codes(problems) == ["H006"]


@pytest.mark.parametrize("text", ["", "\n\n", "# only a comment\n"])
def test_a_type_yaml_that_says_nothing_is_h006_or_told(text, tmp_path):
    folder, problems = load_folder(write(tmp_path, {"type.yaml": text, "services.yaml": ""}))
    assert folder is None
    assert codes(problems) == ["H006"]


@pytest.mark.parametrize("data", [b"%PDF-1.4\n\xe2\xe3\xcf\xd3\n", "Bücher".encode("latin-1"), b"a\0b"])
def test_a_file_that_is_not_text_is_h002_and_the_rest_loads(data, tmp_path):
    target = sample_with(tmp_path, {})
    (target / "sources/hb.md").write_bytes(data)
    folder, problems = load_folder(target)
    assert folder is not None and folder.parts
    assert set(codes(problems)) == {"H002"}


def test_the_line_that_is_not_text_is_named(tmp_path):
    target = sample_with(tmp_path, {})
    (target / "glossary.yaml").write_bytes(b"terms:\n  caf\xe9: {means: x}\n")
    (problem,) = load_folder(target)[1]
    assert "line 2" in problem.message


def test_a_file_that_is_a_folder_is_h003(tmp_path):
    target = sample_with(tmp_path, {})
    (target / "glossary.yaml").unlink()
    (target / "glossary.yaml").mkdir()
    assert load(target) == ["H003"]


@pytest.mark.skipif(sys.platform == "win32" or os.geteuid() == 0, reason="root may read everything")
def test_a_file_that_may_not_be_read_is_h003(tmp_path):
    target = sample_with(tmp_path, {})
    (target / "glossary.yaml").chmod(0)
    assert load(target) == ["H003"]


def test_a_refusal_of_the_system_is_h003(tmp_path, monkeypatch):
    target = sample_with(tmp_path, {})

    def refuse(path: Path) -> bytes:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "read_bytes", refuse)
    folder, problems = load_folder(target)
    assert folder is None
    assert set(codes(problems)) == {"H003"}


def test_a_huge_file_is_h004(tmp_path):
    target = sample_with(tmp_path, {"letters.yaml": "#" * (LARGEST + 1)})
    assert load(target) == ["H004"]


def test_a_link_out_of_the_folder_is_h005_and_is_not_read(tmp_path):
    secret = tmp_path / "secret.yaml"
    secret.write_text("letters:\n  a secret: {objects to: everything}\n")
    target = sample_with(tmp_path, {})
    (target / "letters.yaml").symlink_to(secret)
    folder, problems = load_folder(target)
    assert codes(problems) == ["H005"]
    assert folder is not None and not folder.letters
    assert all("secret" not in file.text for file in folder.files)


def test_a_linked_folder_is_h005(tmp_path):
    outside = write(tmp_path / "outside", {"x.md": "# x\n\nA sentence.\n"})
    target = sample_with(tmp_path, {"glossary.yaml": ""})
    (target / "scripts/01-fuel.md").unlink()
    (target / "scripts").rmdir()
    (target / "scripts").symlink_to(outside)
    assert load(target) == ["H005"]


def test_a_link_in_a_circle_is_h003(tmp_path):
    target = sample_with(tmp_path, {})
    (target / "letters.yaml").symlink_to(target / "letters.yaml")
    assert load(target) == ["H003"]


def test_a_link_inside_the_folder_is_followed(tmp_path):
    target = sample_with(tmp_path, {})
    (target / "sources/second.md").symlink_to(target / "sources/hb.md")
    folder, problems = load_folder(target)
    assert folder is not None and [source.key for source in folder.sources] == ["hb", "second"]
    assert "H005" not in codes(problems)


def test_the_folder_itself_may_be_a_link(tmp_path):
    target = sample_with(tmp_path, {})
    (tmp_path / "link").symlink_to(target)
    assert load(tmp_path / "link") == []


@pytest.mark.parametrize("name", ["systems/lamps.yml", "systems/lamps.YAML", "scripts/02.txt"])
def test_another_ending_is_h008(name, tmp_path):
    target = sample_with(tmp_path, {name: "system: Lamps\n"})
    folder, problems = load_folder(target)
    assert folder is not None
    assert codes(problems) == ["H008"]
    assert name in problems[0].message


def test_line_ends_of_windows_and_a_byte_order_mark_are_no_mistake(tmp_path):
    target = sample_with(tmp_path, {})
    for path in (one for one in target.rglob("*.*") if one.suffix != ".png"):
        text = path.read_text(encoding="utf-8")
        path.write_bytes(b"\xef\xbb\xbf" + text.replace("\n", "\r\n").encode())
    theirs, problems = load_folder(target)
    ours, _ = load_folder(SAMPLE)
    assert problems == ()
    assert theirs is not None and ours is not None
    assert [file.text for file in theirs.files] == [file.text for file in ours.files]


def test_files_come_in_a_fixed_order(tmp_path):
    target = sample_with(tmp_path, {"systems/a.yaml": "system: A\n", "systems/z.yaml": "system: Z\n"})
    texts, _ = read_folder(target)
    assert texts is not None
    assert [file.path for file in texts.under("systems")] == ["systems/a.yaml", "systems/fuel.yaml", "systems/z.yaml"]
