"""`cutaway run`: one course of things, as a table with small graphs, as JSON or as CSV."""

from pathlib import Path

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        epilog="Example:  cutaway run cruising -C demo/whinchat --on 'Mk 1' --do 'tank selector to off' --for '90 s' "
        "--show 'fuel lamp' --show carburettor.inlet"
    )
    def run(
        situation: str = typer.Argument(..., help="Where it begins, as situations.yaml names it."),
        folder: Path = typer.Option(Path(), "--folder", "-C", help="The type folder."),
        on: str = typer.Option("", help="The standard or airframe; else the first."),
        failed: list[str] = typer.Option([], "--with", help="What has failed or is given; may be said several times."),
        do: str = typer.Option("", help="What is done: 'tank selector to off then wait 5 s'."),
        length: str = typer.Option("60 s", "--for", help="How long to go on."),
        show: list[str] = typer.Option(
            [], help="A part, reading, port or control to show, several times for several. Else all that moves."
        ),
        as_json: bool = typer.Option(False, "--json", help="The traces and events, for a program."),
        as_csv: bool = typer.Option(False, "--csv", help="The traces as a table of figures."),
    ) -> None:
        """Run one situation on one standard and tell what happens."""
        if as_json and as_csv:
            raise typer.BadParameter("--json and --csv cannot both be printed; say one of them.")
        from cutaway.api import running
        from cutaway.cli import showing

        asked = running.Asked(situation, on, tuple(failed), do, length, tuple(show))
        with showing.progress(f"Running {situation}"):
            told, problems = running.run(folder, asked)
        showing.show_problems_briefly(problems)
        if told is None:
            raise typer.Exit(exits.ending(False, problems))
        if as_json:
            showing.show_json(running.run_record(told))
        elif as_csv:
            print(running.run_csv(told), end="")
        else:
            print(running.run_heading(told))
            rows = [(r.name, r.first, r.last, showing.little_graph(r.trace, 24), r.span) for r in told.rows]
            if rows:
                showing.show_table(("what", "at first", "at last", "course", "lowest to highest"), rows)
            else:
                print("Nothing changes. Name a part with --show to see how it stands.")
            for line in told.events:
                print(line)
            print(told.ending)
        raise typer.Exit(exits.ending(True, problems, not told.done))
