"""`cutaway publish`: mark a pack as published."""

import re
from datetime import date
from pathlib import Path

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        short_help="Mark the pack as published, so that later edits can be told against it.",
        epilog="Examples:  cutaway publish demo/whinchat --on 2026-03-01    cutaway publish --same-films",
    )
    def publish(
        folder: Path = typer.Argument(Path(), help="The type folder."),
        on: str = typer.Option("", "--on", help="The date: 2026-03-01 or '1 March 2026'; else today."),
        pack: Path | None = typer.Option(None, "--pack", help="The pack, where it is not `pack` in the folder."),
        note: str = typer.Option("", "--note", help="A few words: where it went, say."),
        same_films: bool = typer.Option(
            False, "--same-films", help="The films stay as they are; only captions and pages were corrected."
        ),
        as_it_is: bool = typer.Option(
            False, "--as-it-is", help="Also with errors and claims that fail; the record says so."
        ),
        as_json: bool = typer.Option(False, "--json", help="For a program to read."),
    ) -> None:
        """Mark the pack as published, with a date and a digest, in the folder's `published/`. From then on `cutaway
        make` says which published sentence, caption, drawing or figure an edit touches, and writes the errata page and
        corrected captions. Nothing is sent anywhere.

        A pack of a folder with errors, or with a claim that fails, is refused."""
        from cutaway.api.corrections import publish as mark
        from cutaway.cli import showing
        from cutaway.problems.counting import counted
        from cutaway.problems.diagnostic import has_error
        from cutaway.problems.printing import as_records

        day = _day(on) if on else date.today()
        marked, problems = mark(folder, day, pack, note, same_films, as_it_is)
        if as_json:
            what = {"date": marked.date.isoformat(), "digest": marked.digest} if marked is not None else {}
            faults = marked.faults if marked is not None else ()
            showing.show_json({**what, "faults": list(faults), "problems": as_records(problems)})
        else:
            showing.show_problems(problems)
            if marked is not None and "K303" not in {one.code for one in problems}:
                print(f"Marked as published on {marked.date.isoformat()}: digest {marked.digest[:16]}.")
                if marked.faults:
                    print(f"Published as it is, with {counted(len(marked.faults), 'thing')} that must be mended.")
        raise typer.Exit(exits.ending(marked is not None, problems, has_error(problems)))


def _day(words: str) -> date:
    """The one day that the words mean."""
    from cutaway.handbook.dates import read_date

    found = read_date(words)
    # The books' '3.9.39' is a day of 1939, on which nothing of ours was published.
    if found is None or found.first != found.last or not re.search(r"\d{4}", words):
        raise typer.BadParameter(f"'{words}' is no day; write --on {date.today().isoformat()}.")
    return date(*found.first)
