"""`cutaway desk`: the script desk."""

from pathlib import Path

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        short_help="Look a script over: timing, terms, promises, what is covered.",
        epilog="Examples:  cutaway desk demo/whinchat    "
        "cutaway desk demo/whinchat/scripts/01-fuel.md --prompter fuel.html --shots fuel.csv",
    )
    def desk(
        place: Path = typer.Argument(Path(), help="The type folder, or one script of it."),
        prompter: Path | None = typer.Option(None, "--prompter", help="Write the prompter page to this file."),
        shots: Path | None = typer.Option(None, "--shots", help="Write the shot list to this file, .csv or .html."),
        replace: bool = typer.Option(False, "--replace", help="Write over a file that is there already."),
        as_json: bool = typer.Option(False, "--json", help="For a program to read."),
    ) -> None:
        """Look a script, or the whole series, over before it is spoken: how long it takes, whether terms are introduced
        before they are used, which promises are open, what is covered. A prompter or a shot list is of one script."""
        from cutaway.api.desk import desk as look_over
        from cutaway.api.desk import write_desk_files
        from cutaway.api.desk_text import desk_record, desk_text
        from cutaway.cli import showing
        from cutaway.problems.diagnostic import has_error

        looked, problems = look_over(place)
        written: tuple[Path, ...] = ()
        if looked is not None:
            written, more = write_desk_files(looked, prompter, shots, replace)
            problems += more
        if as_json:
            showing.show_json(desk_record(looked, problems))
        else:
            showing.show_problems(problems)
            if looked is not None:
                print("\n".join([desk_text(looked), *(f"Written: {path}" for path in written)]))
        raise typer.Exit(exits.ending(looked is not None, problems, has_error(problems)))
