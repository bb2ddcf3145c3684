"""A manuscript from scripts, as records: paragraphs with footnotes, figures, the books behind them."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import groupby

from cutaway.handbook.names import listed
from cutaway.handbook.records import Cite, Folder, paragraph
from cutaway.handbook.records import Paragraph as Book
from cutaway.narrate.checked import CheckedSentence
from cutaway.narrate.held_words import behind
from cutaway.narrate.shots import Picture, Shot
from cutaway.wording.verdicts import heading


@dataclass(frozen=True, slots=True)
class Run:
    """A sentence of a paragraph with its footnote, '' for none."""

    text: str
    footnote: str


@dataclass(frozen=True, slots=True)
class Figure:
    """A figure: its caption, and the picture; words alone for a picture of the author's own."""

    caption: str
    picture: Picture


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A paragraph, and the figures that stand after it. chapter: '' where the script has none."""

    chapter: str
    runs: tuple[Run, ...]
    figures: tuple[Figure, ...]


@dataclass(frozen=True, slots=True)
class Part:
    """One script: its title and its paragraphs."""

    title: str
    paragraphs: tuple[Paragraph, ...]


@dataclass(frozen=True, slots=True)
class Manuscript:
    """The whole. books: the bibliography, one entry a book that a footnote names. differing: the sentences whose words
    say otherwise than the books or their own claims, each with what differs."""

    title: str
    maker: str
    notice: str
    parts: tuple[Part, ...]
    books: tuple[str, ...]
    differing: tuple[str, ...] = ()


def manuscript(
    folder: Folder, scripts: tuple[tuple[str, tuple[CheckedSentence, ...], tuple[Shot, ...]], ...]
) -> Manuscript:
    """The manuscript of some scripts. scripts: title, sentences as checked, and shots of each, in order."""
    seen: set[str] = set()
    parts = tuple(Part(title, tuple(_paragraphs(folder, said, shots, seen))) for title, said, shots in scripts)
    everything = tuple(one for _, said, _ in scripts for one in said)
    named = {cite.source for one in everything for cite in _cites(one)}
    named |= {one.source for said in everything for one in _compare_with(said)}
    books = tuple(_book(folder, str(source.key)) for source in folder.sources if source.key in named)
    differing = tuple(words for one in everything if (words := differing_words(one)))
    return Manuscript(folder.type.name, folder.type.maker, folder.type.notice, parts, books, differing)


def _paragraphs(
    folder: Folder, said: tuple[CheckedSentence, ...], shots: tuple[Shot, ...], seen: set[str]
) -> Iterable[Paragraph]:
    """seen: the pictures that the manuscript has already; it grows."""
    both = list(zip(said, shots, strict=True))
    marked = any(shot.picture is not None and shot.picture.by == "marked" for shot in shots)
    for (chapter, _), group in groupby(both, key=lambda pair: (pair[0].sentence.chapter, pair[0].sentence.paragraph)):
        pairs = list(group)
        figures = []
        for _, shot in pairs:
            picture = shot.picture
            # Where the author chose pictures, nothing is proposed beside them.
            if picture is None or picture.words in seen or (marked and picture.by != "marked"):
                continue
            seen.add(picture.words)
            figures.append(Figure(_caption(picture, shot), picture))
        runs = tuple(Run(one.sentence.text, footnote(one, folder)) for one, _ in pairs)
        yield Paragraph(chapter, runs, tuple(figures))


def _caption(picture: Picture, shot: Shot) -> str:
    if not picture.system:
        return picture.words[:1].upper() + picture.words[1:]
    at = f" Look at: {listed(shot.callouts)}." if shot.callouts else ""
    return f"{picture.system} on {picture.standard}, {picture.situation}.{at}"


def footnote(one: CheckedSentence, folder: Folder) -> str:
    """What stands behind a sentence: the paragraphs, and the verdicts on its claims; '' where nothing does. One that
    cites nothing and that the books state is told to be compared with the paragraph: 'Cf. …'."""
    books = _paragraphs_named(_cites(one), folder)
    verdicts: dict[str, list[str]] = {}
    for claim in one.claims:
        for judged in claim.judged:
            verdicts.setdefault(heading(judged.verdict).lower(), []).append(str(judged.subject.name))
    found = "; ".join(f"{word} on {listed(dict.fromkeys(names))}" for word, names in verdicts.items())
    words = [f"{'; '.join(books)}."] if books else []
    words += [f"Claims checked: {found}."] if found else []
    like = _compare_with(one)
    if like:
        cites = tuple(Cite(p.source, p.number, one.sentence.span) for p in like)
        words.append(f"Cf. {'; '.join(_paragraphs_named(cites, folder))}.")
    return " ".join(words)


def _compare_with(one: CheckedSentence) -> tuple[Book, ...]:
    """The paragraph by which the books alone state a sentence that cites none."""
    if one.compared is None or one.sentence.cites or one.compared.verdict != "stated":
        return ()
    return behind(one.compared)


def differing_words(one: CheckedSentence) -> str:
    """A sentence with what of it differs, '' for one of which nothing does."""
    odds = [problem.message for problem in one.at_odds]
    if one.compared is not None and one.compared.verdict == "differs":
        odds += [difference.why for difference in one.compared.differences]
    return f"'{one.sentence.text}' {' '.join(dict.fromkeys(odds))}" if odds else ""


def _cites(one: CheckedSentence) -> tuple[Cite, ...]:
    """The paragraphs behind a sentence, each once: those it is marked with, then those of its verdicts."""
    found = list(one.sentence.cites)
    for claim in one.claims:
        for judged in claim.judged:
            found.extend(getattr(judged.verdict, "cites", ()))
    return tuple({(cite.source, cite.number): cite for cite in found}.values())


def _paragraphs_named(cites: tuple[Cite, ...], folder: Folder) -> list[str]:
    """The paragraphs by book, each book named once: 'Handbook, §21, 'Petrol tanks', and §22, 'Tank selector''."""
    found: dict[str, list[str]] = {}
    for cite in cites:
        there = paragraph(folder, cite)
        title = f" '{there.title}'" if there is not None and there.title else ""
        book = next((source.title for source in folder.sources if source.key == cite.source), "") or str(cite.source)
        found.setdefault(book, []).append(f"{cite.number}{title}")
    return [f"{book}, {listed(dict.fromkeys(numbers))}" for book, numbers in found.items()]


def _book(folder: Folder, key: str) -> str:
    source = next(source for source in folder.sources if source.key == key)
    words = [source.title or key]
    words += [source.date] if source.date else []
    if source.amendments:
        lists = listed(f"{one.name} ({one.date})" if one.date else one.name for one in source.amendments)
        words.append(f"with {lists}")
    return f"{', '.join(words)}. {f'Rights: {source.rights.rstrip(chr(46))}.' if source.rights else ''}".strip()
