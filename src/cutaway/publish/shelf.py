"""Pieces of packs that were made before, kept by the content of all that they depend on.

A piece is named by the digest of what it is made from and of the program's own sources; so nothing stale can be found,
and a piece that cannot be read is as good as none. The folder may be lost at any time: that costs only the time to
make its pieces again.
"""

import os
import pickle
import sys
import tempfile
from collections.abc import Callable, Iterable, Mapping
from contextlib import suppress
from dataclasses import fields, is_dataclass
from functools import lru_cache
from hashlib import blake2b
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path
from typing import TypeVar, cast

from cutaway.problems.span import Span
from cutaway.publish.watched import Watched

T = TypeVar("T")
Names = tuple[str, ...] | None

ROOM = 300_000_000
"""How many bytes are kept; beyond that, what was not used for longest goes."""

_MARK = b"cutaway piece 1\n"
_DIGEST = 20
_LIBRARIES = ("numpy", "numba", "lark", "ruamel.yaml", "markdown-it-py", "num2words", "pillow", "matplotlib", "typst")
_SOURCES = (".py", ".css", ".js", ".lark", ".typ")


class Shelf:
    """Pieces kept between sessions in a folder; None keeps nothing. taken: how often one of an earlier session was."""

    def __init__(self, folder: Path | None, room: int = ROOM) -> None:
        self.folder = folder
        self.taken = 0
        self._room = room
        self._keys: set[str] = set()
        self._unkept = 0

    @property
    def made(self) -> int:
        """How many pieces were made in this session."""
        return len(self._keys) + self._unkept

    @property
    def keys(self) -> frozenset[str]:
        """The digests of those that were made in this session and kept."""
        return frozenset(self._keys)

    def made_beside(self, keys: Iterable[str]) -> None:
        """Count pieces as made in this session that another process made for it."""
        self._keys.update(keys)

    def has(self, sort: str, depends: object) -> bool:
        """Whether a piece is there, which may yet prove to be broken."""
        return self.folder is not None and (self.folder / digest(sort, depends)).exists()

    def piece(
        self, sort: str, depends: object, make: Callable[[], T], sound: Callable[[T], bool] = lambda made: True
    ) -> T:
        """A piece, taken from the shelf or made and put there.

        sort: what it is, 'sheet'. depends: all that it is made from, of records, texts and numbers; where in a file
        something stands does not count. make: makes it; it must be a function of `depends` and of nothing else. sound:
        whether it may be kept; not where an accident had a hand in it, such as a time limit.
        """
        if self.folder is None:
            self._unkept += 1
            return make()
        key = digest(sort, depends)
        found = self.kept(key)
        if found is not None:
            return cast(T, found[0])
        made = make()
        if sound(made):
            self.keep(key, made)
        else:
            self._unkept += 1
        return made

    def piece_of(
        self,
        sort: str,
        depends: object,
        values: Mapping[str, float],
        make: Callable[[Mapping[str, float]], T],
        sound: Callable[[T], bool] = lambda made: True,
    ) -> T:
        """A piece that depends on some of many values besides; which, is seen as it looks at them.

        The names that it looked at when it was last made are kept; it is the same as before if they have the same
        values, since it then looks at the same names again.
        """
        names_key = digest(f"{sort}: names", depends)
        names = self._read(names_key)
        if names is not None:
            found = self.kept(_key_of_values(sort, depends, values, cast(Names, names[0])))
            if found is not None:
                return cast(T, found[0])
        watched = Watched(values)
        made = make(watched)
        if sound(made):
            self._write(names_key, watched.looked_at)
            self.keep(_key_of_values(sort, depends, values, watched.looked_at), made)
        else:
            self._unkept += 1
        return made

    def kept(self, key: str) -> tuple[object] | None:
        """The piece under a digest, as a tuple of one; None where there is none that is whole."""
        found = self._read(key)
        self.taken += found is not None and key not in self._keys
        return found

    def keep(self, key: str, piece: object) -> None:
        """Put a piece that was just made under its digest."""
        self._keys.add(key)
        self._write(key, piece)

    def tidied(self) -> None:
        """Let go of what was not used for longest, where there is more than the room."""
        if self.folder is None:
            return
        with suppress(OSError):
            about = [(path, path.stat()) for path in self.folder.iterdir() if path.is_file()]
            too_much = sum(one.st_size for _, one in about) - self._room
            for path, one in sorted(about, key=lambda pair: (pair[1].st_mtime_ns, pair[0].name)):
                if too_much <= 0:
                    break
                path.unlink(missing_ok=True)
                too_much -= one.st_size

    def _read(self, key: str) -> tuple[object] | None:
        if self.folder is None:
            return None
        path = self.folder / key
        try:
            content = path.read_bytes()
            mark, rest = content[: len(_MARK)], content[len(_MARK) :]
            if mark != _MARK or blake2b(rest[_DIGEST:], digest_size=_DIGEST).digest() != rest[:_DIGEST]:
                return None
            found = pickle.loads(rest[_DIGEST:])
        except Exception:  # a piece of another version may fail in any way: it is then made again
            return None
        with suppress(OSError):
            os.utime(path)
        return (found,)

    def _write(self, key: str, piece: object) -> None:
        """Put a piece on the shelf; a full or locked disk costs only the next session's time."""
        if self.folder is None:
            return
        body = pickle.dumps(piece, protocol=5)
        content = _MARK + blake2b(body, digest_size=_DIGEST).digest() + body
        with suppress(OSError):
            self.folder.mkdir(parents=True, exist_ok=True)
            handle, name = tempfile.mkstemp(prefix=".part-", dir=self.folder)
            try:
                with os.fdopen(handle, "wb") as file:
                    file.write(content)
                Path(name).replace(self.folder / key)
            except BaseException:
                Path(name).unlink(missing_ok=True)
                raise


def _key_of_values(sort: str, depends: object, values: Mapping[str, float], names: Names) -> str:
    if names is None:
        return digest(sort, depends, dict(values))
    return digest(sort, depends, tuple((name, values.get(name)) for name in names))


# --- what a piece depends on ------------------------------------------------------------------------------------


def digest(*depends: object) -> str:
    """Stands for what a piece is made from, with the program's own sources; alike in every process.

    >>> digest("sheet", {"b": 1, "a": 2}) == digest("sheet", {"a": 2, "b": 1}) != digest("sheet", {"a": 2, "b": 2})
    True
    """
    into = blake2b(program().encode(), digest_size=_DIGEST)
    _feed(depends, into.update)
    return into.hexdigest()


def _feed(value: object, into: Callable[[bytes], object]) -> None:
    """Every record, text and number in a value, told apart by sort; of a span its words."""
    match value:
        case Span():
            _feed(value.text, into)
        case None | bool() | int() | float() | str() | bytes():
            into(f"{type(value).__name__}{len(value) if isinstance(value, str | bytes) else ''} ".encode())
            into(value if isinstance(value, bytes) else (value if isinstance(value, str) else repr(value)).encode())
        case tuple() | list():
            into(f"({len(value)} ".encode())
            for one in value:
                _feed(one, into)
        case dict():
            into(f"{{{len(value)} ".encode())
            for one in sorted(value, key=repr):
                _feed((one, value[one]), into)
        case frozenset() | set():
            into(f"<{len(value)} ".encode())
            for one in sorted(value, key=repr):
                _feed(one, into)
        case _ if is_dataclass(value) and not isinstance(value, type):
            into(f"{type(value).__name__} ".encode())
            for field in fields(value):
                _feed(getattr(value, field.name), into)
        case _:
            # A name of where it lives in memory would be another one in the next process.
            raise TypeError(f"{type(value).__name__} has no content that a piece could be kept by")


@lru_cache(maxsize=1)
def program() -> str:
    """Stands for all sources of this program and the libraries that pieces are made with."""
    package = Path(__file__).parents[1]
    found = blake2b(sys.version.encode(), digest_size=_DIGEST)
    for path in sorted(path for path in package.rglob("*") if path.suffix in _SOURCES):
        found.update(path.relative_to(package).as_posix().encode() + b"\0" + path.read_bytes() + b"\0")
    for library in _LIBRARIES:
        with suppress(PackageNotFoundError):
            found.update(f"{library} {version(library)}".encode())
    return found.hexdigest()
