"""One place for the colours: pages take them from there alone, agree with the drawings, and can be read."""

import re
from collections.abc import Iterable
from pathlib import Path

import pytest

import cutaway.publish
from cutaway.draw.theme import DARK, LIGHT, PRINT, Theme, contrast
from cutaway.publish.colours import DRAWN, PAGE_ONLY, colours, named

ROOM = Path(cutaway.publish.__file__).parent
SHEETS = sorted(ROOM.rglob("*.css"))
WORDS = ("ink", "quiet", "link", "holds", "stated", "rests", "fails", "open")
"""What words are written in."""
LINES = ("edge", "caution-edge", "link", "rests", "fails", "ink")
"""What edges and marks are drawn in that must be seen; `rule` only parts what is parted already by space."""


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda path: path.name)
def test_no_style_sheet_has_a_colour_of_its_own(sheet: Path) -> None:
    text = sheet.read_text(encoding="utf-8")
    assert re.findall(r"#[0-9a-fA-F]{3,8}\b(?=[^{}]*;)|\b(?:rgba?|hsla?|oklch|light-dark|color-mix)\(", text) == []
    assert re.findall(r":\s*(?:white|black|grey|gray|red|green|blue|yellow)\b", text) == []
    assert not re.search(r"^\s*--(?!prose|plain|typed)", text, re.MULTILINE), "colours are named in colours.py"
    known = {*named(LIGHT), "prose", "plain", "typed"}
    assert set(re.findall(r"var\(--([a-z-]+)\)", text)) <= known


def test_there_are_style_sheets_and_every_colour_is_used() -> None:
    assert len(SHEETS) >= 5
    used = set(re.findall(r"var\(--([a-z-]+)\)", "".join(path.read_text(encoding="utf-8") for path in SHEETS)))
    assert {one.name for one in PAGE_ONLY} <= used


@pytest.mark.parametrize("theme", [LIGHT, DARK, PRINT], ids=lambda theme: str(theme.name))
def test_pages_and_drawings_agree(theme: Theme) -> None:
    assert {name: named(theme)[name] for name in DRAWN} == {name: theme.ink(name) for name in DRAWN}
    assert not {one.name for one in PAGE_ONLY} & {name for name, _ in theme.inks}, "one name for one colour"


@pytest.mark.parametrize("theme", [LIGHT, DARK, PRINT], ids=lambda theme: str(theme.name))
def test_words_and_edges_stand_out_from_every_ground(theme: Theme) -> None:
    colour = named(theme)
    weak = [(words, ground) for words, ground in _pairs(WORDS, ("paper", "face")) if _of(colour, words, ground) < 4.5]
    weak += [(words, "caution") for words in ("ink",) if _of(colour, words, "caution") < 4.5]
    weak += [(line, ground) for line, ground in _pairs(LINES, ("paper", "face")) if _of(colour, line, ground) < 3.0]
    assert weak == []


def test_the_css_has_light_dark_and_paper() -> None:
    both = colours("both")
    screen, paper = both.split("@media print")
    light, dark = screen.split("@media screen and (prefers-color-scheme:dark)")
    for text, theme in ((light, LIGHT), (dark, DARK), (paper, PRINT)):
        assert dict(re.findall(r"--([a-z-]+):(#[0-9a-f]{6})", text)) == named(theme)
    assert "color-scheme:light dark" in light and "color-scheme:light" in paper
    always = colours("dark").split("@media print")[0]
    assert dict(re.findall(r"--([a-z-]+):(#[0-9a-f]{6})", always)) == named(DARK) and "color-scheme:dark" in always


def _pairs(several: Iterable[str], grounds: Iterable[str]) -> list[tuple[str, str]]:
    grounds = tuple(grounds)
    return [(one, ground) for one in several for ground in grounds]


def _of(colour: dict[str, str], one: str, ground: str) -> float:
    return contrast(colour[one], colour[ground])
