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


def write_file(path: Path, content: bytes, replace: bool = False) -> tuple[Path | None, Problems]:
    """Write a file; its path, or why it was not written. replace: whether one that is there may be written over."""
    try:
        standing = in_the_way(path, replace)
        if standing:
            return None, standing
        above = next((one for one in path.parents if one.exists()), None)
        if above is not None and not above.is_dir():
            message = f"'{above}' is a file, so that '{path.name}' cannot be in it."
            return None, (Diagnostic("K404", None, message, "Choose a folder of your own."),)
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
