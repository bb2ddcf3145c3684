"""The values that no book gives, of all standards and airframes."""

from cutaway.inquiry.workshop import Workshop
from cutaway.machine.fitting import Assumption
from cutaway.machine.subjects import subjects
from cutaway.publish.drawings import UNREAD, Desk


def assumptions(desk: Desk) -> tuple[Assumption, ...]:
    """The assumed values of all standards, each once."""
    return desk.shelf.piece("assumptions", desk.read_but(UNREAD), lambda: _assumed(desk.workshop))


def _assumed(workshop: Workshop) -> tuple[Assumption, ...]:
    found: dict[tuple[str, str, str], Assumption] = {}
    for subject in subjects(workshop.folder):
        bound, _ = workshop.bound(subject)
        for one in bound.assumptions:
            found.setdefault((one.part, one.value, one.stated), one)
    return tuple(found.values())
