"""The command line: its verbs, and the one catch of our own faults."""

import contextlib
import gc
import os
import sys
import traceback

import typer
from typer.core import TyperGroup

from cutaway.cli import (
    captions,
    chart,
    check,
    compare,
    desk,
    drill,
    exits,
    explain,
    explore,
    failures,
    find,
    folders,
    handout,
    import_words,
    letters,
    link,
    make,
    manuscript,
    new,
    open_pack,
    overlay,
    panels,
    photographs,
    publish,
    quiz,
    reach,
    repair,
    rests,
    run,
    schema,
    sources,
    stills,
    suspects,
    take,
    why,
)


class Verbs(TyperGroup):
    """The group of all verbs, which tells a stop by Ctrl-C and a reader who went away from faults."""

    def invoke(self, ctx: typer.Context) -> None:  # type: ignore[override]
        """Run the verb and end with its exit code."""
        code = exits.FINE
        try:
            try:
                super().invoke(ctx)
            except typer.Exit as end:
                code = end.exit_code
            sys.stdout.flush()
        except KeyboardInterrupt:
            print("\nStopped. Nothing of yours was changed.", file=sys.stderr)
            code = exits.STOPPED
        except BrokenPipeError:
            # The reader of a pipe went away (`| head`): no fault of anybody's.
            _write_to_nobody()
        raise typer.Exit(code)


def _write_to_nobody() -> None:
    """Let what is still to be printed go nowhere, so that Python does not complain of the pipe as it ends."""
    with contextlib.suppress(OSError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


app = folders.FolderVerbs(
    name="cutaway",
    cls=Verbs,
    help="Turns the handbook of a historic aircraft into an executable, cited model; checks every sentence of a script "
    "against it; makes the pack. Interpretation on the ground: not flight, maintenance or operating advice.",
    epilog="Begin with:  cutaway new whinchat  then  cutaway check whinchat.   "
    "Exit codes: 0 fine, 1 something found, 2 wrong use, 3 a fault of Cutaway's, 130 stopped.",
    no_args_is_help=True,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
    add_completion=False,
)
new.register(app)
check.register(app)
take.register(app)
find.register(app)
sources.register(app)
link.register(app)
compare.register(app)
rests.register(app)
run.register(app)
chart.register(app)
stills.register(app)
panels.register(app)
overlay.register(app)
photographs.register(app)
why.register(app)
suspects.register(app)
failures.register(app)
reach.register(app)
drill.register(app)
explore.register(app)
quiz.register(app)
make.register(app)
open_pack.register(app)
captions.register(app)
repair.register(app)
import_words.register(app)
desk.register(app)
letters.register(app)
publish.register(app)
manuscript.register(app)
handout.register(app)
explain.register(app)
schema.register(app)


def entry() -> None:
    """Run the command as a program; a fault of our own is told as such, with how to see more."""
    # Nearly all that a verb makes is wanted until its end: to look through it again and again is lost time.
    gc.set_threshold(100_000, 20, 20)
    try:
        app()
    except MemoryError:
        print("The machine has no memory left for this.", file=sys.stderr)
    except OSError as fault:
        print(f"The machine would not do it: {fault}", file=sys.stderr)
    except Exception as fault:
        print(
            f"Cutaway itself broke ({type(fault).__name__}: {fault}). Nothing of yours was changed. "
            "Set CUTAWAY_TRACE=1 and run it again to see where, and please tell us.",
            file=sys.stderr,
        )
        if os.environ.get("CUTAWAY_TRACE"):
            traceback.print_exc()
    sys.exit(exits.OUR_FAULT)
