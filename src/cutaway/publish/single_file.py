"""Writing one file that was asked for by name: whole or not at all, and never over somebody's work unasked."""

import errno
import os
import tempfile
from pathlib import Path

from cutaway.problems.diagnostic import Diagnostic, Problems

_AUTHORS = frozenset({".md", ".yaml", ".yml"})
"""Endings of the files of a type folder, which a person wrote."""


def in_the_way(path: Path, replace: bool = False) -> Problems:
    """What already stands where a file is to be written, so that it will not be; none where it can be tried."""
    if path.is_dir():
        message = f"'{path}' is a folder, and a file was to be written."
        return (Diagnostic("K402", None, message, f"Name a file, for instance {path / 'file'}."),)
    if path.exists() and path.suffix.lower() in _AUTHORS:
        message = f"'{path}' is a file of an author's, and is never written over."
        return (Diagnostic("K402", None, message, "Choose another name."),)
    if path.exists() and not replace:
        message = f"'{path}' is there already, and is not written over."
        return (Diagnostic("K402", None, message, "Choose another name, or say --replace."),)
    return ()


def refused_by_disk(path: Path) -> Problems:
    """Why no file could be made in a folder, whether it is there yet or not, so that nothing need be worked out for it;
    none where one could. It is tried, in the nearest folder that is there, and nothing is left."""
    fault = fault_of_disk(path)
    if isinstance(fault, NotADirectoryError):
        above = next(one for one in (path, *path.parents) if one.exists())
        return (_below_a_file(above, path),)
    return (_refused(path, fault),) if fault is not None else ()


def fault_of_disk(folder: Path) -> OSError | None:
    """What the machine says to a file in a folder, or in the nearest one above it; None where it takes one."""
    try:
        above = next((one for one in (folder, *folder.parents) if one.exists()), None)
        with tempfile.TemporaryFile(dir=above):
            return None
    except OSError as fault:
        return fault


def _below_a_file(above: Path, path: Path) -> Diagnostic:
    message = f"'{above}' is a file, so that '{path.name}' cannot be in it."
    return Diagnostic("K402", None, message, "Choose a folder of your own.")


def write_file(path: Path, content: bytes, replace: bool = False) -> tuple[Path | None, Problems]:
    """Write a file; its path, or why it was not written. replace: whether one that is there may be written over."""
    try:
        standing = in_the_way(path, replace)
        if standing:
            return None, standing
        above = next((one for one in path.parents if one.exists()), None)
        if above is not None and not above.is_dir():
            return None, (_below_a_file(above, path),)
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, name = tempfile.mkstemp(prefix=f".{path.name}.", dir=path.parent)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(content)
                file.flush()
                os.fsync(file.fileno())
            # As the file would be if it had been opened by its own name.
            mask = os.umask(0)
            os.umask(mask)
            Path(name).chmod(0o666 & ~mask)
            Path(name).replace(path)
        except BaseException:
            Path(name).unlink(missing_ok=True)
            raise
    except OSError as fault:
        return None, (_refused(path, fault),)
    return path, ()


def _refused(path: Path, fault: OSError) -> Diagnostic:
    if fault.errno in (errno.ENOSPC, errno.EDQUOT):
        return Diagnostic("K404", None, f"The disk is full; '{path}' was not written.", "Make room and try again.")
    reason = (fault.strerror or str(fault)).lower()
    return Diagnostic("K404", None, f"'{path}' could not be written: {reason}.", "Choose a folder of your own.")


def write_files(files: tuple[tuple[Path, bytes], ...], replace: bool = False) -> tuple[tuple[Path, ...], Problems]:
    """Write several files, each as `write_file` does; those that were written."""
    written: list[Path] = []
    problems: Problems = ()
    for path, content in files:
        done, more = write_file(path, content, replace)
        problems += more
        if done is not None:
            written.append(done)
    return tuple(written), problems
