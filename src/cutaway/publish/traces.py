"""A followed course of things as a chart against time: house units, marks, sources, and the same in words."""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from cutaway.draw.traces import Mark, Trace, Traces
from cutaway.handbook.names import listed
from cutaway.handbook.records import Cite, Folder
from cutaway.inquiry.tracing import Course, Happening, Traced
from cutaway.machine.bind import Bound
from cutaway.quantities.quantity import Unit
from cutaway.quantities.si import from_si
from cutaway.quantities.units import unit_named
from cutaway.wording.figures import HouseUnits, duration, house_unit, shown

MOST_MARKS = 12
"""More numbered marks than this cannot be told apart on a page."""
_FLAT = 5e-4
"""A reading that moves by less than this share of itself is told to stay as it is."""
_MOST_POINTS = 1200
_MOST_ASSUMED = 6


@dataclass(frozen=True, slots=True)
class About:
    """What a chart is of, in words. name: the chart's own. run: what is run. says: what it is to show, '' for none."""

    name: str
    run: str
    says: str = ""


def traces_of(folder: Folder, traced: Traced, about: About) -> Traces:
    """The chart of a course of things."""
    house = folder.type.house_units
    picked = _picked(traced)
    traces = tuple(_trace(course, picked, house) for course in traced.courses)
    marks, left = _marks(traced)
    caption = _caption(folder, traced, left)
    title = f"{folder.type.name}: {about.name}" if about.name else str(folder.type.name)
    told = (f"{title}. {about.run}.", about.says, *(_told(c, traced.times, house) for c in traced.courses))
    happened = [f"At {mark.words}." for mark in marks]
    return Traces(
        title,
        ". ".join(words for words in (about.run, about.says) if words),
        tuple(float(traced.times[i]) for i in picked),
        traces,
        marks,
        caption,
        tuple(line for line in (*told, *happened, *caption) if line),
    )


def flat_lines(traced: Traced) -> tuple[Course, ...]:
    """The courses in which nothing changes."""
    return tuple(course for course in traced.courses if _is_flat(course))


def _is_flat(course: Course) -> bool:
    good = course.values[~np.isnan(course.values)]
    if good.size == 0:
        return True
    if course.words:
        return bool(np.ptp(good) == 0.0)
    return bool(np.ptp(good) <= _FLAT * max(1e-9, float(np.abs(good).max())))


def _picked(traced: Traced) -> list[int]:
    """The moments that are drawn: all, or of very many those that can be told apart with every jump kept."""
    count = len(traced.times)
    if count <= _MOST_POINTS:
        return list(range(count))
    step = (traced.times[-1] - traced.times[0]) / (_MOST_POINTS / 2)
    keep = {0, count - 1}
    last = traced.times[0]
    for i in range(1, count - 1):
        jump = any(_jumps(course, i) for course in traced.courses)
        if jump:
            keep |= {i - 1, i}
        if jump or traced.times[i] - last >= step:
            keep.add(i)
            last = traced.times[i]
    return sorted(keep)


def _jumps(course: Course, i: int) -> bool:
    before, after = course.values[i - 1], course.values[i]
    if np.isnan(before) != np.isnan(after):
        return True
    good = course.values[~np.isnan(course.values)]
    reach = float(np.ptp(good)) if good.size else 0.0
    return bool(abs(after - before) > 0.01 * reach)


def _trace(course: Course, picked: list[int], house: HouseUnits) -> Trace:
    values = tuple(float(course.values[i]) for i in picked)
    if course.words:
        return Trace(course.name, "", values, course.words, _is_flat(course))
    unit = _unit(course, house)
    if unit is None:
        return Trace(course.name, "", values, (), _is_flat(course))
    name = f"{unit.name} absolute" if course.datum == "absolute" and unit.datum != "absolute" else unit.name
    return Trace(course.name, name, tuple(from_si(value, unit) for value in values), (), _is_flat(course))


def _unit(course: Course, house: HouseUnits) -> Unit | None:
    # As in words: a pressure on no datum is a suction, whose dials are in inches of mercury.
    if course.dimension == "pressure" and not course.datum:
        return unit_named("in Hg")
    return house_unit(course.dimension, house)


# --- what happened -------------------------------------------------------------------------------------------------


def _marks(traced: Traced) -> tuple[tuple[Mark, ...], int]:
    """The marks in order of time, and how many more there were: what is done first, then what is shown, then others."""
    parts = {course.part for course in traced.courses}

    def weight(one: Happening) -> int:
        return 0 if one.sort != "mode" else 1 if one.part in parts else 2

    ranked = sorted(traced.happenings, key=lambda one: (weight(one), one.time))
    kept = sorted(ranked[:MOST_MARKS], key=lambda one: one.time)
    marks = tuple(Mark(one.time, f"{_moment(one.time)}: {one.words}") for one in kept)
    return marks, len(ranked) - len(kept)


def _moment(time: float) -> str:
    return duration(time) if time > 0.0 else "0 s"


# --- the caption ---------------------------------------------------------------------------------------------------


def _caption(folder: Folder, traced: Traced, left: int) -> tuple[str, ...]:
    return (
        _sources(folder, traced),
        _assumed(traced),
        f"{left} further events are not marked." if left else "",
        " ".join(f"{seen.what} is refused." for seen in traced.scene.refused),
        "" if traced.outcome.kind == "done" else traced.outcome.sentence,
        folder.type.notice,
    )


def _sources(folder: Folder, traced: Traced) -> str:
    cites = [cite for course in traced.courses for cite in _cites(course.part, traced.bound)]
    named = dict.fromkeys(cite.key for cite in cites)
    titles = [s.title for key in dict.fromkeys(c.source for c in cites) for s in folder.sources if s.key == key]
    books = listed(title for title in titles if title)
    found = f"Inferred by the model. What is shown is described in {listed(named)}" if named else ""
    if not found:
        return "Inferred by the model. No paragraph is given for what is shown."
    return f"{found} ({books})." if books else f"{found}."


def _cites(name: str, bound: Bound) -> Iterable[Cite]:
    part = bound.parts[name]
    yield from part.cites
    for value in part.values:
        for given in value.givens:
            if bound.subject.standard in given.on.names:
                yield from given.cites


def _assumed(traced: Traced) -> str:
    """The assumed values of what is shown, in full; of the parts that reach it, how many."""
    parts = {course.part for course in traced.courses}
    own = [one for one in traced.assumed if one.part in parts]
    others = len(traced.assumed) - len(own)
    told = [f"{one.part} {one.value} {one.stated} ({one.between})" for one in own[:_MOST_ASSUMED]]
    if len(own) > _MOST_ASSUMED:
        told.append(f"{len(own) - _MOST_ASSUMED} more of the same parts")
    if others:
        told.append(f"{others} values of parts that act on them" if told else f"{others} values of other parts")
    return f"Assumed, since no book gives them: {'; '.join(told)}." if told else "Nothing in it is assumed."


# --- in words ------------------------------------------------------------------------------------------------------


def _told(course: Course, times: Iterable[float], house: HouseUnits) -> str:
    """One line as a sentence: where it begins, how far it goes, where it ends."""
    moments = list(times)
    if course.words:
        return _told_steps(course, moments)
    good = [i for i, value in enumerate(course.values) if not math.isnan(value)]
    if not good:
        return f"{course.name}: dead throughout."

    def say(i: int) -> str:
        return shown(float(course.values[i]), course.dimension, course.datum, house)

    if _is_flat(course):
        return f"{course.name}: {say(good[0])} throughout."
    low = min(good, key=lambda i: float(course.values[i]))
    high = max(good, key=lambda i: float(course.values[i]))
    ends = f"{course.name}: {say(good[0])} at first, {say(good[-1])} at last"
    between = [
        f"{word} {say(i)} at {_moment(moments[i])}"
        for word, i in (("lowest", low), ("highest", high))
        if say(i) not in (say(good[0]), say(good[-1]))
    ]
    dead = "; dead for some of the time" if len(good) < len(moments) else ""
    return f"{'; '.join((ends, *between))}{dead}."


def _told_steps(course: Course, moments: list[float]) -> str:
    def word(value: float) -> str:
        return min(course.words, key=lambda one: abs(one[0] - value))[1]

    values = [float(value) for value in course.values]
    changes = [f"{word(b)} from {_moment(moments[i + 1])}" for i, (a, b) in enumerate(pairwise(values)) if a != b]
    if not changes:
        return f"{course.name}: {word(values[0])} throughout."
    shown_changes = changes if len(changes) <= 8 else (*changes[:7], f"{len(changes) - 7} further changes")
    return f"{course.name}: {word(values[0])} at first, {', '.join(shown_changes)}."
