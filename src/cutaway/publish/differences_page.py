"""The page of differences: for the crew first, then the figures and the rest of the records, then the sheets.

Each row has its paragraph and the mod or amendment that brought it.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from cutaway.handbook.records import Folder
from cutaway.inquiry.questions.compare import Comparison
from cutaway.inquiry.questions.differing_records import RecordDifference
from cutaway.publish.html import Html, anchor, el
from cutaway.publish.plain_page import plain_page
from cutaway.wording.compare import crew_lines, no_difference, positions_briefly, sights, since_words
from cutaway.wording.shown import value_words

Row = tuple[str, str, str, str, str]


@dataclass(frozen=True, slots=True)
class Sheet:
    """A drawing of one system on both standards. words: the same told. path: in the pack."""

    system: str
    path: str
    title: str
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Differing:
    """Two standards held against one another."""

    found: Comparison
    sheets: tuple[Sheet, ...]


def differences_page(found: Sequence[Differing], folder: Folder) -> str:
    """Every comparison, a table and its sheets, as the text of an HTML file."""
    children: list[Html] = [
        el("p", "What one standard has otherwise than the next: for the crew first, then the figures and the rest."),
        el("ul", *(el("li", el("a", _title(one.found), href=f"#{_ident(one.found)}")) for one in found)),
    ]
    for one in found:
        children += (*_section(one.found, folder), *map(_figure, one.sheets))
    note = (
        "Compared is what the situations come to. What single movements and the steps of the drills bring is compared "
        "by 'cutaway compare'."
    )
    return plain_page(
        f"{folder.type.name}: differences", (*children, el("p", note, class_="quiet")), folder.type.notice
    )


def _section(one: Comparison, folder: Folder) -> list[Html]:
    crew = crew_lines(one, folder)
    told = el("ul", *(el("li", line) for line in crew)) if crew else el("p", no_difference(one))
    return [el("h2", _title(one), id=_ident(one)), told, _table(one, folder)]


def _table(one: Comparison, folder: Folder) -> Html:
    """One table: its sections are what the crew has, what it sees, the figures, the rest."""
    head = ("What", str(one.one.name), str(one.other.name), "Written in", "Since")
    body: list[Html] = []
    for title, rows in _sections(one, folder):
        if rows:
            body.append(el("tr", el("th", title, class_="chapter", colspan=str(len(head)), scope="rowgroup")))
            body += [_row(row, head) for row in rows]
    heads = el("thead", el("tr", *(el("th", words, scope="col") for words in head)))
    return el("table", heads, el("tbody", *body), class_="stacked")


def _row(row: Row, head: Row) -> Html:
    cells = (el("td", words, data_label=label) for words, label in zip(row[1:], head[1:], strict=True))
    return el("tr", el("th", row[0], scope="row"), *cells)


def _sections(one: Comparison, folder: Folder) -> tuple[tuple[str, list[Row]], ...]:
    written = {record.part: _where(record) for record in one.underneath if record.what in ("part", "kind")}
    places = [
        (
            c.name,
            positions_briefly(c.one, c.ranged),
            positions_briefly(c.other, c.ranged),
            *written.get(c.part, ("", "")),
        )
        for c in one.controls
    ]
    kinds: dict[str, dict[str, str]] = {}
    for i in one.indications:
        kinds.setdefault(i.part, {})[i.has] = i.kind
    shows = [
        (part, has.get("one", "–"), has.get("other", "–"), *written.get(part, ("", ""))) for part, has in kinds.items()
    ]
    seen = [
        (f"{when}: {b.one.what}", value_words(b.one, folder), value_words(b.other, folder), "", "")
        for when, b in sights(one, folder)
    ]
    figures = [_record(r) for r in one.underneath if r.what in ("value", "table")]
    told = {name for name, *_ in (*places, *shows)}
    rest = [_record(r) for r in one.underneath if r.what not in ("value", "table") and r.part not in told]
    return (
        ("Controls", places),
        ("Indications", shows),
        ("What is seen", seen),
        ("Figures", figures),
        ("The rest of the records", rest),
    )


def _record(one: RecordDifference) -> Row:
    what = f"{one.part}: {one.name}" if one.name else one.part if one.what == "part" else f"{one.part} ({one.what})"
    return (what, one.one or "–", one.other or "–", *_where(one))


def _where(one: RecordDifference) -> tuple[str, str]:
    """The paragraphs, and what brought it."""
    return ", ".join(dict.fromkeys(cite.key for cite in one.cites)), since_words(one)


def _title(one: Comparison) -> str:
    return f"{one.one.name} and {one.other.name}"


def _ident(one: Comparison) -> str:
    return anchor("d", str(one.one.name), str(one.other.name))


def _figure(sheet: Sheet) -> Html:
    """A sheet, what it shows in words behind it."""
    told = el("details", el("summary", "What it shows, in words"), *(el("p", words) for words in sheet.words))
    drawn = el("a", el("img", src=sheet.path, alt=f"{sheet.title}. It is told in words below."), href=sheet.path)
    return el("figure", el("div", drawn, class_="drawn"), el("figcaption", el("b", sheet.title), told))
