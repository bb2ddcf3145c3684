"""The folder that most tests of the command line speak of: the template, as `cutaway new` writes it."""

from pathlib import Path

import pytest

from tests.cli.running import cutaway


@pytest.fixture
def sparrow(tmp_path: Path, nothing_remembered: None) -> Path:
    """A new type folder, to read or to put something wrong into."""
    folder = tmp_path / "sparrow"
    assert cutaway("new", folder).exit_code == 0
    return folder
