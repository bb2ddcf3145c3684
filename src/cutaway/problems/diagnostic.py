"""The one record of something wrong, and how such records are put together."""

from dataclasses import dataclass
from typing import TypeVar

from cutaway.problems.catalogue import CATALOGUE, Severity
from cutaway.problems.span import Span

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Diagnostic:
    """One mistake or doubt.

    code: an entry of the catalogue. span: the text at fault, or None where no text is.
    message: what is wrong, a sentence in the user's words. hint: what to write instead, ready to paste.
    also: other places that have to do with it, each with a few words.
    """

    code: str
    span: Span | None
    message: str
    hint: str = ""
    also: tuple[tuple[Span, str], ...] = ()

    @property
    def severity(self) -> Severity:
        """'error': the item was left out. 'warning': it was kept."""
        return CATALOGUE[self.code].severity


Problems = tuple[Diagnostic, ...]


def has_error(problems: Problems) -> bool:
    """Whether any of the problems left an item out."""
    return any(p.severity == "error" for p in problems)


# What keeps a file from being read at all.
_UNREADABLE = frozenset({"H002", "H101", "H103", "H104", "H105", "H107"})

# The files in which causes stand before the files in which they have consequences.
_CAUSES_FIRST = ("type.yaml", "sources/", "decided.yaml", "systems/", "situations.yaml", "services.yaml", "")


def in_order(problems: Problems) -> Problems:
    """The problems by file, place and code, each once: the order in which every printer shows them.

    A file comes before those that build on it, one of systems/ that cannot be read before all others. What is told of
    a folder as a whole comes first; what is told of the question that is put to it, last.
    """

    def key(p: Diagnostic) -> tuple[int, str, int, int, str, str]:
        if p.span is None:
            return (-1 if p.code.startswith("H") else _ASKED, "", -1, -1, p.code, p.message)
        path = p.span.file.path
        if p.code in _UNREADABLE and path.startswith("systems/"):
            return (0, path, p.span.start, p.span.end, p.code, p.message)
        return (_stage(path), path, p.span.start, p.span.end, p.code, p.message)

    return tuple(sorted(set(problems), key=key))


# The stage of what is asked: after all that is written in files.
_ASKED = len(_CAUSES_FIRST)


def _stage(path: str) -> int:
    """Which stage a file belongs to; an option or a sentence of the command line is no file."""
    if path == "command line" or path.startswith("--"):
        return _ASKED
    return next(stage for stage, begins in enumerate(_CAUSES_FIRST) if path.startswith(begins))
