"""`cutaway new`: a type folder that runs as it stands."""

import shlex
from pathlib import Path

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        short_help="Make a type folder that runs as it stands.",
        epilog="Example:  cutaway new sparrow   then  cutaway check sparrow",
    )
    def new(folder: Path = typer.Argument(..., help="The folder to make; its name becomes the type's.")) -> None:
        """Make a small type folder that runs as it stands, to write over."""
        from cutaway.api.finding import new as new_folder
        from cutaway.cli import showing

        made, problems = new_folder(folder)
        showing.show_problems(problems)
        if made is None:
            raise typer.Exit(exits.ending(False, problems))
        named = shlex.quote(str(made))
        print(f"{made} is ready. Try:\n  cutaway check {named}\n  cutaway make {named}")
