"""The prompter in a real browser: it runs at the speed of the script, obeys the keyboard and asks for nothing."""

from pathlib import Path
from typing import Any

import pytest

from cutaway.api.desk import desk
from cutaway.publish.prompter import prompter_page

WHINCHAT = Path(__file__).parents[2] / "demo" / "whinchat"


@pytest.fixture(scope="module")
def lines() -> Any:
    looked, _ = desk(WHINCHAT / "scripts" / "01-fuel.md")
    assert looked is not None
    return looked.scripts[0]


@pytest.fixture
def shown(browser: Any, lines: Any, tmp_path: Path) -> Any:
    path = tmp_path / "prompter.html"
    path.write_text(prompter_page(lines), encoding="utf-8")
    page = browser.new_page(viewport={"width": 1100, "height": 750})
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda error: said.append(str(error)))
    page.clock.install()
    page.goto(path.as_uri())
    yield page
    assert said == []
    page.close()


def now(page: Any) -> str:
    text: str = page.evaluate("document.querySelector('.line.now').dataset.start")
    return text


def test_it_runs_at_the_speed_of_the_script(shown: Any, lines: Any) -> None:
    assert now(shown) == f"{lines.lines[0].start:.3f}"
    shown.keyboard.press("Space")
    shown.clock.run_for(30_000)
    spoken = [line for line in lines.lines if line.start <= 30.0][-1]
    assert now(shown) == f"{spoken.start:.3f}"
    assert "0:30 of 3:" in shown.locator("#clock").inner_text()
    box = shown.locator(".line.now").bounding_box()
    assert -box["height"] < box["y"] < 750 * 0.35, "what is spoken stands at the reading line"
    shown.keyboard.press("Space")
    shown.clock.run_for(30_000)
    assert now(shown) == f"{spoken.start:.3f}", "stopped"


def test_slower_faster_jump_home_and_mirror(shown: Any, lines: Any) -> None:
    for _ in range(10):
        shown.keyboard.press("ArrowRight")
    assert shown.locator("#state").inner_text() == "stopped, 150 %"
    shown.keyboard.press("Space")
    shown.clock.run_for(20_000)
    spoken = [line for line in lines.lines if line.start <= 30.0][-1]
    assert now(shown) == f"{spoken.start:.3f}"
    shown.keyboard.press("ArrowDown")
    assert now(shown) == f"{lines.lines[spoken.number].start:.3f}"
    shown.keyboard.press("Home")
    assert now(shown) == f"{lines.lines[0].start:.3f}"
    shown.keyboard.press("m")
    assert shown.evaluate("getComputedStyle(document.querySelector('main')).transform").startswith("matrix(-1")


def test_it_stops_at_the_end(shown: Any, lines: Any) -> None:
    shown.keyboard.press("Space")
    shown.clock.run_for(int(lines.length * 1000) + 5_000)
    assert shown.locator("#state").inner_text().startswith("stopped")
    assert now(shown) == f"{lines.lines[-1].start:.3f}"


def test_the_buttons_work_by_keyboard(shown: Any) -> None:
    shown.keyboard.press("Tab")
    shown.keyboard.press("Space")
    assert shown.locator("#state").inner_text().startswith("running")


def test_without_keys_everything_can_be_done(shown: Any, lines: Any) -> None:
    def press(name: str) -> None:
        shown.get_by_role("button", name=name).click()

    press("On (↓)")
    assert now(shown) == f"{lines.lines[1].start:.3f}"
    press("Back (↑)")
    assert now(shown) == f"{lines.lines[0].start:.3f}"
    for name in ("Faster (→)", "Faster (→)", "Slower (←)"):
        press(name)
    assert shown.locator("#state").inner_text() == "stopped, 105 %"


def test_who_wants_nothing_to_move_gets_it_by_sentences(shown: Any) -> None:
    shown.emulate_media(reduced_motion="reduce")
    shown.keyboard.press("ArrowDown")
    shown.keyboard.press("Space")
    places: set[float] = set()
    for _ in range(40):
        shown.clock.run_for(100)
        places.add(shown.evaluate("scrollY"))
    assert len(places) <= 3
    shown.emulate_media(reduced_motion="no-preference")
    for _ in range(10):
        shown.clock.run_for(100)
        places.add(shown.evaluate("scrollY"))
    assert len(places) > 5


def test_without_its_script_it_is_a_text_that_can_be_read(browser: Any, lines: Any, tmp_path: Path) -> None:
    path = tmp_path / "prompter.html"
    path.write_text(prompter_page(lines), encoding="utf-8")
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(path.as_uri())
    assert page.locator(".line").count() == len(lines.lines)
    assert not page.locator("#bar").is_visible()
    context.close()


def test_what_is_said_otherwise_stands_under_it(lines: Any) -> None:
    page = prompter_page(lines)
    assert "<ruby>Mk 1<rt>mark one</rt></ruby>" in page
    assert "<ruby>Whinchat,<rt>WIN-chat,</rt></ruby>" in page
