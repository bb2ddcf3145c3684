"""Every sheet of a pack: each system of each standard in each situation, as a file and for the page."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from cutaway.draw.draft import Draft
from cutaway.draw.seen import Values
from cutaway.draw.sheet import drafts, drawn, whole_draft
from cutaway.draw.steered import steered
from cutaway.draw.svg import slug, write_inner_svg, write_svg
from cutaway.handbook.records import Sheet, Situation
from cutaway.inquiry.told import Told
from cutaway.inquiry.workshop import Workshop
from cutaway.language.claims import ParsedClaims, read_claims
from cutaway.language.words import words_of
from cutaway.machine.subjects import Subject, parts_of, subjects
from cutaway.narrate.checked import Keep, found_here
from cutaway.parts.kind import Kind
from cutaway.problems.diagnostic import Problems
from cutaway.publish.shelf import Shelf
from cutaway.publish.shown_on import ShownOn
from cutaway.publish.states import in_all_situations, states
from cutaway.publish.view import SheetView


@dataclass(frozen=True, slots=True, eq=False)
class Desk:
    """What sheets are drawn from. layouts: where layouts are kept between runs. shelf: where dear pieces are kept.
    rests: whether assumed values were taken to both ends of their ranges. keep: where the views of scripts are. parsed:
    the folder's claims, read when they are first wanted if they were not before."""

    workshop: Workshop
    told: Told
    kinds: Mapping[str, Kind]
    layouts: Path | None
    shelf: Shelf = field(default_factory=lambda: Shelf(None))
    rests: bool = True
    keep: Keep = found_here
    parsed: ParsedClaims | None = None

    def claims(self) -> ParsedClaims:
        """The folder's claims and whatever else stands in its language."""
        return self.parsed or read_claims(self.workshop.folder, words_of(self.workshop.folder, self.kinds))[0]

    def read_but(self, unread: tuple[str, ...]) -> tuple[tuple[str, str], ...]:
        """The files of the type folder with their texts, but those whose paths begin so: what a piece depends on."""
        return tuple((f.path, f.text) for f in self.workshop.folder.files if not f.path.startswith(unread))


UNREAD = ("scripts/", "drills/", "letters.yaml", "glossary.yaml", "handouts.yaml")
"""How the paths of those files begin on which no drawing of the machines depends."""

NOT_ON_SHEETS = (*UNREAD, "photographs.yaml", "charts.yaml", "explore.yaml")
"""The same with those that ask for other drawings: no sheet depends on them."""

Found = tuple[tuple[SheetView, ...], Mapping[str, bytes], Problems]
"""Sheets as the page shows them, files of the pack, and what is wrong."""


def draw_sheets(desk: Desk) -> Found:
    """The sheets as the page shows them, the same as files of the pack, and what is wrong, each thing once."""
    return desk.shelf.piece(*sheets_depend(desk), lambda: _all_drawn(desk), lambda made: not by_accident(made[2]))


def sheets_depend(desk: Desk) -> tuple[str, object]:
    """What all sheets together are kept by: their sort and what they depend on."""
    return "sheets", desk.read_but(NOT_ON_SHEETS)


def draw_sheets_of(desk: Desk, subject: Subject) -> None:
    """Draw the sheets of one subject and leave them on the shelf."""
    _drawn_for(desk, (subject,))


def _all_drawn(desk: Desk) -> Found:
    views, files, problems = _drawn_for(desk, subjects(desk.workshop.folder))
    return _for_a_page(views), files, problems


def _drawn_for(desk: Desk, those: Sequence[Subject]) -> tuple[list[SheetView], dict[str, bytes], Problems]:
    folder = desk.workshop.folder
    views: list[SheetView] = []
    files: dict[str, bytes] = {}
    problems: Problems = ()
    shown = {subject.name: ShownOn(folder, subject) for subject in those}
    drafted = _Drafted(desk)
    wanted = in_all_situations(folder, those)
    found = states(desk.workshop, desk.told, desk.shelf, wanted)
    for (subject, situation), (values, more) in zip(wanted, found, strict=True):
        problems += more
        there = {part.system for part in parts_of(folder, subject)}
        for system in (one.name for one in folder.systems if one.name in there):
            depends = (shown[subject.name].system(system), situation.name, situation.says)
            seen, made, more = _kept_or_drawn(drafted, depends, subject, situation, system, values)
            views += seen
            files |= made
            problems += more
        for sheet in (one for one in folder.sheets if _wanted(one, subject, situation)):
            seen, made, more = _steered(desk, sheet, subject, situation, values)
            views += seen
            files |= made
            problems += more
    return views, files, tuple(dict.fromkeys(problems))


EMBEDDED = 4_000_000
"""How many bytes of drawings a page carries inside itself; more would be slow to open, so it shows their files."""


def _for_a_page(views: list[SheetView]) -> tuple[SheetView, ...]:
    """The sheets with their drawings, or without where those are too much for one file."""
    if sum(len(view.svg) for view in views) <= EMBEDDED:
        return tuple(views)
    return tuple(replace(view, svg="") for view in views)


def by_accident(problems: Problems) -> bool:
    """Whether the layout library was missing or too slow, so that the next time may go better."""
    return any(problem.code in ("D101", "D102") for problem in problems)


class _Drafted:
    """The drafts of each system, found once for all its situations."""

    def __init__(self, desk: Desk) -> None:
        self.desk = desk
        self._found: dict[tuple[str, str], tuple[tuple[Draft, ...], Problems]] = {}
        self._wholes: dict[tuple[str, str], tuple[Draft | None, Problems]] = {}

    def whole(self, subject: Subject, system: str) -> tuple[Draft | None, Problems]:
        """The draft of one system of one subject, undivided."""
        key = (str(subject.name), system)
        if key not in self._wholes:
            desk = self.desk
            self._wholes[key] = whole_draft(desk.workshop.folder, subject.name, system, desk.kinds, desk.layouts)
        return self._wholes[key]

    def of(self, subject: Subject, system: str) -> tuple[tuple[Draft, ...], Problems]:
        """The drafts of one system of one subject."""
        key = (str(subject.name), system)
        if key not in self._found:
            desk = self.desk
            self._found[key] = drafts(desk.workshop.folder, subject.name, system, desk.kinds, desk.layouts)
        return self._found[key]


def _kept_or_drawn(
    drafted: _Drafted, depends: object, subject: Subject, situation: Situation, system: str, values: Values | None
) -> Found:
    """The sheets of a system from the shelf if all that they show is as it was, else drawn."""

    def draw(seen: Values | None) -> Found:
        return _drawn(drafted, subject, situation, system, seen)

    shelf = drafted.desk.shelf
    if values is None:
        return shelf.piece("sheets of a system", depends, lambda: draw(None), _whole)
    return shelf.piece_of("sheets of a system", depends, values, draw, _whole)


def _whole(sheets: Found) -> bool:
    return not sheets[2]


def _drawn(drafted: _Drafted, subject: Subject, situation: Situation, system: str, values: Values | None) -> Found:
    """A system in one situation: one sheet, or several where it is large, and then the whole of it as a file too.

    The whole is what scripts show (`show: Fuel, Mk 4, cruising`), since they do not know how a system is divided.
    """
    sheets, problems = drafted.of(subject, system)
    says = _says(situation, values)
    views, files = _seen(sheets, subject, situation, system, values, says)
    if len(sheets) > 1:
        name = f"{system} {subject.name} {situation.name}"
        whole, more = drafted.whole(subject, system)
        problems += more
        if whole is not None:
            files |= {f"sheets/{slug(name)}.svg": write_svg(drawn(whole, values, says, name), "both").encode()}
    return views, files, problems


def _seen(
    sheets: Iterable[Draft], subject: Subject, situation: Situation, of: str, values: Values | None, says: str
) -> tuple[tuple[SheetView, ...], dict[str, bytes]]:
    """Sheets in one state, for the page and as files. of: the system or the sheet that they are found under."""
    views: list[SheetView] = []
    files: dict[str, bytes] = {}
    for draft in sheets:
        name = f"{draft.name} {subject.name} {situation.name}"
        picture, path = drawn(draft, values, says, name), f"sheets/{slug(name)}.svg"
        inner = write_inner_svg(picture)
        views.append(SheetView(str(subject.name), of, situation.name, path, picture.description, inner))
        files[path] = write_svg(picture, "both").encode()
    return tuple(views), files


def _wanted(sheet: Sheet, subject: Subject, situation: Situation) -> bool:
    """Whether a sheet of the author's own is drawn for a subject as a situation settles."""
    there = subject.name in sheet.on.names and (not sheet.situations or situation.name in sheet.situations)
    return there and sheet.run is None


def _steered(desk: Desk, sheet: Sheet, subject: Subject, situation: Situation, values: Values | None) -> Found:
    """A sheet of the author's own in one situation."""
    sheets, problems = steered(desk.workshop.folder, subject, sheet, desk.kinds, desk.layouts)
    told = _says(situation, values)
    says = f"{sheet.says} {told[:1].upper()}{told[1:]}" if sheet.says else told
    return (*_seen(sheets, subject, situation, sheet.name, values, says), problems)


def _says(situation: Situation, values: Values | None) -> str:
    told = f"{situation.name}: {situation.says}" if situation.says else situation.name
    return told if values is not None else f"{told} No solution was found for this, so that no state is shown."
