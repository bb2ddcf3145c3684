"""`cutaway sources`: the books, their amendments and contradictions, and what rests on each paragraph."""

from pathlib import Path

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        short_help="Amendments, contradictions, and what rests on each paragraph.",
        epilog="Examples:  cutaway sources demo/whinchat    cutaway sources --at 1939    cutaway sources --of '§25'",
    )
    def sources(
        folder: Path = typer.Argument(Path(), help="The type folder."),
        at: str = typer.Option("", help="As the books were at the end of a date: 1939, 'May 1939', 1939-05-12."),
        of: str = typer.Option("", help="Only what rests on this paragraph: '§25', 'hb §25'."),
        as_json: bool = typer.Option(False, "--json", help="For a program to read."),
    ) -> None:
        """Tell which amendments are in force, which paragraphs they alter, where the books contradict each other and
        what was decided, and which systems, claims and sentences rest on each paragraph. Ends with 1 where a
        contradiction is not decided."""
        from cutaway.api.sources import sources as read_sources
        from cutaway.api.telling_sources import rest_on, sources_record, sources_text
        from cutaway.cli import showing

        found, problems = read_sources(folder, at)
        showing.show_problems(problems)
        if found is None:
            raise typer.Exit(exits.ending(False, problems))
        if of and not rest_on(found, of):
            typer.echo(f"No book has a paragraph {of}.", err=True)
            raise typer.Exit(exits.WRONG_USE)
        if as_json:
            showing.show_json(sources_record(found, of))
        else:
            print(sources_text(found, of))
        open_ones = not of and any(not one.settled for one in found.contradictions)
        raise typer.Exit(exits.FOUND if open_ones else exits.FINE)
