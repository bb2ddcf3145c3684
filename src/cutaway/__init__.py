"""Cutaway: the handbook of a historic aircraft as an executable, cited model.

    import cutaway as cw
    folder = cw.load("demo/whinchat")
    cw.why(folder, "fuel lamp is lit", "cruising", do="tank selector to off")

`load`, `check`, `run`, `chart`, `why`, `failures`, `all_failures`, `suspects`, `reach`, `drill`, `compare`, `rests` and
`make` are those of `cutaway.api.facade`, which is imported when one of them is first used. Where the rest lives stands
in ARCHITECTURE.md.
"""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from cutaway.api.facade import (
        Answer,
        TypeFolder,
        all_failures,
        chart,
        check,
        compare,
        drill,
        failures,
        load,
        make,
        reach,
        rests,
        run,
        suspects,
        why,
    )

__all__ = [
    "Answer",
    "TypeFolder",
    "all_failures",
    "chart",
    "check",
    "compare",
    "drill",
    "failures",
    "load",
    "make",
    "reach",
    "rests",
    "run",
    "suspects",
    "why",
]


def __getattr__(name: str) -> object:
    """A name of the façade, imported when it is asked for: `cutaway --help` needs none of it."""
    if name not in __all__:
        raise AttributeError(f"module 'cutaway' has no attribute '{name}'")
    return getattr(import_module("cutaway.api.facade"), name)


def __dir__() -> list[str]:
    return sorted(__all__)
