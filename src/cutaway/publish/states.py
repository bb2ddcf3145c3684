"""What situations come to on the standards of a folder, from the shelf where that is known."""

from collections.abc import Mapping, Sequence

from cutaway.draw.seen import Values
from cutaway.handbook.records import Folder, Situation
from cutaway.inquiry.snapshot import decided_by, snapshots
from cutaway.inquiry.told import Told
from cutaway.inquiry.workshop import Workshop
from cutaway.machine.subjects import Subject
from cutaway.problems.diagnostic import Problems
from cutaway.publish.shelf import Shelf, digest


def in_all_situations(folder: Folder, those: Sequence[Subject]) -> list[tuple[Subject, Situation]]:
    """Each of some subjects in each situation."""
    return [(subject, situation) for subject in those for situation in folder.situations]


def states(
    workshop: Workshop, told: Told, shelf: Shelf, wanted: Sequence[tuple[Subject, Situation]]
) -> list[tuple[Values | None, Problems]]:
    """The values of all signals at the end of each situation, None with the reason where it cannot be reached; those
    that are not on the shelf run side by side."""
    keys = [digest("state", decided_by(workshop, told, one, where.name)) for one, where in wanted]
    kept = [shelf.kept(key) for key in keys]
    missing = [(one, where.name) for (one, where), found in zip(wanted, kept, strict=True) if found is None]
    made = iter(snapshots(workshop, told, missing))
    found_states: list[tuple[Values | None, Problems]] = []
    for key, found in zip(keys, kept, strict=True):
        if found is not None:
            assert isinstance(found[0], Mapping)
            found_states.append((found[0], ()))
            continue
        shot, problems = next(made)
        values = steady(shot.values) if shot is not None else None
        if values is not None:
            shelf.keep(key, values)
        found_states.append((values, problems))
    return found_states


def steady(values: Values) -> Values:
    """The values of a run to six figures, and nothing for what is next to nothing: more figures than any sheet shows,
    and few enough that a change elsewhere in the machine, which moves only the last ones, leaves a sheet as it was."""
    return {name: float(f"{value:.6g}") if abs(value) > 1e-12 else 0.0 for name, value in values.items()}
