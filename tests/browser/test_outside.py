"""Every page of a pack before judges that are not ours: axe-core in the browser, and the parser of the standard.

And what those do not see: the keyboard, a small screen, links, words that are of another state than the picture.
"""

import re
import shutil
from datetime import date
from pathlib import Path
from typing import Any
from urllib.parse import unquote

import numpy as np
import pytest

from cutaway.api.corrections import publish
from tests.browser.axe import violations
from tests.browser.by_keyboard import unreachable
from tests.browser.in_words import description, unlike, unsaid, untold
from tests.draw.two_renderers import by_resvg, grey
from tests.publish.demo import made
from tests.publish.valid_html import faults


@pytest.fixture(scope="module")
def pack(wrong_demo: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The pack of a demo with wrong sentences, published and then changed, so that it has a page of errata too."""
    base = tmp_path_factory.mktemp("outside") / "demo"
    shutil.copytree(wrong_demo, base)
    folder, out = base / "whinchat", base / "pack"
    marked, problems = publish(folder, date(2026, 5, 1), out, as_it_is=True)
    assert marked is not None, problems
    script = folder / "scripts" / "01-fuel.md"
    script.write_text(script.read_text(encoding="utf-8").replace("eleven gallons", "11 gallons", 1), encoding="utf-8")
    again, problems = made(folder, out, base / "memory.sqlite")
    assert again is not None and again.touched, problems
    return again.folder


def pages(pack: Path) -> list[Path]:
    found = sorted(pack.rglob("*.html"))
    assert {"index.html", "contents.html", "errata.html", "glossary.html"} <= {path.name for path in found}
    assert {"prompter", "shots"} <= {path.parent.name for path in found}
    return found


# All sheets of a page are made alike; with a hundred of them axe-core takes a minute.
_FEW_SHEETS = "[...document.querySelectorAll('figure')].slice(2).forEach(figure => figure.remove())"


def test_no_page_breaks_a_rule_of_accessibility(browser: Any, pack: Path) -> None:
    broken: dict[str, list[str]] = {}
    for path in pages(pack):
        for scheme in ("light", "dark") if path.parent == pack else ("light",):
            page = browser.new_page(color_scheme=scheme)
            page.goto(path.as_uri())
            page.evaluate(_FEW_SHEETS)
            found = violations(page)
            if found:
                broken[f"{path.relative_to(pack)} ({scheme})"] = found
            page.close()
    assert broken == {}


def one_of_each(pack: Path) -> list[Path]:
    """The pages, of those of scripts the first only: they are made alike."""
    found: dict[str, Path] = {}
    for path in pages(pack):
        found.setdefault(path.name if path.parent == pack else path.parent.name, path)
    return list(found.values())


def test_every_control_is_reached_by_keyboard_and_seen_when_it_is(browser: Any, pack: Path) -> None:
    lost: dict[str, list[str]] = {}
    for path in one_of_each(pack):
        page = browser.new_page(viewport={"width": 1000, "height": 800})
        page.goto(path.as_uri())
        if found := unreachable(page):
            lost[path.relative_to(pack).as_posix()] = found
        page.close()
    assert lost == {}


def test_nothing_but_a_drawing_is_moved_sideways_on_a_small_screen(browser: Any, pack: Path) -> None:
    """At 320 pixels, as at 1280 enlarged four times, with all that is folded away opened."""
    wide: dict[str, list[str]] = {}
    page = browser.new_page(viewport={"width": 320, "height": 640})
    for path in one_of_each(pack):
        page.goto(path.as_uri())
        page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
        found = page.evaluate(_SIDEWAYS)
        if page.evaluate("document.documentElement.scrollWidth") > 320 or found:
            wide[path.relative_to(pack).as_posix()] = found
    page.close()
    assert wide == {}


_SIDEWAYS = """() => [...document.querySelectorAll('body, body *')]
    .filter(e => e.checkVisibility() && e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).overflowX === 'auto')
    .filter(e => !e.matches('.drawn') && !e.querySelector('.tally thead b')).map(e => e.outerHTML.slice(0, 90))"""


def test_every_page_is_html_by_the_letter(pack: Path) -> None:
    wrong = {
        path.relative_to(pack).as_posix(): found
        for path in pages(pack)
        if (found := faults(path.read_text(encoding="utf-8")))
    }
    assert wrong == {}


def test_every_link_leads_to_a_file_of_the_pack(pack: Path) -> None:
    lost = [
        f"{path.relative_to(pack)}: {link}"
        for path in pages(pack)
        for link in re.findall(r'(?:href|src|srcset)="([^"#]+)', path.read_text(encoding="utf-8"))
        if not link.startswith("data:") and not (path.parent / unquote(link)).is_file()
    ]
    assert lost == []


def test_every_picture_is_told_in_words_that_are_its_own(pack: Path) -> None:
    """None without words, none with those of another state; what is drawn beside a part is what is said of it."""
    assert [line for path in pages(pack) for line in untold(path)] == []
    for folder, wrong in (("sheets", unlike), ("panels", unsaid)):
        drawings = [path.read_text(encoding="utf-8") for path in sorted((pack / folder).glob("*.svg"))]
        assert len(drawings) >= 20
        assert [line for svg in drawings for line in wrong(svg)] == []


def test_words_of_another_state_are_found_out(pack: Path, tmp_path: Path) -> None:
    one, other = (
        (pack / "sheets" / f"fuel-mk-2-{place}.svg").read_text(encoding="utf-8") for place in ("parked", "cruising")
    )
    stale = one.replace(description(one), description(other))
    assert stale != one and any("tank selector" in line for line in unlike(stale))
    words, end, drawn = (pack / "panels" / "mk-2-parked.svg").read_text(encoding="utf-8").partition("</desc>")
    assert any("selector" in line for line in unsaid(words.replace("): off", "): port tank") + end + drawn))
    (tmp_path / "sheets").mkdir()
    (tmp_path / "sheets" / "a.svg").write_text(one, encoding="utf-8")
    page = tmp_path / "a.html"
    told = '<figure><img src="sheets/a.svg" alt="Fuel" aria-describedby="w1"></figure><li id="w1">{}</li>'
    for words, count in ((description(one), 0), (description(other), 1), ("", 1)):
        page.write_text(told.format(words.replace("'", "&#x27;")), encoding="utf-8")
        assert len(untold(page)) == count


def test_two_renderers_draw_sheets_and_panels_alike(browser: Any, pack: Path) -> None:
    drawings = [pack / "sheets" / "fuel-mk-2-cruising.svg", *sorted((pack / "panels").glob("*mk-2-cruising*.svg"))]
    assert len(drawings) > 1
    for path in drawings:
        svg = path.read_text(encoding="utf-8")
        one = by_resvg(svg)
        width, height = (round(float(side)) for side in re.findall(r'(?:width|height)="([\d.]+)"', svg[:400])[:2])
        page = browser.new_page(viewport={"width": width, "height": height}, color_scheme="light")
        page.set_content(f'<body style="margin:0">{svg}</body>')
        other = grey(page.screenshot())
        page.close()
        assert one.shape == other.shape
        difference = np.abs(one - other)
        assert difference.mean() < 0.004 < 10 * np.abs(1.0 - other).mean(), path.name
        assert difference.max() < 0.4, path.name


def test_the_judges_do_find_what_is_wrong(browser: Any, tmp_path: Path) -> None:
    body = "<body><img src='a.png'><p>a<div></p></body>"
    text = f"<!DOCTYPE html>\n<html lang='en'><head><title>a</title></head>{body}</html>"
    (tmp_path / "a.html").write_text(text, encoding="utf-8")
    page = browser.new_page()
    page.goto((tmp_path / "a.html").as_uri())
    assert any(line.startswith("image-alt:") for line in violations(page))
    page.close()
    assert len(faults(text)) >= 2
    links = (
        "<a href='#a'>a</a><a href='#b' style='outline: none'>b</a><a href='#c' tabindex='-1'>c</a><a href='#d'>d</a>"
    )
    page = browser.new_page()
    page.set_content(f"<style>:focus-visible {{ outline: 3px solid }}</style><body>{links}</body>")
    unmarked, lost = unreachable(page)
    assert unmarked.startswith('not marked: <a href="#b"') and "3 of 4" in lost and 'href="#c"' in lost
    page.close()
