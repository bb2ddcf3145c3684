"""Small words that turn a caution round: may for must, before for after, a 'not' left out or put in."""

import re
from dataclasses import dataclass

from cutaway.handbook.records import Paragraph
from cutaway.narrate.clauses import AND_NOT, NOT, is_denied
from cutaway.narrate.compared import Difference
from cutaway.narrate.differing import Books
from cutaway.narrate.likely import Heard
from cutaway.narrate.overlap import BookSentence

# How alike a sentence and the book's must be before their small words are compared: so much of the book's sentence and
# of the speaker's must be common to both. Choices of ours.
_THERE = 0.35
_HERE = 0.45
# For a 'not' that is there or not, both must be nearly the same sentence.
_SAME = 0.55
# A clause of the paragraph that denies what the sentence says contradicts it where the sentence has so much of the
# clause, and the clause so much of the sentence; with less of both it casts doubt. Choices of ours.
_SAYS, _SAID = 0.75, 0.4
_DOUBTED, _DOUBTING = 0.5, 0.3
# How much of a sentence must stand in what a book says by the way to be taken as spoken of there.
_ASIDE_SHARE = 0.75

_MUST = re.compile(
    r"\b(?:must|shall|(?:is|are) (?:always |never |not )?to be|has to|have to|should|ought to)\b",
    re.IGNORECASE,
)
_OFTEN = re.compile(r"\b(?:always|at all times)\b", re.IGNORECASE)
_MAY = re.compile(
    r"\b(?:may|can|could|might|need not|needn't|needn’t|optional|(?:is|are) (?:free|allowed) to)\b", re.IGNORECASE
)
# What is said by the way: in 'On Mk 2, which has no gauge, the lamp …' nothing is denied of the lamp.
_ASIDE = re.compile(r",\s*(?:which|who|whose)\b[^,]*,", re.IGNORECASE)
_OPPOSITES: tuple[tuple[str, str], ...] = (
    ("above", "below"),
    ("left", "right"),
    ("front", "rear"),
    ("first", "last"),
    ("more than", "less than"),
    ("rises", "falls"),
)


# With one of these in both, a 'not' may only turn the order of the two things.
_ORDERED = re.compile(r"\b(?:before|after|until|till|once)\b", re.IGNORECASE)


# 'the rear cockpit' and 'the front seat' are two things, and neither is the other turned round.
_PLACING = frozenset(["left", "right", "front", "rear", "first", "last"])


@dataclass(frozen=True, slots=True)
class _Turn:
    said: str
    printed: str


def caution_differences(
    text: str, paragraph: Paragraph, nearest: BookSentence | None, as_said: bool = False
) -> tuple[Difference, ...]:
    """The small words in which a sentence says otherwise than the nearest sentence of a paragraph.

    as_said: whether what it says is there or not is so by the books, so that a 'no' in one of them turns nothing.
    """
    if nearest is None:
        return ()
    aside = None if as_said else _denied_aside(text, nearest.text)
    if aside is not None:
        return (_difference(aside, paragraph, nearest),)
    if nearest.there < _THERE or nearest.here < _HERE:
        return ()
    found = [*_duty(text, nearest.text), *_order(text, nearest.text)]
    both_ordered = _ORDERED.search(text) and _ORDERED.search(nearest.text)
    if min(nearest.there, nearest.here) >= _SAME and not found and not as_said and not both_ordered:
        found += _denied(text, nearest.text)
    return tuple(_difference(turn, paragraph, nearest) for turn in found)


def turned_clauses(heard: Heard, words: str, against: Paragraph, books: Books) -> list[Difference]:
    """A denial in any clause of the paragraph of what the sentence asserts, where the clause is nearly the sentence."""
    denied = is_denied(_ASIDE.sub(",", heard.sentence.text))
    names = heard.names or frozenset()
    clauses = [one for one in books.ranking.clauses(against) if names <= one.names]
    alike = [(one, *books.overlap.both_ways(words, one.text)) for one in clauses]
    same = max((here for one, there, here in alike if one.denied == denied), default=0.0)
    for one, there, here in alike:
        if _ORDERED.search(one.text) and _ORDERED.search(heard.sentence.text):
            continue
        if one.denied == denied or here <= same or there < _DOUBTED or here < _DOUBTING:
            continue
        no = NOT.search(one.text if one.denied else heard.sentence.text)
        word = no[0].lower() if no else "no"
        if one.denied and there >= _SAYS and here >= _SAID:
            turn = _Turn(f"no '{word}'", word)
            return [_difference(turn, against, BookSentence(one.text, False, there, here))]
        break
    return []


def _duty(said: str, printed: str) -> list[_Turn]:
    """May where the book says must."""
    may, must = _MAY.search(said), _MUST.search(printed) or _OFTEN.search(printed)
    if may and must and not _MUST.search(said) and not _MAY.search(printed) and not NOT.search(said):
        return [_Turn(may[0], must[0])]
    may, must = _MAY.search(printed), _MUST.search(said)
    if may and must and not _MAY.search(said) and not _MUST.search(printed):
        return [_Turn(must[0], may[0])]
    return []


def _order(said: str, printed: str) -> list[_Turn]:
    """Before where the book says after, and the like: one of a pair here, only the other there."""
    turns = []
    for pair in _OPPOSITES:
        for one, other in (pair, pair[::-1]):
            here, there = _behind(said, one), _behind(printed, other)
            if one in _PLACING and here and there and here != there:
                continue
            if _has(said, one) and not _has(said, other) and _has(printed, other) and not _has(printed, one):
                turns.append(_Turn(one, other))
    return turns


def _behind(text: str, word: str) -> str:
    """The beginning of the word behind a word, '' where there is none."""
    found = re.search(rf"\b{word}\b[\s-]+(\w+)", text, re.IGNORECASE)
    return found[1][:5].lower() if found else ""


def _denied(said: str, printed: str) -> list[_Turn]:
    """A 'not' in one of them alone."""
    here, there = NOT.search(_ASIDE.sub(",", said)), NOT.search(_ASIDE.sub(",", _spoken_of(printed, said)))
    if there and not here:
        return [_Turn(f"no '{there[0].lower()}'", there[0])]
    if here and not there:
        return [_Turn(here[0], f"no '{here[0].lower()}'")]
    return []


def _spoken_of(printed: str, said: str) -> str:
    """The book's sentence without a denial that is joined on to it and of which the speaker has no word."""
    joined = AND_NOT.search(printed)
    denied = _stems(printed[joined.end() :]) if joined else frozenset()
    return printed[: joined.start()] if joined and denied and not denied & _stems(said) else printed


def _denied_aside(said: str, printed: str) -> _Turn | None:
    """A 'no' in what the book says by the way, where it is that which the sentence asserts."""
    if NOT.search(said):
        return None
    spoken = _stems(said)
    for aside in _ASIDE.findall(printed):
        there = NOT.search(aside)
        if there and spoken and len(spoken & _stems(aside)) >= _ASIDE_SHARE * len(spoken):
            return _Turn(f"no '{there[0].lower()}'", there[0])
    return None


def _stems(text: str) -> frozenset[str]:
    """The beginnings of the words of four letters and more: near enough for 'gauge' and 'gauges'."""
    return frozenset(word[:5].lower() for word in re.findall(r"[^\W\d_]{4,}", text))


def _has(text: str, words: str) -> bool:
    return re.search(rf"\b{words}\b", text, re.IGNORECASE) is not None


def _difference(turn: _Turn, paragraph: Paragraph, nearest: BookSentence) -> Difference:
    where = f"the caution of {paragraph.number}" if nearest.caution else paragraph.number
    said = turn.said if turn.said.startswith("no '") else f"'{turn.said}'"
    printed = turn.printed if turn.printed.startswith("no '") else f"'{turn.printed}'"
    why = f"The sentence has {said} where {where} has {printed}: '{nearest.text}'"
    return Difference("caution", turn.said, turn.printed, paragraph, why)
