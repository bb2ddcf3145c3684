"""`cutaway chart`: an engine's boost and power against height, drawn, as a table or as JSON."""

from pathlib import Path

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        short_help="Chart an engine's boost and power against height.",
        epilog="Example:  cutaway chart 'demo/turnstone/port engine' --on 'Mk 4' --lever open --lever '60 %' "
        "--out tamar.svg",
    )
    def chart(
        engine: Path = typer.Argument(..., help="The type folder, a slash and the engine: 'turnstone/port engine'."),
        on: str = typer.Option("", help="The standard or airframe; else the first."),
        lever: list[str] = typer.Option([], help="A position of the throttle; may be said several times."),
        speed: str = typer.Option("", help="Engine speed; else the rated speed of each gear."),
        out: Path | None = typer.Option(None, help="Write the chart into this file, .svg or .png."),
        dark: bool = typer.Option(False, "--dark", help="Draw it for a dark screen."),
        as_json: bool = typer.Option(False, "--json", help="The curves and ratings, for a program."),
    ) -> None:
        """Chart boost and power against height for each gear and position of the throttle lever.

        Ratings of the handbook are marked with their paragraphs; all other curves are the model's and say so.
        """
        from cutaway.api import charting
        from cutaway.cli import showing

        ending = out.suffix.lower().lstrip(".") if out is not None else ""
        if out is not None and ending not in ("svg", "png"):
            raise typer.BadParameter(f"'{out.name}' is neither .svg nor .png.")
        asked = charting.Asked(engine.name, on, tuple(lever), speed)
        with showing.progress(f"Charting {engine.name}"):
            made, problems = charting.chart(engine.parent, asked)
        showing.show_problems_briefly(problems)
        if made is None:
            raise typer.Exit(exits.FOUND)
        if out is not None:
            from cutaway.draw.chart import chart_file

            try:
                out.write_bytes(chart_file(made, "svg" if ending == "svg" else "png", "dark" if dark else "light"))
            except OSError as fault:
                typer.echo(f"'{out}' cannot be written: {fault.strerror}.", err=True)
                raise typer.Exit(exits.FOUND) from fault
            print(out)
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
