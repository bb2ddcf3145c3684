"""Writes the reference pages, or compares them with what the program says now.

python docs/build.py            write
python docs/build.py --check    compare; ends with 1 if a page is stale
"""

import sys
from collections.abc import Callable, Mapping
from functools import partial
from pathlib import Path

FOLDER = Path(__file__).parent
MADE = ("reference", "parts")  # all that stands in these is made here
MEND = "make docs"


def pages() -> Mapping[str, Callable[[], str]]:
    """The place of each page in `docs/` and the pure function that makes its text."""
    from cutaway.cli.main import app
    from cutaway.cli.reference import commands_page
    from cutaway.parts.library import KINDS
    from cutaway.parts.reference import kind_page, page_name, parts_page
    from cutaway.problems.reference import problems_page
    from cutaway.quantities.reference import units_page

    return {
        "reference/commands.md": lambda: commands_page(app),
        "reference/problems.md": problems_page,
        "reference/units.md": units_page,
        "parts/README.md": lambda: parts_page(KINDS),
        **{f"parts/{page_name(kind)}": partial(kind_page, kind) for kind in KINDS.values()},
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
    files = (path for name in MADE for path in (folder / name).rglob("*") if path.is_file())
    there = {path.relative_to(folder).as_posix() for path in files}
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
            print(f"docs/{name} is stale. Say `{MEND}` and look at what changed.")
        return 1 if names else 0
    if arguments:
        print(__doc__)
        return 2
    write()
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
