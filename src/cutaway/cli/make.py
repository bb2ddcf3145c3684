"""`cutaway make`: the pack."""

from pathlib import Path

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        short_help="Make the pack: the page, the sheets, the captions, and all else that goes with them.",
        epilog="Example:  cutaway make demo/whinchat    then  cutaway open demo/whinchat",
    )
    def make(
        folder: Path = typer.Argument(Path(), help="The type folder."),
        out: Path | None = typer.Option(None, "--out", help="Where to write the pack; else `pack` in the folder."),
        rests: bool = typer.Option(
            True, help="Take each assumed value to both ends of its range; --no-rests is quicker."
        ),
        handouts: bool = typer.Option(True, help="Set the handouts too; --no-handouts is quicker."),
        as_json: bool = typer.Option(False, "--json", help="Print what was written, for a program."),
    ) -> None:
        """Make the pack: the page, the sheets, the captions, the list of problems, and what `contents.html` in it
        lists besides. Only what a change of the folder can reach is made again. The last pack stays whole until the
        new one is complete, also where this is stopped with Ctrl-C; what was worked out so far is then remembered."""
        from cutaway.api.making import RANGES
        from cutaway.api.making import make as make_pack
        from cutaway.api.telling import made_record, made_text
        from cutaway.cli import showing
        from cutaway.inquiry.many import Pace
        from cutaway.publish.handout.product import left_out

        with showing.progress(f"Making the pack of {folder}") as counter:
            made, problems = make_pack(
                folder,
                out=out,
                rests=rests,
                progress=counter,
                stage=lambda words: counter.stage(
                    f"{words} (--no-rests leaves that out)" if words == RANGES else words
                ),
                pace=Pace(told=counter.tried),
                handouts=handouts,
            )
        if as_json:
            showing.show_json(made_record(made, problems))
        else:
            showing.show_problems(problems)
            if made is not None:
                print(made_text(made, handouts and left_out(made.checked.folder)))
        raise typer.Exit(exits.ending(made is not None, problems, made is not None and made.wrong))
