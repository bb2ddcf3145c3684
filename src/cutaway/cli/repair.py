"""`cutaway repair`: what a machine misheard in captions, shown for approval."""

from pathlib import Path

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        short_help="Show what a machine misheard in captions; make the repairs that are approved.",
        epilog="Example:  cutaway repair talk.vtt --script 01-fuel -C demo/whinchat   then the same with --apply 1,3",
    )
    def repair(
        captions: Path = typer.Argument(..., help="Captions that a machine made: WebVTT or SRT."),
        folder: Path = typer.Option(Path(), "--folder", "-C", help="The type folder."),
        script: str = typer.Option("", help="The script that was read; what was said otherwise is told too."),
        apply: str = typer.Option("", help="The numbers of the repairs to make: 1,3 or all. Else nothing is written."),
        out: Path | None = typer.Option(None, "--out", help="The file to write; else NAME.repaired beside it."),
        replace: bool = typer.Option(False, "--replace", help="Write over a file that is there."),
        as_json: bool = typer.Option(False, "--json", help="For a program to read."),
    ) -> None:
        """Show what a machine misheard in captions, each with its reason: words of the trade, marks, units. Nothing is
        changed unasked, and the captions that were given are never written over: --apply writes a new file."""
        from cutaway.api.repairing import repair_captions
        from cutaway.api.repairing_text import repaired_record, repaired_text
        from cutaway.cli import showing

        numbers = numbers_of(apply)
        if numbers is None:
            raise typer.BadParameter(f"'{apply}' is no list of numbers; write 1,3 or all.", param_hint="--apply")
        done, problems = repair_captions(folder, captions, script, () if apply == "all" else numbers, out, replace)
        if apply == "all" and done is not None and done.repairs:
            every = tuple(one.number for one in done.repairs)
            done, problems = repair_captions(folder, captions, script, every, out, replace)
        if as_json:
            showing.show_json(repaired_record(done, problems))
        else:
            showing.show_problems(problems)
            if done is not None:
                print(repaired_text(done, captions))
        raise typer.Exit(
            exits.ending(done is not None, problems, done is not None and bool(done.repairs) and not done.applied)
        )


def numbers_of(text: str) -> tuple[int, ...] | None:
    """The numbers of a list '1,3'; none for '' and 'all'; None if it is no such list."""
    if text in ("", "all"):
        return ()
    parts = text.replace(" ", ",").split(",")
    if not all(part.isdigit() for part in parts if part):
        return None
    return tuple(int(part) for part in parts if part)
