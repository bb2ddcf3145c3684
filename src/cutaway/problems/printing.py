"""How problems are shown: as text for a person, as JSON for a program. Both take the same records."""

from collections.abc import Iterator

from cutaway.problems.diagnostic import Diagnostic, Problems, in_order
from cutaway.problems.span import Span, place


def as_text(problems: Problems) -> str:
    """The problems as paragraphs: the sentence, the place with the text at fault marked, what to write instead.

    A paragraph looks like this:

        The unit 'galons' is not known.
            systems/fuel.yaml, line 3, column 38
                port tank: {kind: tank, capacity: 22 galons}
                                                     ^^^^^^
            Write gal (imperial gallon).  [Q104]
    """
    return "\n\n".join("\n".join(_lines(problem)) for problem in in_order(problems))


def _lines(problem: Diagnostic) -> Iterator[str]:
    kind = "" if problem.severity == "error" else "Note: "
    yield kind + problem.message
    if problem.span is not None:
        yield from _where(problem.span)
    for span, words in problem.also:
        yield f"    {words}"
        yield from _where(span)
    yield f"    {problem.hint}  [{problem.code}]" if problem.hint else f"    [{problem.code}]"


def _where(span: Span) -> Iterator[str]:
    here = place(span)
    yield f"    {span.file.path}, line {here.line}, column {here.column}"
    if here.text.strip():
        # A long line (a table, a pasted page) is cut to the neighbourhood of the mark.
        cut = max(0, here.column - 1 - 70) if len(here.text) > 140 else 0
        shown = here.text[cut : cut + 140].replace("\t", " ")
        lead = len(shown) - len(shown.lstrip()) if not cut else 0
        yield "        " + shown[lead:].rstrip()
        at = here.column - 1 - cut - lead
        yield "        " + " " * max(at, 0) + "^" * max(1, min(here.width, 140 - max(at, 0)))


def as_records(problems: Problems) -> list[dict[str, object]]:
    """The problems as plain records for JSON: code, severity, message, hint, place and related places."""
    return [
        {
            "code": problem.code,
            "severity": problem.severity,
            "message": problem.message,
            "hint": problem.hint,
            "place": _record(problem.span) if problem.span else None,
            "related": [{"place": _record(span), "words": words} for span, words in problem.also],
        }
        for problem in in_order(problems)
    ]


def _record(span: Span) -> dict[str, object]:
    here = place(span)
    return {
        "file": span.file.path,
        "start": span.start,
        "end": span.end,
        "line": here.line,
        "column": here.column,
    }
