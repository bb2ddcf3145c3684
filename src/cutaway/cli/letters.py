"""`cutaway letters`: what readers and viewers objected to."""

from pathlib import Path

import typer

from cutaway.cli import exits


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        short_help="The letters: sentence, verdict today, decision, draft reply.",
        epilog='Examples:  cutaway letters demo/whinchat    cutaway letters demo/whinchat --reply "the lamp\'s figure"',
    )
    def letters(
        folder: Path = typer.Argument(Path(), help="The type folder."),
        reply: str = typer.Option("", "--reply", help="Print the draft reply to this letter alone."),
        rests: bool = typer.Option(True, help="Take each assumed value to both ends of its range."),
        as_json: bool = typer.Option(False, "--json", help="For a program to read."),
    ) -> None:
        """Tell each letter of letters.yaml with the sentence that it is about, the paragraphs for and against it, the
        verdict of today, what was decided and a draft reply. A reply is printed, never sent."""
        from cutaway.api.letters import letters as answer_all
        from cutaway.api.letters import letters_record, letters_text, replies_text
        from cutaway.cli import showing
        from cutaway.problems.diagnostic import has_error

        with showing.progress(f"Reading the letters of {folder}") as counter:
            post, problems = answer_all(folder, reply, rests, counter)
        if as_json:
            showing.show_json(letters_record(post, problems))
        else:
            showing.show_problems(problems)
            if post is not None:
                print(replies_text(post) if reply else letters_text(post))
        raise typer.Exit(exits.ending(post is not None, problems, has_error(problems)))
