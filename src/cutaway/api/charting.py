"""The chart of an engine: its boost and power against height, every value read from the model on the bench."""

import math
from dataclasses import asdict, dataclass
from pathlib import Path

from cutaway.api.loading import Loaded, load, workshop_for
from cutaway.api.running import subject_named
from cutaway.draw.chart import BEYOND, Chart, Curve, Rating
from cutaway.handbook.names import did_you_mean, fold, listed
from cutaway.handbook.records import Given, given_on
from cutaway.inquiry.engine_bench import Bench, Measured, RatedGear, Setting, bench_for, gears_of, measure
from cutaway.machine.bind import Bound, ControlSlot
from cutaway.problems.diagnostic import Diagnostic, Problems, has_error, in_order
from cutaway.problems.span import TextFile, whole
from cutaway.quantities.quantity import Unit
from cutaway.quantities.reading import read_quantity
from cutaway.quantities.si import figure, from_si, to_si
from cutaway.quantities.units import unit_named
from cutaway.wording.figures import house_unit

STEPS = 80  # heights of a curve
PAST = 1500.0  # m that the chart goes on beyond what the ratings can carry
SHORT = "60 %"  # a lever short of the gate, where nothing is said
GUESSED = ("efficiency", "throttle loss", "friction")
HELD = 20.0  # Pa: within this a boost is that of the rating


@dataclass(frozen=True, slots=True)
class Asked:
    """What to chart, in the words of the command line. levers: positions or per cent; speed '': each gear's rated."""

    part: str
    on: str
    levers: tuple[str, ...]
    speed: str


def chart(folder: Path | str, asked: Asked) -> tuple[Chart | None, Problems]:
    """The chart of one engine on one standard; None where that cannot be understood."""
    loaded, problems = load(folder)
    if loaded is None:
        return None, problems
    subject, found = subject_named(loaded, asked.on)
    if subject is None or has_error(found):
        return None, in_order(found)
    workshop, more = workshop_for(loaded)
    bound, _ = workshop.bound(subject)
    engine, found = _engine(bound, asked.part, subject.name)
    if engine is None:
        return None, found
    bench = bench_for(bound, engine)
    assert bench is not None, "an engine that is listed has a bench"
    levers, found = _levers(bound.controls[_of_input(bound, bench.throttle)], asked.levers)
    speed, others = _speed(asked.speed)
    if found or others:
        return None, in_order((*found, *others))
    return _made(loaded, bound, bench, levers, speed), in_order((*problems, *more))


def _engine(bound: Bound, words: str, subject: str) -> tuple[str | None, Problems]:
    """The engine of that name, or the one whose supercharger has it."""
    engines = [part for part, coupling in bound.wiring.coupled if coupling == "supercharger"]
    superchargers = {fold(bound.wiring.coupled[(one, "supercharger")][0]): one for one in engines}
    by_name = {**superchargers, **{fold(one): one for one in engines}}
    engine = by_name.get(fold(words))
    if engine is not None:
        return engine, ()
    if not engines:
        hint = "A supercharged engine with its supercharger can be charted; there is none."
        return None, (Diagnostic("C121", None, f"{subject} has no engine that can be charted.", hint),)
    known = any(fold(part) == fold(words) for part in bound.parts)
    message = f"'{words}' is no engine that can be charted." if known else f"{subject} has no part '{words}'."
    return None, (Diagnostic("C121", None, message, did_you_mean(words, engines)),)


def _of_input(bound: Bound, name: str) -> tuple[str, str]:
    return next(key for key, slot in bound.controls.items() if slot.input == name)


def _levers(slot: ControlSlot, words: tuple[str, ...]) -> tuple[tuple[tuple[str, float], ...], Problems]:
    """The lever positions with what they are as a share of its travel: all but closed, and one short of the gate."""
    wanted = words or (*reversed(slot.positions[1:]), SHORT)
    found: list[tuple[str, float]] = []
    problems: list[Diagnostic] = []
    for one in wanted:
        named = next((name for name in slot.positions if fold(name) == fold(one)), None)
        quantity, _ = read_quantity(one, whole(TextFile("--lever", one)), "fraction")
        if named is not None:
            found.append((named, slot.value(named)))
        elif quantity is not None and 0.0 <= to_si(quantity) <= 1.0:
            found.append((one, to_si(quantity)))
        else:
            hint = f"Write {listed(slot.positions, 'or')}, or per cent of its travel: 60 %"
            problems.append(Diagnostic("C122", None, f"'{one}' is no position of the throttle.", hint))
    return tuple(found), tuple(problems)


def _speed(words: str) -> tuple[float | None, Problems]:
    if not words:
        return None, ()
    quantity, problems = read_quantity(words, whole(TextFile("--speed", words)), "angular speed")
    return (None if quantity is None else to_si(quantity)), problems


def _made(
    loaded: Loaded, bound: Bound, bench: Bench, levers: tuple[tuple[str, float], ...], speed: float | None
) -> Chart:
    house = loaded.folder.type.house_units
    boost, power, turning = (_unit(dimension, house) for dimension in ("pressure", "power", "angular speed"))
    gears = gears_of(bound, bench)
    height = _height_unit(bound, bench, gears)
    heights = _heights(gears)
    turns = {gear: speed if speed is not None else gear.speed for gear in gears}
    settings = [Setting(h, at, gear.index, turns[gear]) for gear in gears for _, at in levers for h in heights]
    read = iter(measure(bench, settings))
    curves = [
        _curve(gear, lever, _said(turns[gear], turning), [next(read) for _ in heights], (height, boost, power))
        for gear in gears
        for lever, _ in levers
    ]
    return Chart(
        f"{loaded.folder.type.name}: {bench.engine}, boost and power by height",
        bound.subject.name,
        (height.name, boost.name, power.name),
        tuple(curves),
        tuple(_rating(bound, bench, gear, (height, boost, power)) for gear in gears),
        from_si(max(gear.height for gear in gears) + BEYOND, height),
        _caption(loaded, bound, bench, gears, speed is not None),
    )


def _height_unit(bound: Bound, bench: Bench, gears: tuple[RatedGear, ...]) -> Unit:
    """The unit in which the rated heights are printed: the house's for lengths may be that of bolts and strokes."""
    part, standard = bound.parts[bench.supercharger], bound.subject.standard
    given = given_on(part, gears[0].wants[2], standard)
    return given.quantity.unit if given is not None else unit_named("ft")


def _unit(dimension: str, house: tuple[tuple[str, str], ...]) -> Unit:
    unit = house_unit(dimension, house)
    assert unit is not None
    return unit


def _said(si: float, unit: Unit) -> str:
    return f"{figure(from_si(si, unit), 4)} {unit.name}"


def _heights(gears: tuple[RatedGear, ...]) -> list[float]:
    """Even heights from the sea, and those at which something begins: full-throttle heights and the ends of ratings."""
    top = max(gear.height for gear in gears) + BEYOND + PAST
    even = {top * i / STEPS for i in range(STEPS + 1)}
    edges = {h for gear in gears for h in (gear.height, gear.height + BEYOND) if 0.0 <= h <= top}
    return sorted(even | edges)


def _curve(gear: RatedGear, lever: str, speed: str, read: list[Measured], units: tuple[Unit, Unit, Unit]) -> Curve:
    height, boost, power = units
    held = [one.at.height for one in read if one.at.height <= gear.height and abs(one.boost - gear.boost) <= HELD]
    whole_way = bool(held) and len(held) == sum(one.at.height <= gear.height for one in read)
    rated = whole_way and math.isclose(read[0].at.speed, gear.speed, rel_tol=1e-6)
    return Curve(
        gear.name,
        lever,
        speed,
        tuple(from_si(one.at.height, height) for one in read),
        tuple(from_si(one.boost, boost) for one in read),
        tuple(from_si(one.power, power) for one in read),
        from_si(gear.height, height) if rated else None,
        from_si(gear.height + BEYOND, height),
    )


def _rating(bound: Bound, bench: Bench, gear: RatedGear, units: tuple[Unit, Unit, Unit]) -> Rating:
    height, boost, power = units
    return Rating(
        gear.name, from_si(gear.height, height), from_si(gear.boost, boost), from_si(gear.power, power),
        _by(_givens(bound, bench, gear)),
    )  # fmt: skip


def _givens(bound: Bound, bench: Bench, gear: RatedGear) -> list[Given]:
    part, standard = bound.parts[bench.supercharger], bound.subject.standard
    return [given for want in gear.wants if (given := given_on(part, want, standard)) is not None]


def _by(givens: list[Given]) -> str:
    """The paragraphs of a rating, or that it has none."""
    cites = dict.fromkeys(f"{cite.source} {cite.number}" for given in givens for cite in given.cites)
    if any(given.assumed for given in givens):
        return "assumed"
    return listed(cites) if cites else "no paragraph given"


def _caption(
    loaded: Loaded, bound: Bound, bench: Bench, gears: tuple[RatedGear, ...], other_speed: bool
) -> tuple[str, ...]:
    sources = dict.fromkeys(_by(_givens(bound, bench, gear)) for gear in gears)
    books = dict.fromkeys(
        cite.source for gear in gears for given in _givens(bound, bench, gear) for cite in given.cites
    )
    titles = [s.title for key in books for s in loaded.folder.sources if s.key == key and s.title]
    assumed = [a for a in bound.assumptions if a.part == bench.supercharger and a.value in GUESSED]
    guesses = listed([f"{a.value} {a.stated} ({a.between})" for a in assumed])
    return (
        f"Ratings: {listed(sources)}{f' ({listed(titles)})' if titles else ''}.",
        "Curves: inferred by the model from these ratings in the standard atmosphere, without ram"
        + (", at a speed that the ratings do not have." if other_speed else ", at the rated speed of each gear."),
        f"Assumed: {guesses}." if guesses else "",
        "Where the mixture weakens by itself the power falls by a step." if _mixed(bound, bench) else "",
        f"More than {figure(BEYOND, 4)} m above its full-throttle height a gear's curve is beyond the ratings.",
        loaded.folder.type.notice,
    )


def _mixed(bound: Bound, bench: Bench) -> bool:
    return (bench.engine, "mixture") in bound.wiring.coupled


def chart_record(made: Chart) -> dict[str, object]:
    """The chart for a program, in the units that it names."""
    return asdict(made)


def chart_rows(made: Chart) -> tuple[tuple[str, ...], list[tuple[str, ...]]]:
    """The chart as a table: boost and power of each curve at every sixth height; a star is beyond the ratings."""
    names = [" ".join(word for word in (curve.gear, curve.lever) if word) for curve in made.curves]
    columns = (f"height, {made.units[0]}", *names)
    count = len(made.curves[0].heights)
    rows: list[tuple[str, ...]] = []
    for i in range(0, count, 6):
        cells = [f"{made.curves[0].heights[i]:,.0f}"]
        for curve in made.curves:
            star = " *" if curve.heights[i] > curve.beyond else ""
            cells.append(f"{curve.boosts[i]:+.1f} · {curve.powers[i]:,.0f}{star}")
        rows.append(tuple(cells))
    return columns, rows
