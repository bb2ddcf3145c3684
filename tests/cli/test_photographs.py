"""`cutaway photographs`: what is drawn, written and told."""

import json
from pathlib import Path

import pytest
from PIL import Image

from tests.cli.running import cutaway


@pytest.fixture
def shots(sample: Path) -> Path:
    text = (
        "photographs:\n  the cock: {file: photographs/cock.png, rights: Ours., station: wall, "
        "points: {fuel cock: [50 %, 50 %]}}\n  draft: {file: photographs/cock.png}\n"
    )
    (sample / "photographs.yaml").write_text(text, encoding="utf-8")
    return sample


def test_what_there_is_and_where_each_thing_is_seen(shots: Path) -> None:
    result = cutaway("photographs", shots)
    assert result.exit_code == 0 and "H909" in result.stderr
    assert result.stdout.splitlines() == [
        "the cock: 1 point; wall", "draft: 0 points", "  for drafts only: it has no rights", "By part:",
        "  fuel cock: the cock", "By station:", "  wall: the cock", "By standard:", "  Mk 1: the cock, draft",
        "  Mk 2: the cock, draft",
    ]  # fmt: skip


def test_drawings_are_written_and_never_over_others_unasked(shots: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    result = cutaway("photographs", shots, "--name", "The Cock", "--out", out)
    assert result.exit_code == 0 and sorted(p.name for p in out.iterdir()) == ["the-cock.svg"]
    assert cutaway("photographs", shots, "--name", "the cock", "--out", out).exit_code == 0
    (out / "the-cock.svg").write_text("mine")
    assert "K402" in cutaway("photographs", shots, "--name", "the cock", "--out", out).stderr
    assert (out / "the-cock.svg").read_text() == "mine"
    assert cutaway("photographs", shots, "--name", "the cock", "--out", out, "--replace", "--dark").exit_code == 0
    assert (out / "the-cock-dark.svg").exists()


def test_for_a_program(shots: Path) -> None:
    record = json.loads(cutaway("photographs", shots, "--json", "--name", "the cock").stdout)
    assert [one["name"] for one in record["photographs"]] == ["the cock"]
    assert record["by part"] == {"fuel cock": ["the cock"]}


def test_wrong_use(shots: Path, sample: Path) -> None:
    result = cutaway("photographs", shots, "--name", "the cok")
    assert (result.exit_code, "C132" in result.stderr, "Did you mean the cock?" in result.stderr) == (2, True, True)
    assert cutaway("photographs", shots, "--light", "--dark").exit_code == 2
    (sample / "photographs.yaml").unlink()
    result = cutaway("photographs", sample)
    assert result.exit_code == 1 and "C131" in result.stderr


def test_each_slip_has_its_sentence_and_its_place_and_the_rest_is_drawn(shots: Path, tmp_path: Path) -> None:
    """All that can be wrong with a photograph at once: each told once, with file, line, column and caret."""
    pictures = shots / "photographs"
    noise = Image.effect_noise((400, 300), 60.0).convert("RGB")
    noise.save(pictures / "gif.jpg", "GIF")
    noise.convert("CMYK").save(pictures / "cmyk.jpg")
    turned = Image.Exif()
    turned[0x0112] = 6
    noise.save(pictures / "turned.png", exif=turned)
    noise.save(pictures / "cut.jpg")
    (pictures / "cut.jpg").write_bytes((pictures / "cut.jpg").read_bytes()[:4000])
    (pictures / "empty.jpg").write_bytes(b"")
    rows = (
        ("missing", "file: photographs/cok.png, rights: Ours.", "H901", "There is no picture"),
        ("gif", "file: photographs/gif.jpg, rights: Ours.", "H902", "is a GIF"),
        ("empty", "file: photographs/empty.jpg, rights: Ours.", "H902", "is empty"),
        ("cut", "file: photographs/cut.jpg, rights: Ours.", "K601", "cut short or damaged"),
        ("away", "file: ../x.jpg, rights: Ours.", "H903", "outside the type folder"),
        ("bare", "file: photographs/cock.png, rights: ''", "H909", "has no rights"),
        ("beside", "file: photographs/cock.png, rights: Ours., points: {fuel cock: [9 %, 101 %]}", "H910", "outside"),
        ("long", "file: photographs/cock.png, rights: Ours., points: {" + "w" * 40 + ": {at: [9 %, 9 %], says: So.}}",
         "D111", "is broken"),
        ("cmyk", "file: photographs/cmyk.jpg, rights: Ours., points: {fuel cock: [399, 299]}", "", ""),
        ("turned", "file: photographs/turned.png, rights: Ours., points: {fuel cock: [299, 399]}", "", ""),
    )  # fmt: skip
    (shots / "photographs.yaml").write_text("photographs:\n" + "".join(f"  {n}: {{{t}}}\n" for n, t, _, _ in rows))
    out = tmp_path / "out"
    told = cutaway("photographs", shots, "--out", out).stderr
    assert "Traceback" not in told
    blocks = [block.splitlines() for block in told.split("\n\n") if block.strip()]
    for line, (name, _, code, says) in enumerate(rows, 2):
        here = [block for block in blocks if f"photographs.yaml, line {line}, column" in block[1]]
        assert len(here) == bool(code), (name, here)
        for block in here:
            assert says in block[0] and "^" in block[3] and block[-1].endswith(f"[{code}]"), block
    assert sorted(p.stem for p in out.iterdir()) == ["bare", "beside", "cmyk", "long", "turned"]
