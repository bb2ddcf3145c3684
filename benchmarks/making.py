"""How long a pack of the Turnstone takes: from nothing, again, after one edited sentence; in ratio to loading it.

    python benchmarks/making.py [TYPE FOLDER]

Everything is kept in a folder of its own that is thrown away, but the solver, which is compiled once for all.
"""

import os
import resource
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from cutaway.api import making
from cutaway.api.loading import load
from cutaway.machine.compiled import kernel

DEMO = Path(__file__).parents[1] / "demo" / "turnstone"


def measured(words: str, folder: Path, out: Path, reference: float) -> None:
    """Make the pack once and print what it took."""
    began, before = time.perf_counter(), _processor()
    made, problems = making.make(folder, out, rests=False)
    took, used = time.perf_counter() - began, _processor() - before
    assert made is not None, problems
    again = f"{made.again} made, {made.as_before} as before"
    print(f"{words:28s} {took:7.1f} s, {used:7.1f} s of processor, {took / reference:6.1f} × loading; {again}")


def start() -> None:
    """What it takes to start the program, which comes to each of the makes; once before, for the bytecode."""
    command = [sys.executable, "-c", "import cutaway.api.making"]
    subprocess.run(command, check=True)
    before = _processor(resource.RUSAGE_CHILDREN)
    subprocess.run(command, check=True)
    print(f"{'starting the program':28s} {_processor(resource.RUSAGE_CHILDREN) - before:19.1f} s of processor")


def _processor(of: int = resource.RUSAGE_SELF) -> float:
    used = resource.getrusage(of)
    return used.ru_utime + used.ru_stime


def edited(folder: Path) -> None:
    """Change one sentence of the first script."""
    script = sorted((folder / "scripts").glob("*.md"))[0]
    text = script.read_text(encoding="utf-8")
    at = text.index(". ") if ". " in text else text.index(".")
    script.write_text(f"{text[:at]}, as we shall see{text[at:]}", encoding="utf-8")


def main() -> None:
    """Three makes of one folder, and the sizes of what is largest in the pack."""
    source = Path(sys.argv[1]) if len(sys.argv) > 1 else DEMO
    kernel()
    start()
    with tempfile.TemporaryDirectory() as base:
        folder, out = Path(base) / source.name, Path(base) / "pack"
        shutil.copytree(source, folder, ignore=shutil.ignore_patterns("pack", "handout"))
        load(folder)  # once for what is read and imported only once
        began = time.perf_counter()
        load(folder)
        reference = time.perf_counter() - began
        print(f"{'loading the type folder':28s} {reference:7.1f} s, on {os.cpu_count()} processors")
        setattr(making, "memory_file", lambda: Path(base) / "verdicts.sqlite")  # noqa: B010
        setattr(making, "layouts_folder", lambda: Path(base) / "layout")  # noqa: B010
        measured("from nothing", folder, out, reference)
        measured("again", folder, out, reference)
        edited(folder)
        measured("after one edited sentence", folder, out, reference)
        pages = sorted(out.rglob("*.html"), key=lambda path: -path.stat().st_size)[:4]
        for path in pages:
            print(f"{path.relative_to(out).as_posix():28s} {path.stat().st_size / 1e6:7.2f} MB")


if __name__ == "__main__":
    main()
