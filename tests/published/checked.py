"""What a test of this folder is held to: its source, and the kind of evidence that the source is.

A function marked `checked(source, evidence)` is one check for each of its parametrised cases. `listed` finds them all,
so that a page can be made of them and they can be counted.
"""

import importlib
import pkgutil
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from math import prod
from types import ModuleType
from typing import Literal, TypeVar

import tests.published as folder

Evidence = Literal["P", "P/M", "L", "F", "M", "N"]
KINDS: dict[Evidence, str] = {
    "P": "read in print, and our own sum agrees with it",
    "P/M": "problem and inputs read in print, the printed result from memory of the named book and reproduced",
    "L": "from exact sizes, or a run of a named library or engine; no printed table was seen",
    "F": "a closed form on which two independent ways agree",
    "M": "the printed figure is from memory of the named book; the sum reproduces it",
    "N": "common practice: expected, never obeyed, and not counted",
}
NOT_HERE = ("test_captions", "test_published_checks")  # captions are held to a standard's text, not to figures

Test = TypeVar("Test", bound=Callable[..., object])


@dataclass(frozen=True, slots=True)
class Check:
    """One marked test. what: its name in words. area: the first sentence of its module. cases: how many figures."""

    what: str
    area: str
    source: str
    evidence: Evidence
    cases: int
    module: str


def checked(source: str, evidence: Evidence) -> Callable[[Test], Test]:
    """Marks a test with its source (author, title, number; or the package and version that ran) and its evidence."""

    def mark(test: Test) -> Test:
        test.held_to = (source, evidence)  # type: ignore[attr-defined]
        return test

    return mark


def modules() -> tuple[ModuleType, ...]:
    """The test modules of this folder that hold figures."""
    names = sorted(m.name for m in pkgutil.iter_modules(folder.__path__) if m.name.startswith("test_"))
    return tuple(importlib.import_module(f"tests.published.{name}") for name in names if name not in NOT_HERE)


def tests_of(module: ModuleType) -> Iterator[Callable[..., object]]:
    """The tests of a module, in the order in which they stand."""
    for name, value in vars(module).items():
        if name.startswith("test_") and callable(value) and value.__module__ == module.__name__:
            yield value


def cases_of(test: Callable[..., object]) -> int:
    """How many cases a test has by its parameters."""
    marks = getattr(test, "pytestmark", [])
    return prod(len(list(mark.args[1])) for mark in marks if mark.name == "parametrize")


def listed() -> tuple[Check, ...]:
    """Every marked test, module by module."""
    found = []
    for module in modules():
        area = (module.__doc__ or "").split("\n\n")[0].replace("\n", " ").split(". ")[0].rstrip(".:")
        for test in tests_of(module):
            held_to = getattr(test, "held_to", None)
            if held_to is not None:
                source, evidence = held_to
                what = test.__name__.removeprefix("test_").replace("_", " ")
                where = module.__name__.rpartition(".")[2]
                found.append(Check(what, area, source, evidence, cases_of(test), where))
    return tuple(found)
