"""Sheets of the author's own, as `sheets/*.yaml` asks for them."""

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

from cutaway.draw.draft import Draft, draft_on, placed_on
from cutaway.draw.frame import rooms_on
from cutaway.draw.layout import cache_folder
from cutaway.draw.pages import SHAPES, fit
from cutaway.draw.plan import Extract
from cutaway.draw.sheet import PAPERS, drafts_of
from cutaway.handbook.records import Folder, Sheet
from cutaway.machine.subjects import Subject, parts_of
from cutaway.parts.kind import Kind
from cutaway.problems.diagnostic import Diagnostic, Problems


def steered(
    folder: Folder, subject: Subject, sheet: Sheet, kinds: Mapping[str, Kind], cache: Path | None = None
) -> tuple[tuple[Draft, ...], Problems]:
    """One sheet for one standard or airframe; several where it is too large for A4 and its columns are not given."""
    extract = extract_of(folder, subject, sheet)
    if not extract.own:
        words = f"Nothing that the sheet '{sheet.name}' shows is on {subject.name}."
        return (), (Diagnostic("D106", sheet.span, words, "Write under 'on' the standards that have it."),)
    kept, shape = cache or cache_folder(), sheet.shape or "16:9"
    if not extract.columns:
        return drafts_of(folder, subject, extract, kinds, kept, shape)
    page = SHAPES[shape]
    placed, problems = placed_on(folder, subject, extract, kinds, kept, (page,))
    rooms = [room for one in (page, *PAPERS) for room in rooms_on(one, placed.around)]
    if not any(fit(layout, room) >= 1.0 for layout in placed.layouts for room in rooms):
        words = f"The sheet '{sheet.name}' is too large on {subject.name}: on A4 its words would be too small to read."
        problems += (Diagnostic("D107", sheet.span, words, "Show fewer parts, or give it no columns."),)
    return (draft_on(folder, subject, kinds, placed, page),), problems


def extract_of(folder: Folder, subject: Subject, sheet: Sheet) -> Extract:
    """What the sheet shows of one standard or airframe."""
    there = parts_of(folder, subject)
    out = {one.part for one in sheet.left_out}
    wanted = {p.name for p in there if p.system in sheet.systems or p.name in sheet.parts} - out
    columns = tuple(tuple(str(part) for part in column if part in wanted) for column in sheet.columns)
    hidden = tuple((str(one.part), one.because) for one in sheet.left_out)
    extract = Extract(sheet.name, frozenset(str(name) for name in wanted), hidden=hidden, zones=sheet.stations)
    return replace(extract, columns=tuple(c for c in columns if c), folded=sheet.folded)
