"""What of a published pack reads otherwise now: sentences, captions, drawings, figures, each with the reason."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from difflib import SequenceMatcher
from typing import Literal

from cutaway.handbook.names import fold, listed
from cutaway.narrate.cue_words import words_in_place
from cutaway.narrate.rewording import Pair
from cutaway.publish.films import film_of, pairs_of
from cutaway.publish.snapshot import (
    ClaimThen,
    DrawingThen,
    FigureThen,
    LetterThen,
    ScriptThen,
    SentenceThen,
    Snapshot,
)

_WRONG = ("fails", "empty")
# A decision that leaves the sentence as it is.
_KEPT = re.compile(
    r"\W*(?:it\s+)?(?:is\s+|was\s+)?(?:kept|keep|stands?|stays?|remains?|unchanged|no\s+change|not\s+changed|left|"
    r"reject|declin|refus)",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class TouchedSentence:
    """A sentence that is out. sort: 'reworded', 'taken out', 'put in', or 'shaken': the words are the same, and
    something behind them is not. number: in the film, from 1; in the script of today for one that was put in. letters:
    what was decided since on letters that object to this very sentence."""

    script: str
    number: int
    start: float | None
    sort: Literal["reworded", "taken out", "put in", "shaken"]
    was: str
    now: str
    because: tuple[str, ...]
    letters: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class TouchedCaption:
    """A caption that is out and whose words were changed. now: '' where nothing of it is left in the script."""

    script: str
    identifier: str
    start: float
    was: str
    now: str


@dataclass(frozen=True, slots=True)
class TouchedDrawing:
    """A drawing that looks otherwise. gone, new: the words on it that went and came; both () where lines differ."""

    path: str
    there: bool
    gone: tuple[str, ...]
    new: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class TouchedFigure:
    """A figure that is another now. now: '' where it is gone."""

    part: str
    value: str
    on: str
    was: str
    now: str
    standards: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Errata:
    """What was touched between two states. paragraphs: those of the books that read otherwise."""

    sentences: tuple[TouchedSentence, ...] = ()
    captions: tuple[TouchedCaption, ...] = ()
    drawings: tuple[TouchedDrawing, ...] = ()
    figures: tuple[TouchedFigure, ...] = ()
    paragraphs: tuple[str, ...] = ()

    @property
    def nothing(self) -> bool:
        """Whether all is as it was."""
        return not (self.sentences or self.captions or self.drawings or self.figures or self.paragraphs)


def errata(then: Snapshot, now: Snapshot) -> Errata:
    """What reads otherwise now than it did then."""
    figures = tuple(_figures(then, now))
    today = {one.key: one.text for one in now.paragraphs}
    paragraphs = tuple(one.key for one in then.paragraphs if today.get(one.key) != one.text)
    behind = _Behind(figures, frozenset(paragraphs), then.rests == now.rests)
    scripts = {script.name: script for script in now.scripts}
    sentences: list[TouchedSentence] = []
    captions: list[TouchedCaption] = []
    for script in then.scripts:
        after = scripts.get(script.name, ScriptThen(script.name, script.title, (), ()))
        pairs = pairs_of(script, after)
        found = _sentences(script, after, pairs, behind)
        sentences.extend(replace(one, letters=_letters(one, then.letters, now.letters)) for one in found)
        captions.extend(_captions(script, after, pairs))
    return Errata(tuple(sentences), tuple(captions), tuple(_drawings(then, now)), figures, paragraphs)


# --- sentences -----------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Behind:
    """What changed behind the sentences. alike: whether both states were judged with the same thoroughness."""

    figures: tuple[TouchedFigure, ...]
    paragraphs: frozenset[str]
    alike: bool


def _sentences(
    then: ScriptThen, now: ScriptThen, pairs: tuple[Pair, ...], behind: _Behind
) -> Iterator[TouchedSentence]:
    for pair in pairs:
        if pair.then is None and pair.now is not None:
            yield TouchedSentence(then.name, pair.now + 1, None, "put in", "", now.sentences[pair.now].text, ())
        elif pair.then is not None and pair.now is None:
            old = then.sentences[pair.then]
            yield TouchedSentence(then.name, pair.then + 1, old.start, "taken out", old.text, "", ())
        elif pair.then is not None and pair.now is not None:
            old, new = then.sentences[pair.then], now.sentences[pair.now]
            because = _because(old, new, behind)
            if old.text != new.text or because:
                sort: Literal["reworded", "shaken"] = "reworded" if old.text != new.text else "shaken"
                yield TouchedSentence(then.name, pair.then + 1, old.start, sort, old.text, new.text, because)


def _because(old: SentenceThen, new: SentenceThen, behind: _Behind) -> tuple[str, ...]:
    """What is behind a sentence and is otherwise now, in words."""
    return (
        *_verdicts(old, new, behind.alike),
        *(
            f"'{one.value}' of the {one.part} {_became(one.was, one.now)}"
            for one in behind.figures
            if any(_rests_on(claim, one) for claim in old.claims)
        ),
        *(f"{key} reads otherwise" for key in old.cites if key in behind.paragraphs),
        *_aloud(old, new),
    )


def _aloud(old: SentenceThen, new: SentenceThen) -> Iterator[str]:
    """What of the same words is said otherwise."""
    if old.text != new.text or not old.aloud or old.aloud == new.aloud:
        return
    was, now = old.aloud.split(), new.aloud.split()
    for tag, a, b, c, d in SequenceMatcher(None, was, now, autojunk=False).get_opcodes():
        if tag != "equal":
            said = [" ".join(words).strip(".,;:!?") for words in (was[a:b], now[c:d])]
            yield f"'{said[0]}' is to be said '{said[1]}'"


def _letters(
    said: TouchedSentence, before: tuple[LetterThen, ...] | None, today: tuple[LetterThen, ...] | None
) -> tuple[str, ...]:
    """What was decided on letters that object to a sentence of this film. A decision that stood before the sentence
    went out has nothing to do with an edit after that, nor has one to keep it, nor a letter with words that still
    stand. Where the record does not say what was decided then, nothing is told."""
    if said.sort == "shaken" or before is None:
        return ()
    changed = {_about(one) for one in before if not _KEPT.match(one.decided)}
    return tuple(
        one.decided
        for one in today or ()
        if _about(one) not in changed and not _KEPT.match(one.decided) and fold(one.objects_to) == fold(said.was)
        if one.film == said.script or not (one.film or one.elsewhere)
    )


def _about(one: LetterThen) -> tuple[str, str, bool]:
    return fold(one.objects_to), one.film, one.elsewhere


def _rests_on(claim: ClaimThen, figure: TouchedFigure) -> bool:
    """Whether a claim names the part and was judged for a standard that the figure is for."""
    return figure.part in claim.parts and any(standard in figure.standards for standard, _ in claim.verdicts)


def _became(was: str, now: str) -> str:
    return f"was {was} and is {now}" if now else f"was {was} and is given no longer"


def _verdicts(old: SentenceThen, new: SentenceThen, alike: bool) -> Iterator[str]:
    """Verdicts that are others now, those of several standards in one. Of two states judged with different
    thoroughness only a change from right to wrong counts."""
    before = {claim.text: dict(claim.verdicts) for claim in old.claims}
    for claim in new.claims:
        changed: dict[tuple[str, str], list[str]] = {}
        for standard, kind in claim.verdicts:
            was = before.get(claim.text, {}).get(standard)
            if was is not None and was != kind and (alike or (was in _WRONG) != (kind in _WRONG)):
                changed.setdefault((was, kind), []).append(standard)
        for (was, kind), standards in changed.items():
            yield f"'{claim.text}' on {listed(standards)}: {_word(was)} before, {_word(kind)} now"


def _word(kind: str) -> str:
    return kind.replace("-", " ")


# --- captions, drawings, figures -----------------------------------------------------------------------------------


def _captions(then: ScriptThen, now: ScriptThen, pairs: tuple[Pair, ...]) -> Iterator[TouchedCaption]:
    """The captions that are out and in which words stand that were changed or taken out."""
    film = film_of(then)
    today = {pair.then: pair.now for pair in pairs if pair.then is not None}
    new: dict[int, str] = {}
    for at, one in enumerate(film.sentences):
        if one.number is not None:
            to = today.get(one.number)
            text = now.sentences[to].text if to is not None else ""
            if text != then.sentences[one.number].text:
                new[at] = text
    reads = words_in_place(film.cues, tuple(one.shown for one in film.sentences), new)
    for cue, words in zip(film.cues, reads, strict=True):
        was = " ".join(cue.lines)
        if words != was:
            yield TouchedCaption(then.name, cue.identifier, cue.start, was, words)


def _drawings(then: Snapshot, now: Snapshot) -> Iterator[TouchedDrawing]:
    today = {one.path: one for one in now.drawings}
    for old in then.drawings:
        new: DrawingThen | None = today.get(old.path)
        if new is None:
            yield TouchedDrawing(old.path, False, (), ())
        elif new.digest != old.digest:
            gone = tuple(word for word in old.words if word not in new.words)
            yield TouchedDrawing(old.path, True, gone, tuple(word for word in new.words if word not in old.words))


def _figures(then: Snapshot, now: Snapshot) -> Iterator[TouchedFigure]:
    def key(one: FigureThen) -> tuple[str, str, str]:
        return (one.part, one.value, one.on)

    today = {key(one): one.text for one in now.figures}
    for old in then.figures:
        text = today.get(key(old), "")
        if text != old.text:
            yield TouchedFigure(old.part, old.value, old.on, old.text, text, old.standards)
