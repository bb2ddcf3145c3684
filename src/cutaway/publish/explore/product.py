"""The explorable pages of a pack: one for each that `explore.yaml` asks for, in the folder `explore/`."""

from cutaway.draw.svg import slug
from cutaway.handbook.names import did_you_mean, fold
from cutaway.handbook.records import AskedExplorable, Folder
from cutaway.machine.subjects import Subject, subjects
from cutaway.narrate.checked import Checked
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.publish.drawings import Desk
from cutaway.publish.explore.filling import explore_view
from cutaway.publish.explore.page import explore_page
from cutaway.publish.explore.working import MOST_STOPS, Asked, worked
from cutaway.publish.product import Files, Product
from cutaway.quantities.si import to_si

UNREAD = ("scripts/", "drills/", "letters.yaml", "glossary.yaml", "photographs.yaml", "charts.yaml")
"""How the paths of those files begin on which no explorable page depends."""


def _made(desk: Desk, checked: Checked) -> tuple[Files, Problems]:
    files: dict[str, bytes] = {}
    problems: Problems = ()
    for one in desk.workshop.folder.explorables:
        path = f"explore/{slug(one.name)}.html"
        found, more = _page(desk, one)
        problems += more
        if found is not None:
            files[path] = found
    return files, tuple(dict.fromkeys(problems))


def _page(desk: Desk, one: AskedExplorable) -> tuple[bytes | None, Problems]:
    folder = desk.workshop.folder
    subject, problems = subject_of(folder, one)
    if subject is None:
        return None, problems
    settle = to_si(one.settle) if one.settle is not None else None
    asked = Asked(
        subject,
        system_of(folder, one),
        one.situation,
        one.controls,
        settle,
        one.states or MOST_STOPS,
        one.says,
        one.span,
    )
    done, problems = worked(desk.workshop, desk.told, asked)
    if done is None:
        return None, problems
    view, problems = explore_view(done, folder, desk.layouts)
    return (explore_page(view, "../").encode() if view is not None else None), problems


def subject_of(folder: Folder, one: AskedExplorable) -> tuple[Subject | None, Problems]:
    """The standard or airframe that a page is of."""
    everyone = subjects(folder)
    if not one.on:
        return everyone[0], ()
    found = next((s for s in everyone if fold(str(s.name)) == fold(one.on)), None)
    if found is None:
        message = f"There is no standard or airframe '{one.on}' to explore."
        return None, (Diagnostic("K801", one.span, message, did_you_mean(one.on, [str(s.name) for s in everyone])),)
    return found, ()


def system_of(folder: Folder, one: AskedExplorable) -> str:
    """The system's name as the folder has it."""
    return next((s.name for s in folder.systems if fold(s.name) == fold(one.system)), one.system)


EXPLORE = Product(
    "To be explored",
    "Pages on which the controls of a system are moved and its sheet answers, with the reasons beside it.",
    "working out the pages to be explored",
    _made,
    unread=UNREAD,
    checking=False,
)
