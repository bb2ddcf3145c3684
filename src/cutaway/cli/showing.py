"""What the terminal shows: problems, progress, tables. The only file of the command that knows how."""

import json
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from cutaway.problems.counting import counted
from cutaway.problems.diagnostic import Problems
from cutaway.problems.printing import as_text

# How often a line is told where nobody watches, and from how long on the time still to go can be guessed at, s.
EVERY = 10.0
LEAST_TO_GO_BY = 5.0

BOOKS = "H2"  # how the codes begin that are about books and citations


def show_problems(problems: Problems) -> None:
    """Print problems for a person, to standard error."""
    if problems:
        print(as_text(problems), file=sys.stderr)


def show_problems_briefly(problems: Problems) -> None:
    """The same for a verb that answers a question: in how far the folder bears out its books is told in one line."""
    doubts = [one for one in problems if one.severity == "warning" and one.code.startswith(BOOKS)]
    show_problems(tuple(one for one in problems if one not in doubts))
    if doubts:
        told = "it" if len(doubts) == 1 else "them"
        print(f"Note: {counted(len(doubts), 'doubt')} about what books say; 'cutaway check' tells {told}.",
              file=sys.stderr)  # fmt: skip


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
        words = f"{self.words} · {self.made:,} {self.unit}" + (f" · {self._part}" if self._part else "")
        if update is not None:
            update(words)
        else:
            self._now_and_then(words)

    def tried(self, done: int, of: int) -> None:
        """Tell of how many verdicts the assumed values have been tried, and about how long the rest will take."""
        now = self.clock()
        if not done:
            self._began = now
        self._part = f"assumed values tried for {done:,} of {of:,} verdicts"
        if done >= 3 and now - self._began >= LEAST_TO_GO_BY:
            self._part += f", about {_roughly((now - self._began) * (of - done) / done)} to go"
        if self.hint:
            self._part += f"; {self.hint}"
        self(0)

    def _now_and_then(self, words: str) -> None:
        """A line on standard error every ten seconds, where it is a file or a pipe that somebody may look into."""
        now = self.clock()
        if now - self._told >= EVERY and sys.stderr is sys.__stderr__:
            self._told = now
            print(words, file=sys.stderr, flush=True)

    def tell(self, found: str) -> None:
        """Tell something found while the work goes on; silent where nobody watches."""
        console = getattr(self._status, "console", None)
        if console is not None:
            console.print(f"found: {found}", markup=False, highlight=False)

    def stage(self, words: str) -> None:
        """Tell what is done next: on a terminal beside the count, else as a line of its own."""
        self.words, self._part = f"{words[:1].upper()}{words[1:]}", ""
        update = getattr(self._status, "update", None)
        if update is not None:
            update(self.words)
        else:
            print(f"{self.words} …", file=sys.stderr, flush=True)

    words: str = ""
    unit: str = "runs"
    hint: str = ""
    clock: Callable[[], float] = time.monotonic
    _part: str = ""
    _began: float = 0.0
    _told: float = 0.0

    def __post_init__(self) -> None:
        self._told = self.clock()


def _roughly(seconds: float) -> str:
    """A length of time that is only guessed at.

    >>> _roughly(43.0), _roughly(700.0), _roughly(9000.0)
    ('1 min', '12 min', '2½ h')
    """
    minutes = max(1, round(seconds / 60.0))
    if minutes < 100:
        return f"{minutes} min"
    halves = round(minutes / 30.0)
    return f"{halves // 2}{'½' if halves % 2 else ''} h"


@contextmanager
def progress(words: str, unit: str = "runs", hint: str = "") -> Iterator[Counter]:
    """Tell on a terminal that work goes on, and how far; into a file or a pipe a line every ten seconds. hint: how to
    make it shorter."""
    counter = Counter(words=words, unit=unit, hint=hint)
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
