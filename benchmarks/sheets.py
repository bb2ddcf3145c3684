"""Every sheet of the demos: its smallest words on A4, its crossings and bends, and how long it takes to draw.

    python benchmarks/sheets.py            compares with benchmarks/sheets.txt, and prints what is worse
    python benchmarks/sheets.py --accept   writes that file

Layouts are kept in the user's cache folder, so that a second run tells how long a sheet takes whose layout is known.
"""

import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from cutaway.draw.pages import LEAST_POINTS, smallest_points
from cutaway.draw.quality import Quality, quality
from cutaway.draw.sheet import drafts, drawn
from cutaway.draw.svg import write_svg
from cutaway.handbook.load import load_folder
from cutaway.handbook.records import Folder
from cutaway.machine.subjects import parts_of, subjects
from cutaway.parts.library import KINDS

HERE = Path(__file__).parent
KEPT = HERE / "sheets.txt"
SHAPES = ("A4", "16:9", "square")
SLOW = 0.3
"""Seconds of work that one sheet may take when its layout is known."""


@dataclass(frozen=True, slots=True)
class Row:
    """One sheet. points: its smallest words, printed on A4."""

    name: str
    quality: Quality
    points: float
    seconds: float

    @property
    def words(self) -> str:
        """As it stands in the kept file."""
        return f"{self.name}: {self.quality.crossings} crossings, {self.quality.bends} bends"


def rows(folder: Folder, shapes: tuple[str, ...] = SHAPES, cache: Path | None = None, only: str = "") -> Iterator[Row]:
    """Every sheet of a folder, each that is the same on several standards once."""
    seen: set[object] = set()
    for subject in subjects(folder):
        there = {part.system for part in parts_of(folder, subject)}
        for system in (one.name for one in folder.systems if one.name in there and only in ("", one.name)):
            for shape in shapes:
                sheets, _ = drafts(folder, subject.name, system, KINDS, cache, shape)
                for draft in sheets:
                    key = (draft.layout.corners, draft.layout.routes, shape)
                    if key in seen:
                        continue
                    seen.add(key)
                    start = time.process_time()
                    again, _ = drafts(folder, subject.name, system, KINDS, cache, shape)
                    picture = drawn(draft, {}, "")
                    write_svg(picture, "both")
                    seconds = (time.process_time() - start) / len(again)
                    name = f"{folder.type.name} {subject.name}, {draft.name}, {shape}"
                    yield Row(name, quality(draft), smallest_points(picture), seconds)


def worse(row: Row, kept: dict[str, tuple[int, int]]) -> bool:
    """Whether a sheet crosses or bends more than it did."""
    before = kept.get(row.name)
    return before is not None and (row.quality.crossings > before[0] or row.quality.bends > before[1])


def read_kept() -> dict[str, tuple[int, int]]:
    """Crossings and bends as they were, by sheet."""
    found = {}
    for line in KEPT.read_text(encoding="utf-8").splitlines():
        name, _, figures = line.rpartition(": ")
        crossings, bends = (int(word.split()[0]) for word in figures.split(", "))
        found[name] = (crossings, bends)
    return found


def main(accept: bool) -> int:
    """Print every sheet; 1 if any is worse than it was, cannot be read, or has something over something else."""
    kept = read_kept() if KEPT.exists() else {}
    lines, bad = [], 0
    for demo in ("whinchat", "turnstone"):
        folder, _ = load_folder(HERE.parent / "demo" / demo, KINDS)
        assert folder is not None
        for row in rows(folder):
            faults = [*row.quality.over]
            faults += ["more crossings or bends than before"] if worse(row, kept) else []
            faults += ["too small"] if row.name.endswith(" A4") and row.points < LEAST_POINTS else []
            faults += ["slow"] if row.seconds > SLOW else []
            bad += bool(faults)
            print(
                f"{row.words}; {row.points:.1f} pt, {1000 * row.seconds:.0f} ms {'; '.join(faults)}".rstrip(),
                flush=True,
            )
            lines.append(row.words)
    if accept:
        KEPT.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main("--accept" in sys.argv[1:]))
