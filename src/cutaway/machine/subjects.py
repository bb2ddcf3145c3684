"""What a machine can be made for: a standard, or an airframe (a standard less what is missing or disconnected)."""

from dataclasses import dataclass

from cutaway.handbook.records import Folder, Line, Part, PartName, lines_on, parts_on
from cutaway.quantities.which import StandardName


@dataclass(frozen=True, slots=True)
class Subject:
    """name: as `on` says it. standard: whose parts it has. missing: parts it lacks. cut: parts with no line or
    coupling left."""

    name: StandardName
    standard: StandardName
    missing: frozenset[PartName] = frozenset()
    cut: frozenset[PartName] = frozenset()


def subjects(folder: Folder) -> tuple[Subject, ...]:
    """The standards in their order, then the airframes."""
    standards = tuple(Subject(standard.name, standard.name) for standard in folder.type.standards)
    airframes = tuple(
        Subject(StandardName(a.name), a.standard, frozenset(a.missing), frozenset(a.disconnected))
        for a in folder.type.airframes
    )
    return standards + airframes


def parts_of(folder: Folder, subject: Subject) -> tuple[Part, ...]:
    """The parts that the subject has, in the order of the files."""
    return tuple(p for p in parts_on(folder, subject.standard) if p.name not in subject.missing)


def lines_of(folder: Folder, subject: Subject) -> tuple[Line, ...]:
    """The lines whose both ends the subject has, connected."""
    gone = subject.missing | subject.cut
    return tuple(
        line for line in lines_on(folder, subject.standard) if line.start.part not in gone and line.end.part not in gone
    )
