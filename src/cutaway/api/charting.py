"""The chart of an engine: its boost and power against height, every value read from the model on the bench."""

from dataclasses import asdict, dataclass
from pathlib import Path

from cutaway.api.loading import load, workshop_for
from cutaway.api.running import subject_named
from cutaway.draw.chart import Chart
from cutaway.handbook.names import did_you_mean, fold, listed
from cutaway.inquiry.engine_bench import Bench, bench_for
from cutaway.machine.bind import Bound
from cutaway.problems.diagnostic import Diagnostic, Problems, has_error, in_order
from cutaway.problems.span import TextFile, whole
from cutaway.publish.boost_chart import Levers, boost_chart, charted_engines, round_step, throttle_of, usual_levers
from cutaway.quantities.reading import read_quantity
from cutaway.quantities.si import to_si

ROWS = 18  # of the table, at most, besides those of ratings


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
    levers, found = _levers(bound, bench, asked.levers)
    speed, others = _speed(asked.speed)
    if found or others:
        return None, in_order((*found, *others))
    return boost_chart(loaded.folder, bound, bench, levers, speed), in_order((*problems, *more))


def _engine(bound: Bound, words: str, subject: str) -> tuple[str | None, Problems]:
    """The engine of that name, or the one whose supercharger has it."""
    engines = charted_engines(bound)
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


def _levers(bound: Bound, bench: Bench, words: tuple[str, ...]) -> tuple[Levers, Problems]:
    """The lever positions with what they are as a share of its travel."""
    if not words:
        return usual_levers(bound, bench), ()
    slot = throttle_of(bound, bench)
    found: list[tuple[str, float]] = []
    problems: list[Diagnostic] = []
    for one in words:
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


def chart_record(made: Chart) -> dict[str, object]:
    """The chart for a program, in the units that it names."""
    return asdict(made)


def chart_rows(made: Chart) -> tuple[tuple[str, ...], list[tuple[str, ...]]]:
    """The chart as a table: boost and power of each curve at some fifteen round heights and at each rated height; a
    star is beyond the ratings."""
    names = [" ".join(word for word in (curve.gear, curve.lever) if word) for curve in made.curves]
    columns = (f"height, {made.units[0]}", *names)
    heights = made.curves[0].heights
    step = round_step(heights[-1] / ROWS)
    told = {round(one.height, 6) for one in made.ratings}
    told |= {round(i * step, 6) for i in range(int(heights[-1] / step) + 1)}
    rows: list[tuple[str, ...]] = []
    for i in (i for i, height in enumerate(heights) if round(height, 6) in told):
        cells = [f"{heights[i]:,.0f}"]
        for curve in made.curves:
            star = " *" if curve.heights[i] > curve.beyond else ""
            cells.append(f"{curve.boosts[i]:+.1f} · {curve.powers[i]:,.0f}{star}")
        rows.append(tuple(cells))
    return columns, rows
