"""The explorable page in a real browser: every state that a walk comes to is what the engine comes to by the same walk.

CUTAWAY_WALKS sets how many random walks are made; the full measure is 500.
"""

import os
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest

from cutaway.api.asking import Opened, opened
from cutaway.api.exploring import Explorable, Wanted, explore
from cutaway.draw.svg import write_inner_svg
from cutaway.inquiry.explore_checked import Walk, legs_of, random_walks
from cutaway.inquiry.workshop import Request
from cutaway.machine.records import Run
from cutaway.publish.explore.filling import picture_of
from tests.browser.axe import violations
from tests.browser.silent import silent_page
from tests.publish.valid_html import faults

FLAPS = Path(__file__).parents[1] / "trade" / "01-flaps-and-accumulator"
WALKS = int(os.environ.get("CUTAWAY_WALKS", "24"))
LONGEST = 7
# A needle, a piston or a level may stand this far off, in units of the drawing, of which the sheet has 1,600.
WITHIN = 0.6


@pytest.fixture(scope="module")
def here() -> Opened:
    folder, _ = opened(FLAPS)
    assert folder is not None
    return folder


@pytest.fixture(scope="module")
def made(here: Opened) -> Explorable:
    found, _ = explore(
        here, Wanted("Flaps", "", "flying", ("flap selector",), "60 s", 400), walks=WALKS if WALKS > 100 else 0
    )
    assert found is not None
    return found


@pytest.fixture(scope="module")
def page_file(made: Explorable, tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("explore") / "flaps.html"
    path.write_text(made.page, encoding="utf-8")
    return path


@pytest.fixture
def shown(browser: Any, page_file: Path) -> Iterator[Any]:
    with silent_page(browser, page_file, 1280, 900) as page:
        yield page


def press(page: Any, told: str) -> None:
    page.get_by_role("button", name=told, exact=True).first.press("Enter")


Drawn = list[tuple[str, str, str, tuple[float, ...]]]


def flat(svg: str) -> Drawn:
    """A drawing as its elements in order: tag, classes, words, numbers; without the marks of the page's own."""
    found: Drawn = []
    for element in ElementTree.fromstring(svg).iter():
        tag = element.tag.rsplit("}", 1)[-1]
        classes = element.get("class", "")
        if re.fullmatch(r"place p\d+", classes):
            continue
        classes = re.sub(r" ?titled p\d+", "", classes)
        rest = " ".join(v for k, v in sorted(element.items()) if k not in ("class", "role", "aria-labelledby"))
        numbers = tuple(float(n) for n in re.findall(r"-?\d+(?:\.\d+)?", rest))
        found.append((tag, classes, (element.text or "").strip(), numbers))
    return found


def test_random_walks_show_what_the_engine_shows(browser: Any, here: Opened, made: Explorable, page_file: Path) -> None:
    walks = random_walks(made.worked.found, WALKS, LONGEST, seed=1944)
    wanted = dict(engine_shows(here, made, walks))
    page = browser.new_page()
    page.goto(page_file.as_uri())
    looked: set[int] = set()
    for walk in walks:
        seen = page.evaluate(WALK, [made.worked.found.movements.index(one) for one in walk.movements])
        for length, (stop, _, _, parts) in enumerate(seen, 1):
            looked.add(stop)
            values, notes = wanted[walk.movements[:length]]
            assert parts == [", ".join(notes[name]) for name in made.view.parts]
        _, svg, words, _ = seen[-1]
        picture, _ = picture_of(made.worked, here.loaded.folder, values, None)
        assert picture is not None
        assert words == list(picture.description)
        assert_drawn_alike(flat(svg), flat(write_inner_svg(picture)))
    assert len(looked) >= min(20, WALKS // 2)
    page.close()


WALK = """moves => {
    document.getElementById('again').click();
    const found = [];
    for (const move of moves) {
        document.querySelector(`button[data-move="${move}"]`).click();
        found.push([Number(document.body.dataset.stop),
            new XMLSerializer().serializeToString(document.querySelector('.drawn svg')),
            [...document.querySelectorAll('#words li')].map(e => e.textContent),
            [...document.querySelectorAll('#parts .words')].map(e => e.textContent)]);
    }
    return found; }"""


def engine_shows(here: Opened, made: Explorable, walks: tuple[Walk, ...]) -> Iterator[tuple[Any, Any]]:
    """What the engine comes to after each movement of each walk, run from the very beginning, and its words."""
    found, seen = made.worked.found, made.worked.showing
    every = list(dict.fromkeys(walk.movements[: n + 1] for walk in walks for n in range(len(walk.movements))))
    ground = found.ground
    requests = [Request(ground.made, legs_of(found, movements), (), 0.05) for movements in every]
    for movements, run in zip(every, here.workshop.runs(requests), strict=True):
        assert isinstance(run, Run)
        values = dict(zip(run.names, map(float, run.values[-1]), strict=True))
        yield movements, (values, dict(seen.of(values).notes))


def assert_drawn_alike(page: Drawn, engine: Drawn) -> None:
    assert [one[:3] for one in page] == [one[:3] for one in engine]
    for one, other in zip(page, engine, strict=True):
        assert len(one[3]) == len(other[3])
        assert all(abs(a - b) <= WITHIN for a, b in zip(one[3], other[3], strict=True)), (one, other)


def test_the_selector_reversed_frees_the_flaps_by_keyboard_alone(shown: Any) -> None:
    def reach(words: str) -> None:
        for _ in range(60):
            shown.keyboard.press("Tab")
            if shown.evaluate("document.activeElement.getAttribute('aria-label')") == words:
                return
        raise AssertionError(words)

    def flaps() -> str:
        words: str = shown.locator("#parts details", has_text="flaps").locator(".words").inner_text()
        return words

    assert flaps().startswith("up")
    reach("flap selector to down")
    shown.keyboard.press("Enter")
    stuck = flaps()
    assert re.fullmatch(r"[12]\d(\.\d)? deg", stuck)
    reach("wait 60 s")
    for _ in range(3):
        shown.keyboard.press("Space")
        assert flaps() == stuck
    assert "Nothing that is told of here changes." in shown.get_by_role("status").inner_text()
    # What a lever that stays put does for a moment only is folded away.
    shown.keyboard.press("Shift+Tab")
    assert shown.evaluate("document.activeElement.textContent") == "For a moment, then back"
    shown.keyboard.press("Enter")
    reach("flap selector to up for 1 s, then back")
    shown.keyboard.press("Enter")
    assert flaps().startswith("down, 60 deg")
    came = shown.get_by_role("status").inner_text()
    assert "the cut-out is charging" in came and "the flaps are down" in came
    assert f"flaps: down, 60 deg (before: {stuck})" in came
    press(shown, "One back")
    assert flaps() == stuck
    press(shown, "Begin again")
    assert flaps().startswith("up")


def test_where_it_stands_is_said_and_pressed(shown: Any) -> None:
    pressed = "[...document.querySelectorAll('[aria-pressed=true]')].map(e => e.getAttribute('aria-label'))"
    assert shown.evaluate(pressed) == ["flap selector to neutral"]
    press(shown, "flap selector to down")
    assert shown.evaluate(pressed) == ["flap selector to down"]
    assert shown.locator("#now-0").inner_text() == "down"
    press(shown, "flap selector to down")
    assert "stands there already" in shown.get_by_role("status").inner_text()
    assert shown.locator("#walk li").count() == 2


def test_a_walk_can_be_handed_on_as_an_address(shown: Any, browser: Any) -> None:
    press(shown, "flap selector to down")
    press(shown, "wait 60 s")
    words = shown.locator("#parts").inner_text()
    other = browser.new_page()
    other.goto(shown.url)
    assert other.locator("#parts").inner_text().replace("· changed", "") == words.replace("· changed", "")
    other.goto(shown.url.split("#")[0] + "#walk=999.x")
    other.reload()
    assert other.locator("#walk li").count() == 1
    other.close()


def test_beyond_the_bound_it_says_so(browser: Any, here: Opened, tmp_path: Path) -> None:
    small, _ = explore(here, Wanted("Flaps", "", "flying", ("flap selector",), "60 s", 2), walks=0)
    assert small is not None
    path = tmp_path / "small.html"
    path.write_text(small.page, encoding="utf-8")
    page = browser.new_page()
    page.goto(path.as_uri())
    shut = page.locator("button[aria-disabled=true][title*='not worked out']").first
    shut.click(force=True)
    assert "not worked out from here" in page.get_by_role("status").inner_text()
    assert page.locator("#walk li").count() == 1
    page.close()


def test_it_asks_for_nothing_else(browser: Any, page_file: Path) -> None:
    page = browser.new_page()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(page_file.as_uri())
    press(page, "flap selector to down")
    page.wait_for_load_state("networkidle")
    assert asked == [page_file.as_uri()]
    assert page_file.stat().st_size < 1_500_000
    page.close()


@pytest.mark.parametrize("width", [320, 360, 768, 1280])
def test_nothing_runs_out_of_the_window(browser: Any, page_file: Path, width: int) -> None:
    page = browser.new_page(viewport={"width": width, "height": 800})
    page.goto(page_file.as_uri())
    press(page, "flap selector to down")
    page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    page.close()


@pytest.mark.parametrize("width, height", [(1280, 800), (390, 844)])
def test_what_came_is_seen_beside_what_was_pressed(browser: Any, page_file: Path, width: int, height: int) -> None:
    page = browser.new_page(viewport={"width": width, "height": height})
    page.goto(page_file.as_uri())
    press(page, "flap selector to down")

    def inside(what: str) -> bool:
        box = page.locator(what).first.bounding_box()
        return bool(box["y"] >= 0 and box["y"] + min(box["height"], 40) <= height)

    assert inside("#came") and inside("button[data-move]")
    order = "[...document.querySelectorAll('#sets, #came, .drawn, #words, .caution')].map(e => e.id || e.className)"
    seen = [one for one in page.evaluate(order) if "caution" not in one]
    assert seen == ["sets", "came", "drawn", "words"]
    # Where the drawing is looked at, the buttons and what came of them are still there, and most of it is free.
    page.evaluate("window.scrollTo(0, document.querySelector('.drawn').offsetTop - 200)")
    assert inside("#came") and inside("button[data-move]")
    dock = page.locator(".dock").bounding_box()
    assert dock["y"] + dock["height"] < 0.56 * height
    drawn = page.locator(".drawn svg").bounding_box()
    assert drawn["y"] < height - 150
    assert page.locator(".drawn").evaluate("one => one.scrollLeft") == 0, "its title is not cut"
    assert width < 1000 or drawn["width"] > 0.93 * width
    page.close()


def test_without_its_script_the_beginning_stands_there(browser: Any, page_file: Path) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(page_file.as_uri())
    assert page.locator(".drawn svg").is_visible()
    assert "scripts are allowed" in page.locator("header").inner_text()
    assert page.locator("#parts .words").first.inner_text()
    context.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_no_rule_of_accessibility_is_broken(browser: Any, page_file: Path, scheme: str) -> None:
    page = browser.new_page(color_scheme=scheme)
    page.goto(page_file.as_uri())
    press(page, "flap selector to down")
    page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
    assert violations(page) == []
    page.close()


def test_the_page_is_right_by_the_letter(made: Explorable) -> None:
    assert faults(made.page) == []
