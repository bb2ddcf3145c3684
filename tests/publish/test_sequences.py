"""Sheets at moments of a run, as `sheets/*.yaml` asks for them: which moments, what is seen at each, the files."""

import re
import shutil
from collections.abc import Mapping
from pathlib import Path

import pytest

from cutaway.api.loading import load
from cutaway.api.running import Asked, run
from cutaway.api.sequence import Wanted, sequences
from cutaway.inquiry.workshop import Workshop
from cutaway.problems.diagnostic import Problems
from cutaway.publish.drawings import Desk, draw_sheets
from cutaway.publish.sequences import SEQUENCES
from cutaway.publish.shelf import Shelf
from tests.publish.valid_html import faults
from tests.whinchat import WHINCHAT

SHUT = "sheet: The cock shut\nsystem: Fuel\non: Mk 1\nin: cruising\ndo: tank selector to off\n"
STARTING = "sheet: Starting\nsystem: Electrics\non: [Mk 1, Mk 2]\ndrill: Starting the engine\n"
NOT_WANTED = ("pack", "handout", "sheets", "scripts", "glossary.yaml", "letters.yaml")
"""What of the demo no sequence is drawn from."""


def drawn(folder: Path, *texts: str) -> tuple[Mapping[str, bytes], Problems, Desk]:
    """The sequences of the demo with these sheets."""
    shutil.rmtree(folder, ignore_errors=True)
    shutil.copytree(WHINCHAT, folder, ignore=shutil.ignore_patterns(*NOT_WANTED))
    (folder / "sheets").mkdir()
    for number, text in enumerate(texts):
        (folder / "sheets" / f"{number}.yaml").write_text(text, encoding="utf-8")
    loaded, problems = load(folder)
    assert loaded is not None
    errors = [p for p in problems if p.severity == "error"]
    assert errors == [], errors
    desk = Desk(Workshop(loaded.folder, loaded.kinds), loaded.told, loaded.kinds, None, Shelf(None), False)
    files, more = SEQUENCES.make(desk, None)  # type: ignore[arg-type]  # no claim is drawn
    return files, more, desk


@pytest.fixture(scope="module")
def both(tmp_path_factory: pytest.TempPathFactory) -> Mapping[str, bytes]:
    """One of an action and one of a drill."""
    at = "at: [settled, 2 s, before, 0 s]\n"
    folder = tmp_path_factory.mktemp("sequences") / "whinchat"
    files, problems, desk = drawn(folder, SHUT + at, STARTING + "at: [before, step 1, step 8]\n")
    assert problems == ()
    # Neither is drawn as situations settle too.
    assert not any("cock-shut" in path or "starting-mk" in path for path in draw_sheets(desk)[1])
    return files


def words(files: Mapping[str, bytes], path: str) -> tuple[str, str]:
    """The title and the text alternative of a drawing."""
    text = files[f"sequences/{path}.svg"].decode()
    title, told = re.search(r"<title[^>]*>(.*?)</title>", text), re.search(r"<desc[^>]*>(.*?)</desc>", text)
    assert title is not None and told is not None
    return title[1], told[1]


def test_each_moment_is_a_still_in_the_order_of_time(both: Mapping[str, bytes]) -> None:
    stills = [words(both, f"the-cock-shut-mk-1-{n:02}") for n in range(1, 5)]
    assert [title for title, _ in stills] == [
        f"Whinchat Mk 1: The cock shut, {moment}" for moment in ("before", "at once", "at 2 s", "settled")
    ]
    assert "Moment 3 of 4: at 2 s." in stills[2][1]
    lamps = [told.split("fuel lamp: ")[1].split(",")[0].split(";")[0].split(".")[0] for _, told in stills]
    assert lamps == ["out", "out", "lit", "lit"]
    assert all("cruising: In the air" in told and "Then: tank selector to off." in told for _, told in stills)


def test_the_words_on_a_sheet_say_standard_situation_and_moment(both: Mapping[str, bytes]) -> None:
    seen = re.findall(r"<text[^>]*>([^<]*)</text>", both["sequences/the-cock-shut-mk-1-03.svg"].decode())
    assert "Whinchat Mk 1: The cock shut" in seen and "at 2 s" in seen
    assert any(line.startswith("cruising: ") and line.endswith("Then: tank selector to off.") for line in seen)


def test_a_drill_is_seen_after_its_steps_on_each_standard(both: Mapping[str, bytes]) -> None:
    for standard in ("mk-1", "mk-2"):
        before, first, last = (words(both, f"starting-{standard}-{n:02}") for n in (1, 2, 3))
        said = [title.rpartition(", ")[2] for title, _ in (before, first, last)]
        assert said == ["before", "after step 1", "after step 8"]
        assert "battery switch: set to off" in before[1] and "battery switch: set to on" in first[1]
        assert "charging lamp: lit" in first[1] and "charging lamp: out" in last[1]
        assert "Drill: Starting the engine." in last[1]


def test_a_step_is_seen_just_before_the_next(tmp_path: Path) -> None:
    """After step 6 the starter has been let go and five seconds have passed: the run by hand says the same."""
    files, _, _ = drawn(tmp_path / "whinchat", STARTING + "at: step 6\n")
    done = (
        "battery switch to on then wait 5 s then instrument switch to on then wait 5 s then tank selector to port tank "
        "then wait 5 s then throttle to 25 % then wait 5 s then ignition switch to both then wait 5 s then engine "
        "starter to pressed for 8 s then wait 4.95 s"
    )
    ran, _ = run(tmp_path / "whinchat", Asked("parked", "Mk 1", (), done, "0.001 s", ("battery",)))
    assert ran is not None
    volts = float(ran.run.column("battery: voltage")[-1])
    shown = re.search(r"battery: ([\d.]+) V", words(files, "starting-mk-1-01")[1])
    assert shown is not None and float(shown[1]) == pytest.approx(volts, abs=0.05)


def test_the_moving_drawing_and_the_page(both: Mapping[str, bytes]) -> None:
    moving = both["sequences/the-cock-shut-mk-1-moving.svg"].decode()
    assert "prefers-reduced-motion" in moving and words(both, "the-cock-shut-mk-1-moving")[0].endswith(", 4 moments")
    page = both["sequences.html"].decode()
    assert faults(page) == []
    stills = re.findall(r'<img src="([^"]+)"', page)
    assert len(stills) == 4 + 3 * 3 and all(one in both for one in stills)
    assert "<b>after step 1</b>: Current on: battery switch to on." in page


def test_the_verb_for_stills_shows_the_same(both: Mapping[str, bytes], tmp_path: Path) -> None:
    wanted = Wanted("cruising", "Mk 1", (), "tank selector to off", ("fuel",), ("2 s", "settled", "before"))
    (one,), _, problems = sequences(WHINCHAT, wanted)
    assert problems == () and [m.words for m in one.moments] == ["before", "at 2 s", "settled"]
    parts = [line for line in one.moments[2].picture.description if "fuel lamp" in line]
    assert parts and parts[0] in words(both, "the-cock-shut-mk-1-04")[1].replace("&amp;", "&")


def test_without_moments_there_are_the_usual(tmp_path: Path) -> None:
    files, problems, _ = drawn(
        tmp_path / "whinchat",
        SHUT + "says: What is seen.\nwith: engine pump failed\n",
        "sheet: Across\nsystem: Fuel\non: Mk 1\ndrill: changing-tanks\n",
    )
    assert problems == ()
    assert [words(files, f"the-cock-shut-mk-1-{n:02}")[0].rpartition(", ")[2] for n in (1, 2, 3)] == [
        "before", "at once", "settled",
    ]  # fmt: skip
    told = words(files, "the-cock-shut-mk-1-02")[1]
    assert "What is seen. Cruising: In the air" in told and "With engine pump failed. Then:" in told
    across = [words(files, path[10:-4]) for path in files if re.search(r"across-mk-1-\d\d", path)]
    assert [title.rpartition(", ")[2] for title, _ in across] == ["before", "after step 2", "after step 3"]


def test_a_step_with_nothing_done_so_far_is_as_before(tmp_path: Path) -> None:
    text = "sheet: Across\nsystem: Fuel\non: Mk 1\ndrill: changing-tanks\nat: [step 1, step 2]\n"
    files, _, _ = drawn(tmp_path / "whinchat", text)
    looked, moved = (words(files, f"across-mk-1-{n:02}")[1] for n in (1, 2))
    assert "tank selector: set to port tank" in looked and "tank selector: set to starboard tank" in moved


def test_k620_what_is_done_is_not_on_the_standard(tmp_path: Path) -> None:
    text = SHUT.replace("tank selector to off", "hand pump to pumping").replace("Mk 1", "[Mk 1, Mk 2]")
    files, problems, _ = drawn(tmp_path / "whinchat", text + "at: 1 s\n")
    assert [(p.code, "Mk 1 has no hand pump" in p.message) for p in problems] == [("K620", True)]
    drawings = [path for path in files if path.endswith(".svg")]
    assert drawings == [f"sequences/the-cock-shut-{one}-01.svg" for one in ("mk-2", "mk-2-with-mod-12")]
