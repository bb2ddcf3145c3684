"""Charts of runs for Python users: readings against time, as they are asked for or as `charts.yaml` names them."""

from base64 import b64encode
from dataclasses import asdict, dataclass
from html import escape
from pathlib import Path

from cutaway.api.loading import Loaded, load, workshop_for
from cutaway.api.running import Asked, subject_named
from cutaway.draw.traces import Traces, traces_file
from cutaway.handbook.charts import LONGEST
from cutaway.handbook.names import did_you_mean, fold
from cutaway.inquiry.tracing import follow
from cutaway.inquiry.workshop import Workshop
from cutaway.language.charts import Shown, parse_shown
from cutaway.language.parse import parse_scope
from cutaway.language.syntax import Scope
from cutaway.machine.subjects import Subject
from cutaway.problems.diagnostic import Diagnostic, Problems, has_error, in_order
from cutaway.problems.span import TextFile, whole
from cutaway.publish.charts import asked_chart, drawn_from, wanted_subjects
from cutaway.publish.drawings import Desk
from cutaway.publish.traces import About
from cutaway.quantities.reading import read_quantity
from cutaway.quantities.si import to_si
from cutaway.wording.figures import duration


@dataclass(frozen=True, slots=True)
class _Understood:
    subject: Subject
    scope: Scope
    shown: tuple[Shown, ...]
    seconds: float


def traces(
    folder: Path | str | Loaded, asked: Asked, workshop: Workshop | None = None
) -> tuple[Traces | None, Problems]:
    """Readings of a run against time; None where that cannot be understood. asked.show: what is shown, at least one."""
    loaded, problems = (folder, folder.problems) if isinstance(folder, Loaded) else load(folder)
    if loaded is None:
        return None, problems
    ready, more = _understood(loaded, asked)
    if ready is None:
        # What is asked for may be missing because of an error in the folder.
        return None, in_order((*(p for p in problems if p.severity == "error"), *more))
    workshop, more = (workshop, ()) if workshop is not None else workshop_for(loaded)
    traced = follow(workshop, loaded.told, ready.subject, ready.scope, ready.shown, ready.seconds)
    about = About("", _run_words(asked, ready.subject))
    made, again = drawn_from(loaded.folder, traced, about, ready.subject, None)
    return made, in_order((*problems, *more, *again))


def named_traces(folder: Path | str, name: str, on: str = "") -> tuple[Traces | None, Problems]:
    """The chart of that name in `charts.yaml`, on the first of its standards or on the one that is named."""
    loaded, problems = load(folder)
    if loaded is None:
        return None, problems
    chart = next((one for one in loaded.charts if fold(one.chart.name) == fold(name)), None)
    if chart is None:
        known = [one.name for one in loaded.folder.charts]
        wrong = tuple(p for p in problems if p.severity == "error" and p.span and p.span.file.path == "charts.yaml")
        hint = did_you_mean(name, known) or "Write charts.yaml, or say --run and --show."
        return None, (*wrong, Diagnostic("C123", None, f"There is no chart '{name}' that can be drawn.", hint))
    subject, found = subject_named(loaded, on) if on else (wanted_subjects(loaded.folder, chart)[0], ())
    if subject is None or has_error(found):
        return None, in_order(found)
    workshop, more = workshop_for(loaded)
    made, again = asked_chart(Desk(workshop, loaded.told, loaded.kinds, None), chart, subject)
    return made, in_order((*problems, *more, *again))


def _understood(loaded: Loaded, asked: Asked) -> tuple[_Understood | None, Problems]:
    items = [f"in {asked.situation}", *(f"with {one}" for one in asked.failed)]
    items += [f"after {asked.do}"] if asked.do else []
    scope, problems = parse_scope(whole(TextFile("command line", ", ".join(items))), loaded.words)
    length, more = read_quantity(asked.length, whole(TextFile("--for", asked.length)), "time")
    problems += more
    if length is not None and not 0.0 < to_si(length) <= LONGEST:
        hint = f"Write a time above nought and up to {duration(LONGEST)}, for instance '90 s'."
        problems += (Diagnostic("C106", None, f"Nothing can be run for {length.text}.", hint),)
    subject, more = subject_named(loaded, asked.on)
    problems += more
    shown: list[Shown] = []
    for words in asked.show:
        some, more = parse_shown(whole(TextFile("--show", words)), loaded.words)
        problems += more
        shown += some or ()
    if scope is None or length is None or subject is None or not shown or has_error(problems):
        return None, problems
    return _Understood(subject, scope, tuple({one.of: one for one in shown}.values()), to_si(length)), problems


def _run_words(asked: Asked, subject: Subject) -> str:
    failed = "".join(f", with {one}" for one in asked.failed)
    return f"{subject.name}, in {asked.situation}{failed}{f', after {asked.do}' if asked.do else ''}"


def traces_record(made: Traces) -> dict[str, object]:
    """The chart for a program, in the units that it names; None where an instrument is dead."""
    record = asdict(made)
    for trace in record["traces"]:
        trace["values"] = [None if value != value else value for value in trace["values"]]
    return record


def traces_text(made: Traces) -> str:
    """The chart in words."""
    return "\n".join(made.description)


def traces_html(made: Traces) -> str:
    """The chart as a drawing for whoever works in a notebook, with its words for readers who cannot see it."""
    picture = b64encode(traces_file(made, "svg")).decode()
    words = escape(" ".join(made.description), quote=True)
    return f'<img src="data:image/svg+xml;base64,{picture}" alt="{words}">'
