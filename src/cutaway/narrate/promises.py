"""Promises to the viewer ('a later film covers …'): who made them, and which sentence settles them."""

import re
from dataclasses import dataclass

from cutaway.handbook.names import did_you_mean, fold
from cutaway.handbook.records import Folder, Mark
from cutaway.narrate.terms import Where
from cutaway.problems.diagnostic import Diagnostic, Problems

# What speakers say when they put something off. Choices of ours: better one question too many than a promise lost.
_SOUNDS_LIKE = re.compile(
    r"\b(?:an?|the|our|my|some|another) (?:(?:later|next|coming|further|future|following|separate|other) )?"
    r"(?:film|talk|chapter|episode|instalment|lecture) (?:will|shall|covers?|deals?|explains?|shows?|tells?|treats?)\b"
    r"|\b(?:in|for|until|till) (?:an?|the|our|my) (?:later|next|coming|further|future|following|separate) "
    r"(?:film|talk|chapter|episode|instalment|lecture|part)\b"
    r"|\b(?:in|for) another (?:film|talk|chapter|episode|instalment|lecture|day|time)\b"
    r"|\b(?:we|i)(?:['’]ll| shall| will)(?: be)? (?:come|coming|return|get|turn) (?:back )?to\b"
    r"|\bmore (?:of|about|on) (?:that|this|it|them|these|those) (?:later|another time|in (?:a|the) )"
    r"|\blater (?:on )?in th(?:is|e) (?:film|talk|series)\b",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Promise:
    """Something promised: what, where, and the sentence that settles it; None while it is open."""

    what: str
    made: Where
    settled: Where | None


def promises(folder: Folder) -> tuple[tuple[Promise, ...], Problems]:
    """All promises of the series in order, and what is open, settled for nobody, or sounds like one."""
    made = _marks(folder, "promise")
    settled = _marks(folder, "settles")
    problems: list[Diagnostic] = []
    found = tuple(_promise(where, mark, settled) for where, mark in made)
    for promise, (_, mark) in zip(found, made, strict=True):
        if promise.settled is None:
            message = f"'{promise.what}' is promised here, and no script settles it yet."
            hint = f"Write `settles: {promise.what}` behind the sentence that covers it."
            problems.append(Diagnostic("N911", mark.span, message, hint))
        elif promise.settled < promise.made:
            message = f"'{promise.what}' is promised here, and was settled before."
            problems.append(
                Diagnostic("N913", mark.span, message, "Take the promise out, or promise it in an earlier film.")
            )
    names = {fold(promise.what) for promise in found}
    for _, mark in settled:
        if fold(mark.words) not in names:
            message = f"'{mark.words}' is settled here, and nobody promised it."
            hint = did_you_mean(mark.words, (promise.what for promise in found)) or "Take the mark out."
            problems.append(Diagnostic("N912", mark.span, message, hint))
    return found, tuple(problems) + _unmarked(folder)


def sounds_like_a_promise(text: str) -> bool:
    """Whether a sentence puts something off.

    >>> [sounds_like_a_promise(t) for t in ("A later film covers the battery.", "It flew on in another Whinchat.")]
    [True, False]
    """
    return _SOUNDS_LIKE.search(text) is not None


def _marks(folder: Folder, sort: str) -> tuple[tuple[Where, Mark], ...]:
    return tuple(
        (Where(film, number), mark)
        for film, script in enumerate(folder.scripts)
        for number, sentence in enumerate(script.sentences)
        for mark in sentence.marks
        if mark.sort == sort
    )


def _promise(where: Where, mark: Mark, settled: tuple[tuple[Where, Mark], ...]) -> Promise:
    """A promise with the first sentence after it that settles it, else with one before it that does."""
    same = [place for place, other in settled if fold(other.words) == fold(mark.words)]
    later = [place for place in same if not place < where]
    return Promise(mark.words, where, next(iter(later or same), None))


def _unmarked(folder: Folder) -> Problems:
    told: list[Diagnostic] = []
    for script in folder.scripts:
        for sentence in script.sentences:
            marked = any(mark.sort in ("promise", "settles") for mark in sentence.marks)
            if not marked and sounds_like_a_promise(sentence.text):
                message = f"'{sentence.text}' sounds like a promise, and is not marked as one."
                hint = "Write `promise: what is promised` behind it, and `settles: …` where it is covered."
                told.append(Diagnostic("N914", sentence.span, message, hint))
    return tuple(told)
