"""`cutaway explain`: what a code means."""

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(short_help="Say what a problem's code means.", epilog="Example:  cutaway explain Q104")
    def explain(code: str = typer.Argument("", help="A code such as Q104; leave it out to list them all.")) -> None:
        """Say what a problem's code means, with a wrong and a right sample."""
        from cutaway.problems.catalogue import CATALOGUE
        from cutaway.problems.reference import entry_text

        if not code:
            for name, entry in sorted(CATALOGUE.items()):
                print(f"{name}  {entry.severity:8}{entry.title}")
            return
        found = CATALOGUE.get(code.upper())
        if found is None:
            from rapidfuzz import process

            near = process.extractOne(code.upper(), list(CATALOGUE), score_cutoff=60)
            hint = f"Did you mean {near[0]}?" if near else "`cutaway explain` by itself lists them all."
            typer.echo(f"There is no code '{code}'. {hint}", err=True)
            raise typer.Exit(exits.WRONG_USE)
        print(entry_text(code.upper(), found))
