"""A pack reaches the disk whole, or the last one stays; what somebody changed by hand is never lost."""

import errno
import json
import os
import sys
from pathlib import Path
from types import FrameType
from typing import Any

import pytest

from cutaway.api.making import make
from cutaway.problems.diagnostic import Problems
from cutaway.publish import pack
from cutaway.publish.pack import MARKER, changed_by_hand, write_pack

FIRST = {"index.html": b"<p>first</p>", "sheets/fuel.svg": b"<svg>1</svg>"}
SECOND = {"index.html": b"<p>second</p>", "sheets/vacuum.svg": b"<svg>2</svg>", "captions/01.vtt": b"WEBVTT\n"}


def content(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file() and path.name != MARKER
    }


def codes(problems: Problems) -> list[str]:
    return [problem.code for problem in problems]


def everything_under(folder: Path) -> set[bytes]:
    return {path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def test_a_pack_is_written_and_replaced(tmp_path: Path) -> None:
    target = tmp_path / "deep" / "whinchat-pack"
    assert write_pack(target, FIRST) == (target, ())
    assert content(target) == FIRST
    assert changed_by_hand(target) == ()
    assert write_pack(target, SECOND) == (target, ())
    assert content(target) == SECOND
    assert [path.name for path in target.parent.iterdir()] == ["whinchat-pack"]


def test_the_same_files_make_the_same_bytes(tmp_path: Path) -> None:
    write_pack(tmp_path / "a", FIRST)
    write_pack(tmp_path / "b", dict(reversed(FIRST.items())))
    assert (tmp_path / "a" / MARKER).read_bytes() == (tmp_path / "b" / MARKER).read_bytes()
    assert json.loads((tmp_path / "a" / MARKER).read_text())["files"].keys() == FIRST.keys()


def test_an_empty_folder_is_taken(tmp_path: Path) -> None:
    target = tmp_path / "pack"
    target.mkdir()
    assert write_pack(target, FIRST) == (target, ())
    assert content(target) == FIRST


def test_a_linked_folder_is_followed(tmp_path: Path) -> None:
    write_pack(tmp_path / "real", FIRST)
    (tmp_path / "link").symlink_to(tmp_path / "real", target_is_directory=True)
    assert write_pack(tmp_path / "link", SECOND) == (tmp_path / "real", ())
    assert content(tmp_path / "real") == SECOND
    assert (tmp_path / "link").is_symlink()


def test_a_file_in_the_way_is_not_replaced(tmp_path: Path) -> None:
    target = tmp_path / "notes"
    target.write_text("mine")
    written, problems = write_pack(target, FIRST)
    assert (written, codes(problems)) == (None, ["K101"])
    assert target.read_text() == "mine"


@pytest.mark.parametrize("marker", [None, "not json", '{"made by": "somebody"}', "[]", '{"made by": "cutaway"}'])
def test_a_folder_that_is_not_ours_is_not_replaced(tmp_path: Path, marker: str | None) -> None:
    target = tmp_path / "work"
    target.mkdir()
    (target / "letter.txt").write_text("dear")
    if marker is not None:
        (target / MARKER).write_text(marker)
    before = everything_under(tmp_path)
    written, problems = write_pack(target, FIRST)
    assert (written, codes(problems)) == (None, ["K102"])
    assert everything_under(tmp_path) == before


def test_what_was_changed_by_hand_is_kept_and_named(tmp_path: Path) -> None:
    target = tmp_path / "pack"
    write_pack(target, FIRST)
    (target / "index.html").write_bytes(b"my own words")
    (target / "sheets" / "added.txt").write_bytes(b"a note")
    assert changed_by_hand(target) == ("index.html", "sheets/added.txt")
    written, problems = write_pack(target, SECOND)
    assert written == target
    assert codes(problems) == ["K201"]
    assert "'pack kept/index.html'" in problems[0].message
    assert content(target) == SECOND
    assert content(tmp_path / "pack kept") == {"index.html": b"my own words", "sheets/added.txt": b"a note"}


def test_a_second_change_does_not_cover_the_first(tmp_path: Path) -> None:
    target = tmp_path / "pack"
    for words in (b"one", b"two", b"three"):
        write_pack(target, FIRST)
        (target / "index.html").write_bytes(words)
    write_pack(target, FIRST)
    assert content(tmp_path / "pack kept") == {
        "index.html": b"one",
        "index 2.html": b"two",
        "index 3.html": b"three",
    }


def failing(fault: OSError, after: int) -> Any:
    """A stand-in for os.fsync that fails at its call number `after`."""
    calls = 0

    def fsync(handle: int) -> None:
        nonlocal calls
        calls += 1
        if calls > after:
            raise fault

    return fsync


@pytest.mark.parametrize(
    "fault, code",
    [
        (OSError(errno.ENOSPC, "No space left on device"), "K104"),
        (PermissionError(errno.EACCES, "Permission denied"), "K103"),
        (OSError(errno.EIO, "Input/output error"), "K105"),
    ],
)
@pytest.mark.parametrize("after", [0, 1, 3])
def test_a_fault_of_the_disk_leaves_the_last_pack(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, fault: OSError, code: str, after: int
) -> None:
    target = tmp_path / "pack"
    write_pack(target, FIRST)
    monkeypatch.setattr(os, "fsync", failing(fault, after))
    written, problems = write_pack(target, SECOND)
    assert (written, codes(problems)) == (None, [code])
    assert content(target) == FIRST
    assert [path.name for path in tmp_path.iterdir()] == ["pack"]


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="the superuser may write anywhere")
def test_a_folder_of_somebody_else(tmp_path: Path) -> None:
    tmp_path.chmod(0o500)
    try:
        assert codes(write_pack(tmp_path / "pack", FIRST)[1]) == ["K103"]
    finally:
        tmp_path.chmod(0o700)


@pytest.mark.parametrize("name", ["../outside.txt", "/etc/outside", "", MARKER])
def test_a_path_out_of_the_pack_is_our_own_fault(tmp_path: Path, name: str) -> None:
    with pytest.raises(AssertionError):
        write_pack(tmp_path / "pack", {name: b""})


class Interrupter:
    """Raises KeyboardInterrupt at the n-th line of `pack.py` that is run."""

    def __init__(self, line: int) -> None:
        self.left = line
        self.fired = False

    def __call__(self, frame: FrameType, event: str, _: object) -> Any:
        if frame.f_code.co_filename != pack.__file__:
            return None
        if event == "line" and not self.fired:
            self.left -= 1
            if self.left < 0:
                self.fired = True
                raise KeyboardInterrupt
        return self


def interrupted(target: Path, line: int) -> bool:
    """Whether the interruption came before the work was done."""
    interrupter = Interrupter(line)
    before = sys.gettrace()
    sys.settrace(interrupter)
    try:
        write_pack(target, SECOND)
    except KeyboardInterrupt:
        pass
    finally:
        sys.settrace(before)
    return interrupter.fired


def test_an_interruption_at_any_line_leaves_a_whole_pack(tmp_path: Path) -> None:
    """Every line that `write_pack` runs is interrupted once, on a pack with a file that was changed by hand."""
    line = 0
    ended: set[str] = set()
    while True:
        base = tmp_path / str(line)
        target = base / "pack"
        write_pack(target, FIRST)
        (target / "notes.txt").write_bytes(b"by hand")
        if not interrupted(target, line):
            break
        # Between two renames the last pack stands under its waiting name, and the next run puts it back.
        if not target.exists():
            ended.add("waiting")
            assert content(base / ".pack.last") == {**FIRST, "notes.txt": b"by hand"}
        elif (target / "notes.txt").exists():
            ended.add("last")
            assert content(target) == {**FIRST, "notes.txt": b"by hand"}
        else:
            ended.add("new")
            assert content(target) == SECOND
            assert changed_by_hand(target) == ()
        assert b"by hand" in everything_under(base)
        assert write_pack(target, SECOND)[0] == target
        assert content(target) == SECOND
        assert b"by hand" in everything_under(base)
        assert {path.name for path in base.iterdir()} == {"pack", "pack kept"}
        line += 1
    assert line > 80, "the trace did not see the work"
    assert {"last", "new"} <= ended
    assert "waiting" not in ended, "an exception that Python can catch never leaves the target empty"


def test_k106_the_pack_of_another_type_is_not_replaced(tmp_path: Path) -> None:
    target = tmp_path / "show"
    write_pack(target, FIRST, of="Turnstone")
    (problem,) = pack.refused_folder(target, "Whinchat")
    assert problem.code == "K106" and "of another type, Turnstone," in problem.message
    assert f"--out {target}-whinchat," in problem.hint
    assert pack.refused_folder(target, "Turnstone") == () == pack.refused_folder(target)


def test_a_pack_of_before_that_says_no_type_is_replaced(tmp_path: Path) -> None:
    target = tmp_path / "show"
    write_pack(target, FIRST)
    assert pack.refused_folder(target, "Whinchat") == ()


def test_make_refuses_the_pack_of_another_type_and_leaves_it_whole(sample: Path, tmp_path: Path) -> None:
    target = tmp_path / "show"
    write_pack(target, FIRST, of="Turnstone")
    made, problems = make(sample, out=target, rests=False)
    assert made is None and "K106" in codes(problems) and content(target) == FIRST


def test_a_type_that_was_renamed_still_replaces_its_own_pack(sample: Path) -> None:
    write_pack(sample / "pack", FIRST, of="Turnstone")
    made, _ = make(sample, rests=False)
    assert made is not None and (sample / "pack" / "verdicts.json").exists()


def test_k101_a_file_on_the_way_is_named_and_another_folder_than_in_it(tmp_path: Path) -> None:
    (tmp_path / "notes").write_text("mine")
    for place in ("notes/pack", "notes/deep/pack"):
        (problem,) = pack.refused_folder(tmp_path / place)
        assert problem.code == "K101" and f"'{tmp_path / 'notes'}' is a file" in problem.message
        assert "notes-pack" in problem.hint
