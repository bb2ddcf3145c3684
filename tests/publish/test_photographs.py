"""Photographs in the pack: upright, plain, nothing hidden handed on; page, record and index; what is not published."""

import base64
import io
import json
import re
from datetime import date
from pathlib import Path

import numpy as np
import pytest
from PIL import Image, ImageCms, ImageOps

from cutaway.handbook.load import load_folder
from cutaway.handbook.records import Folder, Photograph
from cutaway.problems.diagnostic import Problems
from cutaway.problems.span import Span, TextFile
from cutaway.publish.pack import write_pack
from cutaway.publish.photograph_file import LONGEST, published_picture
from cutaway.publish.photographs import index_of, photograph_files, plate_png, plates
from cutaway.publish.published import mark_published, record_of
from cutaway.publish.snapshot import Snapshot
from cutaway.quantities.which import Which

SHOTS = """photographs:
  the cock:
    file: photographs/cock.png
    credit: Pell & Son
    rights: Own picture.
    station: south wall
    points: {fuel cock: [50 %, 50 %], the nail: {at: [10 %, 10 %], says: Bent <so>.}}
  The Cock!: {file: photographs/cock.png, on: Mk 2, rights: Own picture., points: {fuel tank: [1, 1]}}
"""


def shot(file: str) -> Photograph:
    every = Which("", frozenset())
    return Photograph("x", file, (1, 1), "", "", "", "", "", every, (), Span(TextFile("p", ""), 0, 0))


def published(folder: Path, name: str) -> tuple[Image.Image, bytes]:
    content, problems = published_picture(folder, shot(name))
    assert content is not None, problems
    return Image.open(io.BytesIO(content)), content


@pytest.fixture(scope="module")
def quarters() -> Image.Image:
    """A picture whose corners differ."""
    dots = np.zeros((60, 80, 3), np.uint8)
    dots[:30, :40], dots[:30, 40:], dots[30:, :40] = (200, 30, 30), (30, 200, 30), (30, 30, 200)
    return Image.fromarray(dots)


@pytest.mark.parametrize("turn", range(1, 9))
def test_it_is_turned_as_the_library_turns_it(turn: int, quarters: Image.Image, tmp_path: Path) -> None:
    told = Image.Exif()
    told[0x0112] = turn
    quarters.save(tmp_path / "one.jpg", exif=told, quality=95, subsampling=0)
    found, _ = published(tmp_path, "one.jpg")
    wanted = ImageOps.exif_transpose(Image.open(tmp_path / "one.jpg"))
    assert found.size == wanted.size
    assert np.abs(np.asarray(found, float) - np.asarray(wanted, float)).mean() < 4.0


def test_nothing_hidden_goes_out(quarters: Image.Image, tmp_path: Path) -> None:
    told = Image.Exif()
    told[0x010F] = "SECRET camera"
    told[0x8298] = "SECRET owner"
    told.get_ifd(0x8825).update({1: "N", 2: (51.0, 30.0, 0.0), 3: "W", 4: (1.0, 2.0, 3.0)})
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    quarters.save(tmp_path / "one.jpg", exif=told, comment=b"SECRET words", icc_profile=profile)
    assert (
        Image.open(tmp_path / "one.jpg").getexif().get_ifd(0x8825) and b"SECRET" in (tmp_path / "one.jpg").read_bytes()
    )
    found, content = published(tmp_path, "one.jpg")
    assert b"SECRET" not in content and b"Exif" not in content and not dict(found.getexif())
    assert set(found.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}
    assert published(tmp_path, "one.jpg")[1] == content


@pytest.mark.parametrize(
    ("mode", "ending", "corner"),
    [
        ("CMYK", "jpg", (200, 30, 30)),
        ("CMYK", "tif", (200, 30, 30)),
        ("RGBA", "png", (227, 142, 142)),
        ("P", "png", (200, 30, 30)),
        ("RGB", "webp", (200, 30, 30)),
        ("LAB", "tif", (200, 30, 30)),
        ("L", "png", (81, 81, 81)),
        ("LA", "png", (168, 168, 168)),
        ("1", "png", None),
    ],
)
def test_every_sort_of_picture_becomes_a_plain_one(
    mode: str, ending: str, corner: tuple[int, int, int] | None, quarters: Image.Image, tmp_path: Path
) -> None:
    picture = quarters.convert(mode)
    if "A" in picture.getbands() and mode != "LAB":
        picture.putalpha(128)
    picture.save(tmp_path / f"one.{ending}")
    found, _ = published(tmp_path, f"one.{ending}")
    assert (found.mode, found.size, found.format) == ("RGB", (80, 60), "JPEG")
    if corner is not None:
        assert np.abs(np.asarray(found.getpixel((10, 10)), float) - corner).max() < 22


def test_sixteen_bits_keep_their_range(tmp_path: Path) -> None:
    Image.fromarray(np.linspace(0, 65535, 80 * 60).reshape(60, 80).astype(np.uint16)).save(tmp_path / "one.png")
    found, _ = published(tmp_path, "one.png")
    shades = np.asarray(found.convert("L"), float)
    assert shades[0].mean() < 6 and 120 < shades[30].mean() < 136 and shades[-1].mean() > 249


def test_a_large_one_is_made_smaller(tmp_path: Path) -> None:
    Image.new("RGB", (6000, 3000), "grey").save(tmp_path / "one.jpg")
    assert published(tmp_path, "one.jpg")[0].size == (LONGEST, LONGEST // 2)


def test_one_that_is_cut_short_is_told_and_left_out(quarters: Image.Image, sample: Path) -> None:
    """K601."""
    noise = np.random.default_rng(1).integers(0, 255, (200, 300, 3)).astype(np.uint8)
    Image.fromarray(noise).save(sample / "photographs" / "noise.jpg")
    half = (sample / "photographs" / "noise.jpg").read_bytes()[:6000]
    (sample / "photographs" / "half.jpg").write_bytes(half)
    text = SHOTS.replace("The Cock!: {file: photographs/cock.png", "half: {file: photographs/half.jpg")
    drawn, problems = plates(loaded(sample, text))
    assert [one.photograph.name for one in drawn] == ["the cock"] and [p.code for p in problems] == ["K601"]


def loaded(folder: Path, text: str = SHOTS) -> Folder:
    (folder / "photographs.yaml").write_text(text, encoding="utf-8")
    found, problems = load_folder(folder)
    assert found is not None and problems == ()
    return found


@pytest.fixture
def files(sample: Path) -> dict[str, bytes]:
    found, problems = photograph_files(loaded(sample))
    assert problems == ()
    return dict(found)


def test_the_files_of_the_pack(files: dict[str, bytes], sample: Path) -> None:
    assert sorted(files) == [
        "photographs.html", "photographs.json", "photographs/the-cock-2.svg", "photographs/the-cock.svg",
    ]  # fmt: skip
    assert dict(photograph_files(loaded(sample))[0]) == files
    svg = files["photographs/the-cock.svg"].decode()
    held = re.search(r'href="data:image/jpeg;base64,([^"]+)"', svg)
    assert held is not None and Image.open(io.BytesIO(base64.b64decode(held[1]))).size == (120, 80)
    assert "Bent &lt;so&gt;." in svg and "Pell &amp; Son" in svg and "fuel cock (in the middle)" in svg
    page = files["photographs.html"].decode()
    assert 'src="photographs/the-cock.svg"' in page and "Pell &amp; Son" in page and "Bent &lt;so&gt;" in page
    assert all(re.search(rf'id="{target}"', page) for target in re.findall(r'href="#([^"]+)"', page))


def test_the_index_is_by_part_station_and_standard(files: dict[str, bytes]) -> None:
    record = json.loads(files["photographs.json"])
    assert record["by part"] == {"fuel cock": ["the cock"], "fuel tank": ["The Cock!"]}
    assert record["by station"] == {"south wall": ["the cock"]}
    assert record["by standard"] == {"Mk 1": ["the cock"], "Mk 2": ["the cock", "The Cock!"]}
    (one, other) = record["photographs"]
    assert one["points"][0]["at"] == [0.5, 0.5] and other["points"][0]["at"] == [0.0083, 0.0125]
    nail = {"name": "the nail", "parts": [], "at": [0.1, 0.1], "says": "Bent <so>."}
    assert one["points"][1] == {**nail, "marked": "", "station": "", "cites": []}


def test_an_airframe_has_its_own_photographs(sample: Path) -> None:
    text = (sample / "type.yaml").read_text() + "airframes: {S-3: {standard: Mk 2}}\n"
    (sample / "type.yaml").write_text(text, encoding="utf-8")
    folder = loaded(sample, SHOTS.replace("on: Mk 2", "on: S-3"))
    assert index_of(folder, folder.photographs).standards == (
        ("Mk 1", ("the cock",)), ("Mk 2", ("the cock",)), ("S-3", ("The Cock!",)),
    )  # fmt: skip


def test_a_png_has_the_photograph_in_it(sample: Path) -> None:
    drawn, _ = plates(loaded(sample))
    pictures = (plate_png(drawn[0], manner, 0.25) for manner in ("light", "dark"))  # type: ignore[arg-type]
    light, dark = (np.asarray(Image.open(io.BytesIO(one)).convert("RGB"), float) for one in pictures)
    assert light.shape[1::-1] == dark.shape[1::-1] == tuple(round(side / 4) for side in drawn[0].picture.size)
    assert light[2, 2].min() > 240 and dark[2, 2].max() < 40
    # The red wheel of the sample's cock.
    assert all(((shades[..., 0] > 150) & (shades[..., 1] < 80)).sum() > 300 for shades in (light, dark))


def marked(folder: Path, text: str) -> Problems:
    """What marking a pack of these photographs as published tells."""
    (folder / "photographs.yaml").write_text(text, encoding="utf-8")
    found, _ = load_folder(folder)
    assert found is not None
    files, _ = photograph_files(found)
    says = record_of(Snapshot(False, "", (), (), (), ()))
    pack, problems = write_pack(folder / "pack", {**files, "record.json": says})
    assert pack is not None and problems == ()
    return mark_published(folder, pack, date(2026, 3, 1))[1]


def test_a_pack_with_a_photograph_without_rights_is_a_draft(sample: Path) -> None:
    """K312."""
    problems = marked(sample, SHOTS.replace("    rights: Own picture.\n", ""))
    assert [(p.code, p.message.split(" has")[0]) for p in problems] == [("K312", "The photograph the cock")]
    span = problems[0].span
    assert span is not None and span.file.text[span.start : span.end] == "the cock"
    assert not (sample / "published").exists()
    assert marked(sample, SHOTS) == () and len(list((sample / "published").iterdir())) == 1
