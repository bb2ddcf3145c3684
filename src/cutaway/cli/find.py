"""`cutaway find`: where the books speak of something."""

from pathlib import Path

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        short_help="Find the paragraphs that speak of something.",
        epilog='Example:  cutaway find "gauge switch" -C demo/whinchat',
    )
    def find(
        words: list[str] = typer.Argument(
            ..., help="Words to look for; other spellings, near misses and the glossary's words for it are found too."
        ),
        folder: Path = typer.Option(Path(), "--folder", "-C", help="The type folder."),
        limit: int = typer.Option(8, min=1, max=200, help="At most so many paragraphs."),
        as_json: bool = typer.Option(False, "--json", help="For a program to read."),
    ) -> None:
        """Find the paragraphs of the handbooks that speak of something."""
        from cutaway.api.finding import find as find_paragraphs
        from cutaway.api.telling import hit_record, hit_text
        from cutaway.api.telling_sources import known_record, known_text
        from cutaway.cli import showing

        found, problems = find_paragraphs(folder, " ".join(words), limit)
        showing.show_problems(problems)
        if found is None:
            raise typer.Exit(exits.ending(False, problems))
        if as_json:
            showing.show_json({"known": [*map(known_record, found.known)], "hits": [*map(hit_record, found.hits)]})
        else:
            told = [*map(known_text, found.known), *map(hit_text, found.hits)]
            print("\n".join(told) if told else "Nothing in the books speaks of that.")
        raise typer.Exit(exits.FINE if found.hits or found.known else exits.FOUND)
