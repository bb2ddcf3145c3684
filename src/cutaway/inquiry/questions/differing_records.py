"""What differs between two standards in the records: parts, kinds, values, lines, with where it is written."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from cutaway.handbook.records import Cite, Folder, Given, Line, Part, given_on, paragraph, table_on
from cutaway.machine.bind import Bound
from cutaway.machine.subjects import lines_of
from cutaway.parts.kind import Want
from cutaway.quantities.si import to_si

What = Literal["part", "kind", "value", "table", "list", "place", "marking", "worked by", "coupling", "rule", "line"]


@dataclass(frozen=True, slots=True)
class RecordDifference:
    """One thing that is written otherwise. one, other: what each has, '' where it has nothing of the sort.

    name: of the value, list or coupling, '' for the other sorts. mods: that one of them has and the record speaks of.
    amendments: the lists by which a cited paragraph came into the book.
    """

    what: What
    part: str
    name: str
    one: str
    other: str
    cites: tuple[Cite, ...]
    mods: tuple[str, ...]
    amendments: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Found:
    """A difference before it is said since when. on: the words of the `on:` that make it."""

    what: What
    part: str
    name: str
    one: str
    other: str
    cites: tuple[Cite, ...]
    on: tuple[str, ...]


def record_differences(folder: Folder, one: Bound, other: Bound) -> tuple[RecordDifference, ...]:
    """Every difference between two subjects in the order of the files: parts first, lines at the end."""
    found = [*_parts(one, other), *_lines(folder, one, other)]
    mods = {s.name: set(s.mods) for s in folder.type.standards}
    apart = mods[one.subject.standard] ^ mods[other.subject.standard]
    marks = {s.name: s.mark for s in folder.type.standards}
    same_mark = marks[one.subject.standard] == marks[other.subject.standard]
    return tuple(_dated(folder, f, apart, same_mark) for f in found)


def _dated(folder: Folder, found: _Found, apart: set[str], same_mark: bool) -> RecordDifference:
    """The difference with the mods and amendments that brought it."""
    named = {mod for mod in apart if any(mod.casefold() in words.casefold() for words in found.on)}
    mods = named or (apart if same_mark and len(apart) == 1 else set())
    paragraphs = [p for cite in found.cites if (p := paragraph(folder, cite)) is not None]
    amendments = tuple(dict.fromkeys(p.amended_by for p in paragraphs if p.amended_by))
    return RecordDifference(
        found.what, found.part, found.name, found.one, found.other, found.cites, tuple(sorted(mods)), amendments
    )


# --- parts ---------------------------------------------------------------------------------------------------------


def _parts(one: Bound, other: Bound) -> Iterator[_Found]:
    for name in dict.fromkeys((*one.parts, *other.parts)):
        here, there = one.parts.get(name), other.parts.get(name)
        if here is None or there is None:
            part = here or there
            assert part is not None
            kinds = (here.kind if here else "", there.kind if there else "")
            yield _Found("part", name, "", *kinds, part.cites, (part.on.words,))
        elif here.kind != there.kind:
            cites = tuple(dict.fromkeys((*here.cites, *there.cites)))
            yield _Found("kind", name, "", here.kind, there.kind, cites, (here.on.words, there.on.words))
        else:
            yield from _inside(here, there, one, other)


def _inside(here: Part, there: Part, one: Bound, other: Bound) -> Iterator[_Found]:
    """What differs in a part that both have, of the same kind."""
    name = str(here.name)
    for want in one.kinds[here.kind].wants:
        values = given_on(here, want.name, one.subject.standard), given_on(there, want.name, other.subject.standard)
        if not _same_value(values[0], values[1], want):
            words = (_value(values[0], want), _value(values[1], want))
            givens = [v for v in values if v is not None]
            cites = tuple(dict.fromkeys(c for v in givens for c in v.cites)) or here.cites
            yield _Found("value", name, want.name, *words, cites, tuple(v.on.words for v in givens))
    for table in one.kinds[here.kind].tables:
        tables = table_on(here, table.name, one.subject.standard), table_on(there, table.name, other.subject.standard)
        rows = [t.rows if t is not None else () for t in tables]
        if rows[0] != rows[1]:
            cites = tuple(dict.fromkeys(c for t in tables if t is not None for c in t.cites))
            told = [f"{len(r)} rows" if r else "" for r in rows]
            yield _Found("table", name, table.name, told[0], told[1], cites, ())
    if here is there:
        yield from _links(here, there, one, other)
        return
    cites, on = tuple(dict.fromkeys((*here.cites, *there.cites))), (here.on.words, there.on.words)
    texts: tuple[tuple[What, str, str], ...] = (
        ("place", here.station, there.station),
        ("marking", here.marked, there.marked),
        ("worked by", here.hands, there.hands),
        ("rule", _rules(here), _rules(there)),
    )
    for what, a, b in texts:
        if a != b:
            yield _Found(what, name, "", a, b, cites, on)
    lists = dict(here.lists), dict(there.lists)
    for key in dict.fromkeys((*lists[0], *lists[1])):
        a, b = (", ".join(some.get(key, ())) for some in lists)
        if a != b:
            yield _Found("list", name, key, a, b, cites, on)
    yield from _links(here, there, one, other)


def _links(here: Part, there: Part, one: Bound, other: Bound) -> Iterator[_Found]:
    sides: list[dict[str, list[str]]] = []
    on: dict[str, list[str]] = {}
    for part, bound in ((here, one), (there, other)):
        found: dict[str, list[str]] = {}
        for link in part.links:
            if bound.subject.standard in link.on.names:
                target = _end(link.target.part, link.target.inner)
                found.setdefault(link.name, []).append(f"{target} {link.condition}".strip())
                on.setdefault(link.name, []).append(link.on.words)
        sides.append(found)
    for name in dict.fromkeys((*sides[0], *sides[1])):
        a, b = (", ".join(sorted(side.get(name, ()))) for side in sides)
        if a != b:
            cites = tuple(dict.fromkeys((*here.cites, *there.cites)))
            yield _Found("coupling", str(here.name), name, a, b, cites, tuple(on[name]))


def _rules(part: Part) -> str:
    """The rules of movement as they are written."""
    return "; ".join(r.span.words for r in part.rules)


def _same_value(one: Given | None, other: Given | None, want: Want) -> bool:
    if one is other:
        return True
    if one is None or other is None:
        return False
    a, b = to_si(one.quantity, want.datum), to_si(other.quantity, want.datum)
    return abs(a - b) <= 1e-9 * max(abs(a), abs(b), 1e-12)


def _value(given: Given | None, want: Want) -> str:
    """A value as it is written; where nothing was said, what is taken instead."""
    if given is None:
        return f"{want.default} (taken, since nothing is said)" if want.default else ""
    return f"{given.quantity.text} (assumed)" if given.assumed else given.quantity.text


# --- lines ---------------------------------------------------------------------------------------------------------


def _lines(folder: Folder, one: Bound, other: Bound) -> Iterator[_Found]:
    sides = [{_run(line): line for line in lines_of(folder, bound.subject)} for bound in (one, other)]
    for run in dict.fromkeys((*sides[0], *sides[1])):
        here, there = sides[0].get(run), sides[1].get(run)
        if (here is None) != (there is None):
            line = here or there
            assert line is not None
            words = f"{_end(line.start.part, line.start.inner)} > {_end(line.end.part, line.end.inner)}"
            yield _Found("line", words, "", words if here else "", words if there else "", line.cites, (line.on.words,))


def _run(line: Line) -> tuple[str, str, str, str]:
    return (line.start.part, line.start.inner, line.end.part, line.end.inner)


def _end(part: str, inner: str) -> str:
    return f"{part}.{inner}" if inner and inner != "any" else part  # any terminal of a bus is the bus
