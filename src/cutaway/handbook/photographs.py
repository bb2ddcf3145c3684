"""photographs.yaml: one's own photographs, by what right they are shown, and what is pointed at on them."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from pathlib import Path

from cutaway.handbook.door import admit, block_of
from cutaway.handbook.head import Head, read_on
from cutaway.handbook.names import did_you_mean, fold, one_line
from cutaway.handbook.nodes import Block, Entry, Faulty, Items, Node, Words
from cutaway.handbook.photograph_places import read_place
from cutaway.handbook.pictures import Unseen, upright_size
from cutaway.handbook.records import AircraftType, Group, PartName, Photograph, Point
from cutaway.handbook.shapes import PhotographShape, PhotographsShape, PointShape
from cutaway.handbook.whereabouts import Index
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import Span
from cutaway.quantities.which import Which

_SAME = 0.004
"""Points nearer than this share of the picture in both directions are at one place."""
_UNSEEN = {"missing": "H901", "outside": "H903", "unreadable": "H902"}


@dataclass(frozen=True, slots=True)
class Known:
    """What points can name, and what `on` can."""

    root: Path
    head: Head
    index: Index
    groups: Mapping[str, Group]

    def parts(self, name: str) -> tuple[PartName, ...]:
        """The part of that name, or the members of that group; () where it is neither."""
        part, group = self.index.parts.get(fold(name)), self.groups.get(fold(name))
        return (part[0].name,) if part else group.members if group else ()

    def names(self) -> list[str]:
        """All names of parts and groups."""
        return [*self.index.names(), *(group.name for group in self.groups.values())]


def read_photographs(
    root: Node | None, folder: str, head: Head, index: Index, groups: tuple[Group, ...]
) -> tuple[tuple[Photograph, ...], Problems]:
    """The photographs in order. One whose picture is not there is left out, and so is a point that lies beside it."""
    if root is None or isinstance(root, Faulty):
        return (), ()
    _, problems = admit(PhotographsShape, root, "photographs.yaml")
    block, more = block_of(root.get("photographs") if isinstance(root, Block) else None, "'photographs'")
    problems = tuple(dict.fromkeys(problems + more))
    known = Known(Path(folder), head, index, {fold(group.name): group for group in groups})
    found: list[Photograph] = []
    for entry in block.entries if block else ():
        one, more = _photograph(entry, known)
        problems += more
        if one is not None:
            found.append(one)
    return tuple(found), problems


def _photograph(entry: Entry, known: Known) -> tuple[Photograph | None, Problems]:
    name = one_line(entry.key.text)
    shape, problems = admit(PhotographShape, entry.value, f"the photograph {name}")
    if shape is None or not isinstance(entry.value, Block):
        return None, problems
    which, more = read_on(entry.value.get("on"), known.head, airframes=True)
    problems += more
    file = shape.file.strip().replace("\\", "/")
    size = upright_size(known.root, file)
    if isinstance(size, Unseen):
        place = entry.value.get("file")
        span = place.span if isinstance(place, Words) else entry.key.span
        return None, (*problems, Diagnostic(_UNSEEN[size.sort], span, size.message, size.hint))
    if which is None:
        return None, problems
    points, more = _points(entry.value.get("points"), name, size, which, known)
    problems += more
    rights = one_line(shape.rights)
    if not rights:
        problems += (_no_rights(name, entry.value, entry.key.span),)
    return (
        Photograph(
            name, file, size, one_line(shape.says), one_line(shape.credit), rights, one_line(shape.taken),
            one_line(shape.station), which, points, entry.key.span,
        ),
        problems,
    )  # fmt: skip


def _points(
    node: Node | None, name: str, size: tuple[int, int], which: Which, known: Known
) -> tuple[tuple[Point, ...], Problems]:
    block, problems = block_of(node, f"'points' of the photograph {name}")
    found: list[Point] = []
    for entry in block.entries if block else ():
        point, more = _point(entry, size, which, known)
        problems += more
        if point is None:
            continue
        problems += tuple(_same_place(other, point) for other in found if _near(other, point))
        found.append(point)
    return tuple(found), problems


def _point(entry: Entry, size: tuple[int, int], which: Which, known: Known) -> tuple[Point | None, Problems]:
    name = one_line(entry.key.text)
    shape, problems = _in_shape(entry.value, name)
    if shape is None:
        return None, problems
    place = entry.value.get("at") if isinstance(entry.value, Block) else entry.value
    at, more = read_place(place, name, size)
    problems += more
    parts, more = _shown(entry.key, one_line(shape.says), which, known)
    problems += more
    if at is None or parts is None:
        return None, problems
    spelled = str(parts[0]) if len(parts) == 1 else name
    return Point(spelled, parts, at, one_line(shape.says), shape.side, entry.key.span), problems


def _in_shape(node: Node, name: str) -> tuple[PointShape | None, Problems]:
    """A point as its shape; the short form has nothing but the place."""
    if isinstance(node, Items) or (isinstance(node, Words) and not node.empty):
        return PointShape(at="", says="", side=""), ()
    return admit(PointShape, node, f"the point {name}")


def _shown(key: Words, says: str, which: Which, known: Known) -> tuple[tuple[PartName, ...] | None, Problems]:
    """The parts that a point shows: () for words of the author's own, None where a part was meant that is not there."""
    parts = known.parts(key.text)
    if parts:
        return parts, _not_there(parts, key.span, which, known)
    if says:
        near = did_you_mean(key.text, known.names())
        if not near.startswith("Did you mean"):
            return (), ()
        message = f"'{one_line(key.text)}' is no part, and is shown as words of your own."
        return (), (Diagnostic("H907", key.span, message, near),)
    if fold(key.text) in known.index.left_out:
        return None, ()
    message = f"A point names '{one_line(key.text)}', but there is no such part."
    near = did_you_mean(key.text, known.names())
    hint = f"{near} What is no part is pointed at with says: and some words.".strip()
    return None, (Diagnostic("H905", key.span, message, hint),)


def _not_there(parts: tuple[PartName, ...], span: Span, which: Which, known: Known) -> Problems:
    """A warning where none of the standards that the picture shows has the part, or the airframe lacks it."""
    about = known.head.type
    for part in parts:
        here = {standard for block in known.index.parts[fold(part)] for standard in block.on.names}
        if not any(_has(subject, part, here, about) for subject in which.names):
            message = f"The photograph shows {which.words or 'every standard'}, which has no {part}."
            hint = "Write under 'on' what it shows, or point at something else."
            return (Diagnostic("H908", span, message, hint),)
    return ()


def _has(subject: str, part: PartName, here: Collection[str], about: AircraftType) -> bool:
    airframe = next((one for one in about.airframes if one.name == subject), None)
    if airframe is None:
        return subject in here
    return airframe.standard in here and part not in airframe.missing


def _near(one: Point, other: Point) -> bool:
    return all(abs(a - b) <= _SAME for a, b in zip(one.at, other.at, strict=True))


def _same_place(first: Point, second: Point) -> Diagnostic:
    return Diagnostic(
        "H906",
        second.span,
        f"{second.name} and {first.name} are pointed at in one place.",
        "Move one of them, or name both in one point with says:.",
        ((first.span, "The other:"),),
    )


def _no_rights(name: str, block: Block, key: Span) -> Diagnostic:
    entry = block.entry("rights")
    span = entry.key.span if entry is not None else key
    message = f"The photograph {name} has no rights, so that it is for drafts only: it is not published."
    return Diagnostic("H909", span, message, "Write rights: … (by what right it is shown: 'own picture', a licence)")
