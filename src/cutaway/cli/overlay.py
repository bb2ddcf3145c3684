"""`cutaway overlay`: a sequence as a film with transparency."""

from pathlib import Path

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        short_help="Write a sheet at moments of a run as a film with transparency.",
        epilog="Examples:  cutaway overlay demo/whinchat --system fuel --in cruising --do 'tank selector to off' "
        "--at before --at '0 s' --at '5 s' --out cock.mov    "
        "cutaway overlay demo/whinchat --system fuel --in cruising --do 'tank selector to off' --events --as vp9",
    )
    def overlay(
        folder: Path = typer.Argument(Path(), help="The type folder."),
        system: list[str] = typer.Option([], "--system", help="Which system."),
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
        form: str = typer.Option("prores", "--as", help="prores, rle or png (.mov), or vp9 (.webm)."),
        size: str = typer.Option("frame", help="frame (1920 × 1080), a4 or square."),
        panel: bool = typer.Option(
            False, "--panel", help="A panel behind the drawing that lets the film shine through."
        ),
        dark: bool = typer.Option(False, "--dark", help="Light lines, for a dark film."),
        hold: float = typer.Option(3.0, min=0.2, max=60.0, help="How long each moment is shown, s."),
        pace: bool = typer.Option(False, "--pace", help="Keep the pace of the run; --hold is for the first and last."),
        fade: float = typer.Option(0.4, min=0.0, max=5.0, help="How long each change takes, s."),
        rate: int = typer.Option(25, min=1, max=120, help="Frames a second."),
        out: Path | None = typer.Option(None, "--out", help="The file to write; else named after the sheet."),
        replace: bool = typer.Option(False, "--replace", help="Write over a file that is there and differs."),
        as_json: bool = typer.Option(False, "--json", help="The film and when each moment begins, for a program."),
    ) -> None:
        """Write one system's sheet at moments of a run as a film with transparency, to lay over a film in an editing
        program. Ctrl-C stops it and leaves nothing half written."""
        from cutaway.api.overlay import FilmLook, overlay_record
        from cutaway.api.overlay import overlay as write
        from cutaway.api.sequence import Wanted
        from cutaway.cli import showing
        from cutaway.problems.printing import as_records
        from cutaway.wording.figures import duration

        wanted = Wanted(situation, on, tuple(failed), do, tuple(system), tuple(at), events, every, length)
        look = FilmLook(form, size, "panel" if panel else "clear", "dark" if dark else "light", hold, pace, fade, rate)
        with showing.progress("Writing the overlay", "frames") as counter:
            made, problems = write(folder, wanted, look, out, replace, counter)
        if as_json:
            record = overlay_record(made) if made is not None else {}
            showing.show_json({**record, "problems": as_records(problems)})
        else:
            showing.show_problems_briefly(problems)
            if made is not None:
                for start, words in made.moments:
                    print(f"{start:7.2f} s  {words}")
                print(f"{made.path}: {duration(made.seconds)}{'' if made.fresh else ', as it was'}.")
        raise typer.Exit(exits.ending(made is not None, problems))
