"""Sheets that are taken from the shelf are those that would be drawn: after each of several changes of the folder."""

import shutil
from pathlib import Path

from cutaway.api.loading import load
from cutaway.inquiry.workshop import Workshop
from cutaway.publish.drawings import Desk, draw_sheets
from cutaway.publish.shelf import Shelf
from tests.whinchat import WHINCHAT

EDITS = (
    (
        ("scripts/01-fuel.md", "eleven gallons", "11 gallons"),
        ("charts.yaml", "says: What the crew sees", "says: What a crew sees"),
    ),
    (("systems/fuel.yaml", "capacity: 11 gal", "capacity: 10 gal"),),
    (("type.yaml", "notice: >-\n", "notice: >-\n  Mind your head.\n"),),
)


def test_what_is_kept_is_what_would_be_drawn(tmp_path: Path) -> None:
    folder = tmp_path / "whinchat"
    shutil.copytree(WHINCHAT, folder, ignore=shutil.ignore_patterns("pack", "handout"))
    drawn: list[int] = []
    for edits in ((), *EDITS):
        for file, find, put in edits:
            text = (folder / file).read_text(encoding="utf-8")
            assert find in text, f"{file} has no '{find}'"
            (folder / file).write_text(text.replace(find, put, 1), encoding="utf-8")
        loaded, problems = load(folder)
        assert loaded is not None, problems
        workshop, shelf = Workshop(loaded.folder, loaded.kinds), Shelf(tmp_path / "pieces")
        kept = draw_sheets(Desk(workshop, loaded.told, loaded.kinds, None, shelf))
        anew = draw_sheets(Desk(workshop, loaded.told, loaded.kinds, None))
        assert kept == anew
        drawn.append(shelf.made)
    total = drawn[0]
    assert drawn[1] == 0, "no sheet depends on a sentence or on a chart"
    assert 0 < drawn[2] < total, "a change of one system leaves sheets of others"
    assert drawn[3] > 100, "the notice stands on all"
