"""What is run on the sheets that show moments, names resolved."""

from dataclasses import dataclass, replace

from cutaway.handbook.records import AskedMoment, Drill, Folder, Sheet, SheetRun
from cutaway.language.claims import Done, ParsedStep, steps_of
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


def _usual(sheet: Sheet, steps: tuple[ParsedStep, ...]) -> tuple[AskedMoment, ...]:
    """Before a drill, and after every step in which something is done."""
    done = [one.step for one in steps if any(isinstance(mark, Done) for mark in one.marks)]
    after = (AskedMoment("step", float(step.number), step.span) for step in done)
    return (AskedMoment("before", 0.0, sheet.span), *after)


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
            run = replace(run, moments=run.moments or _usual(sheet, steps))
            found.append(ParsedRun(sheet, run, scope, drill, steps))
    return tuple(found), in_order(problems)
