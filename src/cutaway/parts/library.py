"""All kinds of part, by name, gathered from the files of `parts/kinds/`: a new kind needs no list but its own."""

from collections.abc import Iterator, Mapping
from importlib import import_module
from pkgutil import iter_modules
from types import MappingProxyType

from cutaway.parts import kinds
from cutaway.parts.kind import Kind


def declared() -> Iterator[Kind]:
    """Every kind in the `KINDS` of a file of `parts/kinds/`, file by file in the order of their names."""
    for module in sorted(iter_modules(kinds.__path__), key=lambda found: found.name):
        yield from getattr(import_module(f"{kinds.__name__}.{module.name}"), "KINDS", ())


KINDS: Mapping[str, Kind] = MappingProxyType({kind.name: kind for kind in declared()})


def kind(name: str) -> Kind:
    """The kind of that name. KeyError for a name that the library does not have."""
    return KINDS[name]
