"""Films that are out: they cannot be changed, but their captions can, at the times of the film."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from cutaway.handbook.records import Script, Sentence, Term
from cutaway.narrate.captions import Cue
from cutaway.narrate.clock import clock
from cutaway.narrate.corrected import Film, corrected
from cutaway.narrate.rewording import Pair, paired
from cutaway.narrate.srt import srt_file
from cutaway.narrate.webvtt import caption_file
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.publish.snapshot import FilmSentence, FilmThen, ScriptThen


@dataclass(frozen=True, slots=True)
class Difference:
    """Where a film that is out says something else than its script of today. shown: as its captions have it today;
    '' where the sentence was taken out of the script, so that film and captions say it still."""

    start: float
    spoken: str
    shown: str


@dataclass(frozen=True, slots=True)
class FilmReport:
    """A film that is out and is not as its script of today. files: its captions by their path in the
    pack, as they are to read at the times of the film."""

    name: str
    title: str
    differences: tuple[Difference, ...]
    files: Mapping[str, bytes]


def film_of(script: ScriptThen) -> FilmThen:
    """The film of a published script: the one that it carries on, else the one that went out with it."""
    if script.film is not None:
        return script.film
    there = [number for number, one in enumerate(script.sentences) if one.start is not None]
    place = {number: at for at, number in enumerate(there)}
    sentences = tuple(
        FilmSentence(one.text, one.text, one.start, number)
        for number, one in enumerate(script.sentences)
        if one.start is not None
    )
    return FilmThen(sentences, tuple(_counted(cue, place) for cue in script.cues))


def pairs_of(then: ScriptThen, now: ScriptThen) -> tuple[Pair, ...]:
    """The sentences of a script then and now, brought together."""
    return paired(tuple(one.text for one in then.sentences), tuple(one.text for one in now.sentences))


def carried_on(
    then: ScriptThen, now: ScriptThen, today: Script, glossary: tuple[Term, ...]
) -> tuple[FilmThen, Problems]:
    """The film of a published script with its captions as they are to read today; its times stay."""
    film = film_of(then)
    pairs = pairs_of(then, now)
    number = {pair.then: pair.now for pair in pairs if pair.then is not None}
    at_now = [number.get(one.number) if one.number is not None else None for one in film.sentences]
    changed: dict[int, Sentence] = {
        at: today.sentences[to]
        for at, (one, to) in enumerate(zip(film.sentences, at_now, strict=True))
        if to is not None and one.number is not None
        # Where the speaker departed from the script the captions have what is spoken, until the script is edited.
        if today.sentences[to].text != then.sentences[one.number].text
    }
    shown = tuple(one.shown for one in film.sentences)
    cues, problems = corrected(Film(now.name, shown, film.cues), changed, glossary) if changed else (film.cues, ())
    sentences = tuple(
        replace(one, shown=changed[at].text if at in changed else one.shown, number=to)
        for at, (one, to) in enumerate(zip(film.sentences, at_now, strict=True))
    )
    cites = {at: now.sentences[to].cites for at, to in enumerate(at_now) if to is not None}
    problems += tuple(
        _no_room(today.sentences[pair.now]) for pair in pairs if pair.then is None and pair.now is not None
    )
    return FilmThen(sentences, tuple(_cited(cue, cites) for cue in cues)), problems


def with_film_times(script: ScriptThen) -> ScriptThen:
    """A script as it goes out when its film stays: the film's captions and times; a sentence that the film has not
    has no time."""
    if script.film is None:
        return script
    starts = {one.number: one.start for one in script.film.sentences if one.number is not None}
    place = {at: one.number for at, one in enumerate(script.film.sentences) if one.number is not None}
    sentences = tuple(replace(one, start=starts.get(number)) for number, one in enumerate(script.sentences))
    return replace(script, sentences=sentences, cues=tuple(_counted(cue, place) for cue in script.film.cues))


def differences(film: FilmThen) -> tuple[Difference, ...]:
    """Where the film says something else than the script of today."""
    return tuple(
        Difference(one.start, one.spoken, one.shown if one.number is not None else "")
        for one in film.sentences
        if one.number is None or one.spoken != one.shown
    )


def film_report(script: ScriptThen) -> FilmReport | None:
    """What is to be said of the film of a script that is out; None where none is, or script and captions are its."""
    if script.film is None or (not differences(script.film) and _as_seen(script.film.cues) == _as_seen(script.cues)):
        return None
    return FilmReport(script.name, script.title, differences(script.film), _files(script, script.film))


def _files(script: ScriptThen, film: FilmThen) -> dict[str, bytes]:
    notes: dict[str, str] = {}
    for at, one in enumerate(film.sentences):
        first = next((cue for cue in film.cues if at in cue.sentences), None)
        if first is not None and one.number is not None and one.spoken != one.shown:
            said = f"At {clock(one.start)} the film says: {one.spoken}"
            notes[first.identifier] = " ".join(filter(None, (notes.get(first.identifier), said)))
    title = f"{script.title or script.name}, corrected, at the times of the film that is out"
    path = f"captions/{script.name}.corrected"
    return {
        f"{path}.vtt": caption_file(film.cues, title, notes=notes).encode(),
        f"{path}.srt": srt_file(film.cues).encode(),
    }


def _as_seen(cues: tuple[Cue, ...]) -> list[tuple[float, float, tuple[str, ...]]]:
    return [(cue.start, cue.end, cue.lines) for cue in cues]


def _counted(cue: Cue, number: Mapping[int, int]) -> Cue:
    """A caption with its sentences counted otherwise; those without a number are left out."""
    return replace(cue, sentences=tuple(number[one] for one in cue.sentences if one in number))


def _cited(cue: Cue, cites: Mapping[int, tuple[str, ...]]) -> Cue:
    """A caption with the paragraphs that are behind its sentences today."""
    if not any(one in cites for one in cue.sentences):
        return cue
    return replace(cue, cites=tuple(dict.fromkeys(cite for one in cue.sentences for cite in cites.get(one, ()))))


def _no_room(sentence: Sentence) -> Diagnostic:
    message = f"'{sentence.text}' was put in after the film was published, so that no corrected caption can show it."
    hint = "Make the film again, or say it in words that a caption of then can hold."
    return Diagnostic("K311", sentence.span, message, hint)
