"""`import cutaway as cw`: one call a question on a folder that is loaded once, each answer with its own display."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Generic, TypeVar

from cutaway.api import compare as comparing
from cutaway.api import drill as drilling
from cutaway.api import failures as failing
from cutaway.api import making, running, sweeping, telling, tracing
from cutaway.api import reach as reaching
from cutaway.api import rests as resting
from cutaway.api import suspects as suspecting
from cutaway.api import why as explaining
from cutaway.api.asking import Asked, Opened
from cutaway.api.checking import check as check_folder
from cutaway.api.displays import answer_html, problems_html, trace_html
from cutaway.api.loading import load as load_files
from cutaway.draw.traces import Traces
from cutaway.inquiry.many import Pace
from cutaway.inquiry.workshop import Workshop
from cutaway.narrate.checked import Checked
from cutaway.problems.diagnostic import Problems
from cutaway.problems.printing import as_text

T = TypeVar("T")


@dataclass(frozen=True, slots=True, eq=False)
class TypeFolder:
    """A loaded type folder. opened: with what its questions share, None where there is nothing to ask. problems: all
    that is wrong with its files."""

    path: Path
    opened: Opened | None
    problems: Problems

    def __str__(self) -> str:
        """What it is, in a line; what is wrong with it below."""
        return "\n\n".join(words for words in (self._words(), as_text(self.problems)) if words)

    def _words(self) -> str:
        if self.opened is None:
            return f"There is no type folder at {self.path}."
        folder = self.opened.loaded.folder
        names = ", ".join(str(standard.name) for standard in folder.type.standards)
        return f"{folder.type.name}: {names}; {len({part.name for part in folder.parts})} parts."

    def _repr_html_(self) -> str:
        return answer_html("", self._words(), ()) + problems_html(self.problems)


@dataclass(frozen=True, slots=True, eq=False)
class Answer(Generic[T]):
    """An answer. value: the record of the question's own file in `cutaway.api`, None where it could not be asked; then
    `problems` say why. text: as it reads aloud."""

    title: str
    value: T | None
    text: str
    problems: Problems
    _record: Callable[[], Mapping[str, object]]
    _html: Callable[[], str]

    @property
    def record(self) -> Mapping[str, object]:
        """The answer as plain data, as `--json` prints it."""
        return self._record()

    def __bool__(self) -> bool:
        """Whether it could be asked."""
        return self.value is not None

    def __str__(self) -> str:
        """The answer as text; where there is none, what was wrong."""
        return self.text if self.value is not None else as_text(self.problems)

    def _repr_html_(self) -> str:
        return self._html()


def load(path: Path | str) -> TypeFolder:
    """A type folder, loaded once. Questions on it share their runs, so that the second is quick."""
    loaded, problems = load_files(path)
    if loaded is None:
        return TypeFolder(Path(path), None, problems)
    return TypeFolder(Path(path), Opened(loaded, Workshop(loaded.folder, loaded.kinds)), problems)


def check(
    folder: TypeFolder, on: str = "", script: str = "", rests: bool = True, everything: bool = False, cluster: str = ""
) -> Answer[Checked]:
    """Every claim and every sight of the drills, a verdict for each standard, corrections of what fails.

    everything: whether the text tells what holds as well. cluster: a Dask scheduler whose workers judge.
    """
    if folder.opened is None:
        return _nothing("check", folder.problems)
    loaded, workshop = folder.opened.loaded, folder.opened.workshop
    checked, problems = check_folder(loaded, on, script, rests, workshop=workshop, cluster=cluster)

    def text(one: Checked) -> str:
        return telling.checked_text(one, everything)

    return _answer("check", checked, problems, text, lambda one: telling.checked_record(one, problems))


def run(
    folder: TypeFolder,
    situation: str,
    on: str = "",
    given: Sequence[str] = (),
    do: str = "",
    length: str = "60 s",
    show: Sequence[str] = (),
) -> Answer[running.Ran]:
    """One course of things, with its traces. given: what has failed. show: what claims name; else all that moves."""
    if folder.opened is None:
        return _nothing("run", folder.problems)
    asked = running.Asked(situation, on, tuple(given), do, length, tuple(show))
    ran, problems = running.run(folder.opened.loaded, asked, folder.opened.workshop)
    return _answer("run", ran, problems, _run_text, running.run_record, trace_html)


def _run_text(ran: running.Ran) -> str:
    rows = [f"{row.name}: {row.first} at first, {row.last} at last" for row in ran.rows]
    return "\n".join((running.run_heading(ran), *rows, *ran.events, ran.ending))


def chart(
    folder: TypeFolder,
    situation: str,
    show: Sequence[str],
    on: str = "",
    given: Sequence[str] = (),
    do: str = "",
    length: str = "60 s",
) -> Answer[Traces]:
    """Readings of one course of things against time, as a drawing. show: readings, parts or controls."""
    if folder.opened is None:
        return _nothing("chart", folder.problems)
    asked = running.Asked(situation, on, tuple(given), do, length, tuple(show))
    made, problems = tracing.traces(folder.opened.loaded, asked, folder.opened.workshop)
    return _answer("chart", made, problems, tracing.traces_text, tracing.traces_record, tracing.traces_html)


def why(
    folder: TypeFolder,
    statement: str,
    situation: str = "",
    on: str = "",
    given: Sequence[str] = (),
    do: str = "",
    at: str = "",
    size: int = 2,
    failures: bool = False,
) -> Answer[explaining.WhyTold]:
    """Why a statement is so: the chain of cause, the smallest reasons, what would turn it over."""
    if folder.opened is None:
        return _nothing("why", folder.problems)
    told, problems = explaining.why(
        folder.opened, Asked(statement, situation, on, tuple(given), do, at), size, failures=failures
    )
    return _answer("why", told, problems, explaining.why_text, explaining.why_record)


def failures(
    folder: TypeFolder,
    statement: str,
    situation: str = "",
    on: str = "",
    given: Sequence[str] = (),
    do: str = "",
    at: str = "",
    size: int = 2,
) -> Answer[failing.FailuresTold]:
    """The smallest sets of failures that undo a service or statement, and what the crew would see of each."""
    if folder.opened is None:
        return _nothing("failures", folder.problems)
    told, problems = failing.failures(folder.opened, Asked(statement, situation, on, tuple(given), do, at), size)
    return _answer("failures", told, problems, failing.failures_text, failing.failures_record)


def all_failures(
    folder: TypeFolder, situation: str = "", on: str = "", size: int = 2, cluster: str = ""
) -> Answer[sweeping.Swept]:
    """The failures of every service on every standard, here or on the workers of a Dask scheduler."""
    if folder.opened is None:
        return _nothing("all failures", folder.problems)
    swept, problems = sweeping.all_failures(folder.opened, situation, on, size, cluster=cluster)
    return _answer("all failures", swept, problems, sweeping.swept_text, sweeping.swept_record)


def suspects(
    folder: TypeFolder,
    seen: Sequence[str],
    situation: str = "",
    on: str = "",
    given: Sequence[str] = (),
    do: str = "",
    at: str = "",
    size: int = 2,
) -> Answer[suspecting.SuspectsTold]:
    """What could be behind what the crew sees, and the next look or movement that best tells the suspects apart."""
    if folder.opened is None:
        return _nothing("suspects", folder.problems)
    told, problems = suspecting.suspects(folder.opened, seen, Asked("", situation, on, tuple(given), do, at), size)
    return _answer("suspects", told, problems, suspecting.suspects_text, suspecting.suspects_record)


def reach(
    folder: TypeFolder, statement: str, situation: str = "", on: str = "", given: Sequence[str] = (), size: int = 3
) -> Answer[reaching.ReachTold]:
    """The shortest sequences of actions after which a statement is so."""
    if folder.opened is None:
        return _nothing("reach", folder.problems)
    told, problems = reaching.reach(folder.opened, Asked(statement, situation, on, tuple(given)), size)
    return _answer("reach", told, problems, reaching.reach_text, reaching.reach_record)


def drill(folder: TypeFolder, name: str, on: str = "") -> Answer[drilling.DrillsTold]:
    """What each step of a drill does and protects, left out and exchanged with the next, on each standard."""
    if folder.opened is None:
        return _nothing("drill", folder.problems)
    told, problems = drilling.drill(folder.opened, name, on)
    return _answer("drill", told, problems, drilling.drills_text, drilling.drills_record)


def compare(
    folder: TypeFolder, one: str, other: str, situation: str = "", moves: int = comparing.MOVES
) -> Answer[comparing.Compared]:
    """What differs between two standards: first what the crew would notice, then what differs underneath."""
    if folder.opened is None:
        return _nothing("compare", folder.problems)
    told, problems = comparing.compare(folder.opened, one, other, situation, moves=moves)
    return _answer("compare", told, problems, comparing.compared_text, comparing.compared_record)


def rests(
    folder: TypeFolder, on: str = "", script: str = "", seconds: float | None = None
) -> Answer[resting.RestsTold]:
    """Which assumed values can turn which verdicts over, and which to look for first. seconds: how long to try them at
    most; the next call goes on from there."""
    if folder.opened is None:
        return _nothing("rests", folder.problems)
    told, problems = resting.rests(folder.opened, on, script, pace=Pace(seconds=seconds))
    return _answer("rests", told, problems, resting.rests_text, resting.rests_record)


def make(
    folder: TypeFolder, out: Path | str | None = None, rests: bool = True, handouts: bool = True
) -> Answer[making.Made]:
    """Make the pack of a folder, all or nothing. handouts: whether it has them too, where the typesetter is at hand."""
    made, problems = making.make(folder.path, Path(out) if out is not None else None, rests, handouts=handouts)
    return _answer("make", made, problems, telling.made_text, lambda one: telling.made_record(one, problems))


# --- putting together ----------------------------------------------------------------------------------------------


def _nothing(title: str, problems: Problems) -> Answer[T]:
    return Answer(title, None, "", problems, dict, lambda: answer_html(title, "", problems))


def _answer(
    title: str,
    value: T | None,
    problems: Problems,
    text: Callable[[T], str],
    record: Callable[[T], Mapping[str, object]],
    html: Callable[[T], str] | None = None,
) -> Answer[T]:
    if value is None:
        return _nothing(title, problems)
    words = text(value)
    shown = (lambda: html(value)) if html is not None else (lambda: answer_html(title, words, problems))
    return Answer(title, value, words, problems, lambda: record(value), shown)
