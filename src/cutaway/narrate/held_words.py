"""What the books alone say of a sentence, in words: for the page, for letters, for a manuscript."""

from cutaway.handbook.names import listed
from cutaway.handbook.records import Paragraph
from cutaway.narrate.compared import Compared, Difference


def held_words(compared: Compared) -> str:
    """The verdict as it reads aloud: where it is stated; each difference with both values; or why it is open."""
    if compared.verdict == "stated" and compared.against is not None:
        return f"Stated by the books: {_named(compared.against)}."
    if compared.verdict == "differs":
        return f"Differs from the books. {' '.join(one.why for one in compared.differences)}"
    why = " ".join(compared.doubts) or "Too little of it could be compared."
    if compared.unfound:
        why = f"{why} Its {listed(tuple(repr(words) for words in compared.unfound))} stands in none of them."
    return f"Open: the books neither state it nor say otherwise. {why}"


def behind(compared: Compared) -> tuple[Paragraph, ...]:
    """The paragraphs to read beside it: that which states it, those from which it differs, or the likeliest."""
    if compared.verdict == "stated" and compared.against is not None:
        return (compared.against,)
    found = [one.paragraph for one in compared.differences if one.paragraph is not None]
    if not found:
        found = [compared.against] if compared.differences and compared.against is not None else []
    found = found or [one.paragraph for one in compared.likely]
    return tuple({(one.source, one.number): one for one in found}.values())


def both_values(one: Difference) -> str:
    """A difference in few words: '65 lb/sq in', and §9a has '60 lb/sq in'."""
    where = one.paragraph.number if one.paragraph is not None else "the books"
    if one.printed and one.sort in ("figure", "unit"):
        return f"'{one.said}', {where} '{one.printed}'"
    return f"from {where}" if one.paragraph is not None else f"'{one.said}' is not in {where}"


def _named(one: Paragraph) -> str:
    return f"{one.source} {one.number} {one.title}".strip()
