"""sources/*.md: the numbered paragraphs of a book, with amendments, marks and cautions."""

import re
from dataclasses import dataclass

from cutaway.handbook.door import admit, head_span
from cutaway.handbook.front_matter import front_matter
from cutaway.handbook.head import Head, read_on
from cutaway.handbook.names import did_you_mean, fold
from cutaway.handbook.nodes import Block
from cutaway.handbook.records import AircraftType, Amendment, Paragraph, Source, SourceKey
from cutaway.handbook.shapes import AmendmentShape, ParagraphHeadShape, SourceHeadShape
from cutaway.handbook.yaml_tree import read_tree
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import Span, TextFile
from cutaway.quantities.which import Which, every

_HEADING = re.compile(r"^## +(?P<heading>.*?)[ #]*$", re.MULTILINE)
_NUMBERED = re.compile(r"^§?\s*(?P<number>\d+[a-z]?)\b[.:)]?\s*(?P<title>.*)$", re.IGNORECASE)
_CAUTION = re.compile(r"^> *(?:Caution|Warning|Note)?\b[:.]? *", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class _Heading:
    number: str
    title: str
    span: Span
    body: int


def read_source(file: TextFile, about: AircraftType) -> tuple[Source, Problems]:
    """One book. A heading without a number and a paragraph whose head is wrong are told and left out."""
    key = SourceKey(file.path.removeprefix("sources/").removesuffix(".md"))
    head, begin, problems = front_matter(file)
    shape, more = admit(SourceHeadShape, head, f"the head of {file.path}") if head else (SourceHeadShape(), ())
    problems += more
    shape = shape or SourceHeadShape()
    amendments, more = _amendments(head)
    problems += more
    headings, more = _headings(file, begin)
    problems += more
    paragraphs: list[Paragraph] = []
    seen: dict[str, Span] = {}
    for place, heading in enumerate(headings):
        end = headings[place + 1].span.start if place + 1 < len(headings) else len(file.text)
        if not heading.number:
            continue
        if heading.number in seen:
            problems += (_twice(heading, key, seen[heading.number]),)
            continue
        seen[heading.number] = heading.span
        paragraph, more = _paragraph(file, key, heading, end, about, amendments)
        problems += more
        if paragraph is not None:
            paragraphs.append(paragraph)
    title = shape.title or key
    return Source(key, title, shape.date, shape.rights, amendments, tuple(paragraphs), Span(file, 0, begin)), problems


def _amendments(head: Block | None) -> tuple[tuple[Amendment, ...], Problems]:
    node = head.get("amendments") if head else None
    amendments: list[Amendment] = []
    problems: Problems = ()
    for entry in node.entries if isinstance(node, Block) else ():
        shape, more = admit(AmendmentShape, entry.value, f"the amendment {entry.key.text}")
        problems += more
        if shape is not None:
            amendments.append(Amendment(entry.key.text, shape.date, shape.says))
    return tuple(amendments), problems


def _headings(file: TextFile, begin: int) -> tuple[tuple[_Heading, ...], Problems]:
    headings: list[_Heading] = []
    problems: Problems = ()
    for match in _HEADING.finditer(file.text, begin):
        span = Span(file, match.start(), match.end())
        numbered = _NUMBERED.match(match["heading"])
        if numbered is None:
            problems += (
                Diagnostic(
                    "H206",
                    span,
                    f"The heading '{match['heading']}' has no number, so its paragraph cannot be cited.",
                    f"Write ## 21 {match['heading'] or 'Title'}",
                ),
            )
            headings.append(_Heading("", match["heading"], span, match.end()))
        else:
            headings.append(_Heading("§" + numbered["number"].lower(), numbered["title"], span, match.end()))
    return tuple(headings), problems


def _paragraph(
    file: TextFile, key: SourceKey, heading: _Heading, end: int, about: AircraftType, amendments: tuple[Amendment, ...]
) -> tuple[Paragraph | None, Problems]:
    start = heading.body
    which, amended_by, page, in_file = every(about.standards), "", "", ""
    problems: Problems = ()
    braces = re.compile(r"\n(?P<braces>\{[^\n]*)(?:\n|$)").match(file.text, start, end)
    if braces:
        read, amended_by, (page, in_file), problems = _braces(
            file, key, heading, braces.span("braces"), about, amendments
        )
        if read is None:
            return None, problems
        which, start = read, braces.end("braces")
    text, cautions = _body(file.text[start:end])
    span = Span(file, heading.span.start, max(heading.span.end, len(file.text[:end].rstrip())))
    if not text and not cautions:
        problems += (
            Diagnostic("H207", heading.span, f"{heading.number} of {key} has no text.", "Type the paragraph under it."),
        )
    made = Paragraph(key, heading.number, heading.title, text, which, amended_by, cautions, span, page, in_file)
    return made, problems


def _braces(
    file: TextFile,
    key: SourceKey,
    heading: _Heading,
    where: tuple[int, int],
    about: AircraftType,
    amendments: tuple[Amendment, ...],
) -> tuple[Which | None, str, tuple[str, str], Problems]:
    """The line `{on: Mk 2, amendment: A.L. 1, page: 12}` under a heading."""
    node, problems = read_tree(file, *where)
    if node is None:
        return None, "", ("", ""), problems
    shape, more = admit(ParagraphHeadShape, node, f"the head of {heading.number}")
    problems += more
    if shape is None or not isinstance(node, Block):
        return None, "", ("", ""), problems
    which, more = read_on(node.get("on"), Head(about, {}, (), frozenset()))
    problems += more
    if not shape.amendment:
        return which, "", (shape.page, shape.in_file), problems
    name = next((a.name for a in amendments if fold(a.name) == fold(shape.amendment)), "")
    if not name:
        place = node.get("amendment")
        problems += (
            Diagnostic(
                "H208",
                place.span if place else head_span(node),
                f"The head of {key} does not list the amendment '{shape.amendment}'.",
                did_you_mean(shape.amendment, [a.name for a in amendments])
                or f"Add it at the top: amendments: {{{shape.amendment}: {{date: …, says: …}}}}",
            ),
        )
    return which, name or shape.amendment, (shape.page, shape.in_file), problems


def _body(raw: str) -> tuple[str, tuple[str, ...]]:
    """The text of a paragraph and its cautions; lines are joined, blank lines kept."""
    blocks: list[str] = []
    cautions: list[str] = []
    for block in re.split(r"\n\s*\n", raw.strip()):
        lines = block.strip().split("\n")
        if lines[0].startswith(">"):
            words = [re.sub(r"^> ?", "", line) for line in lines]
            cautions.append(_CAUTION.sub("", "> " + " ".join(" ".join(words).split())).strip())
        elif any(line.startswith(("|", "- ", "* ")) for line in lines):
            blocks.append("\n".join(line.rstrip() for line in lines))
        elif block.strip():
            blocks.append(" ".join(block.split()))
    return "\n\n".join(blocks), tuple(caution for caution in cautions if caution)


def _twice(heading: _Heading, key: SourceKey, first: Span) -> Diagnostic:
    return Diagnostic(
        "H205",
        heading.span,
        f"{heading.number} stands twice in {key}; the second is left out.",
        f"Give it a letter, as amendments do: ## {heading.number[1:]}a {heading.title}",
        ((first, "it stands first here:"),),
    )
