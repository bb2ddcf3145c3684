"""`cutaway chart`: boost and power of an engine against height, or readings of a run against time."""

from pathlib import Path
from typing import TYPE_CHECKING

import typer

from cutaway.cli import exits

if TYPE_CHECKING:
    from cutaway.api.running import Asked


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        short_help="Chart an engine's boost and power against height, or any readings against time.",
        epilog="Examples:  cutaway chart 'demo/turnstone/port engine' --on 'Mk 4' --lever open --out tamar.svg    "
        "cutaway chart demo/whinchat --run cruising --do 'tank selector to off' --show carburettor.inlet "
        "--show 'fuel lamp' --out petrol.svg",
    )
    def chart(
        what: Path = typer.Argument(
            ..., help="The type folder; for boost and power with a slash and the engine: 'turnstone/port engine'."
        ),
        on: str = typer.Option("", help="The standard or airframe; else the first."),
        lever: list[str] = typer.Option([], help="A position of the throttle; may be said several times."),
        speed: str = typer.Option("", help="Engine speed; else the rated speed of each gear."),
        situation: str = typer.Option("", "--run", help="Readings against time: the situation in which it begins."),
        failed: list[str] = typer.Option([], "--with", help="What has failed or is given; may be said several times."),
        do: str = typer.Option("", help="What is done: 'tank selector to off then wait 5 s'."),
        length: str = typer.Option("60 s", "--for", help="How long to go on."),
        show: list[str] = typer.Option([], help="A reading, part or control to show; may be said several times."),
        name: str = typer.Option("", help="A chart of charts.yaml, by its name."),
        out: Path | None = typer.Option(None, help="Write the chart into this file, .svg or .png."),
        dark: bool = typer.Option(False, "--dark", help="Draw it for a dark screen."),
        as_json: bool = typer.Option(False, "--json", help="The curves and what they rest on, for a program."),
    ) -> None:
        """Chart boost and power of an engine against height, or readings of a run against time.

        By height: ratings of the handbook are marked with their paragraphs; all other curves are the model's and say
        so. By time (--run and --show, or --name): numbers as lines, states and positions as strips, what happened as
        numbered marks; without --out it is told in words.
        """
        ending = out.suffix.lower().lstrip(".") if out is not None else ""
        if out is not None and ending not in ("svg", "png"):
            raise typer.BadParameter(f"'{out.name}' is neither .svg nor .png.")
        if situation or name:
            if situation and not show:
                raise typer.BadParameter("Say with --show what is to be charted.")
            from cutaway.api.running import Asked

            run = Asked(situation, on, tuple(failed), do, length, tuple(show))
            raise typer.Exit(_by_time(what, run, name, out, dark, as_json))
        raise typer.Exit(_by_height(what, on, tuple(lever), speed, out, dark, as_json))


def _by_time(folder: Path, run: "Asked", name: str, out: Path | None, dark: bool, as_json: bool) -> int:
    """Chart readings of a run, or the chart of that name; the exit code."""
    from cutaway.api import tracing
    from cutaway.cli import showing
    from cutaway.draw.traces import traces_file

    with showing.progress(f"Charting {name or run.situation}"):
        made, problems = tracing.named_traces(folder, name, run.on) if name else tracing.traces(folder, run)
    showing.show_problems_briefly(problems)
    if made is None:
        return exits.ending(False, problems)
    if out is not None:
        _write(out, traces_file(made, "svg" if out.suffix.lower() == ".svg" else "png", "dark" if dark else "light"))
    if as_json:
        showing.show_json(tracing.traces_record(made))
    elif out is None:
        print(tracing.traces_text(made))
    return exits.FINE


def _by_height(
    what: Path, on: str, levers: tuple[str, ...], speed: str, out: Path | None, dark: bool, as_json: bool
) -> int:
    """Chart an engine's boost and power; the exit code."""
    from cutaway.api import charting
    from cutaway.cli import showing

    with showing.progress(f"Charting {what.name}"):
        made, problems = charting.chart(what.parent, charting.Asked(what.name, on, levers, speed))
    showing.show_problems_briefly(problems)
    if made is None:
        return exits.FOUND
    if out is not None:
        from cutaway.draw.chart import chart_file

        _write(out, chart_file(made, "svg" if out.suffix.lower() == ".svg" else "png", "dark" if dark else "light"))
    if as_json:
        showing.show_json(charting.chart_record(made))
    elif out is None:
        columns, rows = charting.chart_rows(made)
        title = f"{made.title}, {made.standard}: boost, {made.units[1]}, and power, {made.units[2]}"
        showing.show_table(columns, rows, title)
        for rating in made.ratings:
            gear = f"{rating.gear} gear: " if rating.gear else ""
            print(f"Printed, {gear}{rating.boost:+.4g} and {rating.power:,.0f} at {rating.height:,.0f} "
                  f"({rating.cites}).")  # fmt: skip
        print(" ".join(line for line in made.caption if line))
        print("* beyond the ratings")
    return exits.FINE


def _write(out: Path, content: bytes) -> None:
    """Write a chart into the file that was asked for by name."""
    try:
        out.write_bytes(content)
    except OSError as fault:
        typer.echo(f"'{out}' cannot be written: {fault.strerror}.", err=True)
        raise typer.Exit(exits.FOUND) from fault
    print(out)
