"""Exit codes of the command, and the one rule by which a verb ends."""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from cutaway.problems.diagnostic import Diagnostic, Problems

FINE = 0
FOUND = 1
"""Something was found: an error in the folder or in a file, a claim that fails, a file that is there already."""
WRONG_USE = 2
"""The command line was not understood, or it names something that there is not; nothing was done."""
OUR_FAULT = 3
"""Cutaway itself broke, or the machine would not do it (no memory, a disk that fails)."""
STOPPED = 130
"""Stopped with Ctrl-C."""

NAMES_NOTHING = frozenset((
    "H001", "H007",  # a folder
    "I202", "I203", "I204",
    "C102", "C103", "C104", "C106", "C111", "C113", "C114", "C202",
    "C123", "C132",
    "K101", "K102", "K106", "K301", "K304", "K403", "K501", "K502", "K503", "K505", "K508", "K801", "K802",
    "N501", "N605", "N606", "N607",
    "T101", "T109", "T110", "T116", "T117",
))  # fmt: skip
"""The codes that say: what the command line names is not there, or cannot be what it was named as."""

MACHINE = frozenset(("K103", "K104", "K105", "K306", "K404", "K507", "T111"))
"""The codes that say: the machine would not write it."""


def ending(done: bool, problems: "Problems", found: bool = False) -> int:
    """The exit code of a verb. done: there is a result; found: something is wrong in it.

    Where nothing was done because of what stands on the command line itself, that is wrong use; where the machine would
    not write it, that is a fault of the machine.
    """
    if not done and any(_on_the_command_line(problem) for problem in problems):
        return WRONG_USE
    if not done and any(problem.code in MACHINE for problem in problems):
        return OUR_FAULT
    return FOUND if found or not done else FINE


def _on_the_command_line(problem: "Diagnostic") -> bool:
    file = problem.span.file.path if problem.span is not None else ""
    return problem.code in NAMES_NOTHING or file == "command line" or file.startswith("--")
