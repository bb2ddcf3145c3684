"""`cutaway drill`: what each step of a drill does and protects, and what comes of leaving it out."""

from pathlib import Path

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        short_help="Tell what each step of a drill is for.",
        epilog="Examples:  cutaway drill starting -C demo/turnstone --on 'Mk 4'    "
        "cutaway drill starting -C demo/whinchat --json",
    )
    def drill(
        name: str = typer.Argument(..., help="The drill's name or title, or how it begins."),
        folder: Path = typer.Option(Path(), "--folder", "-C", help="The type folder."),
        on: str = typer.Option("", help="Only these standards or airframes; else all that it is for."),
        as_json: bool = typer.Option(False, "--json", help="For a program to read."),
    ) -> None:
        """Go through a drill step by step: what each step changes, whether what it says is seen, what it protects, and
        what comes of leaving it out or exchanging it with the next.

        Ctrl-C ends it and tells what is known so far.
        """
        from cutaway.api import drill as api
        from cutaway.cli import showing
        from cutaway.cli.stopping import stopping

        with showing.progress(f"Going through {name}") as counter, stopping() as stop:
            told, problems = api.drill(folder, name, on, stop, counter)
        showing.show_problems_briefly(problems)
        if told is not None:
            showing.show_json(api.drills_record(told)) if as_json else print(api.drills_text(told))
        raise typer.Exit(exits.STOPPED if stop() else exits.ending(told is not None, problems))
