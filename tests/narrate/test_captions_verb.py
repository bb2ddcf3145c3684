"""The verb `captions`, and figures that nobody can say in every verb that speaks."""

from pathlib import Path

import pytest

from tests.cli.running import cutaway

ENDLESS = "\n\nThe tank holds 1e400 gallons.\n"


@pytest.mark.parametrize("verb", [("check",), ("desk",), ("captions", "01-fuel"), ("make",), ("manuscript",)])
def test_a_figure_without_end_is_told_with_its_sentence_and_stops_no_verb(verb, sample: Path, tmp_path: Path) -> None:
    script = sample / "scripts" / "01-fuel.md"
    script.write_text(script.read_text(encoding="utf-8") + ENDLESS, encoding="utf-8")
    place = ("-C", sample) if verb[0] == "captions" else (sample,)
    out = ("--out", tmp_path / "out.docx") if verb[0] == "manuscript" else ()
    result = cutaway(*verb, *place, *out)
    assert "H608" in result.stderr and "'1e400' in 'The tank holds 1e400 gallons.'" in " ".join(result.stderr.split())


def test_captions_said_twice_are_no_fault_and_those_that_differ_are_kept(sample: Path) -> None:
    first = cutaway("captions", "01-fuel", "-C", sample)
    assert first.exit_code == 0
    again = cutaway("captions", "01-fuel", "-C", sample)
    assert again.exit_code == 0 and "Nothing differs" in again.stdout and "N604" not in again.stderr
    (sample / "captions" / "01-fuel.srt").write_text("by hand", encoding="utf-8")
    refused = cutaway("captions", "01-fuel", "-C", sample)
    assert refused.exit_code == 1 and "N604" in refused.stderr and "01-fuel.vtt" not in refused.stderr
    assert (sample / "captions" / "01-fuel.srt").read_text(encoding="utf-8") == "by hand"


def test_a_recording_that_is_none_is_told_before_captions_that_are_in_the_way(sample: Path, tmp_path: Path) -> None:
    cutaway("captions", "01-fuel", "-C", sample)
    (sample / "captions" / "01-fuel.srt").write_text("by hand", encoding="utf-8")
    (tmp_path / "bad.wav").write_bytes(b"this is no sound at all")
    told = cutaway("captions", "01-fuel", "-C", sample, "--recording", tmp_path / "bad.wav").stderr
    assert "N502" in told and "N604" not in told
    assert "Invalid" not in told and "moov" not in told and "Error" not in told
