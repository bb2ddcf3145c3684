"""`cutaway stills`: sheets as pictures, at one moment or at several."""

from pathlib import Path

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        short_help="Write sheets as PNG: settled, or at chosen moments of a run; and as one moving drawing.",
        epilog="Examples:  cutaway stills demo/whinchat --system fuel --on 'Mk 1' --in cruising    "
        "cutaway stills demo/whinchat --system fuel --in cruising --do 'tank selector to off' --at before --at '1 s' "
        "--at '5 s' --moving",
    )
    def stills(
        folder: Path = typer.Argument(Path(), help="The type folder."),
        system: list[str] = typer.Option([], "--system", help="Which system; several times for several, else all."),
        on: str = typer.Option("", help="The standard or airframe; else the first."),
        situation: str = typer.Option("", "--in", help="The situation; else the first."),
        failed: list[str] = typer.Option([], "--with", help="What has failed or is given; may be said several times."),
        do: str = typer.Option("", help="What is done: 'tank selector to off then wait 5 s'."),
        at: list[str] = typer.Option(
            [], "--at", help="A moment: '10 s', 'before', 'end' or 'settled'; several times for several."
        ),
        events: bool = typer.Option(False, "--events", help="A moment at each event of the system's own parts."),
        every: str = typer.Option("", "--every", help="A moment at this distance over the whole run: '2 s'."),
        length: str = typer.Option("60 s", "--for", help="How long the run goes on."),
        size: str = typer.Option("frame", help="frame (1920 × 1080), a4 (3508 × 2480) or square (2160 × 2160)."),
        clear: bool = typer.Option(False, "--clear", help="Nothing behind the drawing: for laying over a film."),
        dark: bool = typer.Option(False, "--dark", help="Draw it for a dark screen."),
        svg: bool = typer.Option(False, "--svg", help="Write drawings (SVG) in place of PNG."),
        moving: bool = typer.Option(False, "--moving", help="Write the moments as one moving drawing (SVG) too."),
        hold: float = typer.Option(3.0, min=0.5, max=60.0, help="How long the moving drawing shows each moment, s."),
        out: Path = typer.Option(Path("stills"), "--out", help="The folder to write them to."),
        replace: bool = typer.Option(False, "--replace", help="Write over files that are there and differ."),
        as_json: bool = typer.Option(False, "--json", help="The files and what each shows in words, for a program."),
    ) -> None:
        """Write sheets as pictures. Without moments each shows its situation as it settles; with them each moment of
        the run is a numbered still. The moving drawing stands still for readers who want no motion."""
        from cutaway.api.sequence import Wanted
        from cutaway.api.stills import Look, stills_record
        from cutaway.api.stills import stills as write
        from cutaway.cli import showing
        from cutaway.problems.counting import counted
        from cutaway.problems.diagnostic import has_error
        from cutaway.problems.printing import as_records

        wanted = Wanted(situation, on, tuple(failed), do, tuple(system), tuple(at), events, every, length)
        look = Look(size, "clear" if clear else "paper", "dark" if dark else "light", svg, moving, hold)
        with showing.progress("Drawing stills", "stills") as counter:
            written, problems = write(folder, wanted, look, out, replace, counter)
        if as_json:
            showing.show_json({"stills": stills_record(written), "problems": as_records(problems)})
        else:
            showing.show_problems_briefly(problems)
            for one in written:
                print(f"{one.path}{f'  {one.moment}' if one.moment else ''}{'' if one.fresh else '  (as it was)'}")
            if written:
                fresh = sum(one.fresh for one in written)
                print(f"{counted(len(written), 'file')}, {fresh} written.")
        raise typer.Exit(exits.ending(bool(written), problems, has_error(problems)))
