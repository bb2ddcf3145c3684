"""A sheet at several moments: stills that differ where things differ, and one drawing that moves and can be stopped."""

import io
import re
from dataclasses import replace
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import numpy as np
import numpy.typing as npt
import pytest
from PIL import Image

from cutaway.draw.extent import extent_of
from cutaway.draw.pages import smallest_points
from cutaway.draw.sequence import MOST_STEPS, Moment, stills, told, write_moving_svg
from cutaway.draw.shapes import Circle, Group, Picture, Shape, Text
from cutaway.draw.sheet import sheet_picture, used_in_all
from cutaway.draw.strip import head_shapes
from cutaway.draw.theme import THEMES, Manner, contrast
from cutaway.parts.library import KINDS
from cutaway.publish.stills import SIZES, still
from tests.draw import by_hand

Grey = npt.NDArray[np.float64]
SECONDS = 2.0


def moment(words: str, values: Any, cache: Path) -> Moment:
    picture, problems = sheet_picture(by_hand.FUEL, by_hand.MK, "Fuel", values, KINDS, "Then.", cache)
    assert picture is not None and problems == ()
    return Moment(words, picture)


@pytest.fixture(scope="module")
def moments(layouts: Path) -> tuple[Moment, ...]:
    """Fed, starved, fed again."""
    said = (("before", by_hand.RUNNING), ("at 5 s", by_hand.STARVED), ("at 9 s", by_hand.RUNNING))
    return tuple(moment(words, values, layouts) for words, values in said)


def grey(png: bytes) -> Grey:
    image = Image.open(io.BytesIO(png)).convert("L").resize((400, 225), Image.Resampling.BOX)
    return np.asarray(image, dtype=np.float64) / 255


def alike(one: Grey, other: Grey) -> bool:
    difference = np.abs(one - other)
    return bool(difference.mean() < 0.003 and difference.max() < 0.35)


def opened(browser: Any, path: Path, **how: Any) -> Any:
    page = browser.new_context(viewport={"width": 1920, "height": 1080}, **how).new_page()
    page.set_content(f"<style>body{{margin:0}}svg{{width:100vw;height:auto}}</style>{path.read_text(encoding='utf-8')}")
    return page


def keys(shapes: tuple[Shape, ...]) -> list[str]:
    return [one.part or one.line for one in shapes if isinstance(one, Group)]


def test_every_moment_is_drawn_as_its_still(moments: tuple[Moment, ...], browser: Any, tmp_path: Path) -> None:
    path = tmp_path / "moving.svg"
    path.write_text(write_moving_svg(moments, "light", SECONDS), encoding="utf-8")
    shown = [grey(still(picture, SIZES[0])) for picture in stills(moments)]
    assert not alike(shown[0], shown[1])
    page = opened(browser, path, reduced_motion="no-preference")
    assert page.evaluate("document.getAnimations().length") > 0
    for number in range(len(moments)):
        at = 1000 * SECONDS * number + 500
        page.evaluate(f"document.getAnimations().forEach(a => {{ a.pause(); a.currentTime = {at} }})")
        assert alike(grey(page.screenshot()), shown[number]), number
    page.context.close()


def test_it_stands_still_where_no_motion_is_wanted(moments: tuple[Moment, ...], browser: Any, tmp_path: Path) -> None:
    path = tmp_path / "moving.svg"
    path.write_text(write_moving_svg(moments, "light", SECONDS), encoding="utf-8")
    shown = [grey(still(picture, SIZES[0])) for picture in stills(moments)]
    page = opened(browser, path, reduced_motion="reduce")
    assert page.evaluate("document.getAnimations().length") == 0
    assert alike(grey(page.screenshot()), shown[0])
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")  # the visible link of the second moment
    page.evaluate("document.activeElement.blur()")
    assert alike(grey(page.screenshot()), shown[1])
    page.context.close()


def test_a_renderer_that_knows_no_motion_shows_the_first_moment(moments: tuple[Moment, ...]) -> None:
    import resvg_py

    from cutaway.draw.measure import font_file

    fonts = [str(font_file()), str(font_file(bold=True))]
    drawn = resvg_py.svg_to_bytes(
        svg_string=write_moving_svg(moments, "light", SECONDS), width=1920, skip_system_fonts=True, font_files=fonts,
        sans_serif_family="DejaVu Sans",
    )  # fmt: skip
    assert alike(grey(bytes(drawn)), grey(still(stills(moments)[0], SIZES[0])))


def test_what_is_the_same_stands_once(moments: tuple[Moment, ...]) -> None:
    text = write_moving_svg(moments, "light", SECONDS)
    tree = ElementTree.fromstring(text)
    ids = [one.get("id") for one in tree.iter() if one.get("id")]
    assert len(ids) == len(set(ids))
    parts = [one.get("data-part") for one in tree.iter() if one.get("data-part")]
    assert parts.count("filter") == 1 and parts.count("tank selector") == 2  # two looks, three moments
    assert len(text) < 2 * len(write_moving_svg(moments[:1], "light", SECONDS))
    assert "fill:#1b2126" in text and "prefers-reduced-motion:no-preference" in text


def test_nothing_moves_its_place(moments: tuple[Moment, ...]) -> None:
    """The layout does not hang on the state, so that from still to still only states change."""
    drawings = [
        next(g for g in one.picture.shapes if isinstance(g, Group) and g.role == "drawing").shapes for one in moments
    ]
    assert keys(drawings[0]) == keys(drawings[1]) and len({one.picture.size for one in moments}) == 1


def test_it_is_told_in_words(moments: tuple[Moment, ...]) -> None:
    words = told(moments)
    assert words[0] == "A sequence of 3 moments." and words[1] == "Before."
    assert words[-2].startswith("At 5 s: ") and "starved" in words[-2]
    assert "filter" not in words[-2].partition("Parts:")[2].partition(". ")[0]
    same = told((moments[0], moments[2]))
    assert same[-1] == "At 9 s: all is as before."


def test_many_moments_are_counted_in_words(moments: tuple[Moment, ...]) -> None:
    many = tuple(Moment(f"at {n} s", moments[n % 2].picture) for n in range(MOST_STEPS + 1))
    text = write_moving_svg(many, "light", SECONDS)
    assert f"at 3 s · 4 of {MOST_STEPS + 1}" in text and "<a " not in text and 'role="img"' in text
    few = write_moving_svg(moments, "light", SECONDS)
    assert 'role="group"' in few
    assert {f"#{link}" for link in re.findall(r'id="([^"]*-moment-\d)"', few)} <= set(
        re.findall(r'href="([^"]+)"', few)
    )


@pytest.mark.parametrize("size", SIZES, ids=lambda size: size.name)
def test_stills_have_exactly_their_size(moments: tuple[Moment, ...], size: Any) -> None:
    png = still(moments[0].picture, size)
    assert Image.open(io.BytesIO(png)).size == (size.across, size.down)
    assert png == still(moments[0].picture, size)


def test_nothing_behind_a_clear_drawing(moments: tuple[Moment, ...]) -> None:
    opaque = np.asarray(Image.open(io.BytesIO(still(moments[0].picture, SIZES[0], ground="clear"))))[..., 3]
    assert (opaque[200:500, :60] == 0).all() and (opaque == 255).any()
    panel = np.asarray(Image.open(io.BytesIO(still(moments[0].picture, SIZES[0], ground="panel"))))[..., 3]
    assert 200 < panel[300, 30] < 255
    paper = np.asarray(Image.open(io.BytesIO(still(moments[0].picture, SIZES[0]))))[..., 3]
    assert (paper == 255).all()


def test_couplings_are_edged_on_a_film(moments: tuple[Moment, ...]) -> None:
    from cutaway.draw.over_film import over_film

    def halos(picture: Picture) -> int:
        drawing = next(g for g in picture.shapes if isinstance(g, Group) and g.role == "drawing")
        couplings = [one for one in drawing.shapes if isinstance(one, Group) and one.role == "coupling"]
        return sum(getattr(shape, "role", "") == "halo" for one in couplings for shape in one.shapes)

    assert halos(moments[0].picture) == 0 < halos(over_film(moments[0].picture))


def titled(one: Moment, words: str, count: int) -> tuple[Moment, ...]:
    """Moments of a sheet whose title is of those words."""
    head, *rest = one.picture.shapes
    assert isinstance(head, Group) and head.role == "head"
    lines, _ = head_shapes(words, "Then.", one.picture.size[0])
    picture = replace(one.picture, shapes=(replace(head, shapes=lines), *rest))
    return tuple(Moment(f"at {n} s", picture) for n in range(count))


@pytest.mark.parametrize("count", [2, 5, 12, 13])
def test_a_long_title_leaves_room_for_its_moment(moments: tuple[Moment, ...], count: int) -> None:
    words = "Turnstone Mk 2 with mod 31: the way of the oil from the pumps to the flaps"
    for picture in stills(titled(moments[0], words, count)):
        head, moment = (next(s for s in picture.shapes if isinstance(s, Group) and s.role == role)
                        for role in ("head", "moment"))  # fmt: skip
        title = [s for s in head.shapes if isinstance(s, Text) and s.role == "title"]
        assert " ".join(line.words for line in title) == words
        assert not extent_of(title).meets(extent_of(moment.shapes))
        assert smallest_points(picture) >= 7.0


def test_a_name_that_no_line_holds_is_cut_before_the_moment(moments: tuple[Moment, ...]) -> None:
    first = moments[0].picture
    head, _ = head_shapes("Sparrow" * 40, "Then.", first.size[0])
    shapes = (Group(head, "head"), *(s for s in first.shapes if not isinstance(s, Group) or s.role != "head"))
    named = tuple(replace(one, picture=replace(first, shapes=shapes)) for one in moments)
    for picture in stills(named):
        top, moment = (next(s for s in picture.shapes if isinstance(s, Group) and s.role == role)
                       for role in ("head", "moment"))  # fmt: skip
        (title,) = (s for s in top.shapes if isinstance(s, Text) and s.role == "title")
        assert title.words.startswith("SparrowSparrow") and title.words.endswith("…")
        assert not extent_of((title,)).meets(extent_of(moment.shapes))


@pytest.mark.parametrize("manner", ["light", "dark"])
def test_the_number_of_the_moment_can_be_read(moments: tuple[Moment, ...], manner: Manner) -> None:
    """On the ring that glows, in a still too: what is drawn there, by the published formula."""
    picture = stills(moments)[1]
    group = next(s for s in picture.shapes if isinstance(s, Group) and s.role == "moment")
    ring = next(c for g in group.shapes if isinstance(g, Group) for c in g.shapes
                if isinstance(c, Circle) and c.role == "glass lit")  # fmt: skip
    dots = np.asarray(Image.open(io.BytesIO(still(picture, SIZES[0], manner))).convert("RGB"))
    larger = SIZES[0].across / picture.size[0]
    x, y, reach = ring.centre[0] * larger, ring.centre[1] * larger, ring.radius * larger * 0.5
    inside = dots[int(y - reach) : int(y + reach), int(x - reach) : int(x + reach)].reshape(-1, 3)
    shades = {"#" + "".join(f"{int(part):02x}" for part in dot) for dot in inside}
    assert max(contrast(shade, THEMES[manner].ink("glow")) for shade in shades) >= 4.5


def test_opened_by_itself_it_is_no_wider_than_the_window(
    moments: tuple[Moment, ...], browser: Any, tmp_path: Path
) -> None:
    path = tmp_path / "moving.svg"
    path.write_text(write_moving_svg(moments, "light", SECONDS), encoding="utf-8")
    page = browser.new_page(viewport={"width": 700, "height": 500})
    page.goto(path.as_uri())
    assert page.evaluate("document.documentElement.getBoundingClientRect().width") <= 700
    page.close()


def test_what_stands_around_a_sheet_stays_as_it_is_from_moment_to_moment(layouts: Path) -> None:
    """Or the words of the key would run into one another where a film fades from one to the next."""
    states = (by_hand.RUNNING, by_hand.STARVED)
    used = used_in_all(by_hand.FUEL, by_hand.MK, "Fuel", states, KINDS, layouts)
    alone, together = (
        [
            sheet_picture(by_hand.FUEL, by_hand.MK, "Fuel", values, KINDS, "Then.", layouts, used=one)[0]
            for values in states
        ]
        for one in (None, used)
    )
    around = [
        [
            tuple(s for s in picture.shapes if isinstance(s, Group) and s.role != "drawing")
            for picture in some
            if picture
        ]
        for some in (alone, together)
    ]
    assert around[0][0] != around[0][1] and around[1][0] == around[1][1] and around[1][0]
    assert used_in_all(by_hand.FUEL, by_hand.MK, "none", states, KINDS, layouts) is None
