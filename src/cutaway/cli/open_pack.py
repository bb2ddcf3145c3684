"""`cutaway open`: the pack in the browser."""

from pathlib import Path

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(name="open", epilog="Example:  cutaway open demo/whinchat")
    def open_(
        folder: Path = typer.Argument(Path(), help="The type folder whose pack was made."),
        out: Path | None = typer.Option(None, "--out", help="Where the pack is, if not in the folder's own place."),
    ) -> None:
        """Open the pack that `cutaway make` wrote in the browser."""
        import webbrowser

        from cutaway.api.places import pack_folder

        page = (out or pack_folder(folder)) / "index.html"
        if not page.is_file():
            typer.echo(f"There is no pack at {page.parent} yet. Make it with:\n  cutaway make {folder}", err=True)
            raise typer.Exit(exits.WRONG_USE)
        print(page)
        if not webbrowser.open(page.resolve().as_uri()):
            typer.echo("No browser could be started here; open that file in yours.", err=True)
