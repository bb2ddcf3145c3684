"""The one writer of `sources/` and `taken/`: each file whole or as it was, and nothing outside the folder."""

import contextlib
import os
import tempfile
from collections.abc import Mapping
from pathlib import Path

from cutaway.problems.diagnostic import Diagnostic, Problems


def write_files(folder: Path, files: Mapping[str, bytes]) -> Problems:
    """Write files by their path in the type folder, in the order given; each beside its place, then swapped in."""
    for name, content in files.items():
        path = folder / name
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
            if not path.parent.resolve().is_relative_to(folder.resolve()):
                return (_cannot(name, "its folder is a link that leads out of the type folder"),)
            if not path.exists() or path.read_bytes() != content:
                _swap_in(path, content)
        except OSError as fault:
            return (_cannot(name, (fault.strerror or "the system refused").lower()),)
    return ()


def clear_crops(folder: Path, keep: frozenset[str]) -> None:
    """Take away strips of an earlier taking that are no longer shown; only files that bear such a name."""
    with contextlib.suppress(OSError):
        for path in folder.glob("p[0-9]*-[0-9]*.jpg"):
            if path.name not in keep:
                path.unlink()


def _swap_in(path: Path, content: bytes) -> None:
    handle, beside = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}-", suffix=".part")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            if path.suffix != ".jpg":  # strips can be made again, and there are thousands
                file.flush()
                os.fsync(file.fileno())
            os.fsync(file.fileno())
        Path(beside).chmod(path.stat().st_mode & 0o777 if path.exists() else 0o644)
        Path(beside).replace(path)
    except BaseException:
        with contextlib.suppress(OSError):
            Path(beside).unlink()
        raise


def _cannot(name: str, why: str) -> Diagnostic:
    return Diagnostic(
        "T111",
        None,
        f"'{name}' cannot be written: {why}.",
        "See that the folder is yours to write in and that the disk is not full; what was read is kept.",
    )
