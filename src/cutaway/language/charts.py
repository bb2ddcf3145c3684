"""What a chart asks for, names resolved: its scope, and what is shown of which part."""

from collections.abc import Iterable
from dataclasses import dataclass

from cutaway.handbook.names import did_you_mean, listed, missing_situation
from cutaway.handbook.records import AskedChart, Folder, PartName
from cutaway.language.name_index import key
from cutaway.language.run_scope import run_scope
from cutaway.language.said import name_of
from cutaway.language.syntax import ControlRef, ReadingRef, Scope
from cutaway.language.words import PartWords, Words
from cutaway.problems.diagnostic import Diagnostic, Problems, in_order
from cutaway.problems.span import Span


@dataclass(frozen=True, slots=True)
class StateRef:
    """A state of a part, in its own words: 'lit'."""

    part: PartName
    words: str
    opposite: str


@dataclass(frozen=True, slots=True)
class Shown:
    """What a chart shows, and the words that asked for it."""

    of: ReadingRef | StateRef | ControlRef
    span: Span


@dataclass(frozen=True, slots=True)
class ParsedChart:
    """A chart with its words resolved. scope: without the standards, which are the chart's own."""

    chart: AskedChart
    scope: Scope
    shown: tuple[Shown, ...]


def parse_charts(folder: Folder, words: Words) -> tuple[tuple[ParsedChart, ...], Problems]:
    """The folder's charts; one in which something is not understood is left out and told."""
    found: list[ParsedChart] = []
    problems: Problems = ()
    for chart in folder.charts:
        one, more = _chart(chart, words)
        problems += more
        if one is not None:
            found.append(one)
    return tuple(found), in_order(problems)


def parse_shown(span: Span, words: Words) -> tuple[tuple[Shown, ...] | None, Problems]:
    """What some words ask to be shown: a reading, a control, a part, or the parts of a group."""
    folded = key(span.words)
    if folded in words.readings and folded not in words.parts:
        return (Shown(words.readings[folded].ref, span),), ()
    if folded in words.controls and folded not in words.parts:
        return (Shown(words.controls[folded].ref, span),), ()
    if folded in words.parts:
        return _of_part(words.parts[folded], span)
    if folded in words.collections:
        members = [words.parts[key(m)] for m in words.collections[folded].members if key(m) in words.parts]
        return _of_several(members, span)
    if folded in words.left_out:
        return None, ()
    names = names_to_show(words)
    message = f"There is no reading, part or control called '{span.words}' to be charted."
    return None, (Diagnostic("L218", span, message, did_you_mean(span.words, names)),)


def _chart(chart: AskedChart, words: Words) -> tuple[ParsedChart | None, Problems]:
    situation = words.situations.get(key(chart.situation.words), "")
    problems: Problems = ()
    if not situation and key(chart.situation.words) not in words.left_out:
        message = f"There is no situation called '{chart.situation.words}'."
        own = missing_situation(chart.situation.words)
        hint = did_you_mean(chart.situation.words, words.situations.values()) or own
        problems += (Diagnostic("L203", chart.situation, message, hint),)
    scope, more = run_scope(situation, chart.situation, chart.failed, chart.do, words)
    problems += more
    shown: list[Shown] = []
    for span in chart.show:
        some, more = parse_shown(span, words)
        problems += more
        shown += some or ()
    if not situation or scope is None or not shown:
        return None, problems
    return ParsedChart(chart, scope, tuple({one.of: one for one in shown}.values())), problems


def _of_part(part: PartWords, span: Span) -> tuple[tuple[Shown, ...] | None, Problems]:
    """What a part shows where it alone is named: its main reading, else its states, else its controls.

    A reading that is a share of the whole, as of a lamp's light, says less than the states that stand for it.
    """
    main = part.main.ref if part.main is not None else None
    if main is not None and not (part.states and part.main is not None and part.main.dimensions == ("fraction",)):
        return (Shown(main, span),), ()
    if part.states:
        return tuple(Shown(StateRef(part.name, s.words, s.opposite), span) for s in part.states), ()
    if part.controls:
        return tuple(Shown(control.ref, span) for control in part.controls), ()
    if part.readings:
        names = [f"{part.name} {reading.ref.reading}" for reading in part.readings]
        message = f"{part.name} gives several readings."
        return None, (Diagnostic("L219", span, message, f"Write {listed(names, 'or')}."),)
    message = f"{part.name} shows nothing that changes with time."
    return None, (Diagnostic("L219", span, message, f"Name a port of it, for instance {part.name}.inlet"),)


def _of_several(parts: Iterable[PartWords], span: Span) -> tuple[tuple[Shown, ...] | None, Problems]:
    found: list[Shown] = []
    for part in parts:
        some, problems = _of_part(part, span)
        if some is None:
            return None, problems
        found += some
    return tuple(found), ()


def names_to_show(words: Words) -> list[str]:
    """What can be shown, in the folder's own spelling."""
    readings = [f"{p.name} {r.ref.reading}" for p in words.parts.values() for r in p.readings if r.ref.reading]
    ports = [f"{r.ref.part}.{r.ref.port}" for r in words.readings.values() if r.ref.port]
    controls = [name_of(control.ref) for part in words.parts.values() for control in part.controls]
    groups = [one.name for one in words.collections.values()]
    return [*(str(part.name) for part in words.parts.values()), *readings, *ports, *controls, *groups]
