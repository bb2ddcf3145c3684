"""photographs.yaml: what is read, and what is told of pictures, places and names that are wrong."""

from pathlib import Path

import pytest
from PIL import Image, ImageOps

from cutaway.handbook.load import load_folder
from cutaway.handbook.pictures import Unseen, upright_size
from cutaway.handbook.records import Folder

HEAD = "photographs:\n  the cock:\n    file: photographs/cock.png\n    rights: Own picture.\n"


def read(folder: Path, text: str) -> tuple[Folder, list[tuple[str, str]]]:
    (folder / "photographs.yaml").write_text(text, encoding="utf-8")
    found, problems = load_folder(folder)
    assert found is not None
    marked = [p.span.file.text[p.span.start : p.span.end] if p.span else "" for p in problems]
    return found, [(p.code, words) for p, words in zip(problems, marked, strict=True)]


def test_all_that_is_said_of_one(sample: Path) -> None:
    text = HEAD + (
        "    says: A cock on a wall.\n    credit: Pell\n    taken: 1939\n    station: south wall\n    on: Mk 2\n"
        "    points:\n      Fuel  cock: {at: [50 %, 25 %], says: Turn it., side: left}\n"
        "      fuel tank: 30, 20\n      the nail: {at: '10 %, 90 %', says: Bent.}\n"
    )
    folder, problems = read(sample, text)
    assert problems == []
    (one,) = folder.photographs
    assert (one.name, one.size, one.credit, one.on.words) == ("the cock", (120, 80), "Pell", "Mk 2")
    assert (one.says, one.taken, one.station, one.rights) == (
        "A cock on a wall.", "1939", "south wall", "Own picture.",
    )  # fmt: skip
    assert [(p.name, p.parts, p.at, p.side) for p in one.points] == [
        ("fuel cock", ("fuel cock",), (0.5, 0.25), "left"),
        ("fuel tank", ("fuel tank",), (0.25, 0.25), ""),
        ("the nail", (), (0.1, 0.9), ""),
    ]
    hash(folder)


@pytest.mark.parametrize(
    ("point", "code", "marked"),
    [
        ("fuel cock: [50 %, 100.1 %]", "H910", "[50 %, 100.1 %]"),
        ("fuel cock: [121, 20]", "H910", "[121, 20]"),
        ("fuel cock: [-1, 20]", "H910", "[-1, 20]"),
        ("fuel cock: [50 %]", "H904", "[50 %]"),
        ("fuel cock: [left, top]", "H904", "[left, top]"),
        ("fuel cock: [50 %, 20]", "H904", "[50 %, 20]"),
        ("fuel cock: {at: [1 %, 2 %], side: top}", "H108", "top"),
        ("fuel cock: {says: x}", "H111", None),
        ("fuel cok: [50 %, 50 %]", "H905", "fuel cok"),
        ("the wall: [50 %, 50 %]", "H905", "the wall"),
    ],
)
def test_a_point_that_is_wrong_is_left_out(sample: Path, point: str, code: str, marked: str | None) -> None:
    folder, problems = read(sample, f"{HEAD}    points:\n      {point}\n      fuel tank: [10 %, 10 %]\n")
    assert [p.name for p in folder.photographs[0].points] == ["fuel tank"]
    assert [p[0] for p in problems] == [code]
    assert marked is None or problems[0][1] == marked


def test_the_edges_are_in_the_picture(sample: Path) -> None:
    folder, problems = read(sample, f"{HEAD}    points:\n      fuel cock: [0, 0]\n      fuel tank: [120, 80]\n")
    assert problems == [] and [p.at for p in folder.photographs[0].points] == [(0.0, 0.0), (1.0, 1.0)]


def test_a_part_that_the_airframe_lacks_is_told(sample: Path) -> None:
    """H908."""
    (sample / "type.yaml").write_text(
        "name: Sparrow\nmarks: [Mk 1, Mk 2]\nairframes: {S-3: {standard: Mk 2, missing: [fuel cock]}}\n"
    )
    _, problems = read(sample, f"{HEAD}    on: S-3\n    points: {{fuel cock: [9 %, 9 %], fuel tank: [50 %, 9 %]}}\n")
    assert problems == [("H908", "fuel cock")]
    _, problems = read(sample, f"{HEAD}    points: {{fuel cock: [9 %, 9 %]}}\n")
    assert problems == []


def test_what_a_broken_file_left_out_is_not_told_again(sample: Path) -> None:
    system = sample / "systems" / "fuel.yaml"
    system.write_text(system.read_text().replace("kind: cock", "kind: cok"))
    folder, problems = read(sample, f"{HEAD}    points: {{fuel cock: [9 %, 9 %]}}\n")
    assert folder.photographs[0].points == () and [p[0] for p in problems if p[0][:2] == "H9"] == []


def test_a_picture_is_looked_at_as_the_camera_was_held(tmp_path: Path) -> None:
    plain = Image.new("RGB", (40, 30), "grey")
    for turn in range(1, 9):
        told = Image.Exif()
        told[0x0112] = turn
        plain.save(tmp_path / "one.jpg", exif=told)
        upright = ImageOps.exif_transpose(Image.open(tmp_path / "one.jpg"))
        assert upright_size(tmp_path, "one.jpg") == upright.size


def test_pictures_that_cannot_be_used(tmp_path: Path) -> None:
    home = tmp_path / "home"
    (home / "photographs").mkdir(parents=True)
    (tmp_path / "secret.png").write_bytes(b"")
    (home / "photographs" / "empty.png").write_bytes(b"")
    (home / "photographs" / "words.jpg").write_text("not a picture")
    (home / "photographs" / "drawing.svg").write_text("<svg xmlns='http://www.w3.org/2000/svg'/>")
    (home / "photographs" / "out.png").symlink_to(tmp_path / "secret.png")
    (home / "photographs" / "nowhere.png").symlink_to(tmp_path / "gone.png")
    sorts = {
        name: found.sort if isinstance(found := upright_size(home, name), Unseen) else "good"
        for name in (
            "photographs/empty.png", "photographs/words.jpg", "photographs/drawing.svg", "photographs/out.png",
            "photographs/nowhere.png", "photographs", "../secret.png", "/etc/hostname", "photographs/emty.png", "a\0b",
        )
    }  # fmt: skip
    assert list(sorts.values()) == [
        "unreadable", "unreadable", "unreadable", "outside", "missing", "missing", "outside", "outside", "missing",
        "outside",
    ]  # fmt: skip
    missing = upright_size(home, "photographs/emty.png")
    assert isinstance(missing, Unseen) and missing.hint == "Did you mean photographs/empty.png?"
    other = upright_size(home, "photographs/whinchat.png")
    assert isinstance(other, Unseen) and "Put the picture into" in other.hint, "one ending alike is no likeness"


def test_a_picture_of_a_hundred_million_dots_is_read_and_a_larger_one_is_told(tmp_path: Path) -> None:
    def claims(width: int, height: int) -> tuple[int, int] | Unseen:
        """A bitmap whose head says so; nothing more of it is looked at."""
        from struct import pack
        from zlib import crc32

        head = b"IHDR" + pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
        png = b"\x89PNG\r\n\x1a\n" + pack(">I", 13) + head + pack(">I", crc32(head))
        idat = b"IDAT"
        (tmp_path / "large.png").write_bytes(png + pack(">I", 0) + idat + pack(">I", crc32(idat)))
        return upright_size(tmp_path, "large.png")

    assert claims(12000, 9000) == (12000, 9000)
    for side in (14000, 40000):
        found = claims(side, side)
        assert isinstance(found, Unseen) and "160 million dots" in found.message


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"GIF89a" + bytes(40), "is a GIF, which is not read here"),
        (b"BM" + bytes(40), "is a BMP, which is not read here"),
        (b"%PDF-1.7" + bytes(40), "is a PDF, which is not read here"),
        (bytes(4) + b"ftypheic" + bytes(40), "is a HEIC or AVIF picture, or a film, which is not read here"),
        (b" <svg></svg>", "is an SVG drawing, which is not read here"),
        (b"", "is empty"),
        (b"hello", "is not a picture that can be read"),
    ],
)
def test_what_is_no_photograph_is_told_by_what_it_is_whatever_its_name(
    tmp_path: Path, content: bytes, says: str
) -> None:
    (tmp_path / "one.jpg").write_bytes(content)
    found = upright_size(tmp_path, "one.jpg")
    assert isinstance(found, Unseen) and found.sort == "unreadable"
    assert found.message == f"'one.jpg' {says}." and found.hint


def test_a_folder_in_place_of_a_picture_is_told_with_a_picture_of_it(tmp_path: Path) -> None:
    (tmp_path / "shots").mkdir()
    (tmp_path / "shots" / "cock.jpg").write_bytes(b"x")
    found = upright_size(tmp_path, "shots")
    assert isinstance(found, Unseen) and found.message == "'shots' is a folder, not a picture."
    assert "file: shots/cock.jpg" in found.hint


def test_a_side_that_is_none_is_told_with_those_that_are(sample: Path) -> None:
    (sample / "photographs.yaml").write_text(f"{HEAD}    points: {{fuel cock: {{at: [9 %, 9 %], side: top}}}}\n")
    _, problems = load_folder(sample)
    assert [(p.code, p.message, p.hint) for p in problems] == [
        ("H108", "'side' of the point fuel cock can be left, right or over, not 'top'.", "Write left, right or over.")
    ]
