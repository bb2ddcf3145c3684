"""Repairs with a script named: no fewer than without, no false doubts, and a figure is never put right unheard."""

from pathlib import Path

import pytest

from cutaway.api.repairing import Repaired, repair_captions
from cutaway.narrate.recogniser import missing

pytestmark = pytest.mark.skipif(bool(missing()), reason="the dictionary of sounds is not installed")

SCRIPT = """# A tour

The petrol cock is on the left side of the front cockpit. On the Mk 1 petrol reaches the carburettor by gravity.
The engine is run at 800 revolutions per minute after starting. The Mk 2 has two tanks, each of 15 gallons, in the
lower wing. When flown solo, the pilot must sit in the rear cockpit.
"""
CAPTIONS = """1
00:00:00,000 --> 00:00:06,000
the petrol clock is on the left side of the front cockpit

2
00:00:06,000 --> 00:00:12,000
on the mark one petrol reaches the carburettor by gravity

3
00:00:12,000 --> 00:00:18,000
the engine is run at eight hundred revs after starting

4
00:00:18,000 --> 00:00:24,000
the mark two has two tanks each of fifty gallons in the lower wing

5
00:00:24,000 --> 00:00:30,000
when flown solo the pilot must sit in the rear cock pit
"""


@pytest.fixture
def done(sample: Path, tmp_path: Path):
    """What is repaired, with the script or without."""
    (sample / "scripts" / "tour.md").write_text(SCRIPT, encoding="utf-8")
    glossary = "terms:\n  petrol cock: {means: A valve.}\n"
    (sample / "glossary.yaml").write_text(glossary, encoding="utf-8")
    (tmp_path / "heard.srt").write_text(CAPTIONS, encoding="utf-8")

    def repaired(script: str = "") -> Repaired:
        found, problems = repair_captions(sample, tmp_path / "heard.srt", script)
        assert found is not None, problems
        return found

    return repaired


def made(found: Repaired) -> dict[str, str]:
    return {one.said: one.written for one in found.repairs}


def test_what_is_found_without_the_script_is_found_with_it(done) -> None:
    assert made(done()).items() <= made(done("tour")).items()
    assert made(done("tour"))["petrol clock"] == "petrol cock"


def test_a_word_cut_in_two_is_joined(done) -> None:
    assert made(done("tour"))["cock pit"] == "cockpit"


def test_other_words_for_the_same_are_no_doubts(done) -> None:
    told = [(one.written, one.said) for one in done("tour").departures]
    assert told == [("fifteen", "fifty")]


def test_a_figure_that_was_said_otherwise_is_a_doubt_and_no_repair(done) -> None:
    assert not any("fifty" in said for said in made(done("tour")))
