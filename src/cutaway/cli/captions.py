"""`cutaway captions`: captions of one script, planned or on the times of a recording."""

import sys
from pathlib import Path

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        short_help="Write the captions and chapters of a script; with a recording, on its times.",
        epilog="Example:  cutaway captions 01-fuel -C demo/whinchat --recording narration.wav",
    )
    def captions(
        script: str = typer.Argument(..., help="The script, by its file's name without the ending."),
        folder: Path = typer.Option(Path(), "--folder", "-C", help="The type folder."),
        recording: Path | None = typer.Option(None, help="The narration: WAV, or any file with sound in it."),
        out: Path | None = typer.Option(None, "--out", help="Where to write; else `captions` in the folder."),
        replace: bool = typer.Option(False, "--replace", help="Write over captions that are there and differ."),
        as_json: bool = typer.Option(False, "--json", help="For a program to read, with the time of every word."),
    ) -> None:
        """Write the captions of a script as WebVTT and SRT, and its chapters. With a recording of the narration they
        stand on its times, and where the speaker departs from the script is told, to be checked by listening.

        On synthetic voices half of the words were placed within 10 ms and 95 of 100 within 40 ms of the truth; no human
        voice was measured, and real ones, accents and noise will do worse."""
        from cutaway.api.recording import make_captions
        from cutaway.api.recording_text import captioned_record, captioned_text
        from cutaway.cli import showing

        with showing.progress(f"Captions of {script}", "s heard") as counter:

            def told(heard: float, whole: float) -> None:
                counter.unit = f"of {whole:,.0f} s heard"
                counter(round(heard) - counter.made)

            try:
                done, problems = make_captions(folder, script, recording, out, replace, told)
            except KeyboardInterrupt as stop:
                for note in getattr(stop, "__notes__", ()):
                    print(f"\n{note}", file=sys.stderr)
                raise
        if as_json:
            showing.show_json(captioned_record(done, problems))
        else:
            showing.show_problems(problems)
            if done is not None:
                print(captioned_text(done))
        raise typer.Exit(exits.ending(done is not None, problems))
