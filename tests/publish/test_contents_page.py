"""The list of what is in a pack: every file once, under what it is."""

import re

from cutaway.publish.contents_page import contents_page
from cutaway.publish.view import ProductView
from tests.publish.valid_html import faults

FILES = {
    "index.html": b"<!DOCTYPE html><title>The Wren &amp; its cock</title>",
    "verdicts.json": b"{}",
    "panels.html": b"<title>Wren: panels</title>",
    "panels/a.svg": b"<svg><title id='t'>Cockpit</title></svg>",
    "captions/01.vtt": b"WEBVTT",
    **{f"sheets/{n:02}.svg": b"<svg></svg>" for n in range(40)},
}
PANELS = ProductView("Panels", "All <controls>.", (("panels.html", "Wren: panels"),), (("panels/a.svg", "Cockpit"),))


def test_every_file_is_there_once_under_its_title() -> None:
    text = contents_page("Wren", "Not for flight.", FILES, (PANELS,))
    found = re.findall(r'<a href="([^"]*)">(.*?)</a>', text)
    assert sorted(path for path, _ in found) == sorted(FILES)
    titles = dict(found)
    assert titles["index.html"] == "The Wren &amp; its cock" and titles["panels/a.svg"] == "Cockpit"
    assert titles["captions/01.vtt"] == "captions/01.vtt"
    assert "All &lt;controls&gt;." in text and "Not for flight." in text and faults(text) == []


def test_the_page_comes_first_and_many_files_are_folded_away() -> None:
    text = contents_page("Wren", "", FILES, (PANELS,))
    headings = re.findall(r"<h2>(.*?)</h2>", text)
    assert headings == ["The page and its records", "Panels", "Sheets", "Captions and chapters"]
    assert re.findall(r"<summary>(.*?)</summary>", text) == ["1 more file", "40 files"]
