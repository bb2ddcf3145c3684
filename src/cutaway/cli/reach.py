"""`cutaway reach`: the shortest sequences of movements that get there, and why the direct way does not do."""

from pathlib import Path

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        short_help="Tell the shortest sequence of movements after which a statement is true.",
        epilog="Examples:  cutaway reach 'fuel lamp is lit' --in cruising -C demo/whinchat    "
        "cutaway reach 'engine is running' --in parked --on 'Mk 2' --size 4 --limit '1 min' --json",
    )
    def reach(
        statement: str = typer.Argument(..., help="A statement, or a service: 'flaps are down'."),
        folder: Path = typer.Option(Path(), "--folder", "-C", help="The type folder."),
        situation: str = typer.Option("", "--in", help="The situation to begin from."),
        on: str = typer.Option("", help="The standard or airframe; else the first."),
        given: list[str] = typer.Option([], "--with", help="What is given, or has failed; may be repeated."),
        at: str = typer.Option("", help="How long after the last movement it is looked at; else once all is at rest."),
        size: int = typer.Option(3, min=1, max=6, help="How many movements to go through at most."),
        most: int = typer.Option(5, min=1, help="How many sequences to tell."),
        limit: str = typer.Option("1 min", help="How long to look at most: '30 s'."),
        as_json: bool = typer.Option(False, "--json", help="For a program to read."),
    ) -> None:
        """Tell the shortest sequences of movements, with the waits they want, after which a statement is true.

        Where a sequence goes a way round, tell why the direct way does not do. Ctrl-C ends the search and tells what
        is known so far.
        """
        from cutaway.api import reach as api
        from cutaway.api.asking import Asked, seconds_of
        from cutaway.cli import showing
        from cutaway.cli.stopping import stopping
        from cutaway.language.print_back import printed_actions

        seconds, wrong = seconds_of(limit, "--limit")
        asked = Asked(statement, situation, on, tuple(given), "", at)
        with showing.progress(f"Looking for a way to {statement}") as counter, stopping() as stop:
            told, problems = (None, wrong) if wrong else api.reach(
                folder, asked, size, most, seconds, stop, counter, lambda one: counter.tell(printed_actions(one))
            )  # fmt: skip
        showing.show_problems_briefly(problems)
        if told is not None:
            showing.show_json(api.reach_record(told)) if as_json else print(api.reach_text(told))
        raise typer.Exit(exits.STOPPED if stop() else exits.ending(told is not None, problems))
