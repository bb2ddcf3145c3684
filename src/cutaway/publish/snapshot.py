"""What a pack says, as records small enough to be kept for years: by these a later pack knows what was published."""

import hashlib
import html
import re
from collections.abc import Mapping
from dataclasses import dataclass

from cutaway.handbook.records import Folder, Term
from cutaway.machine.subjects import subjects
from cutaway.narrate.captions import Cue
from cutaway.narrate.checked import Checked, CheckedSentence
from cutaway.narrate.naming import parts_named
from cutaway.narrate.spoken import spoken_form, spoken_terms
from cutaway.narrate.timing import Slot
from cutaway.wording.verdicts import kind_of


@dataclass(frozen=True, slots=True)
class ClaimThen:
    """A claim in the author's words with its verdict by standard: ('Mk 1', 'holds'). parts: those that it names."""

    text: str
    verdicts: tuple[tuple[str, str], ...]
    parts: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SentenceThen:
    """A sentence. start: when it is spoken, s; None where the film has it not. cites: the paragraphs behind it. aloud:
    how it is read aloud, '' in records that did not say."""

    text: str
    start: float | None
    claims: tuple[ClaimThen, ...]
    cites: tuple[str, ...]
    aloud: str = ""


@dataclass(frozen=True, slots=True)
class FilmSentence:
    """A sentence of a film that is out. spoken: as the film says it. shown: as its captions have it today. start: s.
    number: in the script, from 0; None where the script has it no longer."""

    spoken: str
    shown: str
    start: float
    number: int | None


@dataclass(frozen=True, slots=True)
class FilmThen:
    """A film that is out: what it says, and its captions as corrected; their sentences are counted in the film."""

    sentences: tuple[FilmSentence, ...]
    cues: tuple[Cue, ...]


@dataclass(frozen=True, slots=True)
class ScriptThen:
    """A script with its captions. film: the film of an earlier publication, which is out already; None where none
    is."""

    name: str
    title: str
    sentences: tuple[SentenceThen, ...]
    cues: tuple[Cue, ...]
    film: FilmThen | None = None


@dataclass(frozen=True, slots=True)
class DrawingThen:
    """A drawing: its file, the digest of its bytes, the words on it."""

    path: str
    digest: str
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class FigureThen:
    """A figure of a part as printed or assumed. on: the standards in the author's words, '' for all; standards: the
    same by name, with their airframes."""

    part: str
    value: str
    on: str
    text: str
    cites: tuple[str, ...]
    assumed: bool
    standards: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class ParagraphThen:
    """A paragraph that the pack prints."""

    key: str
    text: str


@dataclass(frozen=True, slots=True)
class LetterThen:
    """A letter on which something was decided. film: the script of the film that it is about, '' where it names none.
    elsewhere: whether it is about a page or a panel. No writer's name is kept."""

    objects_to: str
    film: str
    elsewhere: bool
    decided: str


@dataclass(frozen=True, slots=True)
class Snapshot:
    """All that a pack says. rests: whether assumed values were taken to the ends of their ranges. drawn_from: a digest
    of the files that the drawings are made from. letters: None in records that did not say."""

    rests: bool
    drawn_from: str
    scripts: tuple[ScriptThen, ...]
    drawings: tuple[DrawingThen, ...]
    figures: tuple[FigureThen, ...]
    paragraphs: tuple[ParagraphThen, ...]
    letters: tuple[LetterThen, ...] | None = None


def snapshot_of(
    folder: Folder,
    checked: Checked,
    slots: Mapping[str, tuple[Slot, ...]],
    cues: Mapping[str, tuple[Cue, ...]],
    drawings: tuple[DrawingThen, ...],
    rests: bool,
) -> Snapshot:
    """What a pack says. slots, cues: by script."""
    names = frozenset(str(part.name) for part in folder.parts)
    terms = spoken_terms(folder)
    scripts = []
    for script in folder.scripts:
        said = [one for one in checked.sentences if one.script.name == script.name]
        sentences = tuple(
            _sentence(one, slot, names, terms) for one, slot in zip(said, slots[script.name], strict=True)
        )
        scripts.append(ScriptThen(script.name, script.title, sentences, cues[script.name]))
    return Snapshot(
        rests,
        drawn_from(folder),
        tuple(scripts),
        drawings,
        _figures(folder),
        tuple(
            ParagraphThen(f"{p.source} {p.number}", " ".join("\n".join((p.title, p.text, *p.cautions)).split()))
            for source in folder.sources
            for p in source.paragraphs
        ),
        tuple(
            LetterThen(one.objects_to, one.film, bool(one.page or one.panel), f"{one.decision} {one.because}".strip())
            for one in folder.letters
            if one.decision
        ),
    )


def drawings_then(drawings: Mapping[str, bytes]) -> tuple[DrawingThen, ...]:
    """What drawings say, which are given by path."""
    return tuple(_drawing(path, drawings[path]) for path in sorted(drawings))


def drawn_from(folder: Folder) -> str:
    """A digest of the files that drawings are made from, by which an old drawing is known."""
    files = [f for f in folder.files if f.path.startswith(("systems/", "sheets/", "situations.", "type."))]
    text = "".join(f"{file.path}\n{file.text}\n" for file in sorted(files, key=lambda file: file.path))
    return hashlib.sha256(text.encode()).hexdigest()


def _sentence(one: CheckedSentence, slot: Slot, names: frozenset[str], terms: tuple[Term, ...]) -> SentenceThen:
    claims = tuple(
        ClaimThen(
            c.claim.span.words,
            tuple((str(j.subject.name), kind_of(j.verdict)) for j in c.judged),
            parts_named(c.claim, names),
        )
        for c in one.claims
    )
    text = one.sentence.text
    return SentenceThen(text, round(slot.start, 3), claims, cites_behind(one), spoken_form(text, terms))


def cites_behind(one: CheckedSentence) -> tuple[str, ...]:
    """The paragraphs behind a sentence: those it is marked with, then those of its verdicts."""
    found = list(one.sentence.cites)
    for claim in one.claims:
        for judged in claim.judged:
            found.extend(getattr(judged.verdict, "cites", ()))
    return tuple(dict.fromkeys(cite.key for cite in found))


def _drawing(path: str, content: bytes) -> DrawingThen:
    text = content.decode("utf-8", "replace")
    words = (re.sub(r"<[^>]*>", " ", found) for found in re.findall(r"<text\b[^>]*>(.*?)</text>", text, re.DOTALL))
    plain = tuple(sorted({" ".join(html.unescape(word).split()) for word in words} - {""}))
    return DrawingThen(path, hashlib.sha256(content).hexdigest(), plain)


def _figures(folder: Folder) -> tuple[FigureThen, ...]:
    return tuple(
        FigureThen(
            str(part.name),
            value.name,
            given.on.words or part.on.words,
            given.quantity.text,
            tuple(cite.key for cite in given.cites),
            given.assumed,
            tuple(
                str(one.name)
                for one in subjects(folder)
                if one.standard in given.on.names and one.standard in part.on.names
            ),
        )
        for part in folder.parts
        for value in part.values
        for given in value.givens
    )
