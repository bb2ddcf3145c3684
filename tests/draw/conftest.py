"""Keeps layouts out of the user's own cache."""

from pathlib import Path

import pytest


@pytest.fixture(scope="session")
def layouts(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A cache of layouts for this run of the tests."""
    return tmp_path_factory.mktemp("layouts")
