"""The errata page: what was published and reads otherwise now, publication by publication."""

import json
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from difflib import SequenceMatcher

from cutaway.handbook.names import listed
from cutaway.narrate.clock import clock
from cutaway.publish.errata import Errata, TouchedDrawing, TouchedSentence
from cutaway.publish.films import Difference, FilmReport
from cutaway.publish.html import Html, el, join
from cutaway.publish.plain_page import plain_page


@dataclass(frozen=True, slots=True)
class Correction:
    """What was touched between a publication and the next. since, until: dates; until '' for what is not out yet."""

    since: str
    until: str
    errata: Errata


def errata_page(title: str, corrections: tuple[Correction, ...], films: tuple[FilmReport, ...], notice: str) -> str:
    """The page: the films that are out with their captions, then the corrections, the newest first."""
    found = [_section(one) for one in reversed(corrections) if not one.errata.nothing]
    dates = listed(one.since for one in corrections)
    head = el("p", f"Published on {dates}." + ("" if found or films else " Nothing of it reads otherwise now."))
    return plain_page(f"{title}, errata", (head, *_films(films), *found), notice)


def errata_json(corrections: tuple[Correction, ...], films: tuple[FilmReport, ...] = ()) -> bytes:
    """The same for a program."""
    records = [{"since": one.since, "until": one.until or None, **asdict(one.errata)} for one in corrections]
    out = [
        {"film": one.name, "captions": sorted(one.files), "differences": [asdict(d) for d in one.differences]}
        for one in films
    ]
    text = json.dumps({"format": 1, "corrections": records, "films": out}, ensure_ascii=False, indent=1)
    return (text + "\n").encode()


def film_lines(films: tuple[FilmReport, ...]) -> Iterator[str]:
    """What `make` says of the films that are out: where they say something else, and which captions to put in."""
    for film in films:
        yield f"  film      {film.name} stays as it is; put in its captions: {', '.join(sorted(film.files))}"
        for one in film.differences:
            yield f"            at {clock(one.start)} it says: {one.spoken}"
            yield f"            {_caption_then(one)}"


def _caption_then(one: Difference) -> str:
    return f"its caption reads: {one.shown}" if one.shown else "and its caption too; the script has it no longer"


def _films(films: tuple[FilmReport, ...]) -> Iterator[Html]:
    if not films:
        return
    parts: list[Html] = []
    for film in films:
        name = film.title or film.name
        links = (el("a", path.rpartition("/")[2], href=path) for path in sorted(film.files))
        parts.append(el("h3", name))
        parts.append(el("p", "Captions at the times of the film: ", join(links, ", ")))
        if film.differences:
            parts.append(el("ul", *(el("li", *_spoken(one)) for one in film.differences)))
    words = "A film that is out stays as it was made; its captions can be put in anew. What is spoken stays as it was:"
    yield el("section", el("h2", "Films"), el("p", words), *parts)


def _spoken(one: Difference) -> tuple[str, ...]:
    said = f"{clock(one.start)}: the film says '{one.spoken}'"
    if one.shown:
        return (said, f" The caption reads '{one.shown}'")
    return (said, " This no longer stands; the caption shows what is spoken.")


def errata_lines(one: Errata, since: str) -> Iterator[str]:
    """What `make` says of it: one line for each thing that was touched."""
    yield f"Published on {since} and touched since:"
    for said in one.sentences:
        time = f" at {clock(said.start)}" if said.start is not None else ""
        yield f"  sentence  {said.script}, {said.number}{time}  {said.sort}: {said.was or said.now}"
        if said.sort == "reworded":
            yield f"            now: {said.now}"
        yield from (f"            {reason}" for reason in said.because)
    for caption in one.captions:
        yield f"  caption   {caption.identifier} at {clock(caption.start)}: {caption.was}"
    for drawing in one.drawings:
        yield f"  drawing   {drawing.path}{_drawn(drawing.there, drawing.gone, drawing.new)}"
    for figure in one.figures:
        on = f" on {figure.on}" if figure.on else ""
        now = f"now {figure.now}" if figure.now else "given no longer"
        yield f"  figure    {figure.part}, {figure.value}{on}: {figure.was}, {now}"
    if one.paragraphs:
        yield f"  paragraphs that read otherwise: {', '.join(one.paragraphs)}"


def _where(said: TouchedSentence) -> str:
    time = f" at {clock(said.start)}" if said.start is not None else ""
    return f"{said.script}, sentence {said.number}{time}"


def _drawn(there: bool, gone: tuple[str, ...], new: tuple[str, ...]) -> str:
    if not there:
        return ": gone"
    told = [f"without {', '.join(gone)}"] if gone else []
    told += [f"with {', '.join(new)}"] if new else []
    return ": " + "; ".join(told) if told else ": drawn otherwise, the same words"


def _section(one: Correction) -> Html:
    until = f"corrected on {one.until}" if one.until else "corrected, and not published yet"
    parts: list[Html] = []
    found = one.errata
    if found.sentences:
        parts.append(el("h3", "Sentences"))
        parts.append(el("ul", *(el("li", _sentence(said)) for said in found.sentences)))
    if found.captions:
        parts.append(el("h3", "Captions"))
        rows = (
            el("li", f"{one.script}, {clock(one.start)}: ", _difference(one.was, one.now)) for one in found.captions
        )
        parts.append(el("ul", *rows))
    if found.figures:
        parts.append(el("h3", "Figures"))
        parts.append(
            el("ul", *(el("li", _figure(f.part, f.value, f.on), _difference(f.was, f.now)) for f in found.figures))
        )
    if found.drawings:
        parts.append(el("h3", "Drawings"))
        parts.append(el("ul", *_drawings(found.drawings)))
    if found.paragraphs:
        parts.append(el("h3", "Paragraphs of the books that read otherwise"))
        parts.append(el("p", ", ".join(found.paragraphs)))
    return el("section", el("h2", f"Published on {one.since}, {until}"), *parts)


def _drawings(found: tuple[TouchedDrawing, ...]) -> Iterator[Html]:
    """One entry for all drawings with the same change, since a caution or a name stands on many sheets."""
    alike: dict[str, list[str]] = {}
    for one in found:
        alike.setdefault(_drawn(one.there, one.gone, one.new), []).append(one.path)
    for words, paths in alike.items():
        if len(paths) == 1:
            yield el("li", paths[0], words)
        else:
            yield el("li", f"{len(paths)} drawings{words}", el("div", ", ".join(paths), class_="quiet"))


def _figure(part: str, value: str, on: str) -> str:
    return f"{part}, {value}{f' on {on}' if on else ''}: "


def _sentence(said: TouchedSentence) -> Html:
    match said.sort:
        case "put in":
            words = join((el("ins", said.now), " (put in; the film has it not)"))
        case "taken out":
            words = join((el("del", said.was), " (taken out)"))
        case "shaken":
            words = join((said.was, " (the words stand; what is behind them does not)"))
        case "reworded":
            words = _difference(said.was, said.now)
    reasons = "; ".join(said.because)
    return join(
        (
            f"{_where(said)}: ",
            words,
            el("div", f"Because {reasons}.", class_="quiet") if reasons else "",
            *(el("div", f"After a letter. {decided}", class_="quiet") for decided in said.letters),
        )
    )


def _difference(was: str, now: str) -> Html:
    """Two texts as one, with what was taken out and what was put in marked."""
    if not now:
        return el("del", was)
    one, other = was.split(), now.split()
    pieces: list[str] = []
    for tag, a, b, c, d in SequenceMatcher(None, one, other, autojunk=False).get_opcodes():
        if tag == "equal":
            pieces.append(" ".join(one[a:b]))
            continue
        if b > a:
            pieces.append(el("del", " ".join(one[a:b])))
        if d > c:
            pieces.append(el("ins", " ".join(other[c:d])))
    return join(pieces, " ")
