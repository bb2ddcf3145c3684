"""`cutaway failures`: what must fail for a service or statement to be lost, and what the crew would see."""

from pathlib import Path

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        short_help="Tell the fewest failures that undo a service or statement.",
        epilog="Examples:  cutaway failures 'flying instruments' --in cruising -C demo/whinchat    "
        "cutaway failures 'fuel lamp is out' --in cruising --size 1 --json    cutaway failures --all --in cruising",
    )
    def failures(
        statement: str = typer.Argument("", help="A service, or a statement: 'fuel lamp is out'. None with --all."),
        folder: Path = typer.Option(Path(), "--folder", "-C", help="The type folder."),
        situation: str = typer.Option("", "--in", help="The situation in which it is so."),
        on: str = typer.Option("", help="The standard or airframe; else the first."),
        given: list[str] = typer.Option([], "--with", help="What is given, or has failed already; may be repeated."),
        do: str = typer.Option("", help="What is done first."),
        at: str = typer.Option("", help="How long after that it is looked at; else once all is at rest."),
        size: int = typer.Option(2, min=1, max=3, help="How many failures at once to look for, 1 to 3."),
        most: int = typer.Option(20, min=1, help="How many sets to tell at length."),
        limit: str = typer.Option("", help="How long to look at most: '30 s'."),
        everything: bool = typer.Option(False, "--all", help="Of every service, on every standard."),
        cluster: str = typer.Option("", help="With --all: look on the workers of the Dask scheduler at this address."),
        as_json: bool = typer.Option(False, "--json", help="For a program to read."),
    ) -> None:
        """Tell the smallest sets of failures that undo a service or statement, and what the crew would notice of each.

        Ctrl-C ends the search and tells what is known so far. With --all every service is asked in every situation (or
        in that of --in) in which it is given, on every standard (or those of --on).
        """
        if everything == bool(statement):
            raise typer.BadParameter("Name one service or statement, or say --all.")
        if everything:
            raise typer.Exit(_all(folder, situation, on, size, min(most, 5), limit, cluster, as_json))
        from cutaway.api import failures as api
        from cutaway.api.asking import Asked, seconds_of
        from cutaway.cli import showing
        from cutaway.cli.stopping import stopping
        from cutaway.inquiry.search.changes import in_words

        seconds, wrong = seconds_of(limit, "--limit")
        asked = Asked(statement, situation, on, tuple(given), do, at)
        with showing.progress(f"Looking for failures of {statement}") as counter, stopping() as stop:
            told, problems = (None, wrong) if wrong else api.failures(
                folder, asked, size, most, seconds, stop, counter,
                lambda one: counter.tell(" with ".join(sorted(map(in_words, one)))),
            )  # fmt: skip
        showing.show_problems_briefly(problems)
        if told is not None:
            showing.show_json(api.failures_record(told)) if as_json else print(api.failures_text(told))
        raise typer.Exit(exits.STOPPED if stop() else exits.ending(told is not None, problems))


def _all(folder: Path, situation: str, on: str, size: int, most: int, limit: str, cluster: str, as_json: bool) -> int:
    """The sweep; its exit code."""
    from cutaway.api.asking import seconds_of
    from cutaway.api.sweeping import all_failures, swept_record, swept_text
    from cutaway.cli import showing
    from cutaway.cli.stopping import stopping

    seconds, wrong = seconds_of(limit, "--limit")
    with showing.progress("Looking for failures of every service", "searches") as counter, stopping() as stop:
        swept, problems = (None, wrong) if wrong else all_failures(
            folder, situation, on, size, most, cluster, counter, seconds, stop
        )  # fmt: skip
    showing.show_problems_briefly(problems)
    if swept is not None:
        showing.show_json(swept_record(swept)) if as_json else print(swept_text(swept))
    return exits.STOPPED if stop() else exits.ending(swept is not None, problems)
