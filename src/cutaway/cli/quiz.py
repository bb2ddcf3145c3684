"""`cutaway quiz`: questions for visitors, whose answers are computed."""

from pathlib import Path

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        short_help="Make questions for visitors, with computed answers and reasons.",
        epilog="Examples:  cutaway quiz -C demo/whinchat --count 12 --out quiz    "
        "cutaway quiz -C demo/whinchat --on 'Mk 2' --system Fuel    cutaway quiz --sort failure --json",
    )
    def quiz(
        folder: Path = typer.Option(Path(), "--folder", "-C", help="The type folder."),
        count: int = typer.Option(12, help="How many questions."),
        on: str = typer.Option("", help="Only of these standards or airframes."),
        system: str = typer.Option("", help="Only of this system."),
        sort: list[str] = typer.Option([], help="Only of this sort: shows, reads, failure, marks, step, figure."),
        out: Path | None = typer.Option(None, help="Write a page, sheets to print (HTML and PDF) and JSON here."),
        paper: str = typer.Option("a4", help="Of the sheets to print, as PDF: a4 or letter."),
        replace: bool = typer.Option(False, help="Write over files of these names that are there."),
        rests: bool = typer.Option(True, help="Ask nothing whose answer rests on an assumed value."),
        as_json: bool = typer.Option(False, "--json", help="For a program to read."),
    ) -> None:
        """Make questions of what the type folder says: what is seen in a case of a talk, what alone takes a service
        away, on which marks a thing is so, which step of a drill matters, what figure the books give.

        Every answer is a claim that holds in the model, every wrong one a claim that does not; each has its reason and
        its paragraphs. The same folder gives the same questions. Ctrl-C ends it with what there is.
        """
        from cutaway.api import quiz as api
        from cutaway.cli import showing
        from cutaway.cli.stopping import stopping
        from cutaway.problems.diagnostic import has_error
        from cutaway.publish.quiz import quiz_record
        from cutaway.publish.single_file import refused_by_disk

        on_paper, wrong = api.paper_named(paper)
        wrong += refused_by_disk(out) if out is not None else ()
        if on_paper is None or wrong:
            showing.show_problems(wrong)
            raise typer.Exit(exits.ending(False, wrong))
        with showing.progress("Making questions") as counter, stopping() as stop:
            made, problems = api.quiz(folder, api.Asked(count, on, system, tuple(sort)), rests, stop, counter)
        if made is not None and out is not None:
            written, more = api.write_quiz(made, out, on_paper, replace)
            problems += more
            print("\n".join(str(path) for path in written))
        elif made is not None:
            showing.show_json(quiz_record(made.view)) if as_json else print(api.quiz_text(made))
        showing.show_problems(problems)
        raise typer.Exit(exits.STOPPED if stop() else exits.ending(made is not None, problems, has_error(problems)))
