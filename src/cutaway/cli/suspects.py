"""`cutaway suspects`: what could be behind what the crew sees, and the next look that tells it apart."""

from pathlib import Path

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        short_help="Tell which failures would explain what is seen, and where to look next.",
        epilog="Examples:  cutaway suspects --seen 'fuel lamp is lit' --in cruising -C demo/whinchat    "
        "cutaway suspects --seen 'suction gauge reads below 1 in Hg' --seen 'engine is running' --in cruising",
    )
    def suspects(
        folder: Path = typer.Option(Path(), "--folder", "-C", help="The type folder."),
        seen: list[str] = typer.Option(..., help="What the crew sees: 'fuel lamp is lit'; may be said several times."),
        situation: str = typer.Option("", "--in", help="The situation in which it is seen."),
        on: str = typer.Option("", help="The standard or airframe; else the first."),
        given: list[str] = typer.Option(
            [], "--with", help="What is given, or is known to have failed; may be repeated."
        ),
        do: str = typer.Option("", help="What was done."),
        at: str = typer.Option("", help="How long after that it is seen; else once all is at rest."),
        size: int = typer.Option(2, min=1, max=3, help="How many failures at once to look for, 1 to 3."),
        most: int = typer.Option(24, min=1, help="How many explanations to tell."),
        limit: str = typer.Option("", help="How long to look at most: '30 s'."),
        as_json: bool = typer.Option(False, "--json", help="For a program to read."),
    ) -> None:
        """Tell the smallest sets of failures that explain what is seen, and the look or movement that tells them apart.

        Ctrl-C ends the search and tells what is known so far.
        """
        from cutaway.api import suspects as api
        from cutaway.api.asking import Asked, seconds_of
        from cutaway.cli import showing
        from cutaway.cli.stopping import stopping
        from cutaway.inquiry.search.changes import in_words

        seconds, wrong = seconds_of(limit, "--limit")
        asked = Asked("", situation, on, tuple(given), do, at)
        with showing.progress("Looking for explanations") as counter, stopping() as stop:
            told, problems = (None, wrong) if wrong else api.suspects(
                folder, seen, asked, size, most, seconds, stop, counter,
                lambda one: counter.tell(" with ".join(sorted(map(in_words, one)))),
            )  # fmt: skip
        showing.show_problems_briefly(problems)
        if told is not None:
            showing.show_json(api.suspects_record(told)) if as_json else print(api.suspects_text(told))
        raise typer.Exit(exits.STOPPED if stop() else exits.ending(told is not None, problems))
