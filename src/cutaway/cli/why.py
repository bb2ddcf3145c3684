"""`cutaway why`: the chain of cause behind a thing, its reasons, and what would change it."""

from pathlib import Path

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        short_help="Tell why a thing is so or not so, and what would change it.",
        epilog="Examples:  cutaway why 'fuel lamp is out' --in cruising -C demo/whinchat    "
        "cutaway why 'engine is running' --in cruising --with 'filter choked' --size 1",
    )
    def why(
        statement: str = typer.Argument(..., help="A statement, 'horn is sounding', or the name of a service."),
        folder: Path = typer.Option(Path(), "--folder", "-C", help="The type folder."),
        situation: str = typer.Option("", "--in", help="The situation in which it is asked."),
        on: str = typer.Option("", help="The standard or airframe; else the first."),
        given: list[str] = typer.Option([], "--with", help="What has failed or is given; may be said several times."),
        do: str = typer.Option("", help="What is done first."),
        at: str = typer.Option("", help="How long after that it is looked at; else once all is at rest."),
        size: int = typer.Option(2, min=1, max=4, help="How many changes at once to look for, 1 to 4."),
        most: int = typer.Option(12, min=1, help="How many of the changes to tell."),
        failures: bool = typer.Option(False, help="Count things that go wrong among the changes."),
        limit: str = typer.Option("", help="How long to look at most: '30 s'."),
        as_json: bool = typer.Option(False, "--json", help="For a program to read."),
    ) -> None:
        """Tell whether a thing is so, because of what, and the fewest changes that would make it otherwise.

        Ctrl-C ends the search and tells what is known so far.
        """
        from cutaway.api import why as api
        from cutaway.api.asking import Asked, seconds_of
        from cutaway.cli import showing
        from cutaway.cli.stopping import stopping
        from cutaway.inquiry.search.changes import in_words

        seconds, wrong = seconds_of(limit, "--limit")
        asked = Asked(statement, situation, on, tuple(given), do, at)
        with showing.progress(f"Asking why {statement}") as counter, stopping() as stop:
            told, problems = (None, wrong) if wrong else api.why(
                folder, asked, size, most, failures, seconds, stop, counter,
                lambda one: counter.tell(" with ".join(sorted(map(in_words, one)))),
            )  # fmt: skip
        showing.show_problems_briefly(problems)
        if told is not None:
            showing.show_json(api.why_record(told)) if as_json else print(api.why_text(told))
        raise typer.Exit(exits.STOPPED if stop() else exits.ending(told is not None, problems))
