"""What a figure can be at all: a tank that holds nothing, or less, cannot be made whatever the book says."""

from cutaway.handbook.doubts import Owner, own_quantity
from cutaway.handbook.nodes import Words
from cutaway.handbook.records import Given, Part, given_on
from cutaway.parts.kind import Kind, Want
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.quantities.quantity import Quantity
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


def over_full(part: Part, kind: Kind, start: Quantity, words: Words) -> Problems:
    """A warning where a part is to begin with more than it can have on some standard: fuller than full, further than
    its stroke."""
    names = {content.full for content in kind.contents}
    for want in (want for want in kind.wants if want.name in names):
        by_standard = {standard: given_on(part, want.name, standard) for standard in sorted(part.on.names)}
        for standard, given in by_standard.items():
            most = given.quantity if given else own_quantity(want.default, want)
            if most is not None and low_high_si(start)[1] > 1.0001 * low_high_si(most)[1]:
                on = f" on {standard}" if len(set(by_standard.values())) > 1 else ""
                message = f"{part.name} cannot begin with {words.text}: its {want.name} is {most.text}{on}."
                hint = f"Write {most.text}, or less. As it stands it begins with that{on}."
                return (Diagnostic("H409", words.span, message, hint),)
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
