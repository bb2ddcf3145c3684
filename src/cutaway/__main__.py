"""`python -m cutaway` is the command `cutaway`."""

from cutaway.cli.main import entry

if __name__ == "__main__":
    entry()
