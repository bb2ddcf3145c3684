"""What situations come to on the standards of a folder, from the shelf where that is known."""

from collections.abc import Mapping, Sequence

from cutaway.draw.seen import Values
from cutaway.handbook.records import Situation
from cutaway.inquiry.snapshot import decided_by, snapshots
from cutaway.machine.subjects import Subject
from cutaway.problems.diagnostic import Problems
from cutaway.publish.drawings import Desk, steady
from cutaway.publish.shelf import digest


def states(desk: Desk, wanted: Sequence[tuple[Subject, Situation]]) -> list[tuple[Values | None, Problems]]:
    """The values of all signals at the end of each situation, None with the reason where it cannot be reached."""
    keys = [digest("state", decided_by(desk.workshop, desk.told, one, where.name)) for one, where in wanted]
    kept = [desk.shelf.kept(key) for key in keys]
    missing = [(one, where.name) for (one, where), found in zip(wanted, kept, strict=True) if found is None]
    made = iter(snapshots(desk.workshop, desk.told, missing))
    found_states: list[tuple[Values | None, Problems]] = []
    for key, found in zip(keys, kept, strict=True):
        if found is not None:
            assert isinstance(found[0], Mapping)
            found_states.append((found[0], ()))
            continue
        shot, problems = next(made)
        values = steady(shot.values) if shot is not None else None
        if values is not None:
            desk.shelf.keep(key, values)
        found_states.append((values, problems))
    return found_states
