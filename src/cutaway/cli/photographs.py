"""`cutaway photographs`: one's own photographs with what is to be seen on them named."""

from pathlib import Path

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        short_help="Draw the photographs with call-outs; tell which part, station and standard is on which.",
        epilog="Examples:  cutaway photographs demo/turnstone    cutaway photographs demo/turnstone --out shots --png",
    )
    def photographs(
        folder: Path = typer.Argument(Path(), help="The type folder."),
        name: list[str] = typer.Option([], "--name", help="Which photograph; several times for several, else all."),
        out: Path | None = typer.Option(None, "--out", help="The folder to write the drawings (SVG) to."),
        png: bool = typer.Option(False, "--png", help="Write them as PNG too."),
        light: bool = typer.Option(False, "--light", help="Draw them for a light screen; else they follow the screen."),
        dark: bool = typer.Option(False, "--dark", help="Draw them for a dark screen."),
        replace: bool = typer.Option(False, "--replace", help="Write over files that are there and differ."),
        as_json: bool = typer.Option(False, "--json", help="The photographs and their index, for a program."),
    ) -> None:
        """Draw your own photographs with call-outs: labels in the margins, leaders to the points, credit and rights.

        What photographs.yaml names is drawn; nothing hidden in the pictures (place, time, owner) is handed on. The pack
        has them with an index by part, station and standard; one without rights is for drafts and is not published.
        """
        from cutaway.api.photographs import Look, photographs_json, photographs_text
        from cutaway.api.photographs import photographs as draw
        from cutaway.cli import showing
        from cutaway.problems.diagnostic import has_error

        if light and dark:
            raise typer.BadParameter("--light and --dark cannot both be; say one of them.")
        look = Look("dark" if dark else "light" if light else "both", png, tuple(name))
        with showing.progress("Drawing photographs"):
            drawn, problems = draw(folder, look, out, replace)
        showing.show_problems(problems)
        if drawn is not None and as_json:
            showing.show_json(photographs_json(drawn))
        elif drawn is not None:
            print(photographs_text(drawn))
            for path in drawn.written:
                print(path)
        raise typer.Exit(exits.ending(drawn is not None, problems, has_error(problems)))
