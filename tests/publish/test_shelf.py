"""The shelf of pieces: never stale, never broken, and no harm where it cannot be used."""

import errno
import os
import subprocess
import sys
from collections.abc import Mapping
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest

from cutaway.problems.span import Span, TextFile
from cutaway.publish import shelf as shelf_file
from cutaway.publish.shelf import Shelf, digest


def put(shelf: Shelf, depends: object = "a", piece: object = b"piece") -> object:
    return shelf.piece("sort", depends, lambda: piece)


def refuse() -> Any:
    raise AssertionError("it was made although it is on the shelf")


def entries(folder: Path) -> list[Path]:
    return sorted(folder.iterdir())


def test_a_piece_is_made_once_and_again_only_for_other_content(tmp_path: Path) -> None:
    assert put(Shelf(tmp_path)) == b"piece"
    later = Shelf(tmp_path)
    assert later.piece("sort", "a", refuse) == b"piece"
    assert put(later, "b", b"other") == b"other" and later.piece("other sort", "a", lambda: 1) == 1
    assert (later.taken, later.made) == (1, 2)
    assert Shelf(None).piece("sort", "a", lambda: 2) == 2


def test_nothing_is_a_piece_too(tmp_path: Path) -> None:
    put(Shelf(tmp_path), piece=None)
    assert Shelf(tmp_path).piece("sort", "a", refuse) is None


def test_what_an_accident_had_a_hand_in_is_not_kept(tmp_path: Path) -> None:
    shelf = Shelf(tmp_path)
    assert shelf.piece("sort", "a", lambda: 1, lambda made: made != 1) == 1
    assert shelf.piece("sort", "a", lambda: 2, lambda made: made != 1) == 2
    assert shelf.piece("sort", "a", refuse) == 2


def test_an_interruption_keeps_nothing(tmp_path: Path) -> None:
    def stopped() -> None:
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        Shelf(tmp_path).piece("sort", "a", stopped)
    assert entries(tmp_path) == []


def test_a_broken_or_cut_off_piece_is_made_anew(tmp_path: Path) -> None:
    put(Shelf(tmp_path), piece={"text": "x" * 50})
    (path,) = entries(tmp_path)
    whole = path.read_bytes()
    broken = [whole[:length] for length in range(len(whole))]
    broken += [whole[:at] + bytes([whole[at] ^ 1]) + whole[at + 1 :] for at in range(len(whole))]
    for content in (*broken, whole + b"more"):
        path.write_bytes(content)
        shelf = Shelf(tmp_path)
        assert put(shelf, piece="anew") == "anew" and shelf.made == 1
        assert Shelf(tmp_path).piece("sort", "a", refuse) == "anew"


@pytest.mark.parametrize("fault", [errno.ENOSPC, errno.EROFS, errno.EACCES])
@pytest.mark.parametrize("where", ["mkstemp", "fdopen"])
def test_a_full_or_locked_disk_costs_only_time(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, fault: int, where: str
) -> None:
    def refused(*handles: Any, **_: object) -> None:
        if where == "fdopen":
            os.close(handles[0])
        raise OSError(fault, os.strerror(fault))

    monkeypatch.setattr(*((shelf_file.tempfile, "mkstemp") if where == "mkstemp" else (os, "fdopen")), refused)
    shelf = Shelf(tmp_path / "pieces")
    assert put(shelf) == put(shelf) == b"piece"
    assert shelf.made == 1 and entries(tmp_path / "pieces") == []
    shelf.tidied()


def test_a_folder_that_is_a_file(tmp_path: Path) -> None:
    (tmp_path / "pieces").write_text("mine")
    shelf = Shelf(tmp_path / "pieces")
    assert put(shelf) == b"piece"
    shelf.tidied()
    assert (tmp_path / "pieces").read_text() == "mine"


def test_two_at_once_do_not_disturb_each_other(tmp_path: Path) -> None:
    def work(_: int) -> bool:
        shelf = Shelf(tmp_path)
        return all(put(shelf, n % 3, bytes([n % 3]) * 5000) == bytes([n % 3]) * 5000 for n in range(60))

    with ThreadPoolExecutor(4) as threads:
        assert all(threads.map(work, range(4)))
    assert len(entries(tmp_path)) == 3


def test_what_was_not_used_for_longest_goes(tmp_path: Path) -> None:
    shelf = Shelf(tmp_path, room=2600)
    for n, name in enumerate("abcd"):
        put(shelf, name, bytes(1000))
        os.utime(tmp_path / digest("sort", name), (n, n))
    assert Shelf(tmp_path).piece("sort", "a", refuse) == bytes(1000)
    shelf.tidied()
    assert {path.name for path in entries(tmp_path)} == {digest("sort", "a"), digest("sort", "d")}


# --- what a piece is named by ----------------------------------------------------------------------------------------


def test_the_words_of_a_span_count_and_not_its_place() -> None:
    here, there = TextFile("a.yaml", "x: 1\n"), TextFile("a.yaml", "# more\nx: 1\n")
    assert digest(Span(here, 0, 4)) == digest(Span(there, 7, 11)) != digest(Span(there, 0, 6))


@pytest.mark.parametrize(
    "one, other",
    [
        (("ab", "c"), ("a", "bc")),
        ((1, 2), ((1,), 2)),
        ("1", 1),
        (1, 1.0),
        (True, 1),
        (None, "None"),
        (b"a", "a"),
        ({"a": 1}, (("a", 1),)),
        (0.1 + 0.2, 0.3),
        (0.0, -0.0),
    ],
)
def test_what_differs_is_told_apart(one: object, other: object) -> None:
    assert digest(one) != digest(other)


def test_what_has_no_content_is_refused() -> None:
    with pytest.raises(TypeError):
        digest(object())


def test_the_digest_is_alike_in_every_process() -> None:
    code = "from cutaway.publish.shelf import digest; print(digest({'b', 'a', 'c'}, {'x': 1.5, 'y': frozenset('pq')}))"
    found = {
        subprocess.run(
            [sys.executable, "-c", code], env={**os.environ, "PYTHONHASHSEED": seed}, capture_output=True, check=True
        ).stdout
        for seed in ("1", "2")
    }
    assert found == {f"{digest({'b', 'a', 'c'}, {'x': 1.5, 'y': frozenset('pq')})}\n".encode()}


# --- pieces of values ----------------------------------------------------------------------------------------------


def test_only_values_that_were_looked_at_count(tmp_path: Path) -> None:
    shelf = Shelf(tmp_path)

    def look(values: Mapping[str, float]) -> str:
        return f"{values.get('b', 0.0) if values['a'] > 1 else values.get('c')}"

    def piece(**values: float) -> str:
        return shelf.piece_of("sort", "x", values, look)

    assert piece(a=2.0, b=5.0, c=1.0) == piece(a=2.0, b=5.0, c=7.0) == "5.0"
    assert shelf.made == 1
    assert piece(a=2.0, c=1.0) == "0.0" and piece(a=0.0, b=5.0, c=1.0) == "1.0" and shelf.made == 3
    assert piece(a=0.0, b=6.0, c=1.0) == "1.0" and piece(a=0.0, c=2.0) == "2.0"
    assert (shelf.made, shelf.taken) == (4, 0)  # none is of an earlier session


def test_to_go_through_all_values_is_to_look_at_all(tmp_path: Path) -> None:
    shelf = Shelf(tmp_path)
    for values in ({"a": 1.0}, {"a": 1.0, "b": 2.0}, {"a": 1.0}):
        assert shelf.piece_of("sort", "x", values, lambda seen: sum(seen.values())) == sum(values.values())
