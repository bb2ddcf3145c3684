"""Markdown text of a script or a drill: code spans with their places, and the words as they are read aloud."""

import re
from dataclasses import dataclass

_CODE = re.compile(r"(?<![`\\])(`+)(?!`)(.+?)(?<!`)\1(?!`)", re.DOTALL)
_COMMENT = re.compile(r"<!--.*?(?:-->|\Z)", re.DOTALL)
_LINK = re.compile(r"!?\[([^\]\n]*)\]\([^)\n]*\)")
_EMPHASIS = re.compile(
    r"(?<![\w*\\])(\*{1,3})(?=\S)(.+?)(?<=\S)\1(?![\w*])|(?<![\w_\\])(_{1,3})(?=\S)(.+?)(?<=\S)\3(?![\w_])", re.DOTALL
)
_LEAD = re.compile(r"^[ \t]*(?:>[ \t]?|[-*+][ \t]+|\d{1,9}[.)][ \t]+)*", re.MULTILINE)
_ESCAPED = re.compile(r"\\([\\`*_{}\[\]()#+.!<>~|-])")


@dataclass(frozen=True, slots=True)
class CodeSpan:
    """What stands between backticks: `start` to `end` with them, `inner` to `inner_end` without them and blanks."""

    start: int
    end: int
    inner: int
    inner_end: int
    text: str


def code_spans(text: str, start: int, end: int) -> tuple[CodeSpan, ...]:
    """The code spans between two offsets of a text."""
    spans: list[CodeSpan] = []
    for match in _CODE.finditer(text, start, end):
        begin, inside = match.start(2), match[2]
        lead = len(inside) - len(inside.lstrip())
        inner = begin + lead
        spans.append(CodeSpan(match.start(), match.end(), inner, inner + len(inside.strip()), inside.strip()))
    return tuple(spans)


def without_comments(text: str) -> str:
    """The text with its HTML comments blanked, so that offsets stay."""
    return _COMMENT.sub(lambda match: re.sub(r"[^\n]", " ", match[0]), text)


def without_leads(text: str) -> str:
    """A paragraph of a list or a quotation with the signs before its lines blanked, so that offsets stay."""
    return _LEAD.sub(lambda match: " " * len(match[0]), text)


def read_aloud(raw: str) -> str:
    """A stretch of Markdown as words: no emphasis, links, backticks or line ends."""
    text = _LINK.sub(r"\1", raw)
    text = _CODE.sub(lambda match: match[2].strip(), text)
    text = _EMPHASIS.sub(lambda match: match[2] or match[4], text)
    text = _ESCAPED.sub(r"\1", text)
    return " ".join(text.split())
