"""The differences of a pack: what each two neighbouring standards have otherwise, with sheets on which it is marked."""

from collections.abc import Mapping
from itertools import pairwise

from cutaway.draw.difference import difference_pictures
from cutaway.draw.seen import Values
from cutaway.draw.svg import slug, write_svg
from cutaway.inquiry.questions.compare import Comparison, compare_states
from cutaway.inquiry.questions.differing_records import RecordDifference
from cutaway.machine.subjects import Subject, subjects
from cutaway.narrate.checked import Checked
from cutaway.problems.diagnostic import Problems
from cutaway.publish.differences_page import Differing, Sheet, differences_page
from cutaway.publish.drawings import UNREAD, Desk
from cutaway.publish.product import Files, Product
from cutaway.publish.states import in_all_situations, states

FIRST = "differences.html"
Key = tuple[str, str]


def difference_files(desk: Desk, checked: Checked) -> tuple[Files, Problems]:
    """The page of differences with its sheets; none where there is only one standard."""
    folder = desk.workshop.folder
    found: list[Differing] = []
    files: dict[str, bytes] = {}
    problems: Problems = ()
    for one in comparisons(desk):
        sheets, more = _sheets(desk, one)
        problems += more
        files |= {sheet.path: content for sheet, content in sheets}
        found.append(Differing(one, tuple(sheet for sheet, _ in sheets)))
    if not found:
        return {}, problems
    return {**files, FIRST: differences_page(found, folder).encode()}, tuple(dict.fromkeys(problems))


def comparisons(desk: Desk) -> tuple[Comparison, ...]:
    """Each two neighbouring standards held against one another, and each airframe against its standard."""
    folder = desk.workshop.folder
    every = subjects(folder)
    standards = [one for one in every if one.name == one.standard]
    pairs = list(pairwise(standards))
    pairs += [(next(s for s in standards if s.name == one.standard), one) for one in every if one not in standards]
    wanted = in_all_situations(folder, every)
    found = states(desk.workshop, desk.told, desk.shelf, wanted)
    values = {(str(s.name), w.name): v for (s, w), (v, _) in zip(wanted, found, strict=True)}
    return tuple(_compared(desk, one, other, values) for one, other in pairs)


def _compared(desk: Desk, one: Subject, other: Subject, values: Mapping[Key, Values | None]) -> Comparison:
    folder, workshop = desk.workshop.folder, desk.workshop
    both: dict[str, tuple[Values, Values] | None] = {}
    for situation in folder.situations:
        here, there = values[(one.name, situation.name)], values[(other.name, situation.name)]
        both[situation.name] = (here, there) if here is not None and there is not None else None
    return compare_states(folder, (workshop.bound(one)[0], workshop.bound(other)[0]), both)


def _sheets(desk: Desk, one: Comparison) -> tuple[list[tuple[Sheet, bytes]], Problems]:
    """A sheet of each system of which one of the two has a part, a kind or a line that the other has not."""
    folder = desk.workshop.folder
    systems = {str(part.name): part.system for part in folder.parts}
    apart = {systems.get(_first_part(r)) for r in one.underneath if r.what in ("part", "kind", "line")}
    sheets: list[tuple[Sheet, bytes]] = []
    problems: Problems = ()
    for system in (system.name for system in folder.systems if system.name in apart):
        name = f"{system} {one.one.name} and {one.other.name}"
        pictures, more = difference_pictures(
            folder, one.one.name, one.other.name, system, desk.kinds, desk.layouts, f"differing {name}"
        )
        problems += more
        for number, picture in enumerate(pictures, 1):
            stem = slug(f"{name} {number}" if len(pictures) > 1 else name)
            sheet = Sheet(system, f"differences/{stem}.svg", picture.title, picture.description)
            sheets.append((sheet, write_svg(picture, "both").encode()))
    return sheets, problems


def _first_part(one: RecordDifference) -> str:
    """The part that a difference is of; of a line, the one that it begins at."""
    return one.part.split(" > ")[0].split(".")[0] if one.what == "line" else one.part


DIFFERENCES = Product(
    "Differences",
    "What each standard has otherwise than the next: controls, indications, behaviour, figures.",
    "comparing the standards",
    difference_files,
    FIRST,
    UNREAD,
    checking=False,
)
