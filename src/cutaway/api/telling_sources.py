"""What the books say of themselves, as text for a person and as records for a program."""

from collections.abc import Iterator
from dataclasses import dataclass

from cutaway.api.sources import Book, Sources
from cutaway.handbook.contradictions import Contradiction
from cutaway.handbook.dates import read_date
from cutaway.handbook.known import Known
from cutaway.handbook.names import fold, listed
from cutaway.handbook.records import Paragraph
from cutaway.narrate.citing import figure_words
from cutaway.narrate.clock import clock
from cutaway.narrate.standing_on import Standing
from cutaway.problems.counting import counted


@dataclass(frozen=True, slots=True)
class SentenceOut:
    """A sentence as it was published. start: in its film, s; None where the film has it not."""

    script: str
    text: str
    start: float | None


_IN_FORCE = {True: "in force", False: "not yet", None: "undated"}


def sources_text(found: Sources, of: str = "") -> str:
    """What `sources` says; of: only what rests on this paragraph ('§25', 'hb §25')."""
    return "\n".join(_paragraph_lines(found, of) if of else _lines(found))


def rest_on(found: Sources, of: str) -> tuple[Standing, ...]:
    """What rests on the paragraphs of this number, in any book that has it."""
    wanted = fold(of).replace(" ", "")
    return tuple(
        one
        for one in found.standing
        if wanted.lstrip("§") in (one.paragraph.number.lstrip("§"), fold(named(one.paragraph)).replace(" ", ""))
    )


def named(paragraph: Paragraph) -> str:
    """A paragraph as one cites it: 'hb §25'."""
    return f"{paragraph.source} {paragraph.number}"


def sentences_out(found: Sources, paragraph: Paragraph) -> tuple[SentenceOut, ...]:
    """The sentences of the last publication that rest on a paragraph, by the record that was made of it then."""
    if found.published is None:
        return ()
    return tuple(
        SentenceOut(script.name, one.text, one.start)
        for script in found.published.says.scripts
        for one in script.sentences
        if named(paragraph) in one.cites
    )


def _is_long(found: Sources) -> bool:
    """Whether the date asked for is more than one day."""
    date = read_date(found.at)
    return date is not None and date.first != date.last


def _lines(found: Sources) -> Iterator[str]:
    if found.at:
        yield f"The books as they stood on {found.on}" + (
            f", the last day of '{found.at}'." if _is_long(found) else "."
        )
    for book in found.books:
        yield from _book_lines(book, found)
    if not found.books:
        yield "There are no books yet. Write their paragraphs into sources/hb.md, each under a heading: ## 21 Cocks"
    for pair in found.contradictions:
        yield from _contradiction_lines(pair)
    rests = [(one, len(sentences_out(found, one.paragraph))) for one in found.standing]
    used = [(one, out) for one, out in rests if out or not one.nothing]
    if used:
        yield f"What rests on them{' today' if found.at else ''} (the whole of it with --of '§25'):"
        for one, out in used:
            yield f"  {named(one.paragraph):<9} {one.paragraph.title}: {_resting(one, out, found)}"
    bare = [named(one.paragraph) for one, out in rests if one.nothing and not out]
    if bare:
        yield f"Nothing rests on {', '.join(bare)}."


def _book_lines(book: Book, found: Sources) -> Iterator[str]:
    source = book.source
    date = f", {source.date}" if source.date else ""
    total = len(source.paragraphs)
    if book.there is False:
        its = counted(total, "paragraph")
        yield f"{source.key}: {source.title}{date}. It did not exist yet on {found.on}, nor did its {its}."
        yield ""
        return
    when = f" on {found.on}" if found.at else ""
    some = f"{book.standing} of " if book.standing != total else ""
    yield f"{source.key}: {source.title}{date}. {some}{counted(total, 'paragraph')}{when}."
    if book.there is None:
        yield "  The book has no date that is understood, so it is taken to have been there."
    for one in book.amendments:
        a = one.amendment
        yield f"  {a.name}  {a.date or 'no date'}  {_IN_FORCE[one.so]}  {a.says}".rstrip()
    for over in book.superseded:
        on = listed(sorted(over.names))
        yield f"  {over.old.number} is {over.how} on {on} by {over.new.number} ({over.new.amended_by})."
    yield ""


def _contradiction_lines(one: Contradiction) -> Iterator[str]:
    first, second = one.first, one.second
    limit = f"{first.limit} " if first.limit else ""
    has = [f"{named(p.paragraph)} has '{limit}{figure_words(p.quantity)}'" for p in (first, second)]
    yield f"On {listed(sorted(one.names))}, of '{one.subject}': {', '.join(has)}."
    if one.decided is not None:
        d = one.decided
        because = " ".join(d.because.split())
        yield f"  Decided for '{d.value}' of {d.part}: {d.prefer.source} {d.prefer.number}. {because}"
    if one.amended is not None:
        yield f"  Settled by {one.amended.new.amended_by}, which put in {one.amended.new.number}."
    if not one.settled:
        yield "  Nothing in decided.yaml says which is followed."
    yield ""


def _resting(one: Standing, out: int, found: Sources) -> str:
    counts = (
        (", ".join(one.systems), 1 if one.systems else 0),
        (counted(len(one.claims), "claim"), len(one.claims)),
        (f"{counted(len(one.sentences), 'sentence')} in scripts", len(one.sentences)),
        (f"{counted(out, 'sentence')} as published on {_out_on(found)}", out),
        (", ".join(dict.fromkeys(sort for sort, _ in one.others)), len(one.others)),
    )
    return "; ".join(words for words, count in counts if count)


def _out_on(found: Sources) -> str:
    return found.published.date.isoformat() if found.published is not None else ""


def _paragraph_lines(found: Sources, of: str) -> Iterator[str]:
    for one in rest_on(found, of):
        out = sentences_out(found, one.paragraph)
        yield f"{named(one.paragraph)}  {one.paragraph.title}"
        if one.nothing and not out:
            yield "  Nothing rests on it."
        if one.parts:
            yield f"  Parts: {', '.join(one.parts)} ({', '.join(one.systems)})"
        elif one.systems:
            yield f"  Lines of {', '.join(one.systems)}"
        yield from (f"  {sort.capitalize()}: {name}" for sort, name in one.others)
        yield from (f"  Claim: {claim.span.words}" for claim in one.claims)
        yield from (f"  In scripts ({s.script}, {s.how}): {s.sentence.text}" for s in one.sentences)
        yield from (f"  As published on {_out_on(found)} ({s.script}, {_moment(s)}): {s.text}" for s in out)
        yield ""


def _moment(one: SentenceOut) -> str:
    return f"at {clock(one.start)}" if one.start is not None else "not in the film"


def sources_record(found: Sources, of: str = "") -> dict[str, object]:
    """The same for a program."""
    return {
        "at": found.at,
        "on": found.on,
        "published": _out_on(found) or None,
        "books": [
            {
                "key": book.source.key,
                "title": book.source.title,
                "date": book.source.date,
                "there": book.there,
                "standing": book.standing,
                "amendments": [
                    {"name": a.amendment.name, "date": a.amendment.date, "in force": a.so, "says": a.amendment.says}
                    for a in book.amendments
                ],
                "superseded": [
                    {"old": s.old.number, "new": s.new.number, "how": s.how, "on": sorted(s.names)}
                    for s in book.superseded
                ],
            }
            for book in found.books
        ],
        "contradictions": [
            {
                "paragraphs": [named(c.first.paragraph), named(c.second.paragraph)],
                "figures": [c.first.quantity.text, c.second.quantity.text],
                "of": c.subject,
                "on": sorted(c.names),
                "settled by": c.amended.new.amended_by if c.amended else None,
                "decided": f"{c.decided.prefer.source} {c.decided.prefer.number}" if c.decided else None,
                "because": " ".join(c.decided.because.split()) if c.decided else None,
            }
            for c in found.contradictions
        ],
        "rests": [_rest_record(one, found) for one in (rest_on(found, of) if of else found.standing)],
    }


def _rest_record(one: Standing, found: Sources) -> dict[str, object]:
    return {
        "paragraph": named(one.paragraph),
        "systems": list(one.systems),
        "parts": list(one.parts),
        "claims": [claim.span.words for claim in one.claims],
        "sentences": [{"script": s.script, "sentence": s.sentence.text, "how": s.how} for s in one.sentences],
        "published": [
            {"script": s.script, "sentence": s.text, "at": s.start} for s in sentences_out(found, one.paragraph)
        ],
        "others": [list(pair) for pair in one.others],
    }


def known_text(known: Known) -> str:
    """A part, control or term that has the name searched for, with its paragraphs."""
    cited = ", ".join(map(named, known.cited)) or "none"
    also = f"; also named in {', '.join(map(named, known.speaking))}" if known.speaking else ""
    return f"'{known.name}' is a {known.sort} ({known.says.rstrip('.')}). It cites {cited}{also}."


def known_record(known: Known) -> dict[str, object]:
    """The same for a program."""
    return {
        "name": known.name,
        "sort": known.sort,
        "says": known.says,
        "cited": list(map(named, known.cited)),
        "speaking": list(map(named, known.speaking)),
    }
