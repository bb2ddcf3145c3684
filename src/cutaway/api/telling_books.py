"""What holding sentences against the books found, as text for a person and as records for a program."""

from collections import Counter
from collections.abc import Iterator

from cutaway.narrate.checked import Checked, CheckedSentence
from cutaway.narrate.compared import Compared, Held
from cutaway.problems.span import place

_VERDICTS: tuple[Held, ...] = ("stated", "differs", "open")


def compared_lines(checked: Checked) -> Iterator[str]:
    """Each sentence that was held against the books, with its verdict and its likeliest paragraphs: first those that
    nothing checks, which `check` counts by that name, then those that cite their paragraph."""
    held = [one for one in checked.sentences if one.compared is not None]
    bare = [one for one in held if one.unchecked]
    cited = [one for one in held if not one.unchecked]
    for head, sentences in (
        ("Sentences that nothing checks, held against the books alone:", bare),
        ("Sentences that cite a paragraph, held against it:", cited),
    ):
        if sentences:
            yield head
            for one in sentences:
                yield from _sentence_lines(one)
            yield ""


def _sentence_lines(one: CheckedSentence) -> Iterator[str]:
    assert one.compared is not None
    span = one.sentence.span
    yield f"  {span.file.path}:{place(span).line}  {one.sentence.text}"
    yield f"      {_verdict(one.compared)}"


def compared_counts(checked: Checked) -> Iterator[str]:
    """How many sentences were held against the books, and with what result."""
    held = [one for one in checked.sentences if one.compared is not None]
    bare = Counter(one.compared.verdict for one in held if one.compared and one.unchecked)
    cited = Counter(one.compared.verdict for one in held if one.compared and not one.unchecked)
    for found, against in ((bare, "the books alone"), (cited, "what {} cite{}")):
        total = sum(found.values())
        if total:
            told = ", ".join(f"{found[key]} {key}" for key in _VERDICTS if found[key])
            books = against.format(*(("it", "s") if total == 1 else ("they", "")))
            yield f"{total} {'sentence' if total == 1 else 'sentences'} held against {books}: {told}."


def compared_record(checked: CheckedSentence) -> dict[str, object]:
    """One sentence that was held against the books, for a program."""
    compared = checked.compared
    assert compared is not None
    return {
        "in": checked.script.name,
        "place": f"{checked.sentence.span.file.path}:{place(checked.sentence.span).line}",
        "sentence": checked.sentence.text,
        "verdict": compared.verdict,
        "against": f"{compared.against.source} {compared.against.number}" if compared.against else None,
        "share": round(compared.share, 3),
        "likely": [f"{one.paragraph.source} {one.paragraph.number}" for one in compared.likely],
        "differences": [
            {"sort": d.sort, "said": d.said, "printed": d.printed, "why": d.why} for d in compared.differences
        ],
        "unfound": list(compared.unfound),
        "doubts": list(compared.doubts),
    }


def _verdict(compared: Compared) -> str:
    books = ", ".join(
        f"{one.paragraph.source} {one.paragraph.number} {one.paragraph.title}".strip() for one in compared.likely
    )
    if compared.verdict == "stated" and compared.against is not None:
        one = compared.against
        return f"Stated: {one.source} {one.number} {one.title} says '{' … '.join(compared.borne)}'"
    if compared.verdict == "differs":
        return " ".join(["Differs:", *(one.why for one in compared.differences)])
    figures = " and ".join(f"'{words}'" for words in compared.unfound)
    lacking = f" None of them has {figures}." if figures and books else ""
    doubts = " ".join(compared.doubts) or "too little to compare."
    return f"Open: {doubts} Likeliest: {books or 'none speaks of it'}.{lacking}"
