"""What the sheet of a system is drawn from: by this it is known whether a change of the folder can reach it."""

from collections.abc import Iterator
from functools import cached_property

from cutaway.draw.plan import HOLDING
from cutaway.handbook.records import Folder, Line, Part
from cutaway.machine.subjects import Subject, lines_of, parts_of
from cutaway.publish.shelf import digest


class ShownOn:
    """Digests of what the sheets of one subject are drawn from, each found once; values of runs come on top."""

    def __init__(self, folder: Folder, subject: Subject) -> None:
        self._folder = folder
        self._subject = subject
        self._parts = parts_of(folder, subject)
        self._lines = lines_of(folder, subject)
        self._found: dict[str, str] = {}

    def system(self, name: str) -> str:
        """Stands for all that is drawn on the sheet of a system: its parts and those that they are joined to, whole;
        of all others how they are joined."""
        if name not in self._found:
            own = {part.name for part in self._parts if part.system == name}
            near = own | {end for ends in self._ties for end in ends if own & set(ends)}
            shown = tuple(part for part in self._parts if part.name in near)
            said = tuple((one.name, one.says) for one in self._folder.systems if one.name == name)
            self._found[name] = digest(self._head, self._skeleton, said, shown)
        return self._found[name]

    @property
    def _head(self) -> tuple[object, ...]:
        about = self._folder.type
        return (about.name, about.notice, about.house_units, self._subject, getattr(self._folder, "sheets", ()))

    @cached_property
    def _ties(self) -> tuple[tuple[str, str], ...]:
        lines = ((str(line.start.part), str(line.end.part)) for line in self._lines)
        links = ((str(part.name), str(link.target.part)) for part in self._parts for link in part.links)
        return (*lines, *links)

    @cached_property
    def _skeleton(self) -> str:
        return digest(tuple(map(_joined, self._parts)), tuple(map(_line, self._lines)), tuple(self._stores()))

    def _stores(self) -> Iterator[object]:
        """Whatever gives the volts and the pressure by which all wires and oil pipes are drawn as live."""
        for part in self._parts:
            yield from ((part.name, value) for value in part.values if value.name in ("voltage", *HOLDING))


def _joined(part: Part) -> tuple[object, ...]:
    links = tuple((link.name, link.target.part, link.target.inner, link.on.names) for link in part.links)
    return (part.name, part.kind, part.system, part.group, part.station, part.lists, links)


def _line(line: Line) -> tuple[object, ...]:
    return (line.start.part, line.start.inner, line.end.part, line.end.inner, line.system)
