"""The differences of a pack: what each two neighbouring standards have otherwise, as one page.

For the crew first: controls, indications, what is seen in the situations; then the figures and the rest of the records,
each with its paragraph and the mod or amendment that brought it.
"""

from collections.abc import Mapping, Sequence
from itertools import pairwise

from cutaway.draw.seen import Values
from cutaway.handbook.records import Folder
from cutaway.inquiry.questions.compare import Comparison, compare_states
from cutaway.inquiry.questions.differing_records import RecordDifference
from cutaway.machine.subjects import Subject, subjects
from cutaway.narrate.checked import Checked
from cutaway.problems.diagnostic import Problems
from cutaway.publish.drawings import UNREAD, Desk
from cutaway.publish.html import Html, anchor, el
from cutaway.publish.plain_page import plain_page
from cutaway.publish.product import Files, Product
from cutaway.publish.states import states
from cutaway.wording.compare import crew_lines, moment_words, since_words
from cutaway.wording.shown import sentence, value_words

FIRST = "differences.html"
Row = tuple[str, str, str, str, str]
Key = tuple[str, str]


def difference_files(desk: Desk, checked: Checked) -> tuple[Files, Problems]:
    """The page of differences; none where there is only one standard."""
    folder = desk.workshop.folder
    found = comparisons(desk)
    return ({FIRST: differences_page(found, folder).encode()} if found else {}), ()


def comparisons(desk: Desk) -> tuple[Comparison, ...]:
    """Each two neighbouring standards held against one another, and each airframe against its standard."""
    folder = desk.workshop.folder
    every = subjects(folder)
    standards = [one for one in every if one.name == one.standard]
    pairs = list(pairwise(standards))
    pairs += [(next(s for s in standards if s.name == one.standard), one) for one in every if one not in standards]
    wanted = [(subject, situation) for subject in every for situation in folder.situations]
    found = states(desk, wanted)
    values = {(str(s.name), w.name): v for (s, w), (v, _) in zip(wanted, found, strict=True)}
    return tuple(_compared(desk, one, other, values) for one, other in pairs)


def _compared(desk: Desk, one: Subject, other: Subject, values: Mapping[Key, Values | None]) -> Comparison:
    folder, workshop = desk.workshop.folder, desk.workshop
    both: dict[str, tuple[Values, Values] | None] = {}
    for situation in folder.situations:
        here, there = values[(one.name, situation.name)], values[(other.name, situation.name)]
        both[situation.name] = (here, there) if here is not None and there is not None else None
    return compare_states(folder, (workshop.bound(one)[0], workshop.bound(other)[0]), both)


# --- the page ------------------------------------------------------------------------------------------------------


def differences_page(found: Sequence[Comparison], folder: Folder) -> str:
    """Every comparison, a table each, as the text of an HTML file."""
    children: list[Html] = [
        el("p", "What one standard has otherwise than the next: for the crew first, then the figures and the rest."),
        el("ul", *(el("li", el("a", _title(one), href=f"#{_ident(one)}")) for one in found)),
    ]
    for one in found:
        children += _section(one, folder)
    note = "Compared is what the situations come to. The steps of the drills are compared by 'cutaway compare'."
    return plain_page(
        f"{folder.type.name}: differences", (*children, el("p", note, class_="quiet")), folder.type.notice
    )


def _section(one: Comparison, folder: Folder) -> list[Html]:
    crew = crew_lines(one, folder)
    nothing = sentence(f"The crew would notice no difference between {one.one.name} and {one.other.name}")
    told = el("ul", *(el("li", line) for line in crew)) if crew else el("p", nothing)
    return [el("h2", _title(one), id=_ident(one)), told, _table(one, folder)]


def _table(one: Comparison, folder: Folder) -> Html:
    """One table: its sections are what the crew has, what it sees, the figures, the rest."""
    head = ("What", str(one.one.name), str(one.other.name), "Written in", "Since")
    body: list[Html] = []
    for title, rows in _sections(one, folder):
        if rows:
            body.append(el("tr", el("th", title, class_="chapter", colspan=str(len(head)), scope="rowgroup")))
            body += [el("tr", el("th", row[0], scope="row"), *(el("td", words) for words in row[1:])) for row in rows]
    return el("table", el("thead", el("tr", *(el("th", words, scope="col") for words in head))), el("tbody", *body))


def _sections(one: Comparison, folder: Folder) -> tuple[tuple[str, list[Row]], ...]:
    written = {record.part: _where(record) for record in one.underneath if record.what in ("part", "kind")}
    places = [
        (c.name, _places(c.one, c.ranged), _places(c.other, c.ranged), *written.get(c.part, ("", "")))
        for c in one.controls
    ]
    shows = [
        (i.part, *((i.kind, "–") if i.has == "one" else ("–", i.kind)), *written.get(i.part, ("", "")))
        for i in one.indications
    ]
    seen = [
        (f"{moment_words(b.at)}: {b.one.what}", value_words(b.one, folder), value_words(b.other, folder), "", "")
        for b in one.behaviours
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
    return ", ".join(f"{cite.source} {cite.number}" for cite in one.cites), since_words(one)


def _places(positions: tuple[str, ...], ranged: bool) -> str:
    return " / ".join(positions) or "–" if not ranged or not positions else " to ".join((positions[0], positions[-1]))


def _title(one: Comparison) -> str:
    return f"{one.one.name} and {one.other.name}"


def _ident(one: Comparison) -> str:
    return anchor("d", str(one.one.name), str(one.other.name))


DIFFERENCES = Product(
    "Differences",
    "What each standard has otherwise than the next: controls, indications, behaviour, figures.",
    "comparing the standards",
    difference_files,
    FIRST,
    UNREAD,
)
