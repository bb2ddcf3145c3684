"""Coverage: each sentence counted once, and the likeliest paragraphs beside what nothing checks."""

from dataclasses import replace
from pathlib import Path

import pytest

from cutaway.handbook.load import load_folder
from cutaway.handbook.records import Folder
from cutaway.narrate.coverage import Coverage, coverage

SCRIPT = """
# Petrol

Good morning. `aside` The lamp lights below 2 lb/sq in. `cite: hb §25`
The cock shuts off the petrol altogether.

The tanks hold a good deal.

```claim
there are 2 tanks
```

The hydrangea flowers.
"""
FILES = {
    "type.yaml": "name: Whinchat\nsays: A trainer.\nmarks: [Mk 1]\nnotice: On the ground only.\n",
    "sources/hb.md": "---\ntitle: Handbook\n---\n## 21 Tanks\nTwo tanks.\n## 22 Fuel cock\nThe selector cock takes "
    "petrol from either tank, or shuts it off.\n## 25 Fuel lamp\nThe lamp lights below 2 lb/sq in.\n",
    "systems/fuel.yaml": "system: Fuel\nsource: hb\nparts:\n  port tank: {kind: tank, capacity: 22 gal, cite: §21}\n"
    "  starboard tank: {kind: tank, capacity: 22 gal, cite: §21}\n",
    "scripts/01-fuel.md": SCRIPT,
}


@pytest.fixture
def folder(tmp_path: Path) -> Folder:
    for name, text in FILES.items():
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text(text, encoding="utf-8")
    loaded, _ = load_folder(tmp_path)
    assert loaded is not None
    return loaded


def test_each_sentence_counts_once(folder: Folder) -> None:
    covered, problems = coverage(folder.scripts[0], folder)
    assert (covered.claimed, covered.cited, covered.asides, len(covered.unchecked)) == (1, 1, 1, 2)
    assert covered.sentences == 5
    assert covered.share == 0.5
    assert [problem.code for problem in problems] == ["N101", "N101"]


def test_the_likeliest_paragraph_stands_beside_an_unchecked_sentence(folder: Folder) -> None:
    covered, problems = coverage(folder.scripts[0], folder)
    cock, hydrangea = covered.unchecked
    assert cock.sentence.text == "The cock shuts off the petrol altogether."
    assert cock.number == 2
    assert cock.likely[0].number == "§22"
    assert "`cite: hb §22`" in problems[0].hint
    assert problems[0].span == cock.sentence.span
    assert hydrangea.likely == ()
    assert "`aside`" in problems[1].hint


def test_what_the_hint_says_silences_the_problem(folder: Folder, tmp_path: Path) -> None:
    mended = SCRIPT.replace("altogether.", "altogether. `cite: hb §22`").replace("flowers.", "flowers. `aside`")
    (tmp_path / "scripts/01-fuel.md").write_text(mended, encoding="utf-8")
    again, _ = load_folder(tmp_path)
    assert again is not None
    covered, problems = coverage(again.scripts[0], again)
    assert problems == ()
    assert covered.share == 1.0


def test_a_script_of_asides_needs_nothing(folder: Folder) -> None:
    script = replace(folder.scripts[0], sentences=folder.scripts[0].sentences[:1])
    covered, problems = coverage(script, folder)
    assert covered == Coverage("01-fuel", 0, 0, 1, ())
    assert (covered.share, problems) == (1.0, ())
