"""A small series of two films in a copy of the sample folder, to be put on the desk."""

from collections.abc import Callable
from pathlib import Path

import pytest

from cutaway.api.loading import load
from cutaway.narrate.desk import Desk, desk
from cutaway.problems.diagnostic import Problems

Looked = Callable[..., tuple[Desk, Problems]]


@pytest.fixture
def series(sample: Path) -> Looked:
    """Put two films and a glossary into the folder and look them over."""

    def look(first: str = "", second: str = "", glossary: str = "", script: str = "") -> tuple[Desk, Problems]:
        if first:
            (sample / "scripts" / "01-fuel.md").write_text(f"# The cock\n\n{first}\n", encoding="utf-8")
        if second:
            (sample / "scripts" / "02-more.md").write_text(f"# More\n\n{second}\n", encoding="utf-8")
        (sample / "glossary.yaml").write_text(glossary or "terms: {}\n", encoding="utf-8")
        loaded, problems = load(sample)
        assert loaded is not None
        looked, more = desk(loaded.folder, loaded.parsed, loaded.kinds, script)
        return looked, problems + more

    return look
