"""What is kept between sessions of one type folder: what its machines told, what checking found, pieces of its pack."""

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TypeVar

from cutaway.api.loading import Loaded
from cutaway.inquiry.check import not_yet
from cutaway.inquiry.verdicts import Undecided
from cutaway.inquiry.workshop import Workshop
from cutaway.narrate.checked import Asking, CheckedSentence, CheckedStep, Keep
from cutaway.parts.kind import Kind
from cutaway.parts.library import KINDS
from cutaway.problems.diagnostic import Problems
from cutaway.publish.shelf import Shelf, digest

T = TypeVar("T")

_SAID = ("scripts/", "drills/", "letters.yaml", "glossary.yaml")
"""How the paths of the files begin that say something of the machines and are no part of them."""


def shelf_beside(memory: Path | None, kinds: Mapping[str, Kind] = KINDS) -> Shelf:
    """The shelf beside the file of remembered verdicts. With kinds that are not the program's own nothing is kept,
    since nothing would tell one library of them from another."""
    return Shelf(memory.with_name("pieces") if memory is not None and kinds is KINDS else None)


def machine_problems(loaded: Loaded, workshop: Workshop, shelf: Shelf) -> Problems:
    """What binding and compiling tells of the networks of all standards."""
    return shelf.piece("machines", _texts(loaded, _SAID), workshop.problems)


def keeping(loaded: Loaded, asking: Asking, shelf: Shelf) -> Keep:
    """Where what checking finds is kept. A script's findings depend on all files but the other scripts and the
    letters, a claim's verdict on nothing that is said; one in which a bound was reached is not kept, as the next
    session may be given more time."""

    model = digest(_texts(loaded, _SAID))

    def keep(sort: str, name: object, find: Callable[[], T]) -> T:
        files: object
        if sort in ("script", "script view"):
            others = tuple(f"scripts/{one.name}.md" for one in loaded.folder.scripts if one.name != name)
            files = _texts(loaded, (*others, "drills/", "letters.yaml"))
        elif sort in ("drills", "drills view"):
            files = _texts(loaded, ("scripts/", "letters.yaml"))
        else:
            files = model
        return shelf.piece(sort, (name, asking, files), find, _decided)

    return keep


def _texts(loaded: Loaded, without: tuple[str, ...]) -> tuple[tuple[str, str], ...]:
    """The files of a type folder, less those whose paths begin so."""
    return tuple((file.path, file.text) for file in loaded.folder.files if not file.path.startswith(without))


def _decided(found: object) -> bool:
    """Whether every verdict in what checking found is one that more time would not change: decided, and its assumed
    values tried if that was asked."""
    match found:
        case (tuple() as sentences, _) if all(isinstance(one, CheckedSentence) for one in sentences):
            claims = [claim for one in sentences for claim in one.claims]
        case tuple() if all(isinstance(one, CheckedStep) for one in found):
            claims = [claim for one in found for claim in one.claims]
        case _:
            return not _open(found)
    return not any(_open(one.verdict) for claim in claims for one in claim.judged)


def _open(found: object) -> bool:
    """Whether something is a verdict that more time might change."""
    return isinstance(found, Undecided) or not_yet(found)
