"""What a sheet says of a state, without drawing it: the same words and live lines that a drawing would show."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from cutaway.draw.plan import make_plan
from cutaway.draw.seen import LineSeen, Values, lines_seen, look_of, nominal_volts, notes_of
from cutaway.handbook.records import Folder
from cutaway.machine.names import flow_name, set_name, signal_name
from cutaway.machine.subjects import Subject, parts_of
from cutaway.parts.kind import Kind


@dataclass(frozen=True, slots=True)
class Shown:
    """notes: the words under each part of the sheet, then those of further parts. lines: each line with whether it is
    live and which way it flows."""

    notes: tuple[tuple[str, tuple[str, ...]], ...]
    lines: tuple[tuple[str, LineSeen], ...]


@dataclass(frozen=True, slots=True, eq=False)
class Showing:
    """One system's sheet. parts: those that stand on it. signals: all that its drawing is made from."""

    parts: tuple[str, ...]
    signals: frozenset[str]
    of: Callable[[Values], Shown]

    def pieces(self, values: Values) -> tuple[object, ...]:
        """The same one after another: each part's words, each line."""
        shown = self.of(values)
        return (*shown.notes, *shown.lines)


def showing(
    folder: Folder, subject: Subject, system: str, kinds: Mapping[str, Kind], besides: Iterable[str] = ()
) -> Showing:
    """What the sheet of one system of one subject says, for any values. besides: parts of other sheets, told of too."""
    plan = make_plan(folder, subject, system, kinds)
    own = [item.part for item in plan.items if not item.reference]
    others = {part.name: part for part in parts_of(folder, subject)}
    told = [*own, *(others[name] for name in besides)]  # type: ignore[index]
    house = dict(folder.type.house_units)
    volts = nominal_volts(folder, subject, kinds)

    def of(values: Values) -> Shown:
        notes = tuple(
            (str(p.name), notes_of(kinds[p.kind], look_of(p, kinds[p.kind], subject, values), house)) for p in told
        )
        return Shown(notes, tuple(sorted(lines_seen(plan, values, volts).items())))

    nodes = {end.node for tie in plan.ties for end in (tie.start, tie.end) if end.node}
    ends = [end for tie in plan.ties for end in (tie.start, tie.end) if end.port]
    signals = set(nodes) | {flow_name(end.part, end.port) for end in ends}
    for part in told:
        kind = kinds[part.kind]
        names = [s.signal for s in kind.states] + [n for r in kind.readings for n in (r.signal, r.alive) if n]
        signals |= {signal_name(part.name, name) for name in (*names, "position")}
        signals |= {set_name(f"{part.name}.{c.name}" if c.name else str(part.name)) for c in kind.controls}
    return Showing(tuple(str(part.name) for part in own), frozenset(signals), of)
