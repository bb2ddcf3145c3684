"""What the terminal shows: problems, progress, tables. The only file of the command that knows how."""

import json
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from cutaway.problems.diagnostic import Problems
from cutaway.problems.printing import as_text


def show_problems(problems: Problems) -> None:
    """Print problems for a person, to standard error."""
    if problems:
        print(as_text(problems), file=sys.stderr)


def show_json(record: object) -> None:
    """Print a record for a program."""
    print(json.dumps(record, indent=2, ensure_ascii=False))


def write_json(path: Path, record: object) -> Path:
    """Write a record to a file that was asked for by name; its path."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(json.dumps(record, indent=2, ensure_ascii=False) + "\n", encoding="utf-8")
    return path


@dataclass
class Counter:
    """Counts runs, or what `unit` says, while long work goes on; has a life."""

    made: int = 0
    _status: object = field(default=None, repr=False)

    def __call__(self, more: int) -> None:
        self.made += more
        update = getattr(self._status, "update", None)
        if update is not None:
            update(f"{self.words} · {self.made:,} {self.unit}")

    def tell(self, found: str) -> None:
        """Tell something found while the work goes on; silent where nobody watches."""
        console = getattr(self._status, "console", None)
        if console is not None:
            console.print(f"found: {found}", markup=False, highlight=False)

    def stage(self, words: str) -> None:
        """Tell what is done next: on a terminal beside the count, else as a line of its own."""
        self.words = f"{words[:1].upper()}{words[1:]}"
        update = getattr(self._status, "update", None)
        if update is not None:
            update(self.words)
        else:
            print(f"{self.words} …", file=sys.stderr, flush=True)

    words: str = ""
    unit: str = "runs"


@contextmanager
def progress(words: str, unit: str = "runs") -> Iterator[Counter]:
    """Tell on a terminal that work goes on, and how far; silent where the output is not a terminal."""
    counter = Counter(words=words, unit=unit)
    if not sys.stderr.isatty():
        yield counter
        return
    from rich.console import Console

    with Console(stderr=True).status(words) as status:
        counter._status = status
        yield counter


def show_table(columns: Sequence[str], rows: Sequence[Sequence[str]], title: str = "") -> None:
    """Print a table for a person."""
    from rich import box
    from rich.console import Console
    from rich.table import Table

    table = Table(title=title or None, box=box.SIMPLE, title_justify="left", pad_edge=False)
    for column in columns:
        table.add_column(column, overflow="fold", no_wrap=column == "course")
    for row in rows:
        table.add_row(*row)
    Console(width=None if sys.stdout.isatty() else 110, highlight=False, markup=False).print(table)


def little_graph(values: Sequence[float], width: int = 40) -> str:
    """A trace as one line of bars, lowest to highest; a flat trace is a flat line."""
    bars = "▁▂▃▄▅▆▇█"
    count = len(values)
    if not count:
        return ""
    picked = [values[min(count - 1, i * count // width)] for i in range(min(width, count))]
    good = [v for v in picked if v == v]
    if not good:
        return "·" * len(picked)
    low, high = min(good), max(good)
    if high - low < 1e-9 * max(1.0, abs(high)):
        flat = "█" if low == high == 1.0 else "▁"  # a state that is so all the time stands high
        return "".join(flat if v == v else "·" for v in picked)
    return "".join(bars[min(7, int(8 * (v - low) / (high - low)))] if v == v else "·" for v in picked)
