"""What a person is asked to confirm: `confirm.yaml` to answer in, `confirm.html` to look at, strip beside words."""

import html
import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

from cutaway.handbook.nodes import Block, Items, Words
from cutaway.handbook.yaml_tree import read_tree
from cutaway.problems.counting import counted
from cutaway.problems.diagnostic import Diagnostic, Problems, has_error
from cutaway.problems.span import Span, TextFile
from cutaway.taking.doubts import agreement, reason
from cutaway.taking.records import Doubt, Page, PlacedLine, Proposal, Taken, Word
from cutaway.taking.source_text import quoted

RIGHT = frozenset({"yes", "right", "y", "ok"})
NO = frozenset({"no", "n", "none", "all", "every", "all marks", "every mark", "both", "both marks"})
"""Answers by which a paragraph is for every standard."""

STANDARDS = "standards to confirm"
AMENDMENTS = "amendments to confirm"


@dataclass(frozen=True, slots=True)
class Answer:
    """What a person wrote beside a word: that it is right, or the right words."""

    id: str
    read: str
    answer: str


def with_answers(pages: tuple[Page, ...], answers: tuple[Answer, ...]) -> tuple[tuple[Page, ...], Mapping[str, Answer]]:
    """The pages with words put right as a person said, and the answers that were of use, by word."""
    known = {(answer.id, answer.read): answer for answer in answers}
    used: dict[str, Answer] = {}

    def answered(page: Page, at_line: int, at: int, word: Word) -> Word:
        answer = known.get((word_id(page.number, at_line, at), word.text))
        if answer is None:
            return word
        used[answer.id] = answer
        return word if answer.answer.lower() in RIGHT else replace(word, text=answer.answer)

    done = tuple(
        replace(
            page,
            lines=tuple(
                replace(line, words=tuple(answered(page, y, x, word) for x, word in enumerate(line.words, 1)))
                for y, line in enumerate(page.lines, 1)
            ),
        )
        if page.origin == "read"
        else page
        for page in pages
    )
    return done, used


def word_id(page: int, line: int, word: int) -> str:
    """How a word is called in the list: page, line on it, word in the line."""
    return f"p{page}-{line}-{word}"


def doubts_of(paragraphs: tuple[Taken, ...], read: frozenset[int]) -> tuple[Doubt, ...]:
    """The words to confirm, in order. read: the pages that were read from a picture; others hold no doubt."""
    return tuple(
        Doubt(
            word_id(placed.page, placed.place, at + 1),
            placed.page,
            f"§{taken.number}",
            word.text,
            _context(placed.line.words, at),
            word.confidence,
            why + (f" (the reader had '{word.was}')" if word.was else ""),
            agreement(word, placed.line.second),
        )
        for taken in paragraphs
        for placed in taken.lines
        if placed.page in read
        for at, word in enumerate(placed.line.words)
        if (why := reason(placed.line.words, at))
    )


def confirm_yaml(
    key: str,
    doubts: tuple[Doubt, ...],
    used: Mapping[str, Answer],
    others: tuple[Answer, ...],
    proposals: tuple[Proposal, ...] = (),
) -> str:
    """The list to answer in, with the answers given so far; those whose word is not asked for now stay at its end."""
    lines = [
        f"# Words of {key} to confirm against the page: all figures, and what was hard to read. Look at confirm.html.",
        "# After `is`, write yes where `read` is right, or the right words; then take the book again.",
        f"# A correction made in sources/{key}.md itself is kept too.",
        f"source: {quoted(key)}",
        "to confirm:" if doubts else "to confirm: []",
    ]
    for doubt in doubts:
        answer = used.get(doubt.id)
        lines += [
            f"- id: {doubt.id}",
            f"  page: {doubt.page}",
            f"  paragraph: {doubt.paragraph}",
            f"  read: {quoted(answer.read if answer else doubt.read)}",
            f"  in: {quoted(doubt.context)}",
            f"  confidence: {doubt.confidence:.0f}",
            f"  why: {quoted(doubt.why)}",
            f"  second reading: {doubt.second or 'none'}",
            f"  is: {quoted(answer.answer) if answer else quoted('')}",
        ]
    lines += _proposals_yaml(
        STANDARDS,
        "# Paragraphs that seem to be for some marks only. After `is`, write yes for what is proposed, the marks that",
        "# it is for (Mk 2), or all. Nothing is written under the paragraph until you answer.",
        tuple(one for one in proposals if one.asks == "standards"),
    )
    lines += _proposals_yaml(
        AMENDMENTS,
        "# Paragraphs that name an amendment. After `is`, write yes where the paragraph is of the one proposed, the",
        "# right one (A.L. 2), or none. Nothing is written under the paragraph until you answer.",
        tuple(one for one in proposals if one.asks == "amendment"),
    )
    if others:
        lines.append("other answers:")
        for answer in others:
            lines += [f"- id: {answer.id}", f"  read: {quoted(answer.read)}", f"  is: {quoted(answer.answer)}"]
    return "\n".join(lines) + "\n"


def _proposals_yaml(name: str, about: str, how: str, proposals: tuple[Proposal, ...]) -> list[str]:
    if not proposals:
        return []
    lines = [about, how, f"{name}:"]
    for one in proposals:
        lines += [
            f"- id: {one.id}",
            f"  page: {one.page}",
            f"  paragraph: §{one.paragraph}",
            f"  says: {quoted(one.words)}",
            f"  proposed: {quoted(one.on)}",
            f"  why: {quoted(one.why or 'it is plain')}",
            f"  is: {quoted(one.answer)}",
        ]
    return lines


def read_answers(file: TextFile) -> tuple[tuple[Answer, ...] | None, Problems]:
    """The answers in a list; None where it cannot be read, so that nothing in it is written over."""
    root, problems = read_tree(file)
    if has_error(problems) or not isinstance(root, Block):
        return None, (
            *problems,
            Diagnostic(
                "T115",
                Span(file, 0, 1),
                f"The answers in '{file.path}' cannot be read, so nothing was taken.",
                "Mend the file, or move it away to begin the list anew.",
            ),
        )
    answers: list[Answer] = []
    for name in ("to confirm", STANDARDS, AMENDMENTS, "other answers"):
        node = root.get(name)
        for item in node.items if isinstance(node, Items) else ():
            if isinstance(item, Block):
                said = {e.key.text: e.value.text.strip() for e in item.entries if isinstance(e.value, Words)}
                if said.get("is") and said.get("id"):
                    answers.append(Answer(said["id"], said.get("read", said.get("says", "")), said["is"]))
    return tuple(answers), problems


def crop_name(page: int, line: int) -> str:
    """The file of a strip."""
    return f"crops/p{page:04}-{line:03}.jpg"


def confirm_html(
    key: str,
    paragraphs: tuple[Taken, ...],
    doubts: tuple[Doubt, ...],
    answered: frozenset[str],
    proposals: tuple[Proposal, ...] = (),
) -> str:
    """The page to look at: each strip with what was read in it, the words in question marked."""
    asked = {doubt.id: doubt for doubt in doubts}
    rows: list[str] = []
    for taken in paragraphs:
        for placed in taken.lines:
            ids = [word_id(placed.page, placed.place, at) for at in range(1, len(placed.line.words) + 1)]
            if any(id in asked for id in ids):
                words = " ".join(
                    _marked(word, asked.get(id), id in answered)
                    for word, id in zip(placed.line.words, ids, strict=True)
                )
                second = (
                    f"<p class=second>Other reader: {html.escape(placed.line.second)}</p>" if placed.line.second else ""
                )
                picture = _picture(placed) if placed.line.crop else "<p><em>No picture: see the page itself.</em></p>"
                rows.append(
                    f"<tr><th scope=row>p. {placed.page}<br>§{taken.number}</th>"
                    f"<td>{picture}<p>{words}</p>{second}</td></tr>"
                )
    left = len(doubts) - len(answered & asked.keys())
    return _HTML.format(
        key=html.escape(key),
        left=left,
        all=counted(len(doubts), "word"),
        rows="\n".join(rows),
        standards=_proposals_html("For some marks only?", tuple(one for one in proposals if one.asks == "standards"))
        + _proposals_html("Of an amendment?", tuple(one for one in proposals if one.asks == "amendment")),
    )


def _proposals_html(heading: str, proposals: tuple[Proposal, ...]) -> str:
    """The paragraphs that seem to be for some marks only, or of an amendment."""
    if not proposals:
        return ""
    rows = "\n".join(
        f"<tr><th scope=row>p. {one.page}<br>§{html.escape(one.paragraph)}</th><td><p>{html.escape(one.words)}"
        f"<small>{html.escape(one.id)}</small></p><p>{html.escape(_asked(one))}</p></td></tr>"
        for one in proposals
    )
    return f"<h2>{heading}</h2>\n<table>\n{rows}\n</table>\n"


def _asked(one: Proposal) -> str:
    """What is proposed for a paragraph, and what was answered."""
    on = "on " if one.asks == "standards" else ""
    proposed = f"Proposed: {on}{one.on}" if one.on else "Nothing can be proposed"
    answered = f" Answered: {one.answer}." if one.answer else ""
    return f"{proposed}{f' ({one.why})' if one.why else ''}.{answered}"


def _picture(placed: PlacedLine) -> str:
    alternative = f"Line {placed.place} of page {placed.page} as it stands on the page"
    return f'<img loading=lazy src="{crop_name(placed.page, placed.place)}" alt="{alternative}">'


def _marked(word: Word, doubt: Doubt | None, answered: bool) -> str:
    text = html.escape(word.text)
    if doubt is None:
        return text
    kind = "done" if answered else "figure" if doubt.why.startswith("figure") else "doubt"
    if doubt.second == "differs" and not answered:
        kind += " differs"
    second = f"; the other reader {doubt.second}" if doubt.second else ""
    title = html.escape(f"{doubt.id}: {doubt.why}, confidence {doubt.confidence:.0f}{second}")
    return f'<mark class="{kind}" title="{title}">{text}<small>{doubt.id}</small></mark>'


def _context(words: tuple[Word, ...], at: int) -> str:
    some = " ".join(word.text for word in words[max(0, at - 4) : at + 5])
    return re.sub(r"[\x00-\x1f]", " ", some)


_HTML = """<!DOCTYPE html>
<html lang="en-GB">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width">
<title>To confirm in {key}</title>
<style>
:root {{ color-scheme: light dark; }}
body {{ font: 1rem/1.5 system-ui, sans-serif; max-width: 80rem; margin: 1.5rem auto; padding: 0 1rem; }}
table {{ border-collapse: collapse; width: 100%; }}
th, td {{ border-top: 1px solid #8888; padding: .5rem; text-align: left; vertical-align: top; }}
th {{ white-space: nowrap; font-weight: normal; }}
img {{ max-width: 100%; background: #fff; display: block; }}
td p {{ margin: .3rem 0 0; font-family: ui-monospace, monospace; }}
mark {{ background: #ffe08a; color: #111; padding: 0 .15em; border-bottom: 2px solid #a66a00; }}
mark.doubt {{ background: #ffc9c0; border-bottom-style: dashed; }}
mark.differs {{ background: #ff9d8c; border-bottom: 4px double #900; }}
mark.done {{ background: #cfe9cf; border-bottom: 2px dotted #267326; }}
small {{ font-size: .6em; margin-left: .3em; opacity: .8; }}
.second {{ opacity: .85; }}
</style>
<h1>To confirm in {key}</h1>
<p>{left} of {all} still to be confirmed. Each strip is the page; under it stands what was read. Solid underlines
are figures, dashed ones words that were hard to read, double ones what the other reader sees differently, dotted ones
are confirmed. Answer in <code>confirm.yaml</code> by the small name beside the word, or put the text of the source
itself right, then take the book again.</p>
<table>
{rows}
</table>
{standards}</html>
"""
