"""`cutaway import-words`: existing captions or a manuscript as a script."""

from pathlib import Path

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        "import-words",
        short_help="Take captions or a manuscript in as a script.",
        epilog="Example:  cutaway import-words old-film.srt -C demo/whinchat --name 03-old-film",
    )
    def import_words(
        file: Path = typer.Argument(..., help="Captions (VTT, SRT), Markdown, plain text or DOCX."),
        folder: Path = typer.Option(Path(), "--folder", "-C", help="The type folder."),
        name: str = typer.Option("", help="The script's name; else that of the file."),
        title: str = typer.Option("", help="Its title, where the file has none."),
        as_json: bool = typer.Option(False, "--json", help="For a program to read."),
    ) -> None:
        """Write the words of captions or of a manuscript as a script in the type folder. A script that is there is
        never written over."""
        from cutaway.api.importing import import_words as take_words
        from cutaway.cli import showing
        from cutaway.problems.counting import counted
        from cutaway.problems.printing import as_records

        done, problems = take_words(folder, file, name, title)
        if as_json:
            written = {"script": done.name, "file": str(done.file), "words": done.words} if done else {}
            showing.show_json({**written, "problems": as_records(problems)})
        else:
            showing.show_problems(problems)
            if done is not None:
                print(
                    f"{done.file} has {counted(done.words, 'word')}. Try:  cutaway check {folder} --script {done.name}"
                )
        raise typer.Exit(exits.ending(done is not None, problems))
