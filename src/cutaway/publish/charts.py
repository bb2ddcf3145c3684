"""The charts of a pack: those that `charts.yaml` asks for, and boost and power of each engine by height."""

import json
from collections.abc import Iterator
from dataclasses import asdict, dataclass, replace

from cutaway.draw.chart import Chart, chart_file, told
from cutaway.draw.svg import slug
from cutaway.draw.traces import Traces, traces_file
from cutaway.handbook.names import listed
from cutaway.handbook.records import Folder
from cutaway.inquiry.tracing import Traced, follow
from cutaway.inquiry.verdicts import NotModelled, Undecided
from cutaway.language.charts import ParsedChart, parse_charts
from cutaway.language.words import words_of
from cutaway.machine.records import Outcome
from cutaway.machine.subjects import Subject, subjects
from cutaway.narrate.checked import Checked
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import Span
from cutaway.publish.boost_chart import charted_engines, usual_chart
from cutaway.publish.drawings import UNREAD, Desk
from cutaway.publish.html import Html, anchor, el
from cutaway.publish.plain_page import plain_page
from cutaway.publish.product import Files, Product
from cutaway.publish.traces import About, flat_lines, traces_of
from cutaway.quantities.si import to_si

FIRST = "charts.html"
RECORD = "charts.json"
FOLDER = "charts"


@dataclass(frozen=True, slots=True)
class Drawn:
    """A chart with its files. stem: their name without ending. of: the record that it is drawn from."""

    title: str
    stem: str
    of: Traces | Chart
    words: tuple[str, ...]


def chart_files(desk: Desk, checked: Checked) -> tuple[Files, Problems]:
    """Every chart as a file for a light and for a dark screen, the page that shows them, and their figures."""
    asked, problems = _asked(desk)
    drawn = (*asked, *_engines(desk))
    if not drawn:
        return {}, problems
    files: dict[str, bytes] = {}
    for one in drawn:
        for manner, mark in (("light", ""), ("dark", "-dark")):
            files[f"{FOLDER}/{one.stem}{mark}.svg"] = _file(one.of, manner)
    files[FIRST] = _page(desk.workshop.folder, drawn).encode()
    record = {"format": 1, "charts": [{"file": f"{FOLDER}/{one.stem}.svg", **asdict(one.of)} for one in drawn]}
    files[RECORD] = (json.dumps(_without_nan(record), ensure_ascii=False, indent=1) + "\n").encode()
    return files, problems


def _file(of: Traces | Chart, manner: str) -> bytes:
    return traces_file(of, "svg", manner) if isinstance(of, Traces) else chart_file(of, "svg", manner)


def _without_nan(record: object) -> object:
    """The record with nothing where an instrument is dead, since JSON has no word for it."""
    if isinstance(record, dict):
        return {key: _without_nan(value) for key, value in record.items()}
    if isinstance(record, (list, tuple)):
        return [_without_nan(value) for value in record]
    return None if isinstance(record, float) and record != record else record


# --- charts that are asked for -------------------------------------------------------------------------------------


def _asked(desk: Desk) -> tuple[tuple[Drawn, ...], Problems]:
    folder = desk.workshop.folder
    if not folder.charts:
        return (), ()
    # What is wrong with the words was told when the folder was loaded.
    parsed, _ = parse_charts(folder, words_of(folder, desk.kinds))
    found: list[Drawn] = []
    problems: Problems = ()
    for one in parsed:
        for subject in wanted_subjects(folder, one):
            chart, more = asked_chart(desk, one, subject)
            problems += more
            if chart is not None:
                title = f"{one.chart.name}, {subject.name}"
                found.append(Drawn(title, slug(title), chart, chart.description))
    return tuple(found), problems


def wanted_subjects(folder: Folder, asked: ParsedChart) -> tuple[Subject, ...]:
    """The standards and airframes that a chart is for: the first where it names none."""
    everyone = subjects(folder)
    on = asked.chart.on
    return tuple(one for one in everyone if one.name in on.names) if on is not None else everyone[:1]


def asked_chart(desk: Desk, asked: ParsedChart, subject: Subject) -> tuple[Traces | None, Problems]:
    """A chart of `charts.yaml` on one subject; None, with why, where it cannot be made."""
    chart = asked.chart
    traced = follow(desk.workshop, desk.told, subject, asked.scope, asked.shown, to_si(chart.length))
    about = About(chart.name, run_words(asked, subject), chart.says)
    return drawn_from(desk.workshop.folder, traced, about, subject, chart.span)


def drawn_from(
    folder: Folder,
    traced: Traced | NotModelled | Undecided | Outcome,
    about: About,
    subject: Subject,
    span: Span | None,
) -> tuple[Traces | None, Problems]:
    """The chart of what was followed; lines that do not move are told, and so is why there is none."""
    match traced:
        case Traced():
            return traces_of(folder, traced, about), _flat(traced, about, span)
        case NotModelled(missing=missing):
            message = f"{subject.name} has no {listed(missing)}, so that there is no chart{_named(about)} of it."
            return None, (Diagnostic("K611", span, message, "Write under 'on' the standards that have it."),)
        case Undecided(because=because):
            return None, (Diagnostic("I101", span, f"No chart{_named(about)} on {subject.name}: {because}"),)
        case Outcome(sentence=sentence):
            return None, (Diagnostic("I101", span, f"No chart{_named(about)} on {subject.name}: {sentence}"),)


def _named(about: About) -> str:
    return f" {about.name}" if about.name else ""


def _flat(traced: Traced, about: About, span: Span | None) -> Problems:
    """That nothing changes in some of the lines, or in any."""
    flat = [course.name for course in flat_lines(traced)]
    if not flat:
        return ()
    whole = len(flat) == len(traced.courses)
    what = "Nothing changes" if whole else f"{listed(flat)} {'does' if len(flat) == 1 else 'do'} not change"
    message = f"{what} in the chart{_named(about)} on {traced.bound.subject.name}: a flat line is drawn."
    hint = "Say under 'do' what is done, go on for longer with 'for', or show what moves."
    return (Diagnostic("K612", span, message, hint),)


def run_words(asked: ParsedChart, subject: Subject) -> str:
    """What is run, as the author wrote it: 'Mk 1, in cruising, after tank selector to off'."""
    chart = asked.chart
    failed = "".join(f", with {one.words}" for one in chart.failed)
    done = f", after {chart.do.words}" if chart.do is not None else ""
    return f"{subject.name}, in {asked.scope.situation}{failed}{done}"


# --- engines -------------------------------------------------------------------------------------------------------


def _engines(desk: Desk) -> Iterator[Drawn]:
    """A chart for each engine of each standard; engines and standards whose charts are alike have one together."""
    folder = desk.workshop.folder
    alike: dict[Chart, dict[str, dict[str, None]]] = {}
    for standard in folder.type.standards:
        bound, _ = desk.workshop.bound(Subject(standard.name, standard.name))
        for engine in charted_engines(bound):
            chart = usual_chart(folder, bound, engine)
            plain = replace(chart, title="", standard="")
            alike.setdefault(plain, {}).setdefault(str(standard.name), {})[engine] = None
    for chart, by_standard in alike.items():
        engines = dict.fromkeys(engine for found in by_standard.values() for engine in found)
        title = f"{folder.type.name}: {listed(engines)}, boost and power by height"
        named = replace(chart, title=title, standard=", ".join(by_standard))
        stem = slug(f"boost {' '.join(engines)} {' '.join(by_standard)}")[:80].strip("-")
        yield Drawn(f"{listed(engines)}, boost and power by height, {named.standard}", stem, named, told(named))


# --- the page ------------------------------------------------------------------------------------------------------


def _page(folder: Folder, drawn: tuple[Drawn, ...]) -> str:
    places = el("ul", *(el("li", el("a", one.title, href=f"#{anchor('chart', one.stem)}")) for one in drawn))
    sections = [_section(one) for one in drawn]
    return plain_page(f"{folder.type.name}, charts", (places, *sections), folder.type.notice)


def _section(one: Drawn) -> Html:
    light, dark = f"{FOLDER}/{one.stem}.svg", f"{FOLDER}/{one.stem}-dark.svg"
    shown = el(
        "picture",
        el("source", srcset=dark, media="(prefers-color-scheme: dark)"),
        el("img", src=light, alt=" ".join(one.words)),
    )
    name = anchor("chart", one.stem)
    words = el("details", el("summary", "In words"), *(el("p", line) for line in one.words))
    wide = el("div", shown, class_="drawn", tabindex="0", role="region", aria_label=f"Chart: {one.title}")
    return el("section", el("h2", one.title, id=name), el("figure", wide), words, aria_labelledby=name)


CHARTS = Product(
    "Charts",
    "Readings against time, and boost and power of the engines against height, with their sources.",
    "drawing the charts",
    chart_files,
    FIRST,
    (*UNREAD, "photographs.yaml", "sheets/"),
    checking=False,
)
