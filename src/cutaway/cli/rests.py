"""`cutaway rests`: which assumed values can turn which verdicts over, and what to look for first."""

from pathlib import Path

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        short_help="Tell which assumed values the verdicts rest on.",
        epilog='Examples:  cutaway rests demo/turnstone    cutaway rests demo/turnstone --on "Mk 4" --json',
    )
    def rests(
        folder: Path = typer.Argument(Path(), help="The type folder."),
        on: str = typer.Option("", help="Only these standards, as `on:` says them."),
        script: str = typer.Option("", help="Only this script, by its file's name."),
        most: int = typer.Option(20, min=1, help="How many values to tell."),
        limit: str = typer.Option("", help="How long to try assumed values at most: '60 s'."),
        as_json: bool = typer.Option(False, "--json", help="For a program to read."),
    ) -> None:
        """Tell which assumed values can turn which verdicts over, the most influential first, and where to look.

        Ctrl-C ends it and tells what is known so far. What was found is remembered, and the next call goes on
        from there.
        """
        from cutaway.api import rests as api
        from cutaway.api.asking import seconds_of
        from cutaway.cli import showing
        from cutaway.cli.stopping import stopping
        from cutaway.inquiry.many import Pace

        seconds, wrong = seconds_of(limit, "--limit")
        words, hint = f"Trying the assumed values of {folder}", "Ctrl-C tells what is known"
        with showing.progress(words, hint=hint) as counter, stopping() as stop:
            pace = Pace(stop, seconds, counter.tried)
            told, problems = (None, wrong) if wrong else api.rests(folder, on, script, counter, pace)
        showing.show_problems_briefly(problems)
        if told is not None:
            showing.show_json(api.rests_record(told)) if as_json else print(api.rests_text(told, most))
        raise typer.Exit(exits.STOPPED if stop() else exits.ending(told is not None, problems))
