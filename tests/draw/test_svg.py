"""The one writer: escaped, fixed decimals, same bytes."""

from xml.etree import ElementTree as ET

from hypothesis import given
from hypothesis import strategies as st

from cutaway.draw.shapes import Circle, Group, Line, Path, Picture, Polyline, Rect, Text, placed
from cutaway.draw.svg import slug, write_inner_svg, write_svg
from cutaway.draw.theme import DARK, LIGHT

SVG = "{http://www.w3.org/2000/svg}"


def picture(words: str) -> Picture:
    """One of each shape, the words wherever words go."""
    shapes = (
        Line((0.0, 1 / 3), (2e-9, -1e-9), "stroke"),
        Polyline(((0.0, 0.0), (1.0, 2.0)), "thin"),
        Circle((1.0, 1.0), 0.5, "edge"),
        Rect((0.0, 0.0), (2.0, 1.0), "box", 0.25),
        Path((("M", (0.0, 0.0)), ("A", (1.0, 1.0, 0.0, 0.0, 1.0, 2.0, 0.0)), ("Z", ())), "stroke"),
        Text((1.0, 2.0), words, "name", 17.0, "middle", 40.0),
    )
    return Picture((100.0, 50.0), (Group(shapes, "part", words, words, words, words, words),), words, words, (words,))


def test_words_are_escaped_and_come_back() -> None:
    words = 'Hallam & Reeve\'s <"Whinchat"> × 2'
    text = write_svg(picture(words), "light")
    root = ET.fromstring(text)
    assert [e.text for e in root.iter(f"{SVG}text")] == [words]
    assert root.find(f"{SVG}title").text == words  # type: ignore[union-attr]
    assert {e.get("data-part") for e in root.iter() if e.get("data-part")} == {words}
    assert "Hallam &amp; Reeve" in text and "Hallam & Reeve" not in text


@given(st.text(max_size=40))
def test_any_words_make_a_well_formed_file(words: str) -> None:
    text = write_svg(picture(words), "dark")
    text.encode("utf-8")
    ET.fromstring(text)


def test_numbers_have_fixed_decimals_and_no_minus_nought() -> None:
    text = write_svg(picture("x"), "light")
    assert 'x1="0" y1="0.33" x2="0" y2="0"' in text
    assert 'd="M 0 0 A 1 1 0 0 1 2 0 Z"' in text


def test_no_colour_outside_the_stylesheet() -> None:
    text = write_svg(picture("x"), "light")
    body = text[text.index("</style>") :]
    assert "#" not in body and "fill=" not in body and "stroke=" not in body and "style=" not in body


def test_placed_scales_and_moves_every_number() -> None:
    moved = placed(picture("x").shapes, (10.0, 20.0), 2.0)[0]
    assert isinstance(moved, Group)
    line, _, circle, rect, path, text = moved.shapes
    assert isinstance(line, Line) and line.start == (10.0, 20.0 + 2 / 3)
    assert isinstance(circle, Circle) and (circle.centre, circle.radius) == ((12.0, 22.0), 1.0)
    assert isinstance(rect, Rect) and (rect.corner, rect.size, rect.radius) == ((10.0, 20.0), (4.0, 2.0), 0.5)
    assert isinstance(path, Path) and path.commands[1] == ("A", (2.0, 2.0, 0.0, 0.0, 1.0, 14.0, 20.0))
    assert isinstance(text, Text) and (text.at, text.size, text.width) == ((12.0, 24.0), 34.0, 80.0)


def test_slugs() -> None:
    assert slug("Fuel Mk 2 with mod 12") == "fuel-mk-2-with-mod-12"
    assert slug("Électricité") == "electricite" and slug("§") == "x"


def test_a_file_for_both_screens_is_light_and_says_what_changes_in_the_dark() -> None:
    text = write_svg(picture("x"), "both")
    style = text[text.index("<style>") : text.index("</style>")]
    plain, dark = style.split("@media screen and (prefers-color-scheme:dark)")
    assert f"fill:{LIGHT.ink('ink')}" in plain and DARK.ink("paper") not in plain
    assert f".sheet .paper{{fill:{DARK.ink('paper')}}}" in dark
    assert "stroke-width" not in dark and LIGHT.ink("paper") not in dark


def test_inside_a_page_a_picture_has_its_title_and_no_stylesheet() -> None:
    root = ET.fromstring(write_inner_svg(picture("x")))
    title = root.find(f"{SVG}title")
    assert title is not None and title.get("id") == root.get("aria-labelledby")
    assert root.find(f"{SVG}style") is None and root.find(f"{SVG}desc") is None
