"""Links proposed and accepted: only what is accepted is written, and the user's text keeps every letter."""

import pytest
from typer.testing import CliRunner

from cutaway.api.linking import Linked, accept, link
from cutaway.cli.main import app
from cutaway.handbook.load import load_folder
from tests.narrate.sentence_first.folders import bare_whinchat

SCRIPT = """# Valves & lamps

A valve holds the suction at four and a half inches of mercury, or pretty near it. The
generator, further back, cannot give more than twenty amps.

The lamp on the left of the board is the one marked FUEL PRESS.
"""


@pytest.fixture
def folder(tmp_path):
    return bare_whinchat(tmp_path / "whinchat", SCRIPT)


def linked(folder) -> Linked:
    found, problems = link(folder, "01-all")
    assert found is not None and problems == ()
    return found


def numbers(found: Linked, sort: str, words: str = "") -> list[int]:
    return [one.number for one in found.proposals if one.sort == sort and words in one.words]


def text(folder) -> str:
    return (folder / "scripts/01-all.md").read_text(encoding="utf-8")


def without(new: str, *inserted: str) -> str:
    for one in inserted:
        assert one in new
        new = new.replace(one, "", 1)
    return new


def test_each_sentence_that_a_paragraph_states_gets_its_citation(folder) -> None:
    cites = [one.words for one in linked(folder).proposals if one.sort == "cite"]
    assert cites == ["`cite: hb §32`", "`cite: hb §14`", "`cite: hb §25`"]


def test_a_part_has_what_the_paragraph_prints_and_says_what_it_wants(folder) -> None:
    parts = {one.words.split(":")[0].strip(): one for one in linked(folder).proposals if one.sort == "part"}
    assert list(parts) == ["suction relief valve", "generator", "fuel lamp"]
    assert "set at: 4.5 in Hg" in parts["suction relief valve"].words
    assert "driven by: engine" in parts["generator"].words and "current limit: 20 A" in parts["generator"].words
    assert parts["fuel lamp"].wants == ("senses", "fed by")


@pytest.mark.parametrize(
    "sentence", ["Change tanks before the one in use is empty.", "On Mk 2 work the hand pump at once."]
)
def test_a_paragraph_of_something_to_do_is_no_part(tmp_path, sentence) -> None:
    found = linked(bare_whinchat(tmp_path, f"# A\n\n{sentence}\n"))
    assert numbers(found, "cite") and not numbers(found, "part")


def test_nothing_is_written_by_looking(folder) -> None:
    before = {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}
    assert CliRunner().invoke(app, ["link", "01-all", "-C", str(folder)]).exit_code == 0
    assert {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()} == before


def test_only_what_is_accepted_is_written_and_nothing_moves(folder) -> None:
    found = linked(folder)
    (second,) = numbers(found, "cite", "§14")
    written, problems = accept(found, [second])
    assert problems == () and [path.name for path in written] == ["01-all.md"]
    assert without(text(folder), " `cite: hb §14`") == SCRIPT
    assert "twenty amps. `cite: hb §14`\n" in text(folder)


def test_a_claim_goes_under_its_sentence_and_is_understood(folder) -> None:
    found = linked(folder)
    part, claim = numbers(found, "part", "suction relief valve")[0], numbers(found, "claim", "4.5 in Hg")[0]
    cite = numbers(found, "cite", "§32")[0]
    _, problems = accept(found, [part, claim, cite])
    assert problems == ()
    block = "\n\n```claim\nsuction relief valve is set at 4.5 in Hg\n```\n\n"
    assert without(text(folder), " `cite: hb §32`", block) == SCRIPT
    loaded, problems = load_folder(folder)
    assert loaded is not None and problems == ()
    first, second, _ = loaded.scripts[0].sentences
    assert len(first.claims) == 1 and first.cites and not second.claims
    assert [str(part.name) for part in loaded.parts] == ["suction relief valve"]
    told = CliRunner().invoke(app, ["check", str(folder)])
    assert told.exit_code == 0 and "1 claim" in told.output


def test_a_second_acceptance_adds_to_the_same_system(folder) -> None:
    found = linked(folder)
    accept(found, numbers(found, "part", "suction relief valve"))
    before = (folder / "systems/01-all.yaml").read_text(encoding="utf-8")
    again = linked(folder)
    assert numbers(again, "part", "suction relief valve") == []
    accept(again, numbers(again, "part", "generator"))
    after = (folder / "systems/01-all.yaml").read_text(encoding="utf-8")
    assert after.startswith(before) and "  generator:\n" in after


def test_a_claim_needs_its_part(folder) -> None:
    found = linked(folder)
    claim = numbers(found, "claim", "FUEL PRESS")[0]
    written, problems = accept(found, [claim])
    assert (written, [problem.code for problem in problems]) == ((), ["C114"])
    assert text(folder) == SCRIPT


def test_a_number_that_there_is_not(folder) -> None:
    written, problems = accept(linked(folder), [linked(folder).proposals[0].number, 99])
    assert (written, [problem.code for problem in problems]) == ((), ["C111"])
    assert text(folder) == SCRIPT


def test_a_file_that_changed_meanwhile_is_left_alone(folder) -> None:
    found = linked(folder)
    changed = SCRIPT.replace("pretty near", "very near")
    (folder / "scripts/01-all.md").write_text(changed, encoding="utf-8")
    written, problems = accept(found, [found.proposals[0].number])
    assert (written, [problem.code for problem in problems]) == ((), ["C112"])
    assert text(folder) == changed


def test_line_ends_and_byte_order_mark_stay(folder) -> None:
    path = folder / "scripts/01-all.md"
    path.write_bytes(b"\xef\xbb\xbf" + SCRIPT.replace("\n", "\r\n").encode())
    found = linked(folder)
    accept(found, numbers(found, "cite", "§25"))
    data = path.read_bytes()
    assert data.startswith(b"\xef\xbb\xbf") and b"FUEL PRESS. `cite: hb \xc2\xa725`\r\n" in data
    assert data.replace(" `cite: hb §25`".encode(), b"") == b"\xef\xbb\xbf" + SCRIPT.replace("\n", "\r\n").encode()


def test_asked_one_by_one(folder) -> None:
    told = CliRunner().invoke(app, ["link", "01-all", "-C", str(folder), "--ask"], input="y\nn\nq\n")
    assert told.exit_code == 0
    assert without(text(folder), " `cite: hb §32`") == SCRIPT
    assert not (folder / "systems").exists()


def test_a_script_that_there_is_not(folder) -> None:
    found, problems = link(folder, "09-air")
    assert found is None and [problem.code for problem in problems] == ["C102"]


def test_a_sentence_that_differs_is_not_linked(tmp_path) -> None:
    folder = bare_whinchat(tmp_path, "# A\n\nEach tank holds 12 gallons.\n")
    assert linked(folder).proposals == ()
    assert "There is nothing to propose" in CliRunner().invoke(app, ["link", "01-all", "-C", str(folder)]).output


@pytest.mark.parametrize(
    "sentence",
    [
        "On the Mk 2 the lamp lights below 2 lb./sq. in.",
        "The Mk 2 has a fuel pressure gauge.",
        "There is no hand pump for petrol on the Mk 2.",
        "On the Mk 1 the flap indicator is fed from the instrument bus bar.",
        "The Mk 3 carries electrical contents gauges.",
    ],
)
def test_no_citation_is_proposed_for_what_the_paragraph_does_not_support(tmp_path, sentence) -> None:
    assert linked(bare_whinchat(tmp_path, f"# A\n\n{sentence}\n")).proposals == ()


def test_the_citation_is_of_the_paragraph_that_stands_for_the_mark(tmp_path) -> None:
    found = linked(bare_whinchat(tmp_path, "# A\n\nOn the Mk 2 the fuel lamp lights below three pounds.\n"))
    assert [one.words for one in found.proposals if one.sort == "cite"] == ["`cite: hb §25a`"]


def test_a_number_means_one_thing_for_ever(folder) -> None:
    found = linked(folder)
    of = {one.number: (one.sort, one.words) for one in found.proposals}
    first = next(one for one in found.proposals if one.sort == "cite")
    assert accept(found, [first.number])[1] == ()
    again = linked(folder)
    assert first.number not in {one.number for one in again.proposals}
    assert all(of[one.number] == (one.sort, one.words) for one in again.proposals if one.number in of)
    assert {one.number for one in again.proposals} == of.keys() - {first.number}
    before = text(folder)
    written, problems = accept(again, [first.number])
    assert (written, [problem.code for problem in problems], text(folder)) == ((), ["C111"], before)


def test_the_same_sentence_twice_has_two_numbers(tmp_path) -> None:
    said = "A valve holds the suction at four and a half inches of mercury."
    folder = bare_whinchat(tmp_path / "twice", f"# Valves\n\n{said}\n\n{said}\n")
    cites = [one for one in linked(folder).proposals if one.sort == "cite"]
    assert len({one.number for one in cites}) == len(cites) == 2
    accept(linked(folder), [cites[0].number])
    assert [one.number for one in linked(folder).proposals if one.sort == "cite"] == [cites[1].number]


def test_a_part_takes_no_figure_of_another_thing(folder) -> None:
    book = folder / "sources" / "hb.md"
    more = "\n## 90 General\n\nThe boat is powered by one engine of 130 b.h.p. at 2,100 r.p.m.\n"
    more += "\n## 91 Spare generator\n\nA spare generator is carried. The engine idles at 700 r.p.m.\n"
    book.write_text(book.read_text(encoding="utf-8") + more, encoding="utf-8")
    script = folder / "scripts" / "01-all.md"
    script.write_text(
        "# All\n\nThe boat is powered by one engine of 130 b.h.p. at 2,100 r.p.m.\n\nA spare generator is carried.\n",
        encoding="utf-8",
    )
    parts = [one.words for one in linked(folder).proposals if one.sort == "part"]
    assert not any("rpm" in words or "r.p.m." in words for words in parts)
    assert not any("§90" in words for words in parts)


def test_a_file_that_may_not_be_written_is_named_and_no_other(folder, monkeypatch) -> None:
    found = linked(folder)

    def refused(**_: object) -> object:
        raise PermissionError(13, "Permission denied", str(folder / "scripts" / ".01-all.md.x7"))

    monkeypatch.setattr("cutaway.api.linking.tempfile.mkstemp", refused)
    _, problems = accept(found, [next(one.number for one in found.proposals if one.sort == "cite")])
    assert [problem.code for problem in problems] == ["C105"]
    assert "'" + str(folder / "scripts" / "01-all.md") + "'" in problems[0].message and ".x7" not in problems[0].message
