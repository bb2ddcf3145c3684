"""`cutaway explore`: one page on which the controls of a system can be moved."""

from pathlib import Path

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        short_help="Make a page on which controls are moved, with the reasons.",
        epilog="Example:  cutaway explore Fuel -C demo/whinchat --on 'Mk 1' --in cruising --out fuel.html",
    )
    def explore(
        system: str = typer.Argument(..., help="The system whose sheet answers, as its file in systems/ names it."),
        folder: Path = typer.Option(Path(), "--folder", "-C", help="The type folder."),
        on: str = typer.Option("", help="The standard or airframe; else the first."),
        situation: str = typer.Option("", "--in", help="The situation in which it begins; else the first."),
        control: list[str] = typer.Option([], help="A control to be moved; may be said several times. Else those that "
                                                   "matter most."),
        settle: str = typer.Option("", help="How long things settle after a movement; else as in the situation."),
        states: int = typer.Option(150, min=2, max=5000, help="How many settled states the page has at most."),
        says: str = typer.Option("", help="A sentence for its reader."),
        out: Path = typer.Option(Path("explore.html"), help="The file to be written."),
        replace: bool = typer.Option(False, "--replace", help="Write over a file that is there."),
        as_json: bool = typer.Option(False, "--json", help="What the page shows, for a program; no file is written."),
    ) -> None:  # fmt: skip
        """Make a page on which controls are moved and the sheet answers, with the reasons beside it."""
        from cutaway.api import exploring
        from cutaway.cli import showing

        standing = () if as_json else exploring.in_the_way(out, replace)
        if standing:
            showing.show_problems(standing)
            raise typer.Exit(exits.ending(False, standing))
        wanted = exploring.Wanted(system, on, situation, tuple(control), settle, states, says)
        with showing.progress(f"Exploring {system}", "states") as counter:
            made, problems = exploring.explore(folder, wanted, counter.stage)
        showing.show_problems(problems)
        if made is None:
            raise typer.Exit(exits.ending(False, problems))
        if as_json:
            showing.show_json(exploring.explore_record(made))
            raise typer.Exit(exits.ending(True, problems))
        written, more = exploring.write_page(made, out, replace)
        showing.show_problems(more)
        if written is not None:
            for line in exploring.explore_lines(made, written):
                print(line)
        raise typer.Exit(exits.ending(written is not None, (*problems, *more)))
