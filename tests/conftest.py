"""What all tests share: the flag that renews what cases expect, a copy of the small sample folder, a browser."""

import os
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import settings
from playwright.sync_api import sync_playwright

# Random input is drawn the same way every time in CI, so that a red run can be repeated.
settings.register_profile("ci", derandomize=True, deadline=None)
settings.register_profile("here", deadline=None)
settings.load_profile("ci" if os.environ.get("CI") else "here")

SAMPLE = Path(__file__).parent / "problems" / "sample"


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--accept", action="store_true", help="write expected.txt of the cases anew; then read the diff")


def pytest_configure(config: pytest.Config) -> None:
    if config.getoption("--accept") and os.environ.get("CI"):
        raise pytest.UsageError("--accept is not for CI: what is expected is accepted by a person who reads the diff")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Tests of a module that share what it makes once are run by one worker, so that no other makes it again.

    Takes effect with `--dist loadgroup`, which also begins with the largest groups.
    """
    for item in items:
        fixtures = getattr(item, "_fixtureinfo", None)
        several = fixtures.name2fixturedefs.values() if fixtures is not None else ()
        if any(one.scope == "module" for each in several for one in each):
            item.add_marker(pytest.mark.xdist_group(item.nodeid.partition("::")[0]))


@pytest.fixture
def nothing_remembered(monkeypatch: pytest.MonkeyPatch) -> None:
    """No verdict of an earlier session is known, so that what is printed does not hang on what was run before."""
    for room in ("checking", "making"):
        monkeypatch.setattr(f"cutaway.api.{room}.memory_file", lambda: None)


@pytest.fixture(scope="session", autouse=True)
def questions_asked_anew() -> Iterator[None]:
    """No test of a question is answered by what an earlier session remembers."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("cutaway.api.asking.memory_file", lambda: None)
        yield


@pytest.fixture
def sample(tmp_path: Path) -> Path:
    """A copy of the small sample folder, which is right in every way, to put something wrong into."""
    folder = tmp_path / "sample"
    shutil.copytree(SAMPLE, folder)
    return folder


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    """The one browser of a test process: a second would not start beside it."""
    chromium = shutil.which("chromium")
    if chromium is None:
        pytest.skip("no chromium on this machine")
    with sync_playwright() as running:
        shown = running.chromium.launch(executable_path=chromium, args=["--no-sandbox"])
        yield shown
        shown.close()
