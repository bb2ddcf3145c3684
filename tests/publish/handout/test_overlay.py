"""Overlays: decoded by another program they show what was drawn, as opaque as it was; a stop leaves nothing behind."""

import io
import json
import os
import signal
import subprocess
import time
from pathlib import Path

import imageio_ffmpeg
import numpy as np
import pytest
from PIL import Image, ImageDraw

import cutaway.api.overlay as room
from cutaway.api.overlay import FilmLook, overlay
from cutaway.api.sequence import Wanted
from cutaway.publish.overlay import FORMATS, Film, Format, frames, is_there, stamp, write_film
from tests.cli.running import cutaway, program

WHINCHAT = Path(__file__).parents[3] / "demo" / "whinchat"
SHUT = ("--system", "fuel", "--in", "cruising", "--on", "Mk 1", "--do", "tank selector to off")
WIDTH, HEIGHT = 64, 48


def picture(colour: tuple[int, int, int, int]) -> bytes:
    """A square of a colour on nothing."""
    image = Image.new("RGBA", (WIDTH, HEIGHT), (0, 0, 0, 0))
    ImageDraw.Draw(image).rectangle((16, 12, 47, 35), fill=colour)
    out = io.BytesIO()
    image.save(out, "PNG")
    return out.getvalue()


RED, BLUE = picture((200, 30, 30, 255)), picture((30, 30, 200, 128))
FILM = Film((RED, BLUE), (0.4, 0.4), 0.2, 25)


def decoded(path: Path, form: Format) -> np.ndarray:
    """Every frame of a film, by the program that players share."""
    before = ["-c:v", "libvpx-vp9"] if form.name == "vp9" else []
    said = [imageio_ffmpeg.get_ffmpeg_exe(), "-loglevel", "error", *before, "-i", str(path)]
    raw = subprocess.run([*said, "-f", "rawvideo", "-pix_fmt", "rgba", "-"], capture_output=True, check=True).stdout
    return np.frombuffer(raw, np.uint8).reshape(-1, HEIGHT, WIDTH, 4)


@pytest.mark.parametrize("form", FORMATS, ids=lambda form: form.name)
def test_what_is_decoded_is_what_was_drawn(form: Format, tmp_path: Path) -> None:
    path = tmp_path / f"film{form.ending}"
    seen: list[int] = []
    assert write_film(path, FILM, form, seen.append) == ()
    shown = decoded(path, form)
    assert len(shown) == sum(FILM.counts) == sum(seen) == 20
    close = 0 if form.name in ("rle", "png") else 6
    for number, opaque, colour in ((0, 255, (200, 30, 30)), (19, 128, (30, 30, 200))):
        inside, outside = shown[number, 18:30, 22:42].astype(int), shown[number, :6, :10].astype(int)
        assert abs(inside[..., 3] - opaque).max() <= max(close, 1)
        assert outside[..., 3].max() <= 2
        assert abs(inside[..., :3].mean(axis=(0, 1)) - colour).max() <= (close or 1) + 4


def test_a_fade_goes_from_one_to_the_other() -> None:
    shown = list(frames(FILM))
    middle = [tuple(int(v) for v in shot[24, 32]) for shot in shown]
    assert middle[0] == (200, 30, 30, 255) and middle[-1] == (30, 30, 200, 128)
    opaque = [one[3] for one in middle]
    assert opaque == sorted(opaque, reverse=True) and len(set(opaque)) == 2 + 5
    assert all(shot[0, 0, 3] == 0 for shot in shown)


def test_a_film_that_is_there_is_known(tmp_path: Path) -> None:
    for form in FORMATS:
        path = tmp_path / f"{form.name}{form.ending}"
        write_film(path, FILM, form)
        assert is_there(path, stamp(FILM, form))
        assert not is_there(path, stamp(Film((RED, RED), (0.4, 0.4), 0.2, 25), form))
    assert not is_there(tmp_path / "none.mov", stamp(FILM, FORMATS[0]))


def test_k507_an_encoder_that_refuses_leaves_nothing(tmp_path: Path) -> None:
    bad = Format("bad", ".mov", ("-c:v", "no-such-encoder"), "")
    problems = write_film(tmp_path / "film.mov", FILM, bad)
    assert [p.code for p in problems] == ["K507"] and not list(tmp_path.iterdir())


def test_k507_a_full_disk_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object, **__: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("cutaway.publish.overlay.tempfile.mkstemp", full)
    wanted = Wanted("cruising", "Mk 1", (), "", ("fuel",), ("before",))
    made, problems = overlay(WHINCHAT, wanted, FilmLook(), tmp_path / "film.mov")
    assert made is None and [p.code for p in problems] == ["K507"] and "no space left" in problems[0].message


def test_the_verb_and_what_is_there_is_left(tmp_path: Path) -> None:
    out = tmp_path / "cock.mov"
    said = ("overlay", WHINCHAT, *SHUT, "--at", "before", "--at", "5 s", "--hold", "0.2", "--as", "rle")
    first = json.loads(cutaway(*said, "--out", out, "--json").stdout)
    assert first["written"] and first["problems"] == [] and first["seconds"] == pytest.approx(0.4)
    assert [one["moment"] for one in first["moments"]] == ["before", "at 5 s"]
    stood = out.read_bytes()
    assert not json.loads(cutaway(*said, "--out", out, "--json").stdout)["written"] and out.read_bytes() == stood
    other = cutaway(*said, "--fade", "0", "--out", out)
    assert other.exit_code == 1 and "K402" in other.stderr and out.read_bytes() == stood
    assert cutaway(*said, "--fade", "0", "--out", out, "--replace").exit_code == 0 and out.read_bytes() != stood


def test_ctrl_c_stops_it_and_leaves_nothing(tmp_path: Path) -> None:
    out = tmp_path / "long.mov"
    running = program("", "overlay", WHINCHAT, *SHUT, "--at", "before", "--at", "5 s", "--hold", "60", "--out", out)
    until = time.monotonic() + 120
    while not list(tmp_path.iterdir()) and time.monotonic() < until and running.poll() is None:
        time.sleep(0.2)
    time.sleep(1.0)
    assert running.poll() is None
    os.kill(running.pid, signal.SIGINT)
    _, told = running.communicate(timeout=60)
    assert running.returncode == 130 and "Stopped" in told
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize(
    "wanted, look, out, code",
    [
        (Wanted("cruising", "Mk 1", (), "", ("fuel",)), FilmLook(), None, "K502"),
        (Wanted("cruising", "Mk 1", (), "", (), ("1 s",)), FilmLook(), None, "K508"),
        (Wanted("cruising", "Mk 1", (), "", ("fuel",), ("1 s",)), FilmLook(form="mpeg"), None, "K505"),
        (Wanted("cruising", "Mk 1", (), "", ("fuel",), ("1 s",)), FilmLook(size="a0"), None, "K505"),
        (Wanted("cruising", "Mk 1", (), "", ("fuel",), ("1 s",)), FilmLook(), Path("film.webm"), "K505"),
    ],
)
def test_what_cannot_be_filmed_is_told(wanted: Wanted, look: FilmLook, out: Path | None, code: str) -> None:
    made, problems = overlay(WHINCHAT, wanted, look, out)
    assert made is None and [p.code for p in problems] == [code] and problems[0].hint


def test_k506_the_program_is_not_there(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(room, "find_spec", lambda name: None)
    made, problems = overlay(WHINCHAT, Wanted("cruising", "", (), "", ("fuel",), ("1 s",)), FilmLook())
    assert made is None and problems[0].code == "K506" and "-e '.[overlay]'" in problems[0].hint
