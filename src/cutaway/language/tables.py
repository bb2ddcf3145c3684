"""The tables that the grammar is parsed with, kept in the user's cache folder: to work them out takes a tenth of a
second, to read them a hundredth. The file is named by all that they follow from; a broken one is as good as none."""

import io
import os
import sys
import tempfile
from collections.abc import Callable
from contextlib import suppress
from hashlib import blake2b
from pathlib import Path

from lark import Lark, __version__

_DIGEST = 20


def kept_tables(grammar: str, options: str, make: Callable[[], Lark]) -> Lark:
    """The parser of a grammar. options: in words, what else `make` goes by. make: works the tables out."""
    path = _place(_digest(f"{grammar}\0{options}\0{__version__}\0{sys.version}".encode()).hex())
    if path is None:
        return make()
    try:
        content = path.read_bytes()
        if _digest(content[_DIGEST:]) == content[:_DIGEST]:
            return Lark.load(io.BytesIO(content[_DIGEST:]))
    except Exception:  # what another version left may fail in any way; the tables are then made again
        pass
    made = make()
    _keep(path, made)
    return made


def _keep(path: Path, parser: Lark) -> None:
    """Write beside and rename, so that nobody reads half of it; a disk that refuses costs only time."""
    into = io.BytesIO()
    parser.save(into)
    body = into.getvalue()
    with suppress(OSError):
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(prefix=".part-", dir=path.parent)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(_digest(body) + body)
            Path(name).replace(path)
        except BaseException:
            Path(name).unlink(missing_ok=True)
            raise


def _place(key: str) -> Path | None:
    base = os.environ.get("XDG_CACHE_HOME", "")
    try:
        return (Path(base) if base else Path.home() / ".cache") / "cutaway" / "grammar" / key
    except RuntimeError:  # no home
        return None


def _digest(content: bytes) -> bytes:
    return blake2b(content, digest_size=_DIGEST).digest()
