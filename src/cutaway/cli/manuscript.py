"""`cutaway manuscript`: scripts as a DOCX for an author."""

from pathlib import Path

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        short_help="Write scripts as a DOCX with footnotes, figures and a bibliography.",
        epilog="Example:  cutaway manuscript demo/whinchat/scripts/01-fuel.md --out fuel.docx",
    )
    def manuscript(
        scripts: list[Path] = typer.Argument(..., help="Scripts of one type folder, or the folder for all of them."),
        out: Path | None = typer.Option(None, "--out", help="The file to write; else the first script's name, .docx."),
        replace: bool = typer.Option(False, "--replace", help="Write over a file that is there already."),
        rests: bool = typer.Option(True, help="Take each assumed value to both ends of its range."),
        as_json: bool = typer.Option(False, "--json", help="For a program to read."),
    ) -> None:
        """Write scripts as a manuscript: each sentence with its paragraphs and verdicts as a footnote, the sheets as
        numbered figures with a list of them, the books as a bibliography. The sheets are those of the pack."""
        from cutaway.api.manuscript import manuscript as write
        from cutaway.cli import showing
        from cutaway.problems.counting import counted
        from cutaway.problems.diagnostic import has_error
        from cutaway.problems.printing import as_records

        with showing.progress("Writing the manuscript") as counter:
            book, problems = write(tuple(scripts), out, rests, replace, counter)
        if as_json:
            done = {"file": str(book.path), "footnotes": book.footnotes, "figures": book.figures} if book else {}
            showing.show_json({**done, "problems": as_records(problems)})
        else:
            showing.show_problems(problems)
            if book is not None:
                notes, figures = counted(book.footnotes, "footnote"), counted(book.figures, "figure")
                print(f"Written: {book.path}, {notes}, {figures}.")
        raise typer.Exit(exits.ending(book is not None, problems, has_error(problems)))
