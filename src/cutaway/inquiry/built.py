"""Statements of how it is built, answered from the records alone."""

import re
from collections.abc import Callable, Iterable

from cutaway.handbook.doubts import not_borne_out
from cutaway.handbook.records import Cite, Folder, Given, Part, given_on
from cutaway.inquiry.truth import half_step
from cutaway.inquiry.verdicts import Fails, NotModelled, Stated, Verdict
from cutaway.language.syntax import Built
from cutaway.machine.bind import Bound
from cutaway.machine.subjects import lines_of
from cutaway.parts.kind import Want
from cutaway.quantities.si import to_si

Answer = tuple[bool, str, tuple[Cite, ...]] | NotModelled


def built_verdict(statement: Built, folder: Folder, bound: Bound) -> Verdict:
    """Stated, with the paragraphs that the part cites, or how it is built otherwise."""
    answer = _answer(statement, folder, bound)
    if isinstance(answer, NotModelled):
        return answer
    so, found, cites = answer
    if so != statement.negated:
        return Stated(cites, found)
    return Fails(0.0, "built otherwise", (), cites, found=found)


def _answer(statement: Built, folder: Folder, bound: Bound) -> Answer:
    if statement.what == "fitted":
        return _fitted(statement, bound)
    if statement.what == "count":
        return _count(statement, bound)
    part = bound.parts.get(statement.subject)
    if part is None:
        return NotModelled((statement.subject,))
    questions: dict[str, Callable[[], Answer]] = {
        "at": lambda: _words(part, "where it is", part.station, statement.words),
        "marked": lambda: _words(part, "what is marked on it", part.marked, statement.words),
        "worked by": lambda: _worked_by(part, statement.words),
        "positions": lambda: _positions(part, bound, statement),
        "feeds": lambda: _feeds(part, folder, bound, statement.words[0]),
        "works": lambda: _coupled(part, bound, statement.words[0], None, works=True),
        "driven by": lambda: _coupled(part, bound, statement.words[0], "driven by", works=False),
        "set at": lambda: _set_at(part, folder, bound, statement),
    }
    return questions[statement.what]()


def _fitted(statement: Built, bound: Bound) -> Answer:
    part = bound.parts.get(statement.subject)
    if part is None:
        return False, f"{bound.subject.name} has no {statement.subject}", ()
    return True, f"{bound.subject.name} has the {statement.subject}", part.cites


def _count(statement: Built, bound: Bound) -> Answer:
    found = [part for part in bound.parts.values() if part.name in statement.words]
    cites = tuple(dict.fromkeys(cite for part in found for cite in part.cites))
    return len(found) == statement.number, f"{bound.subject.name} has {len(found)}", cites


def _plain(text: str) -> str:
    return " ".join(re.sub(r"[^\w\s/]", " ", text.casefold()).split())


def _words(part: Part, what: str, said: str, wanted: tuple[str, ...]) -> Answer:
    if not said:
        return NotModelled((f"{what} ({part.name})",))
    return _plain(said) == _plain(" ".join(wanted)), said, part.cites


def _worked_by(part: Part, wanted: tuple[str, ...]) -> Answer:
    links = [link.target.part for link in part.links if link.name == "worked by"]
    said = part.hands or ", ".join(links)
    return _words(part, "who works it", said, wanted)


def _positions(part: Part, bound: Bound, statement: Built) -> Answer:
    slot = bound.controls.get((str(part.name), statement.value))
    if slot is None:
        return NotModelled((f"a control of {part.name}",))
    wanted = {_plain(p) for p in statement.words}
    return {_plain(p) for p in slot.positions} == wanted, ", ".join(slot.positions), part.cites


def _feeds(part: Part, folder: Folder, bound: Bound, target: str) -> Answer:
    onward: dict[str, list[str]] = {}
    for line in lines_of(folder, bound.subject):
        onward.setdefault(line.start.part, []).append(line.end.part)
    for other in bound.parts.values():
        for link in other.links:
            if link.name == "fed by" and bound.subject.standard in link.on.names:
                onward.setdefault(link.target.part, []).append(other.name)
    reached, open_ = set(), [str(part.name)]
    while open_:
        here = open_.pop()
        for there in onward.get(here, ()):
            if there not in reached:
                reached.add(there)
                open_.append(there)
    words = ", ".join(onward.get(part.name, ())) or "nothing"
    return target in reached, f"{part.name} leads to {words}", _cites(bound, (part.name, target))


def _coupled(part: Part, bound: Bound, other: str, coupling: str | None, works: bool) -> Answer:
    driven, driver = (other, str(part.name)) if works else (str(part.name), other)
    if driven not in bound.parts:
        return NotModelled((driven,))
    links = [
        link
        for link in bound.parts[driven].links
        if bound.subject.standard in link.on.names and (coupling is None or link.name == coupling)
    ]
    so = any(link.target.part == driver for link in links)
    if works and not so:
        own = [link for link in part.links if link.name == "works" and bound.subject.standard in link.on.names]
        so = any(link.target.part == other for link in own)
    found = ", ".join(f"{link.name} {link.target.part}" for link in links) or "nothing drives it"
    return so, f"{driven}: {found}", _cites(bound, (driven, driver))


def _cites(bound: Bound, parts: Iterable[str]) -> tuple[Cite, ...]:
    return tuple(dict.fromkeys(cite for name in parts if name in bound.parts for cite in bound.parts[name].cites))


def _set_at(part: Part, folder: Folder, bound: Bound, statement: Built) -> Answer:
    """Nothing is stated of a figure that the paragraph cited for it does not have: there is no record of it then."""
    quantity, standard = statement.quantity, bound.subject.standard
    assert quantity is not None
    wants = [
        want
        for want in bound.kinds[part.kind].wants
        if want.dimension == quantity.dimension and (not statement.value or want.name == statement.value)
    ]
    given = [(want, g) for want in wants if (g := given_on(part, want.name, standard)) is not None]
    if not given:
        return NotModelled((f"a figure for {part.name} ({statement.value or quantity.dimension})",))
    tolerance = half_step(quantity)
    same = [
        pair
        for pair in given
        if abs(to_si(pair[1].quantity, pair[0].datum) - to_si(quantity, pair[0].datum)) <= tolerance
    ]
    looked = same[:1] or given
    for want, one in looked:
        if doubt := not_borne_out(one, want, standard, folder):
            return NotModelled((f"'{one.quantity.text}' for '{want.name}' of {part.name}: {doubt}",))
    found = ", ".join(_figure(want, one) for want, one in looked)
    return bool(same), found, looked[0][1].cites or part.cites


def _figure(want: Want, given: Given) -> str:
    return f"{want.name} {given.quantity.text}" + (" (assumed)" if given.assumed else "")
