"""What is run on the sheets that show moments, names resolved."""

from dataclasses import dataclass

from cutaway.handbook.records import Drill, Folder, Sheet, SheetRun
from cutaway.language.claims import ParsedStep, steps_of
from cutaway.language.run_scope import run_scope
from cutaway.language.syntax import Scope
from cutaway.language.words import Words
from cutaway.problems.diagnostic import Problems, in_order


@dataclass(frozen=True, slots=True)
class ParsedRun:
    """A sheet with what is run on it. scope: with the actions of 'do', without the standards, which are the sheet's
    own. drill: the one that is gone through, with its steps."""

    sheet: Sheet
    run: SheetRun
    scope: Scope
    drill: Drill | None = None
    steps: tuple[ParsedStep, ...] = ()


def parse_runs(folder: Folder, words: Words) -> tuple[tuple[ParsedRun, ...], Problems]:
    """The folder's sheets at moments; one in which something is not understood is left out and told.

    One that goes through a drill of which a step is not understood is left out too, of which the drill itself tells.
    """
    found: list[ParsedRun] = []
    problems: Problems = ()
    for sheet in folder.sheets:
        if sheet.run is None:
            continue
        run = sheet.run
        scope, more = run_scope(run.situation, sheet.span, run.failed, run.do, words)
        problems += more
        drill = next((one for one in folder.drills if one.name == run.drill), None)
        steps = steps_of(drill, words) if drill is not None else ()
        if scope is not None and not any(len(one.marks) < len(one.step.marks) for one in steps):
            found.append(ParsedRun(sheet, run, scope, drill, steps))
    return tuple(found), in_order(problems)
