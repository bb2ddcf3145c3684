"""The airframes' missing and disconnected parts, looked up once the parts are known."""

from dataclasses import replace

from cutaway.handbook.door import several_of
from cutaway.handbook.names import did_you_mean, fold, listed
from cutaway.handbook.nodes import Block, Node, Words
from cutaway.handbook.records import AircraftType, Airframe, PartName
from cutaway.handbook.whereabouts import Index
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import Span


def check_airframes(about: AircraftType, root: Node | None, index: Index) -> tuple[AircraftType, Problems]:
    """The type with the airframes' parts in their own spelling; a part that is not there is told and left out.

    Where a folder has no parts at all yet, no name can be judged, and all are kept as they are written.
    """
    if index.nothing:
        return about, ()
    airframes: list[Airframe] = []
    problems: Problems = ()
    for airframe in about.airframes:
        missing, more = _parts(airframe, "missing", airframe.missing, root, index)
        problems += more
        disconnected, more = _parts(airframe, "disconnected", airframe.disconnected, root, index)
        problems += more
        airframes.append(replace(airframe, missing=missing, disconnected=disconnected))
    return replace(about, airframes=tuple(airframes)), problems


def lost_airframes(about: AircraftType, root: Node | None) -> frozenset[str]:
    """The names of airframes that were written and could not be used."""
    written = root.get("airframes") if isinstance(root, Block) else None
    names = {fold(entry.key.text) for entry in written.entries} if isinstance(written, Block) else set()
    return frozenset(names - {fold(airframe.name) for airframe in about.airframes})


def _parts(
    airframe: Airframe, key: str, names: tuple[PartName, ...], root: Node | None, index: Index
) -> tuple[tuple[PartName, ...], Problems]:
    known: list[PartName] = []
    problems: Problems = ()
    for name in names:
        parts = index.parts.get(fold(name))
        if parts is None:
            if fold(name) not in index.left_out:
                message = f"The airframe {airframe.name} names '{name}', but there is no such part."
                hint = did_you_mean(name, index.names())
                problems += (Diagnostic("H310", _place(airframe, key, name, root), message, hint),)
            continue
        if not any(airframe.standard in part.on.names for part in parts):
            on = listed(sorted({s for part in parts for s in part.on.names}))
            message = f"{parts[0].name} is {key} from {airframe.name}, but {airframe.standard} has none: it is on {on}."
            hint = "Take it out, or look whether the standard is the right one."
            problems += (Diagnostic("H315", _place(airframe, key, name, root), message, hint),)
        known.append(parts[0].name)
    return tuple(known), problems


def _place(airframe: Airframe, key: str, name: str, root: Node | None) -> Span:
    all_of_them = root.get("airframes") if isinstance(root, Block) else None
    own = all_of_them.get(airframe.name) if isinstance(all_of_them, Block) else None
    for node in several_of(own.get(key) if isinstance(own, Block) else None):
        if isinstance(node, Words) and node.text == name:
            return node.span
    return airframe.span
