"""The handouts of a pack: those that `handouts.yaml` asks for, else a page to take away and the same in large print."""

from cutaway.draw.svg import slug
from cutaway.handbook.names import fold
from cutaway.handbook.records import AskedHandout, Folder
from cutaway.machine.subjects import Subject, subjects
from cutaway.narrate.checked import Checked
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.publish.drawings import Desk
from cutaway.publish.filling import pack_view
from cutaway.publish.handout.ground import Ground
from cutaway.publish.handout.making import Set, handouts_of
from cutaway.publish.handout.quiz_pdf import can_be_set
from cutaway.publish.handout.records import PAPERS
from cutaway.publish.handout.shown import Wish, shown_sheets
from cutaway.publish.product import Files, Product

FOLDER = "handouts"


def handout_files(desk: Desk, checked: Checked) -> tuple[Files, Problems]:
    """Every handout as a PDF. Without the typesetter there are none, which is told where some are asked for."""
    folder = checked.folder
    asked = [one for one in folder.handouts if one.name]
    if not can_be_set():
        return {}, tuple(_cannot(one) for one in asked[:1])
    ground = Ground(desk, checked, pack_view(checked, (), (), desk.kinds, (), desk.keep))
    files: dict[str, bytes] = {}
    problems: Problems = ()
    for one in folder.handouts:
        found, more = asked_sets(ground, one)
        files |= {f"{FOLDER}/{stem}.pdf": made.pdf for stem, made in found}
        problems += more
    return files, tuple(dict.fromkeys(problems))


def asked_sets(ground: Ground, asked: AskedHandout) -> tuple[tuple[tuple[str, Set], ...], Problems]:
    """One handout in each kind, on each paper, for each of its standards; each with what its file is called."""
    folder = ground.checked.folder
    those = _subjects(folder, asked)
    sets: list[tuple[str, Set]] = []
    problems: Problems = ()
    for subject in those:
        wish = Wish(subject, asked.on is not None, asked.system, asked.situation)
        sheets = shown_sheets(ground.checked, wish)
        if not sheets and asked.system:
            problems += (_nothing_there(asked, subject),)
            continue
        papers = [one for one in PAPERS if one.name in map(fold, asked.papers)]
        found, more = handouts_of(ground, asked.kinds, papers, sheets, asked.name)
        problems += more
        sets += [(_stem(asked, made, subject, len(those) > 1), made) for made in found]
    return tuple(sets), problems


def _subjects(folder: Folder, asked: AskedHandout) -> tuple[Subject, ...]:
    everyone = subjects(folder)
    return everyone[:1] if asked.on is None else tuple(one for one in everyone if one.name in asked.on.names)


def _stem(asked: AskedHandout, made: Set, subject: Subject, several: bool) -> str:
    """The file's name without ending: as the author named the handout, with what tells it from its like."""
    if not asked.name:
        return made.stem
    words = (asked.name, str(subject.name) if several else "", made.handout.kind, made.handout.paper.name)
    return slug(" ".join(word for word in words if word))


def left_out(folder: Folder) -> bool:
    """Whether the usual handouts, which nobody asks for, are left out, since there is no typesetter."""
    return not can_be_set() and not any(one.name for one in folder.handouts)


def _cannot(asked: AskedHandout) -> Diagnostic:
    message = "Handouts are asked for, but the typesetter typst is not installed, so the pack has none."
    return Diagnostic("K512", asked.span, message, "pip install -c constraints.txt -e '.[handout]'")


def _nothing_there(asked: AskedHandout, subject: Subject) -> Diagnostic:
    message = f"{subject.name} has nothing of the system {asked.system}, so there is no handout '{asked.name}' of it."
    return Diagnostic("K513", asked.span, message, "Write under 'on' the standards that have it.")


HANDOUTS = Product(
    "Handouts",
    "To be printed and given away: what to look for on a sheet, in usual and in large print; or the whole story.",
    "setting the handouts",
    handout_files,
    unread=("letters.yaml", "photographs.yaml", "charts.yaml", "explore.yaml", "sheets/"),
    besides=lambda checked: can_be_set(),  # an installation may come by the typesetter later
)
