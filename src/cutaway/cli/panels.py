"""`cutaway panels`: every control and indicator at its station, as it stands and shows."""

from pathlib import Path

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        short_help="Draw every control and indicator at its station, as it stands and shows.",
        epilog="Examples:  cutaway panels cruising -C demo/whinchat --on 'Mk 2'    "
        "cutaway panels cruising -C demo/whinchat --do 'tank selector to off' --for '20 s' --dark --png",
    )
    def panels(
        situation: str = typer.Argument(..., help="As situations.yaml names it."),
        folder: Path = typer.Option(Path(), "--folder", "-C", help="The type folder."),
        on: str = typer.Option("", help="The standard or airframe; else the first."),
        failed: list[str] = typer.Option([], "--with", help="What has failed or is given; may be said several times."),
        do: str = typer.Option("", help="What is done: 'tank selector to off then wait 5 s'."),
        length: str = typer.Option("60 s", "--for", help="How long after that it is looked at."),
        dark: bool = typer.Option(False, "--dark", help="Draw it for a dark screen."),
        png: bool = typer.Option(False, "--png", help="Write pictures (PNG, A4) in place of drawings (SVG)."),
        words: bool = typer.Option(False, "--words", help="Tell what the panels show, and write nothing."),
        out: Path = typer.Option(Path("panels"), "--out", help="The folder to write them to."),
        replace: bool = typer.Option(False, "--replace", help="Write over files that are there."),
    ) -> None:
        """Draw the panels of one standard: levers, switches and cocks where they stand, lamps lit or out, gauges with
        pointer and figure, each at its station. A type with many of them takes several pages, each fit for A4."""
        from cutaway.api import panels as api
        from cutaway.api.running import Asked
        from cutaway.cli import showing

        asked = Asked(situation, on, tuple(failed), do, length, ())
        with showing.progress("Drawing panels"):
            if words:
                pictures, problems = api.panels(folder, asked)
                written: tuple[Path, ...] = ()
            else:
                pictures = ()
                written, problems = api.write_panels(
                    folder, asked, api.Look("dark" if dark else "light", png), out, replace
                )
        for picture in pictures:
            print("\n".join(picture.description))
        for path in written:
            print(path)
        showing.show_problems_briefly(problems)
        raise typer.Exit(exits.ending(bool(written or pictures), problems))
