"""The pack of the demo type: whole, the same twice, and never half written."""

import errno
import io
import json
import re
import shutil
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from html import unescape
from pathlib import Path
from typing import Any
from xml.etree import ElementTree as ET

import numpy as np
import pytest
import resvg_py
import webvtt
from PIL import Image

from cutaway.api.making import Made, make
from cutaway.cli import exits, main
from cutaway.draw.measure import font_file
from cutaway.machine.subjects import subjects
from cutaway.publish import pack
from cutaway.publish.pack import MARKER, changed_by_hand
from tests.publish.demo import content, made, put_wrong
from tests.whinchat import WHINCHAT

SVG = "{http://www.w3.org/2000/svg}"
MOST = 6_000_000
"""A page of more bytes than this is slow to open from a disk."""


@dataclass(frozen=True, slots=True)
class Demo:
    """A pack and what it was made from. batches: how often it was told that runs begin."""

    made: Made
    folder: Path
    memory: Path
    batches: int


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Demo:
    base = tmp_path_factory.mktemp("demo")
    batches: list[int] = []
    found, problems = made(WHINCHAT, base / "pack", base / "memory.sqlite", batches.append)
    assert problems == () and found is not None
    return Demo(found, base / "pack", base / "memory.sqlite", len(batches))


def page_of(folder: Path) -> str:
    return unescape((folder / "index.html").read_text(encoding="utf-8"))


# --- whole ---------------------------------------------------------------------------------------------------------


def test_every_file_is_there_and_no_other(demo: Demo) -> None:
    assert not demo.made.wrong
    assert set(content(demo.folder)) == {*demo.made.files, MARKER}
    assert changed_by_hand(demo.folder) == ()
    assert (demo.folder / "index.html").stat().st_size < MOST


def test_there_is_a_sheet_for_every_system_standard_and_situation(demo: Demo) -> None:
    folder = demo.made.checked.folder
    wanted = len(folder.systems) * len(subjects(folder)) * len(folder.situations)
    files = [name for name in demo.made.files if name.startswith("sheets/")]
    page = page_of(demo.folder)
    assert len(files) == wanted == page.count('<svg xmlns="http://www.w3.org/2000/svg"')
    for name in files:
        root = ET.parse(demo.folder / name).getroot()
        assert f'href="{name}"' in page
        assert (root.findtext(f"{SVG}desc") or "").startswith("Sheet of the system ")
        assert "prefers-color-scheme:dark" in (root.findtext(f"{SVG}style") or "")


def test_every_claim_and_verdict_is_on_the_page_and_in_the_record(demo: Demo) -> None:
    page = page_of(demo.folder)
    record = json.loads((demo.folder / "verdicts.json").read_text(encoding="utf-8"))
    told = [c for s in (*record["scripts"], *record["drills"]) for one in s["sentences"] for c in one["claims"]]
    claims = demo.made.checked.claims()
    assert len(told) == len(claims) > 50
    assert sum(len(c["verdicts"]) for c in told) == len(demo.made.checked.verdicts())
    for claim in told:
        assert claim["text"] in page
        assert all(verdict["sentence"] in page for verdict in claim["verdicts"])


def test_every_step_sentence_caution_and_the_notice_are_on_the_page(demo: Demo) -> None:
    folder = demo.made.checked.folder
    page = page_of(demo.folder)
    words = [s.text for script in folder.scripts for s in script.sentences]
    words += [w for drill in folder.drills for step in drill.steps for w in (step.text, step.caution) if w]
    words += [part.caution for part in folder.parts if part.caution]
    assert [w for w in words if w not in page] == []
    assert page.count(folder.type.notice) > 2
    script = page.split('id="script.01_2d_fuel"')[1].split("</section>")[0]
    pump = next(part.caution for part in folder.parts if part.name == "engine pump")
    assert pump in script, "a sentence that speaks of the pump carries the pump's caution"


def test_the_fuel_sheet_answers_what_a_stranger_asks(demo: Demo) -> None:
    """Which tank feeds, whether the lamp is lit, what the gauge reads, what drives the pump."""
    root = ET.parse(demo.folder / "sheets" / "fuel-mk-2-cruising.svg").getroot()
    told = root.findtext(f"{SVG}desc") or ""
    for words in (
        "tank selector: set to port tank",
        "port tank to tank selector, flowing",
        "fuel lamp: out",
        "engine pump driven by engine",
        "fuel lamp senses carburettor",
    ):
        assert words in told, words
    assert re.search(r"port contents gauge: 1[01](\.\d)? gal", told)
    seen = {text.text for text in root.iter(f"{SVG}text")}
    assert {"set to port tank", "out", "engine", "see Engine"} <= seen


def test_the_picture_of_the_readme_is_that_sheet(demo: Demo) -> None:
    """Drawn for a light screen; the sheet of the pack looks the same to a renderer that knows nothing of dark ones."""
    svg = (demo.folder / "sheets" / "fuel-mk-2-cruising.svg").read_text(encoding="utf-8")
    fonts = [str(font_file(bold)) for bold in (False, True)]
    png = resvg_py.svg_to_bytes(
        svg_string=svg, skip_system_fonts=True, font_files=fonts, sans_serif_family="DejaVu Sans"
    )
    kept = WHINCHAT.parents[1] / "docs" / "sheet.png"
    now, then = (np.asarray(Image.open(file).convert("L"), float) / 255 for file in (io.BytesIO(bytes(png)), kept))
    assert now.shape == then.shape and np.abs(now - then).mean() < 0.002, "run docs/picture.py and look at what it drew"
    assert kept.stat().st_size <= 250_000


def test_the_captions_are_as_the_standard_has_them(demo: Demo) -> None:
    folder = demo.made.checked.folder
    books = {f"{p.source} {p.number}" for source in folder.sources for p in source.paragraphs}
    for script in folder.scripts:
        text = (demo.folder / "captions" / f"{script.name}.vtt").read_text(encoding="utf-8")
        cues = list(webvtt.from_string(text, strict=True))
        assert all(cue.start_in_seconds < cue.end_in_seconds for cue in cues)
        assert [cue.start for cue in cues] == sorted(cue.start for cue in cues)
        said = " ".join(unescape(cue.text) for cue in cues).split()
        assert said == " ".join(s.text for s in script.sentences).split()
        notes = re.findall(r"^NOTE From (.*)$", text, re.MULTILINE)
        assert {key for note in notes for key in note.split(", ")} <= books
        assert len(notes) > 0.8 * len(cues), "most sentences of the demo have a paragraph behind them"
        chapters = (demo.folder / "captions" / f"{script.name}.chapters.vtt").read_text(encoding="utf-8")
        titles = [cue.text for cue in webvtt.from_string(chapters, strict=True)]
        assert titles == list(dict.fromkeys(s.chapter for s in script.sentences))


# --- the same twice ------------------------------------------------------------------------------------------------


def test_made_again_the_pack_has_the_same_bytes(demo: Demo, tmp_path: Path) -> None:
    """The second time the verdicts are remembered, and so never run."""
    again, problems = made(WHINCHAT, tmp_path / "again", demo.memory)
    assert problems == () and again is not None and again.checked.runs < demo.made.checked.runs
    assert content(tmp_path / "again") == content(demo.folder)


def test_what_is_taken_out_of_the_folder_leaves_the_pack(demo: Demo, tmp_path: Path) -> None:
    copy = tmp_path / "whinchat"
    shutil.copytree(WHINCHAT, copy, ignore=shutil.ignore_patterns("pack"))
    out = tmp_path / "pack"
    shutil.copytree(demo.folder, out)
    (copy / "scripts" / "02-current-and-air.md").unlink()
    smaller, problems = made(copy, out, demo.memory)
    assert smaller is not None and {problem.code for problem in problems} == {"H701", "H702", "N911"}
    gone = {Path(name) for name in set(content(demo.folder)) - set(content(out))}
    assert {path.name.split(".")[0] for path in gone} == {"02-current-and-air"}
    assert {str(path.parent) for path in gone} == {"captions", "prompter", "shots"}
    assert "Current, air and oil" in page_of(demo.folder) and "Current, air and oil" not in page_of(out)
    assert [path.name for path in tmp_path.iterdir() if path.name.startswith("pack")] == ["pack"]


def test_sentences_that_are_wrong_are_told_at_the_top_and_no_others(demo: Demo, tmp_path: Path) -> None:
    copy = tmp_path / "whinchat"
    shutil.copytree(WHINCHAT, copy, ignore=shutil.ignore_patterns("pack"))
    begins = put_wrong(copy)
    found, _ = made(copy, tmp_path / "pack", demo.memory)
    assert found is not None and found.wrong
    page = page_of(found.folder)
    box = page[page.index('<div class="wrong"') : page.index('<div class="bar"')]
    links = re.findall(r'<a href="#(s\.[^"]*)">(.*?)</a>', box)
    assert len(links) == len(begins) == page.count(" is-wrong")
    for start in begins:
        assert any(sentence.startswith(start) for _, sentence in links), start
    assert all(f'<li id="{ident}" class="is-claimed is-wrong"><details open' in page for ident, _ in links)
    assert '<div class="wrong"' not in page_of(demo.folder)


# --- never half written ----------------------------------------------------------------------------------------------


class Stop:
    """Raises KeyboardInterrupt when it is called for the n-th time, from 1."""

    def __init__(self, at: int) -> None:
        self.left = at

    def __call__(self, *_: Any) -> None:
        self.left -= 1
        if self.left == 0:
            raise KeyboardInterrupt


@pytest.fixture
def whole(demo: Demo, tmp_path: Path) -> Iterator[Path]:
    """A copy of the pack, which must afterwards be as it was, with nothing left beside it."""
    out = tmp_path / "pack"
    shutil.copytree(demo.folder, out)
    yield out
    assert content(out) == content(demo.folder)
    beside = sorted(path.name for path in tmp_path.iterdir() if not path.name.startswith(("memory", "pieces")))
    assert beside == ["pack"]


@pytest.mark.parametrize("when", ["checking", "drawing"])
def test_stopped_while_it_runs(demo: Demo, whole: Path, tmp_path: Path, when: str) -> None:
    """The first runs are those of the first claim, the last those of the last sheet."""
    with pytest.raises(KeyboardInterrupt):
        made(WHINCHAT, whole, tmp_path / "memory.sqlite", Stop(1 if when == "checking" else demo.batches))


def test_stopped_while_it_writes(demo: Demo, whole: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """At the sixtieth file; `test_pack.py` goes through every line."""
    linked, stop = pack._linked, Stop(60)
    monkeypatch.setattr(pack, "_linked", lambda *files: (stop(), linked(*files))[1])
    with pytest.raises(KeyboardInterrupt):
        made(WHINCHAT, whole, demo.memory)


def test_the_command_says_that_it_was_stopped(
    whole: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("cutaway.api.making.pack_files", Stop(1))
    monkeypatch.setattr("cutaway.api.making.check_words", lambda *_, **__: (None, ()))
    monkeypatch.setattr(sys, "argv", ["cutaway", "make", str(WHINCHAT), "--out", str(whole)])
    with pytest.raises(SystemExit) as end:
        main.entry()
    assert end.value.code == exits.STOPPED
    assert "Stopped." in capsys.readouterr().err


def test_where_it_may_not_write(demo: Demo, whole: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object, **__: object) -> None:
        raise OSError(errno.EROFS, "Read-only file system")

    monkeypatch.setattr(pack.tempfile, "mkdtemp", refuse)
    found, problems = made(WHINCHAT, whole, demo.memory)
    assert found is None and [problem.code for problem in problems] == ["K105"]


def test_a_folder_that_is_no_pack_is_refused_before_anything_is_run(tmp_path: Path) -> None:
    (tmp_path / "letter.txt").write_text("dear")
    found, problems = make(WHINCHAT, out=tmp_path, progress=Stop(1))
    assert found is None and [problem.code for problem in problems] == ["K102"]
    assert content(tmp_path) == {"letter.txt": b"dear"}
