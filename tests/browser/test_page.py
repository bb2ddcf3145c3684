"""The page in a real browser: it asks for nothing, the keyboard reaches every verdict, it can be read."""

import base64
import re
from pathlib import Path
from typing import Any

import pytest

from cutaway.draw.theme import THEMES, contrast
from cutaway.handbook.records import Script, Sentence
from cutaway.narrate.captions import captions
from cutaway.narrate.webvtt import caption_file
from cutaway.problems.span import TextFile, whole
from cutaway.publish.view import PackView


@pytest.fixture
def shown(browser: Any, page_file: Path) -> Any:
    page = browser.new_page(viewport={"width": 1180, "height": 900})
    page.goto(page_file.as_uri())
    yield page
    page.close()


def test_the_page_asks_for_nothing_else(browser: Any, page_file: Path) -> None:
    page = browser.new_page()
    asked: list[str] = []
    said: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.on("console", lambda message: said.append(message.text))
    page.goto(page_file.as_uri())
    page.wait_for_load_state("networkidle")
    page.emulate_media(color_scheme="dark")
    page.wait_for_load_state("networkidle")
    assert asked == [page_file.as_uri()]
    assert said == []
    page.close()


def test_every_verdict_is_reached_and_opened_by_keyboard(shown: Any, view: PackView) -> None:
    sentences = view.scripts[0].sentences + view.drills[0].sentences
    wanted = [s.text for s in sentences if s.kind in ("claimed", "cited") or s.likely]
    wrong = {s.text for s in sentences if s.wrong}
    assert 0 < len(wrong) < len(wanted)
    reached: list[str] = []
    for _ in range(120):
        shown.keyboard.press("Tab")
        text = shown.evaluate(
            "document.activeElement.matches('summary.row')"
            " ? document.activeElement.querySelector('.said').textContent : ''"
        )
        if text and text not in reached:
            reached.append(text)
            if text not in wrong:  # that is open from the start
                shown.keyboard.press("Enter")
    assert reached == wanted
    seen = shown.evaluate("[...document.querySelectorAll('.behind')].filter(e => e.checkVisibility()).length")
    assert seen == len(wanted)
    for sentence in sentences:
        for claim in sentence.claims:
            for verdict in claim.verdicts:
                assert shown.get_by_text(verdict.sentence).first.is_visible()


def test_what_is_chosen_is_shown_and_nothing_else(shown: Any, view: PackView) -> None:
    visible = "[...document.querySelectorAll('figcaption b')].filter(e => e.checkVisibility()).map(e => e.textContent)"

    def choose(name: str) -> None:
        shown.get_by_label(name, exact=True).focus()
        shown.keyboard.press("Space")

    assert shown.evaluate(visible) == [f"Fuel, {standard}, parked" for standard in view.standards]
    choose("Vacuum")
    choose("cruising")
    assert shown.evaluate(visible) == [f"Vacuum, {standard}, cruising" for standard in view.standards]
    choose("Mk 2")
    assert shown.evaluate(visible) == ["Vacuum, Mk 2, cruising"]
    chips = shown.evaluate(
        "[...document.querySelectorAll('.chip .on')].filter(e => e.checkVisibility()).map(e => e.textContent)"
    )
    assert set(chips) == {"Mk 2", "on every standard"}
    # The arrow keys go through a choice as in any group of radio buttons.
    shown.keyboard.press("ArrowRight")
    assert shown.evaluate(visible) == ["Vacuum, Mk 2 with mod 12, cruising"]
    for name in ("standard", "system", "situation"):
        shown.locator(f"#{name}-every").focus()
        shown.keyboard.press("Space")
    assert len(shown.evaluate(visible)) == len(view.sheets)


def test_a_drawing_follows_the_readers_screen(shown: Any) -> None:
    paper = "getComputedStyle(document.querySelector('.sheet .paper')).fill"
    found = []
    for scheme in ("light", "dark"):
        shown.emulate_media(color_scheme=scheme)
        found.append(_hex(shown.evaluate(paper)))
    assert found == [theme.ink("paper") for theme in THEMES.values()]


def test_every_drawing_is_named_and_told_in_words_by_keyboard(shown: Any, view: PackView) -> None:
    shown.locator("#system-every").focus()
    shown.keyboard.press("Space")
    shown.locator("#situation-every").focus()
    shown.keyboard.press("Space")
    assert shown.get_by_role("img").count() == len(view.sheets)
    for name in shown.get_by_role("img").evaluate_all(
        "all => all.map(e => document.getElementById(e.getAttribute('aria-labelledby')).textContent)"
    ):
        assert any(name == f"{s.system} {s.standard} {s.situation}" for s in view.sheets)
    described = """all => all.map(e => e.getAttribute('aria-describedby').split(' ')
        .map(id => document.getElementById(id).textContent))"""
    told = shown.get_by_role("img").evaluate_all(described)
    assert sorted(told) == sorted(list(sheet.words) for sheet in view.sheets)
    words = shown.locator(".told summary")
    for at in range(words.count()):
        words.nth(at).focus()
        shown.keyboard.press("Enter")
    for sheet in view.sheets:
        assert all(shown.get_by_text(line, exact=True).first.is_visible() for line in sheet.words)
    # With one situation chosen the list says what is so in it, and no more.
    for name in ("Mk 2", "Vacuum", "cruising"):
        shown.get_by_label(name, exact=True).focus()
        shown.keyboard.press("Space")
    lines = "[...document.querySelectorAll('.told li')].filter(e => e.checkVisibility()).map(e => e.innerText)"
    (sheet,) = (s for s in view.sheets if (s.standard, s.system, s.situation) == ("Mk 2", "Vacuum", "cruising"))
    assert shown.evaluate(lines) == list(sheet.words)


def test_what_is_wrong_stands_at_the_top_and_is_open(shown: Any, view: PackView) -> None:
    wrong = [s.text for script in (*view.scripts, *view.drills) for s in script.sentences if s.wrong]
    box = shown.get_by_role("region", name="What is wrong")
    assert box.get_by_role("listitem").get_by_role("link").all_inner_texts() == wrong
    assert box.bounding_box()["y"] < 900
    opened = shown.evaluate("[...document.querySelectorAll('details[open] .said')].map(e => e.textContent)")
    assert opened == wrong
    # Even where only another standard is shown, the row stays marked.
    shown.locator("#standard-0").focus()
    shown.keyboard.press("Space")
    assert shown.locator(".is-wrong:visible").count() == len(wrong)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_all_text_has_contrast(browser: Any, page_file: Path, scheme: str) -> None:
    """Every visible piece of text against the ground that is really behind it, opened details too."""
    page = browser.new_page(color_scheme=scheme)
    page.goto(page_file.as_uri())
    page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
    pairs = page.evaluate(
        """() => {
        const ground = e => { for (; e; e = e.parentElement) { const c = getComputedStyle(e).backgroundColor;
            if (c !== 'rgba(0, 0, 0, 0)') return c; } return 'none'; };
        const found = {};
        const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
        while (walk.nextNode()) { const e = walk.currentNode.parentElement;
            if (!walk.currentNode.data.trim() || !e.checkVisibility() || e.closest('svg')) continue;
            found[getComputedStyle(e).color + '|' + ground(e)] = walk.currentNode.data.trim().slice(0, 40); }
        return found; }"""
    )
    assert len(pairs) >= 8
    for pair, words in pairs.items():
        ink, ground = (_hex(colour) for colour in pair.split("|"))
        assert contrast(ink, ground) >= 4.5, (words, ink, ground)
    page.close()


def _hex(colour: str) -> str:
    match = re.fullmatch(r"rgb\((\d+), (\d+), (\d+)\)", colour)
    assert match, colour
    return "#" + "".join(f"{int(part):02x}" for part in match.groups())


@pytest.mark.parametrize("width", [320, 390, 768, 1180])
def test_nothing_runs_out_of_the_window(browser: Any, page_file: Path, width: int) -> None:
    page = browser.new_page(viewport={"width": width, "height": 800})
    page.goto(page_file.as_uri())
    page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    page.close()


def test_links_inside_the_page_lead_somewhere(shown: Any) -> None:
    lost = shown.evaluate(
        "[...document.querySelectorAll('a[href^=\"#\"]')].filter(a => !document.getElementById(a.hash.slice(1)))"
        ".map(a => a.hash)"
    )
    assert lost == []
    twice = shown.evaluate(
        "(() => { const ids = [...document.querySelectorAll('[id]')].map(e => e.id);"
        " return ids.filter((id, at) => ids.indexOf(id) !== at); })()"
    )
    assert twice == []


def test_everything_behind_a_sentence_is_printed(shown: Any) -> None:
    seen = "[...document.querySelectorAll('.behind')].filter(e => e.checkVisibility()).length"
    shown.evaluate("document.querySelectorAll('details').forEach(d => d.open = false)")
    assert shown.evaluate(seen) == 0
    shown.emulate_media(media="print")
    assert shown.evaluate(seen) == shown.evaluate("document.querySelectorAll('.behind').length") > 0


def test_the_browser_takes_every_caption(browser: Any) -> None:
    """The browser's own reader of caption files lists the same cues, texts and times as were written."""
    file = TextFile("scripts/x.md", "x")
    texts = (
        "Hallam & Reeve wrote '<off>' --> on the plate, and it has stayed there ever since, for all to see.",
        "The lamp lights below 2 lb/sq in.",
        "Whichever tank you choose, the other one keeps its petrol, and nobody behind you need ever know of it.",
    )
    sentences = tuple(Sentence(text, "", 0, (), (), False, whole(file)) for text in texts)
    cues, _ = captions(Script("x", "X", sentences, whole(file)), ())
    data = base64.b64encode(caption_file(cues, "X").encode()).decode()
    page = browser.new_page()
    page.set_content(
        f'<video><track default kind="captions" srclang="en" src="data:text/vtt;base64,{data}"></video>'
        "<script>document.querySelector('video').textTracks[0].mode = 'showing'</script>"
    )
    page.wait_for_function("(document.querySelector('video').textTracks[0].cues || []).length > 0")
    taken = page.evaluate(
        "[...document.querySelector('video').textTracks[0].cues].map(c => [c.id, c.startTime, c.endTime,"
        " c.getCueAsHTML().textContent])"
    )
    assert taken == [[cue.identifier, cue.start, cue.end, "\n".join(cue.lines)] for cue in cues]
    page.close()
