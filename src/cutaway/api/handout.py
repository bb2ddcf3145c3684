"""Handouts for Python users: a visitor sheet, a large-print sheet, a booklet, as PDF on the papers that are wanted."""

from collections.abc import Callable
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path

from cutaway.api.checking import check
from cutaway.api.keeping import shelf_beside
from cutaway.api.loading import Loaded, load
from cutaway.api.places import layouts_folder, memory_file
from cutaway.api.running import subject_named
from cutaway.handbook.handouts import KINDS
from cutaway.handbook.names import did_you_mean, fold
from cutaway.handbook.records import AskedHandout
from cutaway.inquiry.workshop import Workshop
from cutaway.problems.diagnostic import Diagnostic, Problems, has_error, in_order
from cutaway.publish.drawings import Desk
from cutaway.publish.filling import pack_view
from cutaway.publish.handout.ground import Ground
from cutaway.publish.handout.making import Set, handouts_of
from cutaway.publish.handout.product import asked_sets
from cutaway.publish.handout.records import PAPERS, Kind, Paper
from cutaway.publish.handout.shown import Wish, shown_sheets
from cutaway.publish.single_file import refused_by_disk, write_file


@dataclass(frozen=True, slots=True)
class Asked:
    """What is to be printed, in the words of the command line. Empty: every kind, A4, the first standard, and for the
    sheets of one page the first system that the scripts show or speak of. All empty: what `handouts.yaml` asks for,
    where it asks for something."""

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
    shelf = shelf_beside(memory_file())
    loaded, problems = load(folder, shelf=shelf)
    if loaded is None:
        return (), problems
    subject, more = subject_named(loaded, asked.on)
    again = _unknown(loaded, asked)
    if subject is None or has_error(more) or again:
        return (), in_order(problems + more + again)
    target = out if out is not None else loaded.path / "handout"
    again = refused_by_disk(target)
    if again:
        return (), again
    workshop = Workshop(loaded.folder, loaded.kinds, progress=progress)
    checked, problems = check(loaded, rests=rests, mending=False, workshop=workshop)
    if checked is None:
        return (), problems
    desk = Desk(workshop, loaded.told, loaded.kinds, layouts_folder(), shelf, rests, parsed=loaded.parsed)
    ground = Ground(desk, checked, pack_view(checked, (), (), loaded.kinds, ()))
    written: list[Printed] = []
    own = tuple(one for one in loaded.folder.handouts if one.name) if asked == Asked() else ()
    if own:
        found, more = _own(ground, own)
    else:
        sheets = shown_sheets(checked, Wish(subject, bool(asked.on), asked.system, _situation(loaded, asked)))
        sets, more = handouts_of(ground, kinds, papers, sheets)
        found = tuple((one.stem, one) for one in sets)
    problems += more
    for stem, made in found:
        done, more = _written(target / f"{stem}.pdf", made, replace_there or out is None)
        problems += more
        written += [done] if done is not None else []
    return tuple(written), in_order(tuple(dict.fromkeys(problems)))


def _own(ground: Ground, asked: tuple[AskedHandout, ...]) -> tuple[tuple[tuple[str, Set], ...], Problems]:
    """What the folder asks for, each with what its file is called."""
    found: tuple[tuple[str, Set], ...] = ()
    problems: Problems = ()
    for one in asked:
        sets, more = asked_sets(ground, one)
        found += sets
        problems += more
    return found, problems


# --- what was asked ----------------------------------------------------------------------------------------------


def _named(asked: Asked) -> tuple[tuple[Kind, ...], tuple[Paper, ...], Problems]:
    problems: list[Diagnostic] = []
    if find_spec("typst") is None:
        message = "Handouts are set with the typesetter typst, which is not installed."
        problems.append(Diagnostic("K509", None, message, "pip install -c constraints.txt -e '.[handout]'"))
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


def _situation(loaded: Loaded, asked: Asked) -> str:
    """The situation that is named, as the folder spells it."""
    return next((one.name for one in loaded.folder.situations if fold(one.name) == fold(asked.situation)), "")


# --- writing -----------------------------------------------------------------------------------------------------


def _written(path: Path, made: Set, replace_there: bool) -> tuple[Printed | None, Problems]:
    fresh = not (path.is_file() and path.read_bytes() == made.pdf)
    if fresh:
        done, problems = write_file(path, made.pdf, replace_there)
        if done is None:
            return None, problems
    return Printed(path, made.handout.kind, made.handout.paper.name, made.pages, made.plates, fresh), ()


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
