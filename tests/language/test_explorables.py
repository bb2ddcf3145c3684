"""explore.yaml in the language: what a page names that is not there is told at the name, and the page left out."""

from pathlib import Path

import pytest

from cutaway.api.loading import load


@pytest.mark.parametrize(
    ("text", "code", "marked", "hint"),
    [
        ("{system: Feul, in: parked}", "L220", "Feul", "Did you mean Fuel?"),
        ("{system: Fuel, in: parkt}", "L203", "parkt", "Did you mean parked?"),
        ("{system: Fuel, in: parked, on: Mk 9}", "L220", "Mk 9", "Mk 2"),
        ("{system: Fuel, in: parked, move: [fuel cock, fuel cok]}", "L220", "fuel cok", "Did you mean fuel cock?"),
        ("{system: Fuel, in: parked, move: fuel tank}", "L220", "fuel tank", "fuel cock"),
    ],
)
def test_what_is_not_there_is_told_at_its_name(sample: Path, text: str, code: str, marked: str, hint: str) -> None:
    (sample / "explore.yaml").write_text(f"explore:\n  petrol: {text}\n", encoding="utf-8")
    loaded, problems = load(sample)
    (told,) = problems
    assert loaded is not None and loaded.folder.explorables == ()
    assert told.span is not None and told.span.file.text[told.span.start : told.span.end] == marked
    assert told.code == code and hint in told.hint


def test_a_page_whose_names_are_known_is_kept(sample: Path) -> None:
    (sample / "explore.yaml").write_text(
        "explore:\n  petrol: {system: fuel, in: Parked, on: Mk 2, move: [Fuel cock]}\n", encoding="utf-8"
    )
    loaded, problems = load(sample)
    assert loaded is not None and problems == ()
    (page,) = loaded.folder.explorables
    assert page.controls == ("Fuel cock",) and len(page.controls_at) == 1
