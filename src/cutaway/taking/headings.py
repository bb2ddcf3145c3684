"""The title at the head of a paragraph, told from its text: 'Fuel cocks. A selector …', 'Fuel lamp (Mk. II). The …'."""

import re

from cutaway.taking.amending import NAMED

MARK = r"(?i:(?:mark|mk)s?\.?)\s*(?:\d{1,2}|[IVX]{1,4})[A-Ha-h]?(?!\w)"
"""A mark as books print it: 'Mk. II', 'Mark 2A', 'Mks. 1'."""

MOD = r"\b(?i:mod(?:ification)?s?\.?\s*(?:no\.?\s*)?)(?P<mod>\d{1,5})\b"
"""A modification: 'Mod. 12', 'Mod. No. 12'."""

_NAMES = re.compile(rf"{MARK}|{MOD}|{NAMED}|\b(?:Nos?|Figs?|Ref|Pt)\.\s*\d+")
# What stands in brackets neither ends a title nor makes it a sentence: 'Oil temperature (deg. C.)'.
_BRACKETED = re.compile(r"[(\[][^()\[\]]{1,60}[)\]]")
_TITLE = re.compile(r"^(?P<title>[^.:—–]{2,60}?)\s*(?:\.\s*[—–-]+|[—–:]|\.(?=\s+[\"'“‘(]?[A-Z0-9]))\s*(?P<rest>\S.*)$")
_SENTENCE_VERB = re.compile(r"\b(?:is|are|was|must|may|should|can|has|have|will)\b")

AEROPLANES = r"(?:\s+(?i:aircraft|aeroplanes?|models?|machines?))?"
_FURTHER = rf"(?:{MARK}|(?:\d{{1,2}}|[IVX]{{1,4}})[A-Z]?(?!\w|[.,]\d))"
MARKS = rf"(?P<list>{MARK}(?:\s*(?:,|(?i:and|or|to)|&|–|-)\s*{_FURTHER})*)"
"""Several marks: 'Mks. I and II', 'Mk 1 to Mk 3'."""

_ALL_MARKS = re.compile(rf"^(?:(?i:for|on)\s+)?{MARKS}{AEROPLANES}(?:\s+(?i:only))?\s*:?$")


def is_marks(line: str) -> bool:
    """Whether a line names marks and nothing else, as the heading of a section does.

    >>> is_marks("MK. II AEROPLANES ONLY"), is_marks("Mks. I and II"), is_marks("Fuel lamp (Mk. II)")
    (True, True, False)
    """
    return _ALL_MARKS.match(line.strip()) is not None


def title_and_rest(text: str) -> tuple[str, str]:
    """The title at the head of a paragraph, and the rest; a sentence is no title.

    >>> title_and_rest("Fuel lamp (Mk. II). The lamp lights.")
    ('Fuel lamp (Mk. II)', 'The lamp lights.')
    """
    # The full stop and the figure of 'Mk. 2' end no title and are no quantity.
    masked = _NAMES.sub(_hidden, _BRACKETED.sub(_hidden, text))
    match = _TITLE.match(masked)
    if match is None:
        short = len(text) <= 60 and not text.endswith((".", ",", ";"))
        return (text, "") if short else ("", text)
    title = match["title"].strip()
    if len(title.split()) > 7 or re.search(r"\d", title) or _SENTENCE_VERB.search(title):
        return "", text
    start = match.start("title") + len(match["title"]) - len(match["title"].lstrip())
    return text[start : start + len(title)], text[match.start("rest") :].strip()


def _hidden(match: re.Match[str]) -> str:
    return "M" * len(match[0])
