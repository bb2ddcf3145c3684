"""Sheets at moments of a run, as `sheets/*.yaml` asks for them: numbered stills, a moving drawing, a page of both."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from cutaway.draw.sequence import Moment, stills, write_moving_svg
from cutaway.draw.sheet import drawn, used_in
from cutaway.draw.steered import steered
from cutaway.draw.svg import slug, write_svg
from cutaway.handbook.names import listed
from cutaway.inquiry.moments import BEFORE, SETTLED, Instant, Staged, instants, staged, time_after
from cutaway.inquiry.verdicts import NotModelled, Undecided
from cutaway.language.claims import Done
from cutaway.language.sheet_runs import ParsedRun, parse_runs
from cutaway.language.syntax import Action, Wait
from cutaway.language.words import words_of
from cutaway.machine.records import Outcome
from cutaway.machine.subjects import Subject, subjects
from cutaway.narrate.checked import Checked
from cutaway.narrate.drill_claims import BETWEEN_STEPS
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.publish.drawings import UNREAD, Desk
from cutaway.publish.product import Files, Product
from cutaway.publish.sequences_page import SequenceView, StillView, sequences_page
from cutaway.wording.moments import moment_words

FOLDER = "sequences"
FIRST = "sequences.html"
SECONDS = 3.0
"""How long a moving drawing shows each moment."""


@dataclass(frozen=True, slots=True)
class _Point:
    """A moment that is asked for. time: s of the run. words: '' where its time says it. says: what was done then."""

    time: float
    words: str = ""
    says: str = ""


def sequence_files(desk: Desk, checked: Checked) -> tuple[Files, Problems]:
    """Every sequence as stills and as a moving drawing, and the page that shows them."""
    folder = desk.workshop.folder
    if all(sheet.run is None for sheet in folder.sheets):
        return {}, ()
    # What is wrong with the words was told when the folder was loaded.
    parsed, _ = parse_runs(folder, words_of(folder, desk.kinds))
    files: dict[str, bytes] = {}
    views: list[SequenceView] = []
    problems: Problems = ()
    for one in parsed:
        for subject in wanted_subjects(one, subjects(folder)):
            found, made, more = _sequences(desk, one, subject)
            views += found
            files |= made
            problems += more
    if views:
        files[FIRST] = sequences_page(folder.type.name, folder.type.notice, views).encode()
    return files, tuple(dict.fromkeys(problems))


def wanted_subjects(one: ParsedRun, everyone: tuple[Subject, ...]) -> tuple[Subject, ...]:
    """The standards and airframes that a sequence is for: those of its sheet for which its drill is too."""
    there = [subject for subject in everyone if subject.name in one.sheet.on.names]
    drill = one.drill
    if drill is None or not drill.on.words:
        return tuple(there)
    return tuple(subject for subject in there if {subject.name, subject.standard} & drill.on.names)


def _sequences(desk: Desk, one: ParsedRun, subject: Subject) -> tuple[list[SequenceView], Files, Problems]:
    """The sequence of one sheet on one subject; several where it is too large for one page."""
    course = staged(desk.workshop, desk.told, subject, replace(one.scope, actions=tuple(_actions(one, None))))
    if isinstance(course, NotModelled | Undecided):
        return [], {}, (_not_run(one, subject, course),)
    points = sorted(_points(one, course), key=lambda point: point.time)
    found, problems = instants(course, [point.time for point in points])
    if isinstance(found, Outcome):
        return [], {}, (_not_run(one, subject, Undecided(found.sentence)),)
    drafts, more = steered(desk.workshop.folder, subject, one.sheet, desk.kinds, desk.layouts)
    problems += more
    views: list[SequenceView] = []
    files: dict[str, bytes] = {}
    says = _says(desk, one, course)
    for draft in drafts if found else ():
        name = f"{draft.name} {subject.name} sequence"
        used = used_in(draft, [instant.values for instant in found])
        moments = [
            Moment(_words(point, instant), drawn(draft, instant.values, says, name, used))
            for point, instant in zip(points, found, strict=True)
        ]
        view, made = _written(slug(f"{draft.name} {subject.name}"), points, moments, says)
        views.append(view)
        files |= made
    return views, files, problems


def _written(
    stem: str, points: list[_Point], moments: list[Moment], says: str
) -> tuple[SequenceView, dict[str, bytes]]:
    files: dict[str, bytes] = {}
    shown: list[StillView] = []
    digits = max(2, len(str(len(moments))))
    for number, (point, moment, picture) in enumerate(zip(points, moments, stills(moments), strict=True), 1):
        path = f"{FOLDER}/{stem}-{number:0{digits}}.svg"
        files[path] = write_svg(picture, "both").encode()
        shown.append(StillView(path, moment.words, point.says, picture.description))
    moving = f"{FOLDER}/{stem}-moving.svg" if len(moments) > 1 else ""
    if moving:
        files[moving] = write_moving_svg(moments, "both", SECONDS).encode()
    return SequenceView(moments[0].picture.title, says, moving, tuple(shown)), files


# --- what is run, and when it is looked at -------------------------------------------------------------------------


def _actions(one: ParsedRun, last: float | None) -> Iterator[Action]:
    """What is done, of a drill up to a step (None: all of it), with the time between its steps."""
    yield from one.scope.actions
    begun = False
    for step in one.steps:
        if last is not None and step.step.number > last:
            return
        actions = [action for mark in step.marks if isinstance(mark, Done) for action in mark.actions]
        if begun and actions:
            yield Wait(BETWEEN_STEPS, step.step.span)
        yield from actions
        begun = begun or bool(actions)


def _points(one: ParsedRun, course: Staged) -> Iterator[_Point]:
    said = {step.step.number: step.step.text for step in one.steps}
    for moment in one.run.moments:
        match moment.sort:
            case "before":
                yield _Point(BEFORE)
            case "settled":
                yield _Point(SETTLED)
            case "time":
                yield _Point(moment.number)
            case "step":
                done = tuple(_actions(one, moment.number))
                # Nothing done yet: the first thing that is done comes at once, and is not to be seen.
                time = time_after(course, done, BETWEEN_STEPS) if done else BEFORE
                number = int(moment.number)
                yield _Point(time, f"after step {number}", said[number])


def _words(point: _Point, instant: Instant) -> str:
    return point.words or moment_words(instant, point.time == SETTLED)


def _says(desk: Desk, one: ParsedRun, course: Staged) -> str:
    """What stands below the name of the sheet: the author's words, where it begins, what has failed, what is done."""
    situation = next(s for s in desk.workshop.folder.situations if s.name == one.run.situation)
    name = f"{situation.name[:1].upper()}{situation.name[1:]}" if one.sheet.says else situation.name
    begins = f"{name}: {situation.says}" if situation.says else f"{name}."
    failed = f"With {listed(span.words for span in one.run.failed)}." if one.run.failed else ""
    done = f"Then: {one.run.do.words}." if one.run.do is not None else ""
    drill = f"Drill: {one.drill.title}." if one.drill is not None else ""
    refused = " ".join(f"{seen.what} is refused." for seen in course.scene.refused)
    return " ".join(words for words in (one.sheet.says, begins, failed, done, drill, refused) if words)


def _not_run(one: ParsedRun, subject: Subject, why: NotModelled | Undecided) -> Diagnostic:
    name, place = one.sheet.name, one.sheet.span
    if isinstance(why, Undecided):
        return Diagnostic("I101", place, f"There is no sequence '{name}' on {subject.name}: {why.because}")
    message = f"{subject.name} has no {listed(why.missing)}, so there is no sequence '{name}' of it."
    return Diagnostic("K620", place, message, "Write under 'on' the standards that have it.")


SEQUENCES = Product(
    "Sequences",
    "Sheets at moments of a run: numbered stills, and one drawing that moves.",
    "drawing the sequences",
    sequence_files,
    FIRST,
    (*(path for path in UNREAD if path != "drills/"), "photographs.yaml", "charts.yaml", "explore.yaml"),
    checking=False,
)
