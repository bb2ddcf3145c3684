"""Every sheet of a pack: each system of each standard in each situation, as a file and for the page."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from cutaway.draw.seen import Values
from cutaway.draw.sheet import sheet_picture
from cutaway.draw.svg import slug, write_inner_svg, write_svg
from cutaway.handbook.records import Situation
from cutaway.inquiry.snapshot import snapshot
from cutaway.inquiry.told import Told
from cutaway.inquiry.workshop import Workshop
from cutaway.machine.subjects import Subject, parts_of, subjects
from cutaway.parts.kind import Kind
from cutaway.problems.diagnostic import Problems
from cutaway.publish.shelf import Shelf
from cutaway.publish.view import SheetView


@dataclass(frozen=True, slots=True, eq=False)
class Desk:
    """What sheets are drawn from. layouts: where layouts are kept between runs. shelf: where dear pieces are kept."""

    workshop: Workshop
    told: Told
    kinds: Mapping[str, Kind]
    layouts: Path | None
    shelf: Shelf = field(default_factory=lambda: Shelf(None))


def draw_sheets(desk: Desk) -> tuple[tuple[SheetView, ...], Mapping[str, bytes], Problems]:
    """The sheets as the page shows them, the same as files of the pack, and what is wrong, each thing once."""
    folder = desk.workshop.folder
    views: list[SheetView] = []
    files: dict[str, bytes] = {}
    problems: Problems = ()
    for subject in subjects(folder):
        there = {part.system for part in parts_of(folder, subject)}
        for situation in folder.situations:
            shot, more = snapshot(desk.workshop, desk.told, subject, situation.name)
            problems += more
            values = shot.values if shot is not None else None
            for system in (one.name for one in folder.systems if one.name in there):
                found, more = _drawn(desk, subject, situation, system, values)
                problems += more
                if found is not None:
                    view, file = found
                    views.append(view)
                    files[view.path] = file
    return tuple(views), files, tuple(dict.fromkeys(problems))


def _drawn(
    desk: Desk, subject: Subject, situation: Situation, system: str, values: Values | None
) -> tuple[tuple[SheetView, bytes] | None, Problems]:
    name = f"{system} {subject.name} {situation.name}"
    picture, problems = sheet_picture(
        desk.workshop.folder,
        subject.name,
        system,
        values,
        desk.kinds,
        says=_says(situation, values),
        cache=desk.layouts,
        name=name,
    )
    if picture is None:
        return None, problems
    path = f"sheets/{slug(name)}.svg"
    inner = write_inner_svg(picture)
    view = SheetView(str(subject.name), system, situation.name, path, picture.description, inner)
    return (view, write_svg(picture, "both").encode()), problems


def _says(situation: Situation, values: Values | None) -> str:
    told = f"{situation.name}: {situation.says}" if situation.says else situation.name
    return told if values is not None else f"{told} No solution was found for this, so that no state is shown."
