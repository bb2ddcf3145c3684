"""What a figure can be at all: a tank that holds nothing, or less, cannot be made whatever the book says."""

from cutaway.handbook.doubts import Owner, own_quantity
from cutaway.handbook.records import Given
from cutaway.parts.kind import Want
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.quantities.si import low_high_si, to_si

_MUST = {"above nought": "must be above nought", "nought": "cannot be below nought"}


def impossible(given: Given, want: Want, owner: Owner) -> Problems:
    """An error where no such part can be made, with this figure or at an end of its range."""
    least = low_high_si(given.quantity)[0]
    most = low_high_si(given.quantity)[1]
    if given.between is not None:
        ends = low_high_si(given.between)
        least, most = min(least, *ends), max(most, *ends)
    words = given.between.text if given.between is not None and _inside(given) else given.quantity.text
    if (least <= 0.0 and want.least == "above nought") or (least < 0.0 and want.least == "nought"):
        return (_told(given, want, owner, words, _MUST[want.least]),)
    limit = own_quantity(want.below, want)
    if limit is not None and most >= to_si(limit):
        return (_told(given, want, owner, words, f"must be below {limit.text}"),)
    return ()


def _inside(given: Given) -> bool:
    """Whether the figure itself is right and only its range is at fault."""
    return given.quantity.value > 0.0


def _told(given: Given, want: Want, owner: Owner, words: str, must: str) -> Diagnostic:
    return Diagnostic(
        "H323",
        given.span,
        f"'{want.name}' of {owner.name} is {words}, and {must}.",
        "Look whether the figure and its unit are as the book has them.",
    )
