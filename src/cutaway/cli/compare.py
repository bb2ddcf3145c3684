"""`cutaway compare`: what differs between two standards, for the crew and underneath."""

from pathlib import Path

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        short_help="Tell what differs between two standards, for the crew and underneath.",
        epilog="Examples:  cutaway compare 'Mk 1' 'Mk 2' -C demo/whinchat    "
        "cutaway compare 'Mk 2' 'Mk 2 with mod 12' --in cruising --table",
    )
    def compare(
        one: str = typer.Argument(..., help="A standard or airframe."),
        other: str = typer.Argument(..., help="Another."),
        folder: Path = typer.Option(Path(), "--folder", "-C", help="The type folder."),
        situation: str = typer.Option("", "--in", help="Only this situation; else every one, and every drill."),
        moves: int = typer.Option(
            100, min=0, help="After how many single movements of a control to look besides, at most."
        ),
        as_table: bool = typer.Option(False, "--table", help="The same as a table."),
        as_json: bool = typer.Option(False, "--json", help="For a program to read."),
    ) -> None:
        """Tell what the crew would notice between two standards, then what differs underneath."""
        from cutaway.api import compare as api
        from cutaway.cli import showing
        from cutaway.cli.stopping import stopping

        with showing.progress(f"Comparing {one} and {other}") as counter, stopping() as stop:
            found, problems = api.compare(folder, one, other, situation, stop, counter, moves)
        showing.show_problems_briefly(problems)
        if found is not None and as_json:
            showing.show_json(api.compared_record(found))
        elif found is not None and as_table:
            names = (str(found.found.one.name), str(found.found.other.name))
            showing.show_table(("what", *names, "written in"), api.compared_rows(found))
        elif found is not None:
            print(api.compared_text(found))
        raise typer.Exit(exits.STOPPED if stop() else exits.ending(found is not None, problems))
