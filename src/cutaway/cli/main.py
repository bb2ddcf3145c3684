"""The command line: its verbs, and the one catch of our own faults."""

import sys

import typer

from cutaway.cli import check, exits, explain, find, make, new, open_pack, run, schema

app = typer.Typer(
    name="cutaway",
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
find.register(app)
run.register(app)
make.register(app)
open_pack.register(app)
explain.register(app)
schema.register(app)


def entry() -> None:
    """Run the command as a program; a fault of our own is told as such, with how to see more."""
    try:
        app()
    except KeyboardInterrupt:
        print("\nStopped. Nothing of yours was changed.", file=sys.stderr)
        sys.exit(exits.STOPPED)
    except BrokenPipeError:
        # The reader of a pipe went away (`| head`): no fault of anybody's.
        sys.stderr.close()
        sys.exit(exits.FINE)
    except MemoryError:
        print("The machine has no memory left for this.", file=sys.stderr)
        sys.exit(exits.OUR_FAULT)
    except OSError as fault:
        print(f"The machine would not do it: {fault}", file=sys.stderr)
        sys.exit(exits.OUR_FAULT)
    except Exception as fault:
        print(
            f"Cutaway itself broke ({type(fault).__name__}: {fault}). Nothing of yours was changed. "
            "Set CUTAWAY_TRACE=1 and run it again to see where, and please tell us.",
            file=sys.stderr,
        )
        import os

        if os.environ.get("CUTAWAY_TRACE"):
            raise
        sys.exit(exits.OUR_FAULT)
