"""A small type folder that is made, published, edited and made again."""

from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from cutaway.api.corrections import publish
from cutaway.api.making import Made, make
from cutaway.problems.diagnostic import Problems

SCRIPT = """# The cock

The petrol is in one tank, and it holds twenty gallons, says the book. `cite: hb §1`
The cock is fitted on every mark that was ever built.

```claim
fuel cock is fitted
```

That is all that can be said of it today. `aside`
"""


@pytest.fixture
def home(sample: Path) -> Path:
    """The folder, with a script of three sentences."""
    (sample / "scripts" / "01-fuel.md").write_text(SCRIPT, encoding="utf-8")
    return sample


@pytest.fixture
def made(home: Path) -> Callable[[], tuple[Made, Problems]]:
    """Make the pack."""

    def run() -> tuple[Made, Problems]:
        done, problems = make(home, rests=False, handouts=False)
        assert done is not None, problems
        return done, problems

    return run


@pytest.fixture
def out(home: Path, made) -> Path:
    """The folder with a pack that went out on 1 March."""
    made()
    marked, problems = publish(home, date(2026, 3, 1))
    assert marked is not None and problems == ()
    return home


@pytest.fixture
def edit(home: Path) -> Callable[[str, str, str], None]:
    """Change words of one file, which must stand there once."""

    def change(file: str, old: str, new: str) -> None:
        path = home / file
        text = path.read_text(encoding="utf-8")
        assert text.count(old) == 1
        path.write_text(text.replace(old, new), encoding="utf-8")

    return change
