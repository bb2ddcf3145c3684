"""One file that was asked for by name: whole, or not at all, and never over somebody's work unasked."""

import errno
import os
from pathlib import Path

import pytest

from cutaway.publish.single_file import refused_by_disk, write_file, write_files


def codes(problems) -> list[str]:
    return [problem.code for problem in problems]


def test_it_is_written_with_its_folder_and_nothing_beside_it(tmp_path: Path) -> None:
    path = tmp_path / "new" / "a.txt"
    assert write_file(path, b"one") == (path, ())
    assert path.read_bytes() == b"one" and list(path.parent.iterdir()) == [path]
    assert path.stat().st_mode & 0o400 and not path.stat().st_mode & 0o111


def test_k402_it_is_there_already(tmp_path: Path) -> None:
    path = tmp_path / "a.txt"
    path.write_bytes(b"mine")
    written, problems = write_file(path, b"one")
    assert written is None and codes(problems) == ["K402"] and path.read_bytes() == b"mine"
    assert write_file(path, b"one", replace=True) == (path, ()) and path.read_bytes() == b"one"
    assert codes(write_file(tmp_path, b"one", replace=True)[1]) == ["K402"]


def test_k404_the_disk_refuses(tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes(b"a file")
    written, problems = write_file(tmp_path / "a" / "b.txt", b"one")
    assert written is None and codes(problems) == ["K402"]
    assert codes(refused_by_disk(tmp_path / "a" / "b")) == ["K402"]
    long = tmp_path / ("x" * 300)
    assert refused_by_disk(tmp_path / "new" / "one") == () and [one.name for one in tmp_path.iterdir()] == ["a"]
    assert codes(write_file(long, b"one")[1]) == ["K404"]


def test_k404_a_full_disk_leaves_what_was_there(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(handle: int) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    path = tmp_path / "a.pdf"
    path.write_bytes(b"the last")
    monkeypatch.setattr(os, "fsync", full)
    written, problems = write_file(path, b"the next", replace=True)
    assert written is None and codes(problems) == ["K404"] and "full" in problems[0].message
    assert list(tmp_path.iterdir()) == [path] and path.read_bytes() == b"the last"


def test_of_several_those_that_can_be_are_written(tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes(b"mine")
    written, problems = write_files(((tmp_path / "a", b"1"), (tmp_path / "b", b"2")))
    assert written == (tmp_path / "b",) and codes(problems) == ["K402"]


def test_a_file_of_an_authors_is_never_written_over(tmp_path: Path) -> None:
    path = tmp_path / "01-fuel.md"
    path.write_text("# Mine\n")
    written, problems = write_file(path, b"not mine", replace=True)
    assert written is None and [problem.code for problem in problems] == ["K402"]
    assert path.read_text() == "# Mine\n"
