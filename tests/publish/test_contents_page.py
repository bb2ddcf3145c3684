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
    assert found[0] == ("index.html", "The page: begin here")
    assert titles["panels.html"] == "Wren: panels" and titles["panels/a.svg"] == "Cockpit"
    assert titles["captions/01.vtt"] == "captions/01.vtt"
    assert "All &lt;controls&gt;." in text and "Not for flight." in text and faults(text) == []


def test_files_of_one_title_stand_together_by_what_tells_them_apart() -> None:
    sheet = b"<svg><title>Wren Mk 1: Fuel</title></svg>"
    places = ("in-the-air", "parked", "parked-2")
    files = {"index.html": b"", **{f"sheets/fuel-mk-1-{place}.svg": sheet for place in places}}
    text = contents_page("Wren", "", files, ()).replace(", what is in", "")
    assert text.count("Wren Mk 1: Fuel") == len(places), "few files are listed one by one"
    many = files | {f"sheets/vacuum-mk-1-{n}.svg": b"<svg><title>Vacuum</title></svg>" for n in range(40)}
    text = contents_page("Wren", "", many, ())
    assert re.search(
        r"<li>Wren Mk 1: Fuel: <a [^>]*>in the air</a>, <a [^>]*>parked 2</a>, <a [^>]*>parked</a></li>", text
    )
    assert re.findall(r'href="sheets/(.*?).svg">', text).count("fuel-mk-1-parked-2") == 1 and faults(text) == []


def test_the_page_comes_first_and_many_files_are_folded_away() -> None:
    text = contents_page("Wren", "", FILES, (PANELS,))
    headings = re.findall(r"<h2>(.*?)</h2>", text)
    assert headings == ["The page and its records", "Panels", "Sheets", "Captions and chapters"]
    assert re.findall(r"<summary>(.*?)</summary>", text) == ["1 more file", "40 files"]
