"""The one writer of files: puts a pack on the disk whole, or leaves the last one as it was.

A pack is written to a hidden folder beside its target and then swapped in by renaming. `pack.json` in it lists the
digest of every file, by which the next run knows that the folder is a pack, and which files were changed by hand.
"""

import errno
import hashlib
import json
import os
import re
import shutil
import tempfile
from collections.abc import Mapping
from pathlib import Path, PurePosixPath

from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.publish.single_file import fault_of_disk

MARKER = "pack.json"
_FORMAT = 1


def write_pack(target: Path, files: Mapping[str, bytes], of: str = "") -> tuple[Path | None, Problems]:
    """Write the files (by their path in the pack, with `/`) as the folder `target`; the folder, or why not.

    of: the name of the type, which the pack says of itself; whether one of another type may be replaced is asked of
    `refused_folder` before.

    Whatever interrupts this, `target` is afterwards the last pack or the new one, never a mixture. Files of the last
    pack that somebody changed or added are moved to `<target> kept` and named in a problem.
    """
    assert all(_is_inside(name) for name in files), "a path that leads out of the pack"
    try:
        target = target.resolve()
        refused = refused_folder(target)
        if refused:
            return None, refused
        kept = _recovered(target)
        target.parent.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryDirectory(prefix=f".{target.name}.making-", dir=target.parent) as making:
            new = Path(making) / "pack"
            _write_all(new, files, of, target)
            _swap(new, target)
        kept += _retired(target)
        return target, _told_kept(kept)
    except OSError as fault:
        return None, (_trouble(target, fault),)


def changed_by_hand(folder: Path) -> tuple[str, ...]:
    """Files of a pack that differ from what was written, or that were added since, in order."""
    digests = _digests(folder)
    if digests is None:
        return ()
    return tuple(
        name
        for path in sorted(folder.rglob("*"))
        if path.is_symlink() or not path.is_dir()
        if (name := path.relative_to(folder).as_posix()) != MARKER
        if path.is_symlink() or digests.get(name) != _digest(path.read_bytes())
    )


# --- writing -----------------------------------------------------------------------------------------------------


def _is_inside(name: str) -> bool:
    path = PurePosixPath(name)
    return bool(path.parts) and not path.is_absolute() and ".." not in path.parts and name != MARKER


def _write_all(folder: Path, files: Mapping[str, bytes], of: str, last: Path) -> None:
    folder.mkdir()
    known = _digests(last) or {}
    digests = {name: _digest(content) for name, content in sorted(files.items())}
    for name, digest in digests.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        if known.get(name) != digest or not _linked(last / name, path, files[name]):
            _write(path, files[name])
    _write(folder / MARKER, _marker(digests, of))
    for path in (*folder.rglob("*"), folder):
        if path.is_dir():
            _settle(path)


def _linked(old: Path, path: Path, content: bytes) -> bool:
    """Take over a file of the last pack that is the same to the last byte, which spares the disk most of a pack. The
    last pack goes as soon as this one stands, so that nobody comes to edit two files at once."""
    try:
        if old.is_symlink() or old.read_bytes() != content:
            return False
        os.link(old, path)
    except OSError:  # a disk that knows no links, say
        return False
    return True


def _write(path: Path, content: bytes) -> None:
    with path.open("xb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


def _settle(folder: Path) -> None:
    """Make the disk keep the names in a folder, where the operating system lets a folder be opened for that."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _marker(digests: Mapping[str, str], of: str) -> bytes:
    record = {
        "made by": "cutaway",
        "format": _FORMAT,
        "type": of,
        "files": dict(digests),
    }
    return (json.dumps(record, indent=1, ensure_ascii=False) + "\n").encode()


def _digest(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


# --- swapping ----------------------------------------------------------------------------------------------------


def _last(target: Path) -> Path:
    """Where the last pack waits while the new one is renamed."""
    return target.with_name(f".{target.name}.last")


def _swap(new: Path, target: Path) -> None:
    last = _last(target)
    try:
        if target.exists():
            target.rename(last)
        new.rename(target)
    except BaseException:
        if last.exists() and not target.exists():
            last.rename(target)
        raise
    _settle(target.parent)


def _recovered(target: Path) -> tuple[str, ...]:
    """Finish what an interrupted run left: put the last pack back, or clear it away if the new one stands."""
    last = _last(target)
    if last.exists() and not target.exists():
        last.rename(target)
    return _retired(target)


def _retired(target: Path) -> tuple[str, ...]:
    """Remove the last pack; files that were changed by hand are moved aside first. Their new paths."""
    last = _last(target)
    if not last.exists():
        return ()
    kept: tuple[str, ...] = ()
    if _digests(last) is not None:
        kept = tuple(_kept(last / name, name, target) for name in changed_by_hand(last))
        # The marker goes last, so that what an interruption leaves is still known as ours.
        for path in last.iterdir():
            if path.is_dir() and not path.is_symlink():
                shutil.rmtree(path)
            elif path.name != MARKER:
                path.unlink()
        (last / MARKER).unlink()
    last.rmdir()
    return kept


def _kept(path: Path, name: str, target: Path) -> str:
    """Move one file to a free name under `<target> kept`."""
    aside = target.with_name(f"{target.name} kept")
    place = aside / name
    number = 1
    while place.exists() or place.is_symlink():
        number += 1
        place = (aside / name).with_name(f"{Path(name).stem} {number}{Path(name).suffix}")
    place.parent.mkdir(parents=True, exist_ok=True)
    path.rename(place)
    return place.relative_to(target.parent).as_posix()


# --- refusing ----------------------------------------------------------------------------------------------------


def _record(folder: Path) -> dict[str, object] | None:
    """What a pack says of itself; None if the folder is no pack."""
    try:
        record = json.loads((folder / MARKER).read_bytes())
    except (OSError, ValueError):
        return None
    return record if isinstance(record, dict) and record.get("made by") == "cutaway" else None


def _digests(folder: Path) -> dict[str, str] | None:
    """The digests that a pack says of itself; None if the folder is no pack."""
    files = (_record(folder) or {}).get("files")
    if not isinstance(files, dict):
        return None
    return {str(name): str(digest) for name, digest in files.items()}


def refused_folder(target: Path, of: str = "") -> Problems:
    """Why a pack would not be written there; () where it would, so far as can be told without writing.

    of: the name of the type whose pack it is; '' where any may be replaced.
    """
    above = next((one for one in target.parents if one.exists()), None)
    if above is not None and not above.is_dir():
        message = f"'{above}' is a file, so that no folder can be in it."
        return (Diagnostic("K101", None, message, f"Choose another folder, for instance {above}-pack."),)
    if not target.exists():
        return ()
    if not target.is_dir():
        message = f"'{target}' is a file; a pack is a folder."
        return (Diagnostic("K101", None, message, f"Choose another name, for instance {target.name}-pack."),)
    if _digests(target) is None and any(target.iterdir()):
        message = f"'{target}' has other files in it and is not a pack, so it is not replaced."
        return (Diagnostic("K102", None, message, f"Choose a new folder, for instance {target.name}/pack."),)
    other = (_record(target) or {}).get("type") or of
    if of and other != of:
        message = f"'{target}' is the pack of another type, {other}, and is not replaced by that of {of}."
        hint = f"Choose another folder, for instance --out {target}-{_plain(of)}, or remove that pack first."
        return (Diagnostic("K106", None, message, hint),)
    return ()


def unwritable(target: Path) -> Problems:
    """Why the disk would not take a pack there, so that none need be made; () where it would."""
    fault = fault_of_disk(target.parent)
    return (_trouble(target, fault),) if fault is not None else ()


def _plain(name: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-") or "pack"


def _trouble(target: Path, fault: OSError) -> Diagnostic:
    if isinstance(fault, PermissionError):
        return Diagnostic("K103", None, f"There is no permission to write '{target}'.", "Choose a folder of your own.")
    if fault.errno in (errno.ENOSPC, errno.EDQUOT):
        return Diagnostic("K104", None, f"The disk is full; '{target}' was not made.", "Make room and try again.")
    reason = fault.strerror or str(fault)
    return Diagnostic("K105", None, f"'{target}' could not be written: {reason}.", "Try another folder.")


def _told_kept(kept: tuple[str, ...]) -> Problems:
    if not kept:
        return ()
    files = ", ".join(f"'{name}'" for name in kept)
    message = f"Files of the last pack had been changed by hand or added; they are kept as {files}."
    return (Diagnostic("K201", None, message, "Change the type folder instead; the pack is made from it."),)
