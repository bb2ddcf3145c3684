"""Make an explorable page of one system: asked in words, for Python users and the command line."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from cutaway.api.asking import Opened, opened, seconds_of
from cutaway.api.places import layouts_folder
from cutaway.api.running import subject_named
from cutaway.handbook.names import fold
from cutaway.problems.diagnostic import Problems, has_error
from cutaway.publish.explore.filling import explore_view
from cutaway.publish.explore.page import explore_page
from cutaway.publish.explore.records import ExploreView
from cutaway.publish.explore.working import MOST_STOPS, WALKS, Asked, Worked, worked
from cutaway.publish.single_file import in_the_way as already_there
from cutaway.publish.single_file import refused_by_disk, write_file


@dataclass(frozen=True, slots=True)
class Wanted:
    """A page in the words of the command line. on, situation: '' for the first. settle: '30 s', '' for the usual."""

    system: str
    on: str = ""
    situation: str = ""
    controls: tuple[str, ...] = ()
    settle: str = ""
    stops: int = MOST_STOPS
    says: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class Explorable:
    """What was worked out, the record of the page, and the page itself."""

    worked: Worked
    view: ExploreView
    page: str


def explore(
    folder: Path | str | Opened,
    wanted: Wanted,
    stage: Callable[[str], None] = lambda words: None,
    walks: int = WALKS,
) -> tuple[Explorable | None, Problems]:
    """The explorable page of one system; None where it cannot be made, with the reason.

    stage: told now and then what is being done. walks: how many are run through to test it.
    """
    here, problems = opened(folder)
    if here is None:
        return None, problems
    subject, more = subject_named(here.loaded, wanted.on)
    settle, others = seconds_of(wanted.settle, "--settle")
    problems = (*problems, *more, *others)
    if subject is None or has_error(problems):
        return None, problems
    records = here.loaded.folder
    system = next((one.name for one in records.systems if fold(one.name) == fold(wanted.system)), wanted.system)
    situation = wanted.situation or next((one.name for one in records.situations), "")
    asked = Asked(subject, system, situation, wanted.controls, settle, wanted.stops, wanted.says)
    done, more = worked(here.workshop, here.loaded.told, asked, stage, walks)
    if done is None:
        return None, (*problems, *more)
    view, more = explore_view(done, records, layouts_folder(), stage)
    if view is None:
        return None, (*problems, *more)
    return Explorable(done, view, explore_page(view)), (*problems, *more)


def in_the_way(out: Path, replace: bool) -> Problems:
    """Why the page could not be written there, so that it need not be worked out."""
    return already_there(out, replace) or refused_by_disk(out.parent)


def write_page(made: Explorable, out: Path, replace: bool) -> tuple[Path | None, Problems]:
    """Write the page; where it stands, or why it was not written."""
    return write_file(out, made.page.encode(), replace)


def explore_lines(made: Explorable, written: Path) -> tuple[str, ...]:
    """What was made, for a person."""
    size = f"{len(made.page.encode()) / 1e6:.2f} MB"
    controls = ", ".join(control.name for control in made.view.controls)
    return (f"{written}: {made.view.title}, {size}", f"Moved: {controls}", *made.view.begins, *made.view.bound)


def explore_record(made: Explorable) -> dict[str, object]:
    """What the page shows, for a program: every stop in words, and where each movement leads."""
    view = made.view
    return {
        "title": view.title,
        "begins": list(view.begins),
        "bound": list(view.bound),
        "whole": made.worked.found.whole,
        "controls": [control.name for control in view.controls],
        "fixed": list(view.fixed),
        "movements": [move.told for move in view.moves],
        "stops": [_stop_record(made, number) for number in range(len(view.stops))],
    }


def _stop_record(made: Explorable, number: int) -> dict[str, object]:
    view, stop = made.view, made.view.stops[number]
    controls = {control.name: place for control, place in zip(view.controls, stop.places, strict=True)}
    parts = {
        name: {"shows": part.words, "because": list(part.because)}
        for name, part in zip(view.parts, stop.parts, strict=True)
    }
    leads = {
        move.told: arc.reason if arc.to < 0 else {"to": arc.to, "happened": list(arc.happened)}
        for move, arc in zip(view.moves, stop.arcs, strict=True)
        if arc is not None
    }
    return {"stop": number, "controls": controls, "parts": parts, "movements": leads}
