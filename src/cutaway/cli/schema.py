"""`cutaway schema`: the JSON Schemas by which an editor completes a type folder."""

from pathlib import Path

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        short_help="Print the JSON Schema of a sort of file, for an editor.",
        epilog="Examples:  cutaway schema type.yaml    cutaway schema --out .schemas",
    )
    def schema(
        file: str = typer.Argument("systems/*.yaml", help="Which sort of file: its path in a type folder."),
        out: Path | None = typer.Option(None, help="Write the schemas of all files into this folder."),
    ) -> None:
        """Print the JSON Schema of one sort of file of a type folder, or write those of all."""
        from fnmatch import fnmatch

        from cutaway.api.finding import schemas
        from cutaway.cli.showing import show_json, write_json

        found = schemas()
        if out is not None:
            try:
                for pattern, one in found.items():
                    print(write_json(out / f"{pattern.split('/')[0].removesuffix('.yaml')}.schema.json", one))
            except OSError as fault:
                typer.echo(f"'{out}' cannot be written: {fault.strerror}.", err=True)
                raise typer.Exit(exits.FOUND) from fault
            return
        match = next((pattern for pattern in found if pattern == file or fnmatch(file, pattern)), None)
        if match is None:
            typer.echo(f"There is no schema for {file!r}. There are: {', '.join(found)}.", err=True)
            raise typer.Exit(exits.WRONG_USE)
        show_json(found[match])
