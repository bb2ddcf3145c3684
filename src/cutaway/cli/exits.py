"""Exit codes of the command."""

FINE = 0
FOUND = 1
"""Something was found: an error in the folder, or a claim that fails."""
WRONG_USE = 2
"""The command line itself was not understood."""
OUR_FAULT = 3
"""Cutaway itself broke, or the machine would not do it (no memory, a disk that fails)."""
STOPPED = 130
"""Stopped with Ctrl-C."""
