"""What is left out of the model for a mistake takes no claim down with it, and is told once."""

from pathlib import Path

import pytest

from tests.cli.running import cutaway


def _with(folder: Path, old: str, new: str) -> None:
    system = folder / "systems" / "fuel.yaml"
    assert old in system.read_text()
    system.write_text(system.read_text().replace(old, new))


@pytest.mark.parametrize(
    "old, new, what",
    [
        ("capacity: 20 gal", "capacity: -20 gal", "the fuel tank is left out"),
        ("> fuel cock > carb", "> fuel cock.outlt > carb", "the line fuel cock.outlt > carburettor is left out"),
        ("> fuel cock > carb", "> fuel cok > carb", "the line fuel cok > carburettor is left out"),
    ],
)
def test_a_claim_is_not_judged_without_what_was_joined_to_it(sparrow: Path, old: str, new: str, what: str) -> None:
    _with(sparrow, old, new)
    result = cutaway("check", sparrow, "--no-rests")
    assert result.exit_code == 1
    assert what in result.stdout and "for a mistake" in result.stdout
    assert "Fails" not in result.stdout and "Joined to nothing" not in result.stdout
    assert "2 stated, 6 undecided" in result.stdout


def test_what_is_left_out_elsewhere_leaves_verdicts_alone(sparrow: Path) -> None:
    _with(
        sparrow,
        "\nlines:",
        "\n  dead lamp: {kind: low-pressure lamp, senses: carburettor.inlet, lights below: x}\nlines:",
    )
    assert "6 holds, 2 stated" in cutaway("check", sparrow, "--no-rests").stdout


def test_parts_that_may_be_more_are_not_counted(sparrow: Path) -> None:
    script = sparrow / "scripts" / "01-first.md"
    script.write_text(
        script.read_text() + "\nShe has one tank, one cock.\n\n```claim\nthere is 1 tank\nthere is 1 cock\n```\n"
    )
    _with(sparrow, "\nlines:", "\n  spare tank: {kind: tank, capacity: 2 elephants}\nlines:")
    told = cutaway("check", sparrow, "--no-rests", "--all").stdout
    assert "the spare tank is left out" in told.partition("there is 1 tank")[2].partition("there is 1 cock")[0]
    assert "Stated" in told.partition("there is 1 cock")[2].partition("\n\n")[0]


def test_a_file_that_cannot_be_read_is_told_first_and_alone(sparrow: Path) -> None:
    system = sparrow / "systems" / "fuel.yaml"
    text = system.read_text()
    # A file after the alphabet's first that leans on it, and one with a mistake of its own.
    (sparrow / "systems" / "engine.yaml").write_text(
        "system: Engine\nparts:\n  engine: {kind: engine, fuel from: carburettor, ignition: switch}\n"
        "  odd thing: {kind: cock, colour: red}\n"
    )
    system.write_text(text[: text.index("cite: §2")] + "marked: {OFF")
    result = cutaway("check", sparrow, "--no-rests")
    blocks = result.stderr.split("\n\n")
    assert "systems/fuel.yaml" in blocks[0] and "names elsewhere are not looked up until then" in blocks[0]
    assert "no such part" not in result.stderr and "There is no part" not in result.stderr
    assert "'colour'" in result.stderr, "what is wrong by itself is told all the same"
    assert "systems/fuel.yaml could not be read" in result.stdout
    assert "Fails" not in result.stdout


def test_a_setting_of_what_a_mark_has_not_is_told(sparrow: Path) -> None:
    _with(sparrow, "\nlines:", "\n  spare cock: {kind: cock, on: Mk 2}\nlines:")
    situations = sparrow / "situations.yaml"
    situations.write_text(situations.read_text().replace("{fuel cock: on}", "{fuel cock: on, spare cock: on}"))
    told = cutaway("check", sparrow, "--no-rests", "--all").stdout
    assert "situations.yaml:8  'ready' sets the spare cock, which Mk 1 has not; it says nothing there." in told
    assert "fuel cock, which" not in told
    brief = cutaway("check", sparrow, "--no-rests").stdout
    assert "1 setting of situations is of a control that not every standard has (see with --all)." in brief
