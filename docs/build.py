"""Writes the reference pages, or compares them with what the program says now.

python docs/build.py            write
python docs/build.py --check    compare; ends with 1 if a page is stale
"""

import sys
from collections.abc import Callable, Mapping
from pathlib import Path

FOLDER = Path(__file__).parent / "reference"
MEND = "make docs"


def pages() -> Mapping[str, Callable[[], str]]:
    """The name of each page in `docs/reference/` and the pure function that makes its text."""
    from cutaway.cli.main import app
    from cutaway.cli.reference import commands_page
    from cutaway.parts.library import KINDS
    from cutaway.parts.reference import parts_page
    from cutaway.problems.reference import problems_page
    from cutaway.quantities.reference import units_page

    return {
        "commands.md": lambda: commands_page(app),
        "parts.md": lambda: parts_page(KINDS),
        "problems.md": problems_page,
        "units.md": units_page,
    }


def write(folder: Path = FOLDER) -> None:
    """Write every page."""
    for name, text in pages().items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text(), encoding="utf-8")
        print(f"{path} written")


def stale(folder: Path = FOLDER) -> list[str]:
    """The pages that are missing, differ from what the program says now, or are made by nobody."""
    made = pages()
    there = {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}
    differing = [
        name
        for name, text in made.items()
        if name not in there or (folder / name).read_text(encoding="utf-8") != text()
    ]
    return sorted([*differing, *(there - made.keys())])


def main(arguments: list[str]) -> int:
    """Write, or check; the exit code."""
    if arguments == ["--check"]:
        names = stale()
        for name in names:
            print(f"docs/reference/{name} is stale. Say `{MEND}` and look at what changed.")
        return 1 if names else 0
    if arguments:
        print(__doc__)
        return 2
    write()
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
