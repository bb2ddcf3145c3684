"""The words of a sentence held against the claims under it: a figure or a mark that neither they nor the books have."""

import re
from dataclasses import dataclass, replace

from cutaway.handbook.records import Folder
from cutaway.language.syntax import Claim
from cutaway.narrate.agreeing import agrees, asserted, comparable, is_round, same_unit
from cutaway.narrate.citing import figure_words, full_stop, place_of
from cutaway.narrate.compared import Compared, Difference
from cutaway.narrate.likely import Heard
from cutaway.narrate.sentence_first import Comparer, problems_of
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.quantities.prose import figures_in
from cutaway.quantities.quantity import Quantity
from cutaway.quantities.units import NUMBER
from cutaway.quantities.which import StandardName

_TOLERANCE = re.compile(r"±|\+\s*/?\s*[-−–]|\bplus or minus\b", re.IGNORECASE)
_LATER = re.compile(r"\s+(?:later|after that|afterwards|more|further)\b", re.IGNORECASE)
# How much wider a claimed range may be than the one that is said. A choice of ours.
WIDER = 1.5
_LISTED = re.compile(r"\bhas positions\s+(?P<names>.+)$", re.IGNORECASE | re.DOTALL)


@dataclass(frozen=True, slots=True)
class _Terms:
    """The figures of claims. values: those of what is stated; others: those of the scope, as 'within 10 s'."""

    values: tuple[Quantity, ...]
    others: tuple[Quantity, ...]


def words_and_claims(heard: Heard, claims: tuple[Claim, ...], comparer: Comparer) -> Problems:
    """What the words of a sentence say otherwise than the claims under it, and otherwise than the books.

    A figure is right where a claim has it, in any of the ways in which a speaker may say it; or where the paragraph
    that the sentence cites, or the likeliest, has it while no claim states another figure of its sort. Marks that there
    are not, and what is said to be fitted and is not, are told as for any other sentence.
    """
    if not claims:
        return ()
    marks = _marks(heard, claims, comparer.ranking.folder)
    marks = marks or problems_of(heard.sentence, comparer.of_marks(heard))
    terms = _terms(claims)
    left = tuple(
        one
        for one in asserted(heard.sentence.text)
        if not _has(one, heard, (*terms.values, *terms.others)) and not _goes_on(one, heard, terms)
    )
    if not left:
        return marks
    compared = comparer.sentence(heard)
    problems: list[Diagnostic] = []
    for said in left:
        other = _unspoken(said, heard, terms.values)
        if other is not None and not (heard.sentence.cites and _in_books(said, compared)):
            problems.append(_differs(said, other, heard))
        elif figure_words(said) in compared.unfound:
            problems += _unfound(said, terms, heard)
        else:
            problems += [] if heard.sentence.cites else _books(said, compared)
    return tuple(problems) or marks


def _terms(claims: tuple[Claim, ...]) -> _Terms:
    values: list[Quantity] = []
    others: list[Quantity] = []
    for claim in claims:
        text = claim.span.file.text
        stated = text[claim.statement.span.start : claim.statement.span.end]
        around = (
            f"{text[claim.span.start : claim.statement.span.start]}; {text[claim.statement.span.end : claim.span.end]}"
        )
        values += map(_plain, figures_in(stated, bare=True))
        positions = _LISTED.search(stated)
        if positions is not None:
            count = float(len(positions["names"].split(",")))
            values.append(Quantity(f"{count:g}", count, count, count, NUMBER))
        scope = tuple(figures_in(around, bare=True))
        others += scope
        # 'for 20 s, at 50 s': half a minute lies between.
        others += [
            replace(a, text="", value=a.value - b.value, low=a.value - b.value, high=a.value - b.value)
            for a in scope
            for b in scope
            if a.dimension == b.dimension == "time" and a.unit == b.unit and a.value > b.value
        ]
    return _Terms(tuple(values), tuple(others))


def _plain(quantity: Quantity) -> Quantity:
    """A figure with a tolerance as the figure alone: how near a run must come is no other figure to speak of."""
    if not _TOLERANCE.search(quantity.text):
        return quantity
    return replace(quantity, low=quantity.value, high=quantity.value)


def _has(said: Quantity, heard: Heard, terms: tuple[Quantity, ...]) -> bool:
    """Whether a claim has a figure: itself, or a range in which it lies."""
    roughly = is_round(heard.sentence.text, said)
    return any(agrees(said, one, roughly) or _lies_in(said, one) for one in terms)


def _lies_in(said: Quantity, claimed: Quantity) -> bool:
    """Whether a figure, or a range, lies in the range of a claim; a claimed range may be a little wider than the one
    said, as a run is let off a tolerance."""
    if not claimed.is_range or said.unit == NUMBER or not comparable(said, claimed):
        return False
    of = claimed.unit if same_unit(said, claimed) else said.unit  # 'eight hundred pounds' is short for lb/sq in
    least, most = (end * of.size + of.zero for end in (said.low, said.high))
    low, high = (end * claimed.unit.size + claimed.unit.zero for end in (claimed.low, claimed.high))
    if said.is_range and high - low > WIDER * (most - least):
        return False
    return low <= least <= most <= high


def _goes_on(said: Quantity, heard: Heard, terms: _Terms) -> bool:
    """Whether a time is counted from what the sentence before has told: 'half a minute later' is no other figure than
    the claim's 'within 90 s'."""
    if said.dimension != "time":
        return False
    behind = heard.sentence.text.partition(said.text)[2]
    return _LATER.match(behind) is not None and any(
        one.dimension == "time" and one.high * one.unit.size > said.value * said.unit.size for one in terms.others
    )


def _unspoken(said: Quantity, heard: Heard, values: tuple[Quantity, ...]) -> Quantity | None:
    """A figure that the claims state of the same sort, and that nothing in the sentence says."""
    spoken = asserted(heard.sentence.text)
    for value in values:
        alike = comparable(said, value) and (value.unit != NUMBER or said.unit == NUMBER)
        if alike and not any(_has(one, heard, (value,)) for one in spoken):
            return value
    return None


def _in_books(said: Quantity, compared: Compared) -> bool:
    words = figure_words(said)
    return words not in compared.unfound and not any(one.said == words for one in compared.differences)


def _books(said: Quantity, compared: Compared) -> Problems:
    """What the books have instead of a figure that no claim speaks of."""
    words = figure_words(said)
    found: tuple[Difference, ...] = tuple(
        one for one in compared.differences if one.said == words and one.sort in ("figure", "unit", "superseded")
    )
    return problems_of(compared.sentence, found)


def _unfound(said: Quantity, terms: _Terms, heard: Heard) -> Problems:
    """A figure that stands nowhere: told with the claims' own of its sort; a bare number may be a year or a name."""
    other = next((one for one in (*terms.values, *terms.others) if comparable(said, one) and one.text), None)
    if other is not None and (said.unit != NUMBER or other.unit == NUMBER):
        return (_differs(said, other, heard),)
    if said.unit == NUMBER:
        return ()
    words = figure_words(said)
    message = f"The sentence says '{words}', which stands neither in a claim under it nor in the likeliest paragraphs."
    hint = full_stop(f"Put a claim under it that says so, or cite the paragraph that has {words}")
    return (Diagnostic("N807", place_of(words, heard.sentence), message, hint),)


def _differs(said: Quantity, claimed: Quantity, heard: Heard) -> Diagnostic:
    words, there = figure_words(said), figure_words(claimed)
    message = f"The sentence says '{words}', and the claims under it have '{there}'."
    hint = full_stop(f"Write {there} into the sentence, or {words} into the claim")
    return Diagnostic("N807", place_of(words, heard.sentence), message, hint)


def _marks(heard: Heard, claims: tuple[Claim, ...], folder: Folder) -> Problems:
    """Whether a sentence names marks and all its claims are for others; an airframe is of its standard."""
    if heard.names is None or any(claim.scope.on is None for claim in claims):
        return ()
    standard_of: dict[str, StandardName] = {one.name: one.standard for one in folder.type.airframes}
    claimed = {standard_of.get(str(name), name) for claim in claims if claim.scope.on for name in claim.scope.on.names}
    if not claimed or heard.names & claimed:
        return ()
    said, there = _listed(heard.names, folder), _listed(frozenset(claimed), folder)
    message = f"The sentence speaks of {said}, and the claims under it are for {there}."
    hint = f"Write on {said}: before the claim, or name {there} in the sentence."
    return (Diagnostic("N807", heard.sentence.span, message, hint),)


def _listed(names: frozenset[StandardName], folder: Folder) -> str:
    return " or ".join(str(one.name) for one in folder.type.standards if one.name in names)
