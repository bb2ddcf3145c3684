"""The pack of the demo type, made with no verdict remembered from before."""

from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest

from cutaway.api.loading import Loaded, load
from cutaway.api.making import Made, make
from cutaway.language.syntax import Claim
from cutaway.problems.diagnostic import Problems
from tests.whinchat import WHINCHAT, WRONG, made_wrong


def made(
    folder: Path, out: Path, memory: Path, progress: Callable[[int], None] | None = None
) -> tuple[Made | None, Problems]:
    """Make a pack without going through the ranges of assumed values; verdicts are remembered in `memory` only."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("cutaway.api.making.memory_file", lambda: memory)
        return make(folder, out=out, rests=False, progress=progress)


def put_wrong(folder: Path) -> list[str]:
    """Make five sentences of a copy of the demo wrong; how each then begins."""
    for one in WRONG:
        made_wrong(folder, one["edits"], one["file"])
    return [one["sentence"] for one in WRONG]


def content(folder: Path) -> dict[str, bytes]:
    """Every file below a folder by its path in it."""
    return {path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


@cache
def loaded() -> Loaded:
    """The demo type, loaded once."""
    found, problems = load(WHINCHAT)
    assert found is not None, problems
    return found


def claim_of(folder: Loaded) -> Claim:
    """Any claim of its scripts."""
    return next(claim for sentence in folder.parsed.sentences for claim in sentence.claims)
