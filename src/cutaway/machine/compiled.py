"""Plain functions into machine code, and where that code is kept between runs.

Laws and kernel are written as plain Python functions that call each other; `compiled` hands each, with all it calls, to
numba. So a law stays readable and runs under doctest, and there is no second copy of it. The compiled code is kept in a
folder named by the hash of every law and kernel source: a changed law can never be answered by code from before.
"""

import hashlib
import os
import sys
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path
from types import FunctionType
from typing import Any, cast

HERE = Path(__file__).resolve().parent
SOURCES = ("machine/kernel*.py", "machine/layout.py", "machine/compiled.py", "parts/laws/*.py")


def source_hash(package: Path = HERE.parent) -> str:
    """The hash of all law and kernel sources, names and contents, with the versions that compile them."""
    digest = hashlib.sha256()
    files = sorted(path for pattern in SOURCES for path in package.glob(pattern))
    for path in files:
        digest.update(path.relative_to(package).as_posix().encode() + b"\0" + path.read_bytes() + b"\0")
    digest.update(sys.version.encode())
    return digest.hexdigest()[:20]


@lru_cache(maxsize=1)
def kernel_hash() -> str:
    """The hash of this process's own sources, read once."""
    return source_hash()


def cache_folder(key: str) -> Path:
    """Where compiled code with this hash is kept: under XDG_CACHE_HOME, or else ~/.cache."""
    base = os.environ.get("XDG_CACHE_HOME", "")
    return (Path(base) if base else Path.home() / ".cache") / "cutaway" / "kernel" / key


def compiled(function: Callable[..., Any], seen: dict[Any, Any], **options: Any) -> Any:
    """The function in machine code, with every plain function that it calls.

    seen: what has been compiled already, by function. options: for the function itself, not for those it calls.
    """
    import numba

    if function in seen:
        return seen[function]
    source = cast(FunctionType, function)
    called = {
        name: compiled(source.__globals__[name], seen, no_cpython_wrapper=True)
        for name in source.__code__.co_names
        if isinstance(source.__globals__.get(name), FunctionType)
    }
    copy = FunctionType(source.__code__, {**source.__globals__, **called}, source.__name__, source.__defaults__)
    copy.__module__, copy.__qualname__ = source.__module__, source.__qualname__
    # No fast-math: same bits from every thread. 'numpy' errors: a division by zero is infinity, which the solver sees.
    # No counting of who holds an array: nothing is allocated here, and the counting took two thirds of the time.
    options |= {"nogil": True, "error_model": "numpy", "no_cfunc_wrapper": True, "_nrt": False}
    seen[function] = cast(Any, numba).njit(**options)(copy)
    return seen[function]


def cached(function: Callable[..., Any]) -> Any:
    """The function in machine code, loaded from the cache if it is there and kept in it if not.

    Without a folder to write to it is compiled every time.
    """
    import numba

    config = cast(Any, numba).config
    before = config.CACHE_DIR
    folder = cache_folder(kernel_hash())
    try:
        folder.mkdir(parents=True, exist_ok=True)
        # The place of the cache is read when a function is handed over, so it is set for that moment only.
        config.CACHE_DIR = str(folder)
        return compiled(function, {}, cache=True)
    except OSError:
        return compiled(function, {})
    finally:
        config.CACHE_DIR = before


@lru_cache(maxsize=1)
def kernel() -> Any:
    """The compiled kernel's one entry, `advance`. Made once in a process."""
    from cutaway.machine.kernel import advance

    return cached(advance)
