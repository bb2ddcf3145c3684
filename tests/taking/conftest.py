"""A type folder to take sources into, with a cache of its own."""

import shutil
from pathlib import Path

import pytest

from cutaway.api.taking import take_in

reads_pictures = pytest.mark.skipif(
    shutil.which("tesseract") is None, reason="the Debian package tesseract-ocr is missing"
)


@pytest.fixture
def taken(sample: Path, tmp_path: Path, monkeypatch):
    """A function that takes files in and gives the outcome, the codes of what was told, and the folder."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))

    def take(*files: Path, **how):
        outcome, problems = take_in(sample, files, **how)
        return outcome, [problem.code for problem in problems]

    take.folder = sample
    return take
