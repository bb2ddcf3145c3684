"""`cutaway check`: everything in a type folder, every claim for every standard."""

from pathlib import Path

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        short_help="Check files, drills and claims, each for every standard.",
        epilog='Examples:  cutaway check demo/whinchat    cutaway check --on "Mk 2" --all    cutaway check --json',
    )
    def check(
        folder: Path = typer.Argument(Path(), help="The type folder."),
        on: str = typer.Option("", help="Only these standards, as `on:` says them: 'Mk 2', 'Mk 1 or Mk 2'."),
        script: str = typer.Option("", help="Only this script, by its file's name."),
        rests: bool = typer.Option(True, help="Take each assumed value to both ends of its range."),
        limit: str = typer.Option("", help="How long to try assumed values at most: '60 s'."),
        strict: bool = typer.Option(
            False, help="End with 1 for rests on, not modelled, undecided and differs from the books as well."
        ),
        everything: bool = typer.Option(False, "--all", help="Tell the claims that hold as well."),
        cluster: str = typer.Option("", help="Judge on the workers of the Dask scheduler at this address."),
        as_json: bool = typer.Option(False, "--json", help="For a program to read."),
    ) -> None:
        """Check files, citations, drills and every claim, one verdict for each standard.

        Of a big folder the assumed values take long, the first time: --no-rests leaves them out, --limit ends in time,
        Ctrl-C tells what is known so far. What was found is remembered, and the next call goes on from there.
        """
        from cutaway.api.asking import seconds_of
        from cutaway.api.checking import check as check_folder
        from cutaway.api.checking import found_wrong
        from cutaway.api.telling import checked_record, checked_text
        from cutaway.cli import showing
        from cutaway.cli.stopping import stopping
        from cutaway.inquiry.many import Pace
        from cutaway.problems.diagnostic import has_error

        seconds, wrong = seconds_of(limit, "--limit")
        hint = "--no-rests leaves them out, Ctrl-C tells what is known"
        with showing.progress(f"Checking {folder}", hint=hint) as counter, stopping() as stop:
            pace = Pace(stop, seconds, counter.tried)
            checked, problems = (None, wrong) if wrong else check_folder(
                folder, on=on, script=script, rests=rests, progress=counter, cluster=cluster, pace=pace
            )  # fmt: skip
        if as_json:
            showing.show_json(checked_record(checked, problems))
        else:
            showing.show_problems(problems)
            if checked is not None:
                print(checked_text(checked, everything, has_error(problems)))
        if stop():
            raise typer.Exit(exits.STOPPED)
        raise typer.Exit(exits.ending(checked is not None, problems, found_wrong(checked, problems, strict)))
