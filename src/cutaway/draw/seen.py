"""What a run shows of each part and each line at one instant. Reads values; decides nothing but live or dead."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from cutaway.draw.plan import Plan, Tie
from cutaway.draw.symbols.symbol import Look, Setting
from cutaway.handbook.records import Folder, Part
from cutaway.machine.fitting import fitted
from cutaway.machine.names import control_name, flow_name, set_name, signal_name
from cutaway.machine.subjects import Subject
from cutaway.parts.kind import Control, Kind, Reading
from cutaway.parts.laws.atmosphere import isa_pressure
from cutaway.quantities.quantity import Unit
from cutaway.quantities.si import shown
from cutaway.quantities.units import unit_named

Values = Mapping[str, float]


@dataclass(frozen=True, slots=True)
class Threshold:
    """Above what a line of one medium counts as live, and as carrying a flow. All SI; current in parts of its volts."""

    live: float
    flow: float


THRESHOLDS: Mapping[str, Threshold] = {
    "petrol": Threshold(5.0e3, 2.0e-7),
    "oil": Threshold(5.0e4, 2.0e-7),
    "air": Threshold(3.0e3, 1.0e-5),
    "current": Threshold(0.1, 0.05),
    "heat": Threshold(1.0, 1.0),
    "shaft": Threshold(1.0, 1.0),
}
"""Choices of ours for drawings: well above what leaks leave, and petrol above the head of a full tank."""

SMALLEST: Mapping[str, float] = {
    "pressure": 500.0,
    "volume": 1.0e-6,
    "volume flow": 2.0e-8,
    "length": 5.0e-4,
    "voltage": 0.01,
    "current": 0.01,
    "charge": 10.0,
    "angular speed": 0.05,
    "angle": 5.0e-3,
    "fraction": 2.0e-3,
    "temperature": 0.0,
}
"""Readings below this are shown as nothing, SI. A choice of ours: they are what a run leaves, not what a dial shows."""

LOW = 0.25
"""Oil below this share of the pressure at which its system is held is under low pressure only. A choice of ours: a pump
that idles gives a tenth or less, one that works gives half or more."""

USUAL_VOLTS = 12.0
"""Taken for the volts of a system that has no battery in the model."""


@dataclass(frozen=True, slots=True)
class LineSeen:
    """A line at one instant. live None: not known. flow: 1 from start to end, -1 the other way, 0 none or not known.

    low: it is live, but far below what the system works at, as behind a pump that idles. suction: it is live air below
    that outside.
    """

    live: bool | None = None
    flow: int = 0
    low: bool = False
    suction: bool = False


def look_of(part: Part, kind: Kind, subject: Subject, values: Values | None, joined: tuple[int, int] = (1, 1)) -> Look:
    """All that is known of a part. Without values it is at rest: controls in their first position, no more known."""
    lists = dict(part.lists)
    wants = wants_of(part, kind, subject)
    controls = {c.name: _setting(part, c, lists, values) for c in kind.controls}
    states, readings, moved = {}, {}, None
    if values is not None:
        for state in kind.states:
            value = values.get(signal_name(part.name, state.signal))
            if value is not None:
                states[state.words] = value > 0.5
        for reading in kind.readings:
            value = values.get(signal_name(part.name, reading.signal))
            alive = values.get(signal_name(part.name, reading.alive), 1.0) if reading.alive else 1.0
            if value is not None and alive > 0.5:
                readings[reading.name] = value
        moved = values.get(signal_name(part.name, "position"))
    return Look(lists, controls, states, readings, wants, joined, moved)


def wants_of(part: Part, kind: Kind, subject: Subject) -> dict[str, float]:
    """The part's quantities in SI; none where one that must be given is not."""
    return fitted(part, kind, subject.standard)[0] or {}


def _setting(part: Part, control: Control, lists: Mapping[str, tuple[str, ...]], values: Values | None) -> Setting:
    positions = control.positions + (lists.get(control.each, ()) if control.each else ())
    place = 0.0 if values is None else values.get(set_name(control_name(part.name, control.name)))
    return Setting(positions, place, control.ranged)


def setting_words(setting: Setting) -> str:
    """Where a control stands, in words; '' where that is not known."""
    if setting.place is None:
        return ""
    if setting.ranged:
        last = len(setting.positions) - 1
        for i, word in enumerate(setting.positions):
            if last > 0 and abs(setting.place - i / last) < 1e-6:
                return word
        return f"{100 * setting.place:.0f} %"
    index = round(setting.place)
    return setting.positions[index] if 0 <= index < len(setting.positions) else ""


def notes_of(kind: Kind, look: Look, house: Mapping[str, str]) -> tuple[str, ...]:
    """The words under a part's name: positions, states, readings. What reads need not say that it works."""
    notes = []
    for name, setting in look.controls.items():
        words = setting_words(setting)
        if words:
            notes.append(f"{name}: {words}" if name else f"set to {words}")
    plain = {reading.alive for reading in kind.readings if reading.name in look.readings}
    states = [
        state.words if look.states[state.words] else state.opposite
        for state in kind.states
        if state.words in look.states and state.signal not in plain
    ]
    said = ", ".join(words for words in states if words)
    notes += [said] if said else []
    for reading in kind.readings:
        if reading.name in look.readings:
            words = reading_words(look.readings[reading.name], reading, house)
            notes.append(words if _speaks(reading, kind) else f"{reading.name} {words}")
    return tuple(notes)


def _speaks(reading: Reading, kind: Kind) -> bool:
    """Whether the figure needs no name: that of a part's own reading, but for a share, which may be one of anything,
    and for one of several needles that show the same."""
    alike = sum(one.dimension == reading.dimension for one in kind.readings)
    return reading.main and reading.dimension != "fraction" and not (kind.indicates and alike > 1)


def reading_words(value: float, reading: Reading, house: Mapping[str, str]) -> str:
    """A reading as the house shows it; what no instrument of the trade would show is nothing."""
    words = shown(0.0 if abs(value) < SMALLEST.get(reading.dimension, 0.0) else value, unit_of(reading, house))
    return f"\N{MINUS SIGN}{words[1:]}" if words.startswith("-") else words


def unit_of(reading: Reading, house: Mapping[str, str]) -> Unit:
    """The unit that a reading is shown in: the house's; but a suction, on no datum, keeps that of its dial."""
    own = reading.dimension == "pressure" and reading.datum == ""
    return unit_named(reading.unit if own else house.get(reading.dimension, reading.unit))


def widest_notes(kind: Kind, look: Look, house: Mapping[str, str]) -> tuple[tuple[str, ...], ...]:
    """For each line of notes that can ever stand under the part, the words that it may have to hold."""
    lines = []
    for name, setting in look.controls.items():
        words = (*setting.positions, "100 %") if setting.ranged else setting.positions
        lines.append(tuple(f"{name}: {w}" if name else f"set to {w}" for w in words))
    if kind.states:
        lines.append(tuple(w for state in kind.states for w in (state.words, state.opposite) if w))
    for reading in kind.readings:
        figure = f"0,000 {unit_of(reading, house).name}"
        lines.append((figure if _speaks(reading, kind) else f"{reading.name} {figure}",))
    return tuple(lines)


def nominal_volts(folder: Folder, subject: Subject, kinds: Mapping[str, Kind]) -> float:
    """The volts of whatever stores charge on this subject."""
    for part in folder.parts:
        kind = kinds.get(part.kind)
        if kind is None or subject.standard not in part.on.names:
            continue
        if any(content.dimension == "charge" for content in kind.contents):
            volts = wants_of(part, kind, subject).get("voltage")
            if volts:
                return volts
    return USUAL_VOLTS


def lines_seen(plan: Plan, values: Values | None, volts: float) -> Mapping[str, LineSeen]:
    """Each line of the sheet at the instant, by the tie's name."""
    if values is None:
        return {}
    flows = line_flows(_in_touch(plan), values)
    members: dict[str, list[str]] = {}
    for port, node in plan.wiring.joined.items():
        members.setdefault(node, []).append(port)
    seen = {}
    for tie in plan.ties:
        if tie.sort == "line" and tie.medium is not None:
            node = plan.wiring.joined.get(tie.start.node, "")
            across = next((values[p] for p in members.get(node, ()) if p in values), None)
            flow = flows.get(tie.name, 0.0)
            moving = abs(flow) > THRESHOLDS[tie.medium].flow
            live = is_live(tie.medium, across, values, volts)
            held = dict(plan.held).get(tie.medium)
            low = bool(live) and across is not None and held is not None and across < LOW * held
            suction = bool(live) and tie.medium == "air" and across is not None and across < _outside(values)
            seen[tie.name] = LineSeen(live, moving * (1 if flow > 0 else -1), low, suction)
    return seen


def is_live(medium: str, across: float | None, values: Values, volts: float) -> bool | None:
    """Whether a line is under pressure, suction or tension; None where its value is not known."""
    if across is None:
        return None
    limit = THRESHOLDS[medium].live
    if medium == "air":
        return abs(across - _outside(values)) > limit
    return across > (limit * volts if medium == "current" else limit)


def _outside(values: Values) -> float:
    """The pressure of the air outside, Pa."""
    return isa_pressure(values.get(set_name("height"), 0.0))


def _in_touch(plan: Plan) -> tuple[Tie, ...]:
    """The lines of all sheets that meet those of this one at some port, and so on: no other can tell of their flow."""
    touched = {end.node for tie in plan.ties if tie.sort == "line" for end in (tie.start, tie.end)}
    waiting = [tie for tie in plan.all_ties if tie.sort == "line"]
    found: set[str] = set()
    while new := [tie for tie in waiting if {tie.start.node, tie.end.node} & touched]:
        found |= {tie.name for tie in new}
        touched |= {end.node for tie in new for end in (tie.start, tie.end)}
        waiting = [tie for tie in waiting if tie.name not in found]
    return tuple(tie for tie in plan.all_ties if tie.name in found)


def line_flows(ties: Iterable[Tie], values: Values) -> Mapping[str, float]:
    """The flow in each line from start to end, so far as what flows into the parts settles it.

    What flows into a part at a port has come by the lines to that port: where all of them but one are known, so is
    the last. Lines in a ring stay unknown.
    """
    at: dict[str, list[tuple[Tie, float]]] = {}
    for tie in ties:
        if tie.sort == "line":
            at.setdefault(tie.end.node, []).append((tie, 1.0))
            at.setdefault(tie.start.node, []).append((tie, -1.0))
    into = {
        end.node: values.get(flow_name(end.part, end.port))
        for lines in at.values()
        for tie, _ in lines
        for end in (tie.start, tie.end)
    }
    found: dict[str, float] = {}
    moved = True
    while moved:
        moved = False
        for port, lines in at.items():
            total = into[port]
            unknown = [(tie, sign) for tie, sign in lines if tie.name not in found]
            if total is not None and len(unknown) == 1:
                tie, sign = unknown[0]
                known = sum(found[t.name] * s for t, s in lines if t.name in found)
                found[tie.name] = (total - known) * sign
                moved = True
    return found
