"""A paragraph cut into clauses, each with the standards that it is for and whether it denies something."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from cutaway.handbook.marks_named import MarkNames
from cutaway.handbook.records import Paragraph
from cutaway.narrate.overlap import sentences_of
from cutaway.quantities.which import StandardName

NOT = re.compile(
    r"\b(?:not|never|no|none|nobody|nothing|neither|nor|cannot|without|lacks?|lacking)\b|n't\b|n’t\b", re.IGNORECASE
)
# What is no denial: 'not more than 20 amp.', 'nothing but', 'not only', 'no longer than'.
_NO_DENIAL = re.compile(
    r"\b(?:not|no|never|cannot) (?:\w+ ){0,2}?(?:more|less|fewer|later|earlier|longer|greater|higher) than\b|"
    r"\b(?:not|no) (?:more|less|fewer|later|earlier|longer|only)\b|\bnothing but\b|\bno sooner\b|\bno doubt\b",
    re.IGNORECASE,
)
_PARTS = re.compile(r"[;:]\s+|,\s+(?=(?:and|but|while|whereas|though|although|so that)\s)|\s+[–—]\s+(?!\d)")
# A denial that is joined on without a comma: 'A gauge stands on each wing and needs no current' denies nothing of where
# it stands.
AND_NOT = re.compile(
    r"\s+and\s+(?=(?:(?:[a-z]+s|have|had|were|must|may|can|will|should|do|need|want)\s+(?:no|not|never|none|nothing)|"
    r"never|cannot|lacks?)\b(?!\s+(?:only|more|less|fewer|later|earlier|longer|doubt)\b))",
    re.IGNORECASE,
)
_BY_THE_WAY = re.compile(r",\s*(?:which|who|whose)\b[^,;:]*(?:,|$)", re.IGNORECASE)
# What leads up to a mark at the head of its clause: ', on the Mk 2', 'and the Mk 2', 'On aeroplanes with mod 12'.
_LEAD = re.compile(
    r"(?:^|[,;:–—(]\s*|\b(?:and|but|while|whereas)\s*,?\s*)"
    r"(?:(?:on|for|in|with|of|if|when|those|some|many|all|every|aeroplanes?|aircraft|machines?|the|a|an|later)\s+)*$",
    re.IGNORECASE,
)
_ROW = re.compile(r"[^:;]+:\s")
_ONLY = re.compile(r"\s*(?:only|alone)\b", re.IGNORECASE)
# A short clause that may lack a verb, and what a clause says of its subject, for it to take over.
_GAPPED = re.compile(r"(?:and|but)\b(?:\W+\w+){1,9}\W*$", re.IGNORECASE)
_DOING = re.compile(r"\b(?:is|are|was|were|will|may|must|should|can|has|have|had|do|does)\b.*$", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Clause:
    """Part of a sentence of a paragraph. names: the standards that it is for. sentence: that it stands in, counted from
    0 in its paragraph. denied: whether it says that something is not so. carried: what it leaves to be understood from
    the clause before it, as in 'on Mk 2 the gauges will be dead, and on both marks the lamp'."""

    text: str
    names: frozenset[StandardName]
    sentence: int
    denied: bool
    carried: str = ""


def clauses_of(paragraph: Paragraph, marks: MarkNames) -> tuple[Clause, ...]:
    """The clauses of a paragraph in order. A clause without a mark is for the marks that its sentence named last."""
    titled = marks.named_in(paragraph.title).names
    base = (paragraph.on.names & titled or paragraph.on.names) if titled else paragraph.on.names
    found: list[Clause] = []
    for number, (sentence, _) in enumerate(sentences_of(paragraph)):
        clauses = clauses_in(sentence, base, marks, number)
        if "|" in paragraph.text and _ROW.match(sentence):
            # What a row is of belongs to each of its cells.
            clauses = tuple(replace(one, carried=clauses[0].text) for one in clauses[1:]) or clauses
        found += clauses
    return tuple(found)


def clauses_in(text: str, base: frozenset[StandardName], marks: MarkNames, number: int = 0) -> tuple[Clause, ...]:
    """The clauses of one sentence. base: the standards that it is for where it names none. number: its own."""
    found: list[Clause] = []
    names = base
    for piece in _pieces(text, marks):
        named = marks.named_in(piece).names
        if named is not None:
            names = base & named or base or named
        before = _DOING.search(found[-1].text) if found and _GAPPED.match(piece) else None
        carried = before[0] if before and not _DOING.search(piece) else ""
        found.append(Clause(piece, names, number, is_denied(piece), carried))
    return tuple(found)


def is_denied(text: str) -> bool:
    """Whether a text says that something is not so."""
    return NOT.search(_NO_DENIAL.sub(" ", text)) is not None


def _pieces(sentence: str, marks: MarkNames) -> Iterator[str]:
    ends = {one.end() for one in _PARTS.finditer(sentence)} | {one.start() for one in AND_NOT.finditer(sentence)}
    for aside in _BY_THE_WAY.finditer(sentence):
        ends |= {aside.start(), aside.end()}
    places = marks.places_in(sentence)
    for place, (start, end) in enumerate(places):
        lead = _LEAD.search(sentence[:start])
        if lead is not None and not _ONLY.match(sentence, end):
            ends.add(lead.start())
        elif place + 1 < len(places):
            # 'at 2 lb on Mk 1 and at 3 lb on Mk 2': a mark behind what it is said of.
            ends.add(end)
    at = 0
    for end in (*sorted(ends), len(sentence)):
        piece = sentence[at:end].strip(" ,;:–—")
        if piece:
            yield piece
        at = end
