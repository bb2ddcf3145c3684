"""Two renderers that share no code draw sheets, panels and call-outs alike, and the words are there in both."""

import base64
import io
import re
from pathlib import Path
from typing import Any, Literal

import numpy as np
import pytest
from PIL import Image

from cutaway.draw.callouts import STYLE, callouts_picture
from cutaway.draw.measure import text_width
from cutaway.draw.panel import panel_pictures
from cutaway.draw.sheet import make_sheet
from cutaway.draw.svg import write_svg
from cutaway.draw.theme import Manner
from cutaway.handbook.load import load_folder
from cutaway.handbook.records import Folder, Photograph, Point
from cutaway.machine.subjects import subjects
from cutaway.parts.library import KINDS
from cutaway.problems.span import Span, TextFile
from cutaway.publish.stills import drawing
from cutaway.quantities.which import Which
from tests.draw import by_hand
from tests.draw.two_renderers import by_chromium, by_resvg, drawn_alike

DEMO = Path(__file__).parents[2] / "demo" / "whinchat"


def sheet(theme: Manner, cache: Path) -> str:
    text, problems = make_sheet(by_hand.FUEL, by_hand.MK, "Fuel", by_hand.STARVED, KINDS, theme, "Starved.", cache)
    assert problems == ()
    return text


def on_white(words: str, style: str) -> str:
    """One line of words on a white ground, from its left edge."""
    ground = '<rect width="1200" height="80" fill="white"/>'
    text = f'<text x="0" y="60" {style}>{words}</text>'
    return f'<svg xmlns="http://www.w3.org/2000/svg" width="1200" height="80">{ground}{text}</svg>'


def inked_to(svg: str) -> int:
    """How far to the right anything is drawn."""
    return int(np.flatnonzero(by_resvg(svg).min(axis=0) < 0.95).max() + 1) * 4


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_both_renderers_draw_alike(theme: Manner, layouts: Path, browser: Any) -> None:
    svg = sheet(theme, layouts)
    one, other = by_resvg(svg), by_chromium(svg, browser)
    assert one.shape == other.shape
    drawn_alike(one, other, 0.003, 0.35)
    blank = by_chromium(re.sub(r"(?s)<g .*</g>", "", svg), browser)
    assert np.abs(blank - other).mean() > 10 * np.abs(one - other).mean()  # so the bounds are far below what a sheet is


@pytest.fixture(scope="module")
def whinchat() -> Folder:
    folder, _ = load_folder(DEMO, KINDS)
    assert folder is not None
    return folder


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_both_renderers_draw_a_panel_alike(theme: Manner, whinchat: Folder, browser: Any) -> None:
    (picture,) = panel_pictures(whinchat, subjects(whinchat)[0], None, KINDS)
    svg = write_svg(picture, theme)
    drawn_alike(by_resvg(svg), by_chromium(svg, browser))


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_both_renderers_draw_call_outs_alike(theme: Manner, whinchat: Folder, browser: Any) -> None:
    file = io.BytesIO()
    Image.linear_gradient("L").convert("RGB").resize((600, 400)).save(file, "PNG")
    here = Span(TextFile("photographs.yaml", ""), 0, 0)
    every = Which("", frozenset(one.name for one in whinchat.type.standards))
    sides: tuple[Literal["", "left", "right", "over"], ...] = ("left", "right", "over", "")
    points = tuple(
        Point(str(part.name), (part.name,), (0.15 + 0.2 * i, 0.2 + 0.15 * i), "It is there.", side, here)
        for i, (part, side) in enumerate(zip(whinchat.parts, sides, strict=False))
    )
    shot = Photograph("cockpit", "c.png", (600, 400), "A cockpit.", "Pell", "Ours.", "", "", every, points, here)
    href = f"data:image/png;base64,{base64.b64encode(file.getvalue()).decode()}"
    picture, problems = callouts_picture(whinchat, shot, href)
    assert problems == ()
    svg = drawing(picture, theme, style=STYLE)
    drawn_alike(by_resvg(svg), by_chromium(svg, browser))


def test_words_are_drawn(layouts: Path) -> None:
    svg = sheet("light", layouts)
    without = re.sub(r"<text .*?</text>", "", svg)
    assert np.abs(by_resvg(svg) - by_resvg(without)).mean() > 0.005


def test_a_wider_font_cannot_overflow(layouts: Path) -> None:
    """The words take up the width that they were measured for, whatever font is used."""
    words, size = "starboard contents gauge", 17.0
    width = text_width(words, size)
    fitted = f'textLength="{width}" lengthAdjust="spacingAndGlyphs"'
    ends = [inked_to(on_white(words, f'font-family="DejaVu Sans Mono" font-size="{size}" {f}')) for f in ("", fitted)]
    assert ends[0] > width + 12 and abs(ends[1] - width) <= 8


def test_measured_as_drawn() -> None:
    for bold, weight in ((False, "normal"), (True, "bold")):
        words, size = "flap non-return valve WAVE", 40.0
        svg = on_white(words, f'font-family="DejaVu Sans" font-weight="{weight}" font-size="{size}"')
        assert abs(inked_to(svg) - text_width(words, size, bold)) <= 12
