"""One sheet at chosen moments of a run, for Python users: what stills, moving drawings and overlays are made from."""

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from cutaway.api.loading import load
from cutaway.api.places import layouts_folder
from cutaway.api.running import LONGEST, Asked, Course, course, unreached
from cutaway.draw.pages import SHAPE
from cutaway.draw.sequence import Moment
from cutaway.draw.sheet import sheet_picture, used_in_all
from cutaway.handbook.names import did_you_mean, fold
from cutaway.handbook.records import Folder
from cutaway.inquiry.moments import AFTER, BEFORE, SETTLED, Instant, Staged, instants
from cutaway.inquiry.snapshot import in_situation
from cutaway.inquiry.workshop import Request
from cutaway.machine.records import Event, Outcome
from cutaway.machine.subjects import parts_of
from cutaway.problems.diagnostic import Diagnostic, Problems, in_order
from cutaway.problems.span import TextFile, whole
from cutaway.quantities.reading import read_quantity
from cutaway.quantities.si import to_si
from cutaway.wording.figures import duration
from cutaway.wording.moments import moment_words

MOST = 240
"""How many moments a sequence may have."""

FIRST, LAST, REST = "before", "end", "settled"


@dataclass(frozen=True, slots=True)
class Wanted:
    """A sequence, in the words of the command line.

    situation '': the first of the folder. systems: empty for all. at: times ('10 s'), 'before', 'end' and 'settled';
    events: at every event of the system's parts too; every: and at this distance ('2 s'), '' for none. length: how long
    the run is.
    """

    situation: str
    on: str
    failed: tuple[str, ...]
    do: str
    systems: tuple[str, ...]
    at: tuple[str, ...] = ()
    events: bool = False
    every: str = ""
    length: str = "60 s"

    @property
    def moving(self) -> bool:
        """Whether moments are asked for."""
        return bool(self.at or self.events or self.every)


@dataclass(frozen=True, slots=True, eq=False)
class Sequence:
    """One system's sheet at its moments. times: s of the run; -1 for before it began."""

    system: str
    standard: str
    situation: str
    times: tuple[float, ...]
    moments: tuple[Moment, ...]

    @property
    def of(self) -> str:
        """The words that file names are made from."""
        return f"{self.system} {self.standard} {self.situation}"


def sequences(
    folder: Path | str, wanted: Wanted, shape: float = SHAPE
) -> tuple[tuple[Sequence, ...], Folder | None, Problems]:
    """A sequence for each system that is asked for, and the folder; nothing where that cannot be understood.

    Without moments each has one: the situation as it settles, or the end of the run where something is done or fails.
    """
    loaded, problems = load(folder)
    if loaded is None:
        return (), None, problems
    situation = wanted.situation or next((one.name for one in loaded.folder.situations), "")
    ready, problems = course(folder, Asked(situation, wanted.on, wanted.failed, wanted.do, wanted.length, ()))
    if ready is None:
        return (), loaded.folder, problems
    systems, more = _systems(ready, wanted.systems)
    times, again = _times(ready, wanted)
    if more or again:
        return (), loaded.folder, in_order((*problems, *more, *again))
    found: list[Sequence] = []
    for system in systems:
        made, more = _sequence(ready, wanted, situation, system, times, shape)
        problems += more
        found += [made] if made is not None else []
    return tuple(found), loaded.folder, in_order(tuple(dict.fromkeys(problems)))


def _systems(ready: Course, asked: tuple[str, ...]) -> tuple[tuple[str, ...], Problems]:
    """The systems that are meant; those that the subject has where none is named."""
    there = {part.system for part in parts_of(ready.loaded.folder, ready.bound.subject)}
    known = [system.name for system in ready.loaded.folder.systems]
    if not asked:
        return tuple(name for name in known if name in there), ()
    found: dict[str, None] = {}
    problems: list[Diagnostic] = []
    for words in asked:
        name = next((one for one in known if fold(one) == fold(words)), None)
        if name is None:
            problems.append(
                Diagnostic("K501", None, f"There is no system '{words}' to draw.", did_you_mean(words, known))
            )
        else:
            found[name] = None
    return tuple(found), tuple(problems)


# --- when --------------------------------------------------------------------------------------------------------


def _times(ready: Course, wanted: Wanted) -> tuple[tuple[float, ...], Problems]:
    """The moments that are named, s of the run, in order; events come later, since they are each system's own."""
    if not wanted.moving:
        plain = not wanted.do and not wanted.failed
        return (BEFORE if plain else ready.scene.clock + ready.length,), ()
    found: list[float] = []
    problems: list[Diagnostic] = []
    named = {FIRST: BEFORE, LAST: ready.scene.clock + ready.length, REST: SETTLED}
    for words in wanted.at:
        if fold(words) in named:
            found.append(named[fold(words)])
            continue
        seconds, more = _time(words, "--at", 0.0)
        found += [] if seconds is None else [seconds]
        problems += more
    if wanted.every:
        step, more = _time(wanted.every, "--every", AFTER)
        problems += more
        end = ready.scene.clock + ready.length
        if step is not None and end / step > MOST:
            message = f"Every {wanted.every} for {duration(end)} are more than {MOST} moments."
            problems.append(Diagnostic("K503", None, message, f"Write --every '{duration(end / 60)}', or more."))
        elif step is not None:
            found += [n * step for n in range(int(end / step + 1e-9) + 1)]
    if len(found) > MOST:
        message = f"{len(found)} moments are more than the {MOST} that a sequence may have."
        problems.append(Diagnostic("K503", None, message, "Leave some out."))
    return tuple(sorted(set(found))), tuple(problems)


def _time(words: str, option: str, least: float) -> tuple[float | None, Problems]:
    quantity, problems = read_quantity(words, whole(TextFile(option, words)), "time")
    if quantity is None:
        return None, problems
    seconds = to_si(quantity)
    if not least <= seconds <= LONGEST:
        hint = f"Write a time of {duration(least)} to {duration(LONGEST)}, for instance '10 s'."
        return None, (Diagnostic("C106", None, f"Nothing can be run for {words}.", hint),)
    return seconds, ()


def _of_events(ready: Course, system: str, events: Iterable[Event]) -> list[float]:
    """A moment after each event of the system's parts; events that follow at once have one moment."""
    parts = {str(p.name) for p in parts_of(ready.loaded.folder, ready.bound.subject) if p.system == system}
    found: list[float] = []
    for event in events:
        if event.mode.rpartition(": ")[0] in parts or event.mode.partition(":")[0] in parts:
            if found and event.time + AFTER - found[-1] < 2 * AFTER:
                found.pop()
            found.append(event.time + AFTER)
    return found


# --- what is seen ------------------------------------------------------------------------------------------------


def _sequence(
    ready: Course, wanted: Wanted, situation: str, system: str, times: tuple[float, ...], shape: float
) -> tuple[Sequence | None, Problems]:
    if wanted.events:
        events, problems = _events(ready, wanted, situation)
        own = _of_events(ready, system, events)
        times = tuple(sorted({*times, *own}))[:MOST]
        if problems:
            return None, problems
        if not times:
            message = f"Nothing of the system '{system}' changes in this run, so there is no moment to show."
            return None, (Diagnostic("K502", None, message, f"Name moments: --at {FIRST} --at '10 s'."),)
    found, problems = _instants(ready, wanted, situation, times)
    if not found:
        return None, problems
    subject = ready.bound.subject
    folder, kinds = ready.loaded.folder, ready.loaded.kinds
    used = used_in_all(folder, subject.name, system, [at.values for at in found], kinds, layouts_folder(), shape)
    moments: list[Moment] = []
    for time, at in zip(times, found, strict=True):
        picture, more = sheet_picture(
            folder,
            subject.name,
            system,
            at.values,
            kinds,
            _says(ready, wanted, situation),
            layouts_folder(),
            f"{system} {subject.name} {situation}",
            shape,
            used,
        )
        problems += more
        if picture is None:
            return None, problems
        moments.append(Moment(_when(at, time, wanted), picture))
    reached = tuple(one.time for one in found)
    return Sequence(system, str(subject.name), situation, reached, tuple(moments)), problems


def _events(ready: Course, wanted: Wanted, situation: str) -> tuple[tuple[Event, ...], Problems]:
    scene = ready.scene
    (run,) = ready.workshop.runs([Request(ready.made, scene.legs, scene.changes, scene.clock + ready.length)])
    if isinstance(run, Outcome):
        return (), (unreached(ready, _asked(wanted, situation), run),)
    return run.events, ()


def _instants(
    ready: Course, wanted: Wanted, situation: str, times: tuple[float, ...]
) -> tuple[tuple[Instant, ...], Problems]:
    """Every signal at every moment: a run to each, so that none is guessed between two steps of one."""
    named = next(one for one in ready.loaded.folder.situations if fold(one.name) == fold(situation))
    scope = in_situation(named.name, named.span)
    staged = Staged(ready.workshop, ready.loaded.told, ready.bound, scope, ready.made, ready.scene)
    found, problems = instants(staged, times)
    if isinstance(found, Outcome):
        return (), (unreached(ready, _asked(wanted, situation), found),)
    return found, problems


def _asked(wanted: Wanted, situation: str) -> Asked:
    return Asked(situation, wanted.on, wanted.failed, wanted.do, wanted.length, ())


def _says(ready: Course, wanted: Wanted, situation: str) -> str:
    says = next((one.says for one in ready.loaded.folder.situations if fold(one.name) == fold(situation)), "")
    words = f"{situation}: {says}" if says else situation
    words += f" With {', '.join(wanted.failed)}." if wanted.failed else ""
    return f"{words} Then: {wanted.do}." if wanted.do else words


def _when(one: Instant, time: float, wanted: Wanted) -> str:
    return moment_words(one, time == SETTLED) if wanted.moving or time >= 0.0 else ""
