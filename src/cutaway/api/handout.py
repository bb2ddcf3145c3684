"""Handouts for Python users: a visitor sheet, a large-print sheet, a booklet, as PDF on the papers that are wanted."""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from importlib.util import find_spec
from pathlib import Path

from cutaway.api.checking import check
from cutaway.api.loading import Loaded, load
from cutaway.api.places import layouts_folder
from cutaway.api.running import subject_named
from cutaway.draw.sheet import sheet_picture
from cutaway.draw.svg import slug
from cutaway.handbook.names import did_you_mean, fold
from cutaway.inquiry.snapshot import Snapshot, snapshot
from cutaway.inquiry.workshop import Workshop
from cutaway.machine.subjects import Subject, parts_of, subjects
from cutaway.narrate.checked import Checked
from cutaway.narrate.desk import desk
from cutaway.problems.diagnostic import Diagnostic, Problems, has_error, in_order
from cutaway.publish.filling import pack_view
from cutaway.publish.handout import filling
from cutaway.publish.handout.plates import Space, plate
from cutaway.publish.handout.records import MARGIN, PAPERS, SHEET_MARGIN, Handout, Kind, Paper, Plate
from cutaway.publish.single_file import write_file
from cutaway.publish.view import PackView

KINDS: tuple[Kind, ...] = ("visitor", "large", "booklet")
SMALLEST = {"visitor": 7.05, "large": 18.0, "booklet": 7.05}
"""No word of a drawing is smaller, pt."""
MOST_PAGES = {"visitor": 1, "large": 4, "booklet": 12}
CREDITS = (
    "Sheets and notes were made with Cutaway from the type folder's own text: its books, its systems, its scripts.",
    "Set in Libertinus Serif and DejaVu Sans.",
)


@dataclass(frozen=True, slots=True)
class Asked:
    """What is to be printed, in the words of the command line. Empty: every kind, A4, the first standard, and for the
    sheets of one page the first system that the scripts show, as they show it."""

    kinds: tuple[str, ...] = ()
    papers: tuple[str, ...] = ()
    on: str = ""
    situation: str = ""
    system: str = ""


@dataclass(frozen=True, slots=True)
class Printed:
    """A handout that is there. fresh: whether it had to be written."""

    path: Path
    kind: Kind
    paper: str
    pages: int
    plates: int
    fresh: bool


@dataclass(frozen=True, slots=True, eq=False)
class _Room:
    """What handouts are made from."""

    loaded: Loaded
    workshop: Workshop
    view: PackView
    checked: Checked
    subject: Subject
    shown: tuple[tuple[str, str, str], ...]
    tried: bool


def handout(
    folder: Path | str,
    asked: Asked,
    out: Path | None = None,
    rests: bool = True,
    replace_there: bool = False,
    progress: Callable[[int], None] | None = None,
) -> tuple[tuple[Printed, ...], Problems]:
    """Write the handouts of a type folder, into `handout` in it where nothing else is said.

    One that is there and the same already is left as it is. Handouts that Cutaway wrote there are written over.
    """
    kinds, papers, wrong = _named(asked)
    if wrong:
        return (), wrong
    loaded, problems = load(folder)
    if loaded is None:
        return (), problems
    subject, more = subject_named(loaded, asked.on)
    again = _unknown(loaded, asked)
    if subject is None or has_error(more) or again:
        return (), in_order(problems + more + again)
    workshop = Workshop(loaded.folder, loaded.kinds, progress=progress)
    checked, problems = check(loaded, rests=rests, mending=False, workshop=workshop)
    if checked is None:
        return (), problems
    view = pack_view(checked, (), (), loaded.kinds, ())
    room = _Room(loaded, workshop, view, checked, subject, _shown(loaded, subject, asked), rests)
    target = out if out is not None else loaded.path / "handout"
    written: list[Printed] = []
    for kind in kinds:
        for paper in papers:
            made, more = _handout(room, asked, kind, paper)
            problems += more
            done, more = _written(target, made, replace_there or out is None) if made is not None else (None, ())
            problems += more
            written += [done] if done is not None else []
    return tuple(written), in_order(tuple(dict.fromkeys(problems)))


# --- what was asked ----------------------------------------------------------------------------------------------


def _named(asked: Asked) -> tuple[tuple[Kind, ...], tuple[Paper, ...], Problems]:
    problems: list[Diagnostic] = []
    if find_spec("typst") is None:
        message = "Handouts are set with the typesetter typst, which is not installed."
        problems.append(Diagnostic("K509", None, message, "pip install 'cutaway[handout]'"))
    kinds = tuple(kind for kind in KINDS if not asked.kinds or kind in map(fold, asked.kinds))
    papers = tuple(one for one in PAPERS if one.name in map(fold, asked.papers or (PAPERS[0].name,)))
    for what, words, known in (
        *(("kind of handout", words, KINDS) for words in asked.kinds),
        *(("paper", words, tuple(one.name for one in PAPERS)) for words in asked.papers),
    ):
        if fold(words) not in known:
            problems.append(
                Diagnostic("K505", None, f"There is no {what} '{words}'.", f"There are: {', '.join(known)}.")
            )
    return kinds, papers, tuple(problems)


def _unknown(loaded: Loaded, asked: Asked) -> Problems:
    problems: list[Diagnostic] = []
    systems = [system.name for system in loaded.folder.systems]
    situations = [one.name for one in loaded.folder.situations]
    if asked.system and fold(asked.system) not in map(fold, systems):
        hint = did_you_mean(asked.system, systems)
        problems.append(Diagnostic("K501", None, f"There is no system '{asked.system}' to draw.", hint))
    if asked.situation and fold(asked.situation) not in map(fold, situations):
        hint = did_you_mean(asked.situation, situations)
        problems.append(Diagnostic("K501", None, f"There is no situation '{asked.situation}' to draw.", hint))
    return tuple(problems)


def _shown(loaded: Loaded, subject: Subject, asked: Asked) -> tuple[tuple[str, str, str], ...]:
    """Which sheets to print, as system, standard, situation: all that the scripts are marked to show, each system that
    their claims are about as it first comes up, then the other systems.

    With a standard or a situation named, each system once, so.
    """
    folder = loaded.folder
    there = {part.system for part in parts_of(folder, subject)}
    systems = [system.name for system in folder.systems if system.name in there]
    first = next((one.name for one in folder.situations), "")
    looked, _ = desk(folder, loaded.parsed, loaded.kinds, "")
    pictures = [shot.picture for script in looked.scripts for shot in script.shots if shot.picture is not None]
    films = [(one.system, one.standard, one.situation) for one in pictures if one.system]
    marked = {(one.system, one.standard, one.situation) for one in pictures if one.by == "marked"}
    if asked.on or asked.situation:
        situation = next((one.name for one in folder.situations if fold(one.name) == fold(asked.situation)), "")
        liked = {system: at for system, standard, at in reversed(films) if standard == subject.name}
        found = [(one, str(subject.name), situation or liked.get(one, first)) for one in systems]
    else:
        rest = [(one, str(subject.name), first) for one in systems if one not in {film[0] for film in films}]
        first_of = {film[0]: film for film in reversed(films)}
        found = [*dict.fromkeys(film for film in films if film in marked or film == first_of[film[0]]), *rest]
    return tuple(one for one in found if not asked.system or fold(one[0]) == fold(asked.system))


# --- one handout -------------------------------------------------------------------------------------------------


def _handout(room: _Room, asked: Asked, kind: Kind, paper: Paper) -> tuple[Handout | None, Problems]:
    return _booklet(room, paper) if kind == "booklet" else _sheet(room, kind, paper)


def _plain(room: _Room, kind: Kind, paper: Paper, title: str, standard: str, situation: str) -> Handout:
    head = room.loaded.folder.type
    return Handout(
        kind, paper, title, head.name, head.maker, " ".join(head.says.split()), head.notice, standard, situation
    )


def _booklet(room: _Room, paper: Paper) -> tuple[Handout, Problems]:
    folder = room.loaded.folder
    told, problems = filling.stories(room.view)
    plates: list[Plate] = []
    order = {system.name: number for number, system in enumerate(folder.systems)}
    for system, standard, situation in sorted(room.shown, key=lambda one: order[one[0]]):
        made, more = _plate(room, "booklet", paper, system, standard, situation)
        problems += more
        plates += [made] if made is not None else []
    plates = sorted(_alike(plates), key=lambda one: one.whole)  # the small ones share pages
    assumed = {(one.part, one.value) for each in subjects(folder) for one in room.workshop.bound(each)[0].assumptions}
    name = folder.type.name
    return replace(
        _plain(room, "booklet", paper, name, "", ""),
        plates=tuple(plates),
        stories=tuple(one for one in told if one.chapters),
        terms=filling.terms(folder),
        cautions=filling.cautions_of(room.view),
        books=filling.books(folder),
        credits=CREDITS,
        assumed=len(assumed),
        tried=room.tried,
    ), problems


def _alike(plates: list[Plate]) -> list[Plate]:
    """Each look once, with the names of all that look so: 'Whinchat Mk 1, Mk 2: Engine'."""
    found: dict[tuple[str, str], Plate] = {}
    for one in plates:
        key = (one.looks, one.says)
        if key not in found:
            found[key] = one
            continue
        who, _, system = found[key].title.rpartition(": ")
        new = one.title.rpartition(": ")[0].removeprefix(who.partition(" ")[0]).strip()
        found[key] = replace(found[key], title=f"{who}, {new}: {system}")
    return list(found.values())


def _sheet(room: _Room, kind: Kind, paper: Paper) -> tuple[Handout | None, Problems]:
    """The sheet of one system, on one page or in large print."""
    folder, problems = room.loaded.folder, Problems()
    made, chosen = None, next(iter(room.shown), None)
    for one in room.shown:
        made, more = _plate(room, kind, paper, *one)
        if made is not None:
            chosen = one
            problems += more
            break
    if chosen is None:
        return None, problems
    system, standard, situation = chosen
    words: tuple[str, ...] = ()
    if made is None:
        words, more = _in_words(room, *chosen)
        problems += (*more, _too_large(kind, system, standard))
    points = filling.points(room.view, room.checked, system, standard)
    used = " ".join((*(one.text for one in points), *(made.words if made is not None else words)))
    cautions = filling.cautions_on(room.view, folder, system, standard)
    books = filling.books(folder)
    sheet = replace(
        _plain(room, kind, paper, folder.type.name, standard, situation),
        system=system,
        plates=(made,) if made is not None else (),
        words=words if kind == "large" else (),
        points=points,
        terms=filling.terms_in(folder, (used,)),
        cautions=tuple(one for one in filling.cautions_of(room.view) if one.text in cautions),
        books=tuple(one for one in books if kind == "visitor" and any(one.short in point.note for point in points)),
    )
    if kind == "large":
        return sheet, problems
    from cutaway.publish.handout.pdf import on_one_page

    fitted = on_one_page(sheet)
    if fitted is None and made is not None:
        fitted = on_one_page(replace(sheet, plates=()))
        problems += (_too_large(kind, system, standard),)
    return fitted, problems


def _too_large(kind: Kind, system: str, standard: str) -> Diagnostic:
    what = "one page" if kind == "visitor" else f"{MOST_PAGES[kind]} pages"
    message = f"The sheet of {system} on {standard} has words too small on {what}, so it is not on the {kind} sheet."
    hint = "Name a smaller system with --system; the booklet gives a large one several pages."
    return Diagnostic("K511", None, message, hint)


# --- drawings ----------------------------------------------------------------------------------------------------


def _plate(
    room: _Room, kind: Kind, paper: Paper, system: str, standard: str, situation: str
) -> tuple[Plate | None, Problems]:
    """One sheet on one paper, in the layout that suits it best."""
    cautions = filling.cautions_on(room.view, room.loaded.folder, system, standard)
    says, shot, problems = _state(room, standard, situation)
    ways = []
    for space in _spaces(kind, paper, cautions):
        picture, more = sheet_picture(
            room.loaded.folder,
            next(one.name for one in subjects(room.loaded.folder) if one.name == standard),
            system,
            shot.values if shot is not None else None,
            room.loaded.kinds,
            says,
            layouts_folder(),
            f"{system} {standard} {situation}",
            space.shape,
        )
        problems += more
        if picture is not None:
            ways.append((picture, space))
    if not ways:
        return None, problems
    shown = cautions if kind == "booklet" else ()
    return plate(ways, SMALLEST[kind], says, shown, MOST_PAGES[kind]), problems


def _state(room: _Room, standard: str, situation: str) -> tuple[str, Snapshot | None, Problems]:
    folder = room.loaded.folder
    subject = next(one for one in subjects(folder) if one.name == standard)
    shot, problems = snapshot(room.workshop, room.loaded.told, subject, situation)
    says = next((one.says for one in folder.situations if one.name == situation), "")
    words = f"{situation[:1].upper()}{situation[1:]}: {says}" if says else situation
    return (words if shot is not None else f"{words} No solution was found, so no state is shown."), shot, problems


def _in_words(room: _Room, system: str, standard: str, situation: str) -> tuple[tuple[str, ...], Problems]:
    says, shot, problems = _state(room, standard, situation)
    subject = next(one for one in subjects(room.loaded.folder) if one.name == standard)
    values = shot.values if shot is not None else None
    picture, more = sheet_picture(
        room.loaded.folder, subject.name, system, values, room.loaded.kinds, says, layouts_folder()
    )
    return (picture.description if picture is not None else ()), problems + more


def _spaces(kind: Kind, paper: Paper, cautions: tuple[str, ...]) -> tuple[Space, ...]:
    """The rooms that a drawing may have on a paper, upright first; what stands round it is allowed for."""
    edge = SHEET_MARGIN if kind == "visitor" else MARGIN
    inner, tall = paper.width - 2 * edge, paper.height - 2 * edge
    if kind == "visitor":
        heights = ((0.48, False), (0.46, True), (0.64, False), (0.66, True))
        return tuple(Space(*((tall, inner * h, True) if flipped else (inner, tall * h))) for h, flipped in heights)
    if kind == "large":
        return (Space(inner, tall - 150.0), Space(tall, inner - 130.0, flipped=True))
    lines = sum(math.ceil((len(words) + 9) / 95) for words in cautions)
    around = 72.0 + 13.0 * lines
    return (Space(inner, tall - around), Space(tall, inner - around, flipped=True))


# --- writing -----------------------------------------------------------------------------------------------------


def _written(target: Path, made: Handout, replace_there: bool) -> tuple[Printed | None, Problems]:
    from cutaway.publish.handout.pdf import pages_of, pdf_of

    words = made.kind if made.kind == "booklet" else f"{made.kind} {made.system} {made.standard}"
    path = target / f"{slug(f'{words} {made.paper.name}')}.pdf"
    content = pdf_of(made)
    fresh = not (path.is_file() and path.read_bytes() == content)
    if fresh:
        done, problems = write_file(path, content, replace_there)
        if done is None:
            return None, problems
    return Printed(path, made.kind, made.paper.name, pages_of(made), len(made.plates), fresh), ()


def handout_record(written: tuple[Printed, ...]) -> list[dict[str, object]]:
    """The handouts for a program."""
    return [
        {
            "file": str(one.path),
            "kind": one.kind,
            "paper": one.paper,
            "pages": one.pages,
            "plates": one.plates,
            "written": one.fresh,
        }
        for one in written
    ]
