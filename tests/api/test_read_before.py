"""What is taken from the shelf as a folder is read is what would be read, after several changes of the folder."""

import shutil
from pathlib import Path

from cutaway.api.loading import load
from cutaway.publish.shelf import Shelf
from tests.whinchat import WHINCHAT

EDITS = (
    ("systems/fuel.yaml", "system: Fuel", "# A line more, so that all below stands elsewhere.\nsystem: Fuel", 1),
    ("scripts/01-fuel.md", "eleven gallons", "11 gallons", 1),
    ("scripts/01-fuel.md", "fuel lamp is", "fuel lamb is", 1),
    # Every name counts for every claim.
    ("systems/fuel.yaml", "fuel lamp:", "petrol lamp:", 2),
    # Not YAML any longer: what is wrong is kept like what is read.
    ("services.yaml", "services:", "services: [", 2),
)


def test_what_is_kept_is_what_would_be_read(tmp_path: Path) -> None:
    folder, pieces = tmp_path / "whinchat", tmp_path / "pieces"
    shutil.copytree(WHINCHAT, folder, ignore=shutil.ignore_patterns("pack", "handout"))
    load(folder, shelf=Shelf(pieces))
    for file, find, put, least in EDITS:
        text = (folder / file).read_text(encoding="utf-8")
        assert find in text, f"{file} has no '{find}'"
        (folder / file).write_text(text.replace(find, put), encoding="utf-8")
        shelf = Shelf(pieces)
        anew, _ = load(folder)
        for kept in (load(folder, shelf=shelf)[0], load(folder, shelf=Shelf(pieces))[0]):
            assert kept is not None and anew is not None
            assert kept.problems == anew.problems
            assert (kept.folder, kept.parsed, kept.charts) == (anew.folder, anew.parsed, anew.charts)
        assert shelf.made >= least and shelf.taken > 5


def test_what_is_the_same_is_not_read_again(tmp_path: Path) -> None:
    load(WHINCHAT, shelf=Shelf(tmp_path))
    again = Shelf(tmp_path)
    load(WHINCHAT, shelf=again)
    assert again.made == 0 and again.taken > 10
