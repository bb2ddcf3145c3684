"""`cutaway link`: propose citations, parts and claims for a script; write those that a person accepts."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from cutaway.cli import exits

if TYPE_CHECKING:
    from cutaway.api.linking import Linked


def register(app: typer.Typer) -> None:
    """Add the verb."""

    @app.command(
        short_help="Propose citations, parts and claims for a script.",
        epilog="Examples:  cutaway link 01-fuel -C demo/whinchat    cutaway link 01-fuel --accept 4171",
    )
    def link(
        script: str = typer.Argument(..., help="The script, by its file's name."),
        folder: Path = typer.Option(Path(), "--folder", "-C", help="The type folder."),
        accepted: list[int] = typer.Option([], "--accept", help="Write the proposal of this number; may be repeated."),
        ask: bool = typer.Option(False, "--ask", help="Go through the proposals one by one and ask about each."),
        as_json: bool = typer.Option(False, "--json", help="For a program to read."),
    ) -> None:
        """Propose, for each sentence that a paragraph plainly states, its citation, and skeletons of the parts and
        claims behind it. Nothing is written but what is accepted; text is only put in, never moved."""
        from cutaway.api.linking import accept
        from cutaway.api.linking import link as propose
        from cutaway.api.telling_links import linked_record, linked_text
        from cutaway.cli import showing

        linked, problems = propose(folder, script)
        showing.show_problems(problems)
        if linked is None:
            raise typer.Exit(exits.ending(False, problems))
        numbers = list(accepted) or (_asked(linked) if ask else [])
        if not numbers:
            if as_json:
                showing.show_json(linked_record(linked))
            else:
                print("Nothing was accepted, and nothing was written." if ask else linked_text(linked))
            raise typer.Exit(exits.FINE)
        written, problems = accept(linked, numbers)
        showing.show_problems(problems)
        for path in written:
            print(f"{path} was added to.")
        raise typer.Exit(exits.ending(bool(written), problems, bool(problems)))


def _asked(linked: "Linked") -> list[int]:
    """The numbers that a person accepts, one question each; a stop in the middle keeps what was accepted."""
    from cutaway.api.telling_links import proposal_text

    numbers: list[int] = []
    try:
        for one in linked.proposals:
            if one.needs and one.needs not in numbers:
                continue
            print(proposal_text(one))
            answer = input("     Write it? y for yes, n for no, q to end here: ").strip().lower()
            print()
            if answer.startswith("q"):
                break
            if answer.startswith("y"):
                numbers.append(one.number)
    except (KeyboardInterrupt, EOFError):
        print("\nStopped; what was accepted so far is written.", file=sys.stderr)
    return numbers
