"""`cutaway schema`: the JSON Schema by which an editor completes a type folder."""

import typer


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(epilog="Example:  cutaway schema > cutaway.schema.json   (then tell the editor: see docs/editors.md)")
    def schema() -> None:
        """Print the JSON Schema of the files of a type folder."""
        from cutaway.api import json_schema
        from cutaway.cli.showing import show_json

        show_json(json_schema())
