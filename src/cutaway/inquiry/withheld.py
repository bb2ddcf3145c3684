"""When a claim gets no verdict since what would answer it is left out of the model for a mistake."""

from collections.abc import Iterable

from cutaway.handbook.records import Folder
from cutaway.inquiry.verdicts import Undecided
from cutaway.language.syntax import Built
from cutaway.machine.bind import Bound
from cutaway.machine.network import Network


def withheld(network: Network, folder: Folder, bound: Bound) -> Undecided | None:
    """Why the machine that would answer is not the aircraft's: something is left out that was joined to it."""
    if folder.unread:
        return _unread(folder)
    if not folder.lost:
        return None
    within = {part for _, part in network.owners}
    return _lacking(one.name for one in folder.lost if within.intersection(one.joins) and one.name not in bound.parts)


def miscounted(statement: Built, folder: Folder, bound: Bound) -> Undecided | None:
    """Why parts cannot be counted: one that is left out may be of those."""
    if statement.what != "count":
        return None
    if folder.unread:
        return _unread(folder)
    kinds = {part.kind for part in folder.parts if part.name in statement.words}
    lost = (one for one in folder.lost if one.name not in bound.parts and not one.name.startswith("line "))
    return _lacking(one.name for one in lost if not kinds or not one.kind or one.kind in kinds)


def _unread(folder: Folder) -> Undecided:
    files = " and ".join(folder.unread)
    return Undecided(f"this is not judged, since {files} could not be read")


def _lacking(names: Iterable[str]) -> Undecided | None:
    told = tuple(names)
    if not told:
        return None
    more = f" and {len(told) - 1} more" if len(told) > 1 else ""
    are = "are" if more else "is"
    return Undecided(f"this is not judged, since the {told[0]}{more} {are} left out of the model for a mistake")
