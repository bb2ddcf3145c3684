"""Where Cutaway keeps what it may lose: a cache folder of the user's, never the type folder."""

import os
from pathlib import Path


def cache_folder() -> Path | None:
    """The user's cache folder for Cutaway, or None where there is no home to put it in."""
    base = os.environ.get("XDG_CACHE_HOME")
    if base:
        return Path(base) / "cutaway"
    try:
        return Path.home() / ".cache" / "cutaway"
    except RuntimeError:
        return None


def layouts_folder() -> Path | None:
    """The folder of layouts of sheets that were found before."""
    folder = cache_folder()
    return folder / "layout" if folder is not None else None


def memory_file() -> Path | None:
    """The file of remembered verdicts."""
    folder = cache_folder()
    return folder / "verdicts.sqlite" if folder is not None else None


def heard_file() -> Path | None:
    """The file of what was heard in recordings."""
    folder = cache_folder()
    return folder / "heard.sqlite" if folder is not None else None


def pack_folder(folder: Path) -> Path:
    """Where the pack of a type folder goes when nothing else is said."""
    return folder / "pack"
