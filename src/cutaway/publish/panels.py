"""The panels of a pack: every control and indicator at its station, for each standard in each situation.

A page leads to them and tells each in words.
"""

from dataclasses import dataclass

from cutaway.draw.panel import panel_pictures
from cutaway.draw.seen import Values
from cutaway.draw.shapes import Picture
from cutaway.draw.svg import slug, write_svg
from cutaway.handbook.records import Situation
from cutaway.machine.subjects import Subject, subjects
from cutaway.narrate.checked import Checked
from cutaway.problems.diagnostic import Problems
from cutaway.publish.drawings import UNREAD, Desk
from cutaway.publish.html import el
from cutaway.publish.page_choice import choice, choice_rules
from cutaway.publish.page_sheets import pictures, situation_rules
from cutaway.publish.plain_page import plain_page
from cutaway.publish.product import Files, Product
from cutaway.publish.states import in_all_situations, states
from cutaway.publish.view import SheetView

FIRST = "panels.html"


@dataclass(frozen=True, slots=True)
class Drawn:
    """The panels of one standard in one situation. pages: path in the pack, words and file of each."""

    standard: str
    situation: str
    pages: tuple[tuple[str, tuple[str, ...], bytes], ...]


def panel_files(desk: Desk, checked: Checked) -> tuple[Files, Problems]:
    """Every panel as a file, and the page that leads to them."""
    drawn, problems = _all_drawn(desk)
    files = {path: content for one in drawn for path, _, content in one.pages}
    if not files:
        return {}, problems
    return {**files, FIRST: _page(desk, drawn).encode()}, problems


def _all_drawn(desk: Desk) -> tuple[tuple[Drawn, ...], Problems]:
    folder = desk.workshop.folder
    wanted = in_all_situations(folder, subjects(folder))
    found: list[Drawn] = []
    problems: Problems = ()
    for (subject, situation), (values, more) in zip(
        wanted, states(desk.workshop, desk.told, desk.shelf, wanted), strict=True
    ):
        problems += more
        pages = tuple(
            (f"panels/{slug(picture.name)}.svg", picture.description, write_svg(picture, "both").encode())
            for picture in panels_of(desk, subject, situation, values)
        )
        if pages:
            found.append(Drawn(str(subject.name), situation.name, pages))
    return tuple(found), tuple(dict.fromkeys(problems))


def panels_of(desk: Desk, subject: Subject, situation: Situation, values: Values | None) -> tuple[Picture, ...]:
    """The panels of one subject in one situation."""
    told = f"{situation.name}: {situation.says}" if situation.says else situation.name
    says = told if values is not None else f"{told} No solution was found for this, so that no state is shown."
    name = f"{subject.name} {situation.name}"
    return panel_pictures(desk.workshop.folder, subject, values, desk.kinds, says, name)


# --- the page ------------------------------------------------------------------------------------------------------


def _page(desk: Desk, drawn: tuple[Drawn, ...]) -> str:
    """Every panel, of which a standard and a situation are chosen, and what it shows in words."""
    folder = desk.workshop.folder
    standards = tuple(dict.fromkeys(one.standard for one in drawn))
    situations = tuple(dict.fromkeys(one.situation for one in drawn))
    views = [SheetView(one.standard, _NAME, one.situation, *page[:2], "") for one in drawn for page in one.pages]
    children = (
        el(
            "p",
            "Every control and indicator at its station, as it stands and shows. Choose a standard and a situation.",
        ),
        choice("Standard", "standard", standards, 0),
        choice("Situation", "situation", situations, 0),
        *pictures(views, standards, (_NAME,), situations, "page"),
    )
    rules = f"{choice_rules('standard', 'only', len(standards))}\n{situation_rules(len(situations))}\n"
    return plain_page(f"{folder.type.name}: panels", children, folder.type.notice, style=rules)


_NAME = "Panels"


PANELS = Product(
    "Panels",
    "Every control and indicator at its station, for each standard in each situation.",
    "drawing the panels",
    panel_files,
    FIRST,
    UNREAD,
    checking=False,
)
