"""What was asked for and cannot be done as it was said: each code of the command line brought about, and mended."""

from pathlib import Path

import pytest

from tests.cli.running import cutaway


def test_a_folder_that_is_there_is_not_written_into_c101(sparrow: Path) -> None:
    before = {path: path.read_bytes() for path in sparrow.rglob("*") if path.is_file()}
    result = cutaway("new", sparrow)
    assert result.exit_code == 1
    assert "[C101]" in result.stderr and "is there already" in result.stderr
    assert {path: path.read_bytes() for path in sparrow.rglob("*") if path.is_file()} == before


def test_a_file_is_not_written_over_c101(tmp_path: Path) -> None:
    notes = tmp_path / "notes.txt"
    notes.write_text("mine")
    assert "[C101]" in cutaway("new", notes).stderr
    assert notes.read_text() == "mine"


def test_an_empty_folder_is_taken(tmp_path: Path) -> None:
    (tmp_path / "wren").mkdir()
    assert cutaway("new", tmp_path / "wren").exit_code == 0
    assert (tmp_path / "wren" / "type.yaml").is_file()


def test_a_script_that_there_is_not_c102(sparrow: Path) -> None:
    result = cutaway("check", sparrow, "--script", "fuel")
    assert result.exit_code == 2
    assert "[C102]" in result.stderr and "There are: 01-first" in result.stderr
    assert cutaway("check", sparrow, "--script", "01-first").exit_code == 0


def test_what_is_not_on_the_standard_cannot_be_moved_c103(sparrow: Path) -> None:
    system = sparrow / "systems" / "fuel.yaml"
    cock = "  spare cock: {kind: cock, on: Mk 2}\n"
    system.write_text(system.read_text().replace("\nlines:", f"\n{cock}\nlines:"))
    asked = ("run", "parked", "-C", sparrow, "--do", "spare cock to on", "--for", "1 s")
    result = cutaway(*asked, "--on", "Mk 1")
    assert result.exit_code == 2
    assert "[C103]" in result.stderr and "Mk 1 has no spare cock" in result.stderr
    assert "[C103]" not in cutaway(*asked, "--on", "Mk 2").stderr


def test_a_part_that_there_is_not_cannot_be_shown_c104(sparrow: Path) -> None:
    asked = ("run", "parked", "-C", sparrow, "--for", "1 s")
    result = cutaway(*asked, "--show", "fule tank")
    assert result.exit_code == 2
    assert "[C104]" in result.stderr and "'fule tank'" in result.stderr and "fuel tank" in result.stderr
    assert "Did you mean fuel tank?" in result.stderr
    assert cutaway(*asked, "--show", "Fuel Tank").exit_code == 0


@pytest.mark.parametrize(
    "said, row",
    [
        ("carburettor.inlet", "carburettor.inlet"),
        ("fuel tank contents", "20 gal"),
        ("fuel cock", "off"),
        ("tanks", "20 gal"),
        ("FUEL TANK.outlet", "lb/sq in"),
    ],
)
def test_what_claims_name_can_be_shown(sparrow: Path, said: str, row: str) -> None:
    system = sparrow / "systems" / "fuel.yaml"
    system.write_text(system.read_text().replace("\nlines:", "\n  spare tank: {kind: tank, capacity: 5 gal}\nlines:"))
    result = cutaway("run", "parked", "-C", sparrow, "--for", "1 s", "--show", said)
    assert row in result.stdout, result.stdout + result.stderr


@pytest.mark.parametrize(
    "said, hint",
    [("carburetor.inlet", "carburettor.inlet"), ("fuel tank content", "fuel tank contents"), ("fuel cok", "fuel cock")],
)
def test_a_misspelt_reading_is_put_right_c104(sparrow: Path, said: str, hint: str) -> None:
    result = cutaway("run", "parked", "-C", sparrow, "--for", "1 s", "--show", said)
    assert result.exit_code == 2 and f"Did you mean {hint}?" in result.stderr


def test_what_is_not_on_the_standard_cannot_be_shown_c103(sparrow: Path) -> None:
    system = sparrow / "systems" / "fuel.yaml"
    system.write_text(
        system.read_text().replace("\nlines:", "\n  spare tank: {kind: tank, capacity: 5 gal, on: Mk 2}\nlines:")
    )
    asked = ("run", "parked", "-C", sparrow, "--for", "1 s", "--on", "Mk 1", "--show")
    result = cutaway(*asked, "spare tank.outlet")
    assert result.exit_code == 2 and "Mk 1 has no spare tank.outlet to show" in result.stderr
    # Of several the standard may lack some.
    assert "fuel tank" in cutaway(*asked, "tanks").stdout


def test_a_part_left_out_for_a_mistake_of_its_own_is_told_after_the_mistake(sparrow: Path) -> None:
    system = sparrow / "systems" / "fuel.yaml"
    system.write_text(system.read_text().replace("\nlines:", "\n  lamp: {kind: lam}\n\nlines:"))
    told = cutaway("run", "parked", "-C", sparrow, "--for", "1 s", "--show", "lamp").stderr
    assert "There is no kind 'lam'" in told and "'lamp' cannot be shown: it was left out for a mistake" in told
    assert told.index("H301") < told.index("C104")


@pytest.mark.parametrize("place", ["notes.txt/sparrow", "notes.txt/more/sparrow"])
def test_a_place_that_cannot_be_written_c105(tmp_path: Path, place: str) -> None:
    (tmp_path / "notes.txt").write_text("a file, and no folder")
    result = cutaway("new", tmp_path / place)
    assert result.exit_code == 1
    assert "[C105]" in result.stderr and "cannot be written" in result.stderr


@pytest.mark.parametrize("length", ["0 s", "-5 s", "1e9 s"])
def test_a_length_of_time_that_is_not_run_c106(sparrow: Path, length: str) -> None:
    result = cutaway("run", "parked", "-C", sparrow, "--for", length)
    assert result.exit_code == 2
    assert "[C106]" in result.stderr and length in result.stderr


def test_one_form_of_print_at_a_time(sparrow: Path) -> None:
    result = cutaway("run", "parked", "-C", sparrow, "--json", "--csv")
    assert result.exit_code == 2
    assert "--json and --csv" in result.stderr


@pytest.mark.parametrize(
    "said",
    [("fly",), ("check", "--marks"), ("run",), ("find",), ("find", "petrol", "--limit", "0"), ("check", "a", "b")],
)
def test_a_command_that_is_not_understood_ends_with_2_and_says_how_to_get_help(said: tuple[str, ...]) -> None:
    result = cutaway(*said)
    assert result.exit_code == 2
    assert "--help" in result.stderr
    assert result.stdout == ""


def test_no_folder_at_all(tmp_path: Path) -> None:
    for verb in (("check",), ("make",), ("find", "petrol", "-C"), ("run", "parked", "-C")):
        result = cutaway(*verb, tmp_path / "nowhere")
        assert result.exit_code == 2
        assert "[H001]" in result.stderr and "cutaway new" in result.stderr
        assert result.stdout == ""


def test_what_is_not_there_ends_with_2_whatever_the_verb(sparrow: Path, tmp_path: Path) -> None:
    gone = tmp_path / "gone.pdf"
    for said in (
        ("take", gone, "-C", sparrow),
        ("take", gone, "-C", tmp_path),
        ("import-words", tmp_path / "gone.srt", "-C", sparrow),
        ("import-words", tmp_path / "gone.docx", "-C", sparrow),
        ("repair", tmp_path / "gone.vtt", "-C", sparrow),
        ("captions", "gone", "-C", sparrow),
        ("captions", "01-first", "-C", sparrow, "--recording", tmp_path / "gone.wav"),
        ("link", "gone", "-C", sparrow),
        ("desk", sparrow / "scripts" / "gone.md"),
        ("letters", sparrow, "--reply", "gone"),
        ("manuscript", sparrow / "scripts" / "gone.md"),
        ("open", sparrow),
        ("publish", sparrow),
        ("run", "gone", "-C", sparrow),
        ("sources", sparrow, "--of", "hb §999"),
    ):
        result = cutaway(*said)
        assert result.exit_code == 2, (said, result.stderr)
        assert result.stderr.strip() and result.stdout == "", said


def test_every_code_of_wrong_use_is_in_the_catalogue() -> None:
    from cutaway.cli.exits import NAMES_NOTHING
    from cutaway.problems.catalogue import CATALOGUE

    assert NAMES_NOTHING - CATALOGUE.keys() == set()
    assert all(CATALOGUE[code].severity == "error" for code in NAMES_NOTHING)


def test_what_new_proposes_can_be_pasted(tmp_path: Path) -> None:
    result = cutaway("new", tmp_path / "a b" / "c")
    assert result.exit_code == 0 and f"cutaway check '{tmp_path}/a b/c'" in result.stdout
