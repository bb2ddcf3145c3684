"""`cutaway take`: a book becomes a source."""

import sys
from pathlib import Path

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        short_help="Take in a book: PDF, scans, photographs, text, tables.",
        epilog="Example:  cutaway take handbook.pdf -C whinchat --key hb    Photographs of pages, in order:  "
        "cutaway take page-*.jpg -C whinchat --key hb",
    )
    def take(
        files: list[Path] = typer.Argument(..., help="The files of one book, in order."),
        folder: Path = typer.Option(Path(), "--folder", "-C", help="The type folder."),
        key: str = typer.Option("", "--key", help="The short name by which it is cited; else made from the file's."),
        pages: str = typer.Option("", "--pages", help="Only these pages, counted from 1: 1-40,45"),
        read_again: bool = typer.Option(
            False, "--read-again", help="Read the pictures of pages even where text lies over them."
        ),
        new_copy: bool = typer.Option(False, "--new-copy", help="The files are another copy of the same book."),
        sure: bool = typer.Option(False, "--yes", help="Take a file even where it does not look like a book."),
        as_json: bool = typer.Option(False, "--json", help="Print what was done, for a program."),
    ) -> None:
        """Take in a book as sources/KEY.md: its paragraphs with their numbers, amendments and pages. Figures and
        doubtful words read from pictures are listed to be confirmed. Taken again, it keeps what you corrected. A stop
        keeps the pages read so far."""
        from cutaway.api.taking import take_in, taken_record, taken_text
        from cutaway.cli import showing
        from cutaway.problems.diagnostic import has_error

        with showing.progress(f"Taking in {', '.join(file.name for file in files[:3])}", "pages") as counter:
            try:
                outcome, problems = take_in(
                    folder,
                    files,
                    key=key,
                    pages=pages,
                    read_again=read_again,
                    new_copy=new_copy,
                    sure=sure,
                    progress=counter,
                )
            except KeyboardInterrupt:
                print("\nThe pages read so far are kept; the same command goes on from there.", file=sys.stderr)
                raise
        if as_json:
            showing.show_json(taken_record(outcome, problems))
        else:
            showing.show_problems(problems)
            if outcome is not None:
                print(taken_text(outcome))
            elif len(files) > 1:
                print("Nothing was taken.", file=sys.stderr)
        raise typer.Exit(exits.ending(outcome is not None, problems, has_error(problems)))
