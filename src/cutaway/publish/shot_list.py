"""The shot list as a table for a spreadsheet and as a page for the studio wall."""

import csv
import io
from collections.abc import Mapping
from itertools import groupby

from cutaway.narrate.clock import clock
from cutaway.narrate.desk import ScriptDesk
from cutaway.narrate.shots import Picture, Shot
from cutaway.publish.html import Html, el
from cutaway.publish.plain_page import plain_page

COLUMNS = ("number", "from", "to", "chapter", "sentence", "picture", "picture by", "call-outs", "call-outs by")


def shot_list_csv(script: ScriptDesk) -> bytes:
    """The list as CSV with a byte order mark, by which spreadsheets know that it is UTF-8; times in seconds."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    seen = False
    for shot in script.shots:
        writer.writerow([_cell(word) for word in _row(shot, seen)])
        seen = seen or shot.picture is not None
    return b"\xef\xbb\xbf" + text.getvalue().encode()


def _row(shot: Shot, seen: bool) -> tuple[str, ...]:
    """seen: whether there was a picture before."""
    picture = shot.picture
    return (
        str(shot.number),
        f"{shot.start:.2f}",
        f"{shot.stop:.2f}",
        shot.chapter,
        shot.sentence,
        picture.words if picture else "as before" if seen else "",
        picture.by if picture else "",
        ", ".join(shot.callouts),
        shot.by if shot.callouts else "",
    )


def _cell(words: str) -> str:
    """Words as a spreadsheet takes them: what it would read as a formula gets an apostrophe before it."""
    return f"'{words}" if words[:1] in ("=", "+", "-", "@", "\t") else words


def shot_list_page(script: ScriptDesk, sheets: Mapping[tuple[str, str, str], str], notice: str, root: str = "") -> str:
    """The list as a page. sheets: the file of each sheet from this page, by system, standard and situation. root: the
    way to the pack's, '' where it is in none."""
    head = el("tr", *(el("th", word, scope="col") for word in ("Time", "Sentence", "Picture", "Call-outs")))
    first = next((shot.number for shot in script.shots if shot.picture is not None), len(script.shots))
    rows: list[Html] = []
    for chapter, shots in groupby(script.shots, key=lambda shot: shot.chapter):
        if chapter:
            rows.append(el("tr", el("th", chapter, colspan="4", scope="rowgroup", class_="chapter")))
        rows.extend(_html_row(shot, sheets, shot.number > first) for shot in shots)
    words = el("p", "What is in italics is proposed from what the sentence claims; the rest was marked in the script.")
    table = el("table", el("thead", head), el("tbody", *rows), class_="stacked")
    return plain_page(f"{script.title}, shot list", (words, table), notice, root=root)


def _html_row(shot: Shot, sheets: Mapping[tuple[str, str, str], str], seen: bool) -> Html:
    callouts = ", ".join(shot.callouts)
    pointed = el("i", callouts) if callouts and shot.by == "proposed" else callouts
    return el(
        "tr",
        el("td", clock(shot.start), class_="time"),
        el("td", shot.sentence),
        el("td", _picture(shot, sheets, seen), data_label="Picture"),
        el("td", pointed, data_label="Call-outs"),
    )


def _picture(shot: Shot, sheets: Mapping[tuple[str, str, str], str], seen: bool) -> str:
    picture: Picture | None = shot.picture
    if picture is None:
        return el("span", "as before", class_="quiet") if seen else ""
    words = el("i", picture.words) if picture.by == "proposed" else picture.words
    path = sheets.get((picture.system, picture.standard, picture.situation), "")
    return el("a", words, href=path) if path else words
