"""The page of the demo's pack in a real browser: all its sheets, its links, its choices, a phone."""

from pathlib import Path
from typing import Any

import pytest

from cutaway.draw.theme import THEMES

VISIBLE = "[...document.querySelectorAll('figcaption b')].filter(e => e.checkVisibility()).map(e => e.textContent)"


@pytest.fixture(scope="module")
def wrong_page(wrong_demo: Path, browser: Any) -> Path:
    """The page of a copy of the demo with five wrong sentences."""
    return wrong_demo / "pack" / "index.html"


def rgb(ink: str) -> str:
    """A colour as a browser tells it."""
    return f"rgb({', '.join(str(int(ink[i : i + 2], 16)) for i in (1, 3, 5))})"


@pytest.mark.parametrize("width", [320, 390, 1400])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_it_can_be_read_on_any_screen(browser: Any, wrong_page: Path, width: int, scheme: str) -> None:
    page = browser.new_page(viewport={"width": width, "height": 900}, color_scheme=scheme)
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(wrong_page.as_uri())
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    paper = page.evaluate("getComputedStyle(document.querySelector('.sheet .paper')).fill")
    assert paper == rgb(THEMES[scheme].ink("paper"))
    # Words on a sheet are no smaller than small print, however narrow the screen.
    size = page.evaluate(
        "(() => { const t = [...document.querySelectorAll('.sheet text.note')].find(e => e.checkVisibility());"
        " return t.getBoundingClientRect().height; })()"
    )
    assert size >= 9
    assert asked == [wrong_page.as_uri()]
    page.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_drawing_by_itself_follows_the_screen_too(browser: Any, wrong_page: Path, scheme: str) -> None:
    page = browser.new_page(color_scheme=scheme)
    page.goto((wrong_page.parent / "sheets" / "fuel-mk-2-cruising.svg").as_uri())
    for part, ink in (("paper", "paper"), ("name", "ink")):
        found = page.evaluate(f"getComputedStyle(document.querySelector('.{part}')).fill")
        assert found == rgb(THEMES[scheme].ink(ink))
    page.close()


def test_links_lead_somewhere_and_ids_are_told_apart(browser: Any, wrong_page: Path) -> None:
    page = browser.new_page()
    page.goto(wrong_page.as_uri())
    assert page.evaluate(
        "[...document.querySelectorAll('a[href^=\"#\"]')].every(a => document.getElementById(a.hash.slice(1)))"
    )
    ids = page.evaluate("[...document.querySelectorAll('[id]')].map(e => e.id)")
    assert len(ids) == len(set(ids)) > 1000
    files = page.evaluate("[...document.querySelectorAll('a:not([href^=\"#\"])')].map(a => a.getAttribute('href'))")
    assert [name for name in files if not (wrong_page.parent / name).is_file()] == []
    page.close()


def test_one_sheet_is_chosen_by_keyboard(browser: Any, wrong_page: Path) -> None:
    page = browser.new_page()
    page.goto(wrong_page.as_uri())
    for name in ("Mk 2", "Fuel", "cruising"):
        page.get_by_label(name, exact=True).focus()
        page.keyboard.press("Space")
    assert page.evaluate(VISIBLE) == ["Fuel, Mk 2, cruising"]
    page.keyboard.press("ArrowRight")
    assert page.evaluate(VISIBLE) == ["Fuel, Mk 2, gliding"]
    page.close()


def test_what_is_wrong_is_on_the_first_screen(browser: Any, wrong_page: Path) -> None:
    page = browser.new_page(viewport={"width": 1180, "height": 900})
    page.goto(wrong_page.as_uri())
    box = page.get_by_role("region", name="What is wrong")
    assert "5 sentences are wrong" in box.inner_text()
    place = box.bounding_box()
    assert place["y"] + place["height"] < 900
    box.get_by_role("link").first.focus()
    page.keyboard.press("Enter")
    row = page.locator("li:target")
    assert row.get_by_text("Fails:").first.is_visible()
    page.close()
