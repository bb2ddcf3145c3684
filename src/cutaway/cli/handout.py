"""`cutaway handout`: paper for visitors."""

from pathlib import Path

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        short_help="Write handouts as PDF: a visitor sheet, a large-print sheet, a booklet.",
        epilog="Examples:  cutaway handout demo/whinchat    "
        "cutaway handout demo/whinchat --kind visitor --system fuel --on 'Mk 1' --in cruising --paper letter",
    )
    def handout(
        folder: Path = typer.Argument(Path(), help="The type folder."),
        kind: list[str] = typer.Option([], "--kind", help="visitor, large or booklet; else all three."),
        paper: list[str] = typer.Option([], "--paper", help="a4 or letter; else a4."),
        system: str = typer.Option("", "--system", help="Of which system; else the first that the scripts show."),
        on: str = typer.Option("", help="The standard or airframe; else as the scripts show it."),
        situation: str = typer.Option("", "--in", help="The situation; else as the scripts show it."),
        out: Path | None = typer.Option(None, "--out", help="The folder to write to; else `handout` in the folder."),
        replace: bool = typer.Option(
            False, "--replace", help="With --out: write over files that are there and differ."
        ),
        rests: bool = typer.Option(True, help="Take each assumed value to both ends of its range."),
        as_json: bool = typer.Option(False, "--json", help="What was written, for a program."),
    ) -> None:
        """Write handouts as tagged PDF. Sentences carry their paragraphs and verdicts as notes; those that do not hold
        are held back and named. Only what differs is written again.

        Without --kind, --paper, --system, --on and --in it writes what handouts.yaml asks for, where that lists any."""
        from cutaway.api.handout import Asked, handout_record
        from cutaway.api.handout import handout as write
        from cutaway.cli import showing
        from cutaway.problems.counting import counted
        from cutaway.problems.diagnostic import has_error
        from cutaway.problems.printing import as_records

        asked = Asked(tuple(kind), tuple(paper), on, situation, system)
        with showing.progress(f"Writing the handouts of {folder}") as counter:
            written, problems = write(folder, asked, out, rests, replace, counter)
        if as_json:
            showing.show_json({"handouts": handout_record(written), "problems": as_records(problems)})
        else:
            showing.show_problems(problems)
            for one in written:
                print(f"{one.path}: {counted(one.pages, 'page')}{'' if one.fresh else ', as it was'}.")
        raise typer.Exit(exits.ending(bool(written), problems, has_error(problems)))
