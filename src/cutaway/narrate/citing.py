"""Whether a sentence that only reports a book says what the book says: its figures and units, one by one."""

import re

from cutaway.handbook.records import Folder, Paragraph, Sentence, paragraph
from cutaway.inquiry.verdicts import Stated
from cutaway.narrate.agreeing import agrees, asserted, comparable, figures_of, is_round
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import Span
from cutaway.quantities.quantity import Quantity
from cutaway.quantities.units import NUMBER


def cite_verdict(sentence: Sentence, folder: Folder) -> tuple[Stated | None, Problems]:
    """Stated, if each figure of the sentence stands in a paragraph that it cites; a problem for each that does not.

    A figure stands there where it agrees as it does for a sentence that cites nothing: in the same unit, in its short
    form ('two pounds'), in another unit of the same size, or roughly where the sentence says 'about'.
    """
    found = tuple((cite, one) for cite in sentence.cites if (one := paragraph(folder, cite)) is not None)
    if not found:
        return None, ()
    books = tuple(one for _, one in found)
    printed = tuple(figure for one in books for figure in figures_of(one))
    missing = tuple(
        said
        for said in asserted(sentence.text)
        if not any(agrees(said, one, is_round(sentence.text, said)) for one in printed)
    )
    problems = tuple(_differs(quantity, sentence, books) for quantity in missing)
    return (None, problems) if problems else (Stated(sentence.cites, sentence.text), ())


def figures_told(text: str) -> tuple[Quantity, ...]:
    """The figures of a sentence that a paragraph which it cites must have."""
    return asserted(text)


def _differs(quantity: Quantity, sentence: Sentence, books: tuple[Paragraph, ...]) -> Diagnostic:
    """The figure that no cited paragraph has, and what stands there instead."""
    numbers = ", ".join(book.number for book in books)
    there = tuple(
        figure_words(one)
        for book in books
        for one in figures_of(book)
        if comparable(quantity, one) and (one.unit != NUMBER or quantity.unit == NUMBER)
    )
    said = figure_words(quantity)
    instead = " or ".join(f"'{words}'" for words in dict.fromkeys(there)) or f"no {quantity.dimension} at all"
    message = f"The sentence says '{said}', and {numbers} {'has' if len(books) == 1 else 'have'} {instead}."
    other = f"cite the paragraph that says {said}"
    hint = full_stop(f"Write {there[0]}, or {other}" if there else f"Leave the figure out, or {other}")
    return Diagnostic("N201", place_of(said, sentence), message, hint, tuple((b.span, b.number) for b in books))


def figure_words(quantity: Quantity) -> str:
    """A figure as written, without the full stop of a sentence that ends with it; 'sq. in.' keeps its own."""
    text = quantity.text
    return text if re.search(r"[A-Za-z]\.", text[:-1]) else text.removesuffix(".")


def full_stop(text: str) -> str:
    """A sentence with its full stop, and no second one behind a unit that ends in a stop of its own ('p.s.i.')."""
    return text if text.endswith(".") else text + "."


def place_of(words: str, sentence: Sentence) -> Span:
    """Where words of a sentence stand in the file, or the whole sentence where its text was folded over lines."""
    written = sentence.span.text
    at = written.find(words)
    if at < 0:
        return sentence.span
    return Span(sentence.span.file, sentence.span.start + at, sentence.span.start + at + len(words))
