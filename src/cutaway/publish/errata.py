"""What of a published pack reads otherwise now: sentences, captions, drawings, figures, each with the reason."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from cutaway.narrate.captions import Cue
from cutaway.narrate.rewording import Pair, paired
from cutaway.publish.snapshot import ClaimThen, DrawingThen, FigureThen, ScriptThen, SentenceThen, Snapshot

_WRONG = ("fails", "empty")


@dataclass(frozen=True, slots=True)
class TouchedSentence:
    """A sentence that is out. sort: 'reworded', 'taken out', 'put in', or 'shaken': the words are the same, and
    something behind them is not. number: in the film, from 1; in the script of today for one that was put in."""

    script: str
    number: int
    start: float | None
    sort: Literal["reworded", "taken out", "put in", "shaken"]
    was: str
    now: str
    because: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class TouchedCaption:
    """A caption that is out and whose words were changed. now: '' where its sentence was taken out of the script."""

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
        found = tuple(_sentences(script, after, pairs, behind))
        sentences.extend(found)
        captions.extend(_captions(script, after, pairs))
    return Errata(tuple(sentences), tuple(captions), tuple(_drawings(then, now)), figures, paragraphs)


def pairs_of(then: ScriptThen, now: ScriptThen) -> tuple[Pair, ...]:
    """The sentences of a script then and now, brought together."""
    return paired(tuple(one.text for one in then.sentences), tuple(one.text for one in now.sentences))


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
    )


def _rests_on(claim: ClaimThen, figure: TouchedFigure) -> bool:
    """Whether a claim names the part and was judged for a standard that the figure is for."""
    return figure.part in claim.parts and any(standard in figure.standards for standard, _ in claim.verdicts)


def _became(was: str, now: str) -> str:
    return f"was {was} and is {now}" if now else f"was {was} and is given no longer"


def _verdicts(old: SentenceThen, new: SentenceThen, alike: bool) -> Iterator[str]:
    """Verdicts that are others now. Of two states judged with different thoroughness only a change from right to wrong
    counts."""
    before = {claim.text: dict(claim.verdicts) for claim in old.claims}
    for claim in new.claims:
        for standard, kind in claim.verdicts:
            was = before.get(claim.text, {}).get(standard)
            if was is not None and was != kind and (alike or (was in _WRONG) != (kind in _WRONG)):
                yield f"'{claim.text}' on {standard}: {_word(was)} before, {_word(kind)} now"


def _word(kind: str) -> str:
    return kind.replace("-", " ")


# --- captions, drawings, figures -----------------------------------------------------------------------------------


def _captions(then: ScriptThen, now: ScriptThen, pairs: tuple[Pair, ...]) -> Iterator[TouchedCaption]:
    """The captions that are out in which a sentence stands that was reworded or taken out."""
    today = {pair.then: pair.now for pair in pairs if pair.then is not None}

    def words(number: int) -> str:
        at = today.get(number)
        return now.sentences[at].text if at is not None else ""

    for cue in then.cues:
        if any(words(number) != then.sentences[number].text for number in cue.sentences):
            said = " ".join(text for number in cue.sentences if (text := words(number)))
            yield TouchedCaption(then.name, cue.identifier, cue.start, _text(cue), said)


def _text(cue: Cue) -> str:
    return " ".join(cue.lines)


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
