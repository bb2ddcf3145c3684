"""An engine's boost and power by height, for each gear and position of its lever, as a chart is drawn from it."""

import math

from cutaway.draw.chart import BEYOND, Chart, Curve, Rating
from cutaway.handbook.names import listed
from cutaway.handbook.records import Folder, Given, given_on
from cutaway.inquiry.engine_bench import Bench, Measured, RatedGear, Setting, bench_for, gears_of, measure
from cutaway.machine.bind import Bound, ControlSlot
from cutaway.quantities.quantity import Unit
from cutaway.quantities.si import figure, from_si
from cutaway.quantities.units import unit_named
from cutaway.wording.figures import house_unit

STEPS = 80  # heights of a curve, at most
PAST = 1500.0  # m that the chart goes on beyond what the ratings can carry
SHORT = ("60 %", 0.6)  # a lever short of the gate, where nothing is said
GUESSED = ("efficiency", "throttle loss", "friction")
HELD = 20.0  # Pa: within this a boost is that of the rating

Levers = tuple[tuple[str, float], ...]


def charted_engines(bound: Bound) -> tuple[str, ...]:
    """The engines of a subject that have a supercharger, and so ratings."""
    return tuple(part for part, coupling in bound.wiring.coupled if coupling == "supercharger")


def throttle_of(bound: Bound, bench: Bench) -> ControlSlot:
    """The lever of an engine on the bench."""
    return next(slot for slot in bound.controls.values() if slot.input == bench.throttle)


def usual_levers(bound: Bound, bench: Bench) -> Levers:
    """The positions of the throttle that are charted where nothing is said: all but closed, and one short of them."""
    slot = throttle_of(bound, bench)
    return (*((name, slot.value(name)) for name in reversed(slot.positions[1:])), SHORT)


def usual_chart(folder: Folder, bound: Bound, engine: str) -> Chart:
    """The chart of an engine where nothing more is asked."""
    bench = bench_for(bound, engine)
    assert bench is not None, "an engine that is listed has a bench"
    return boost_chart(folder, bound, bench, usual_levers(bound, bench), None)


def boost_chart(folder: Folder, bound: Bound, bench: Bench, levers: Levers, speed: float | None) -> Chart:
    """The chart of one engine. levers: each in words, and as a share of its travel. speed: None for each gear's own."""
    house = folder.type.house_units
    boost, power, turning = (_unit(dimension, house) for dimension in ("pressure", "power", "angular speed"))
    gears = gears_of(bound, bench)
    height = _height_unit(bound, bench, gears)
    heights = _heights(gears, height)
    turns = {gear: speed if speed is not None else gear.speed for gear in gears}
    settings = [Setting(h, at, gear.index, turns[gear]) for gear in gears for _, at in levers for h in heights]
    read = iter(measure(bench, settings))
    curves = [
        _curve(gear, lever, _said(turns[gear], turning), [next(read) for _ in heights], (height, boost, power))
        for gear in gears
        for lever, _ in levers
    ]
    return Chart(
        f"{folder.type.name}: {bench.engine}, boost and power by height",
        bound.subject.name,
        (height.name, boost.name, power.name),
        tuple(curves),
        tuple(_rating(bound, bench, gear, (height, boost, power)) for gear in gears),
        from_si(max(gear.height for gear in gears) + BEYOND, height),
        _caption(folder, bound, bench, gears, speed is not None),
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


def _heights(gears: tuple[RatedGear, ...], unit: Unit) -> list[float]:
    """Round heights from the sea, and those at which something begins: full-throttle heights and the ends of
    ratings."""
    top = max(gear.height for gear in gears) + BEYOND + PAST
    step = round_step(from_si(top, unit) / STEPS)
    even = {i * step * unit.size for i in range(int(from_si(top, unit) / step) + 1)}
    edges = {h for gear in gears for h in (gear.height, gear.height + BEYOND) if 0.0 <= h <= top}
    return sorted(even | edges)


def round_step(least: float) -> float:
    """The next step up that runs in ones, twos or fives.

    >>> round_step(362.0), round_step(110.0), round_step(2.0)
    (500.0, 200.0, 2.0)
    """
    size = 10.0 ** math.floor(math.log10(least))
    return next(size * one for one in (1.0, 2.0, 5.0, 10.0) if size * one >= least * (1.0 - 1e-9))


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
    cites = dict.fromkeys(cite.key for given in givens for cite in given.cites)
    if any(given.assumed for given in givens):
        return "assumed"
    return listed(cites) if cites else "no paragraph given"


def _caption(
    folder: Folder, bound: Bound, bench: Bench, gears: tuple[RatedGear, ...], other_speed: bool
) -> tuple[str, ...]:
    sources = dict.fromkeys(_by(_givens(bound, bench, gear)) for gear in gears)
    books = dict.fromkeys(
        cite.source for gear in gears for given in _givens(bound, bench, gear) for cite in given.cites
    )
    titles = [s.title for key in books for s in folder.sources if s.key == key and s.title]
    assumed = [a for a in bound.assumptions if a.part == bench.supercharger and a.value in GUESSED]
    guesses = listed([f"{a.value} {a.stated} ({a.between})" for a in assumed])
    return (
        f"Ratings: {listed(sources)}{f' ({listed(titles)})' if titles else ''}.",
        "Curves: inferred by the model from these ratings in the standard atmosphere, without ram"
        + (", at a speed that the ratings do not have." if other_speed else ", at the rated speed of each gear."),
        f"Assumed: {guesses}." if guesses else "",
        "Where the mixture weakens by itself the power falls by a step." if _mixed(bound, bench) else "",
        f"More than {figure(BEYOND, 4)} m above its full-throttle height a gear's curve is beyond the ratings.",
        folder.type.notice,
    )


def _mixed(bound: Bound, bench: Bench) -> bool:
    return (bench.engine, "mixture") in bound.wiring.coupled
