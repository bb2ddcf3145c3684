"""What holding sentences against the books found, as text for a person and as records for a program."""

from collections import Counter
from collections.abc import Iterator

from cutaway.narrate.checked import Checked, CheckedSentence
from cutaway.narrate.compared import Compared, Held
from cutaway.problems.span import place

_VERDICTS: tuple[Held, ...] = ("stated", "differs", "open")


def compared_lines(checked: Checked) -> Iterator[str]:
    """Each sentence that was held against the books, with its verdict and its likeliest paragraphs."""
    held = [one for one in checked.sentences if one.compared is not None]
    if not held:
        return
    yield "Sentences held against the books alone:"
    for one in held:
        assert one.compared is not None
        span = one.sentence.span
        yield f"  {span.file.path}:{place(span).line}  {one.sentence.text}"
        yield f"      {_verdict(one.compared)}"
    yield ""


def compared_counts(checked: Checked) -> Iterator[str]:
    """How many sentences were held against the books, and with what result."""
    found = Counter(one.compared.verdict for one in checked.sentences if one.compared is not None)
    if found:
        total = sum(found.values())
        told = ", ".join(f"{found[key]} {key}" for key in _VERDICTS if found[key])
        yield f"{total} {'sentence' if total == 1 else 'sentences'} held against the books alone: {told}."


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
    }


def _verdict(compared: Compared) -> str:
    books = ", ".join(
        f"{one.paragraph.source} {one.paragraph.number} {one.paragraph.title}".strip() for one in compared.likely
    )
    if compared.verdict == "stated" and compared.against is not None:
        one = compared.against
        figures = {0: "", 1: "its figure and "}.get(compared.agreed, "its figures and ")
        return f"Stated: {one.source} {one.number} {one.title} has {figures}{compared.share:.0%} of its words."
    if compared.verdict == "differs":
        return " ".join(["Differs:", *(one.why for one in compared.differences)])
    figures = " and ".join(f"'{words}'" for words in compared.unfound)
    lacking = f" None of them has {figures}." if figures and books else ""
    return f"Open: too little to compare. Likeliest: {books or 'none speaks of it'}.{lacking}"
