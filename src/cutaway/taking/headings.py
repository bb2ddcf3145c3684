"""The title at the head of a paragraph, told from its text: 'Fuel cocks. A selector …', 'Fuel lamp (Mk. II). The …'."""

import re

MARK = r"(?i:(?:mark|mk)s?\.?)\s*(?:\d{1,2}|[IVX]{1,4})[A-Ha-h]?(?!\w)"
"""A mark as books print it: 'Mk. II', 'Mark 2A', 'Mks. 1'."""

MOD = r"\b(?i:mod(?:ification)?s?\.?\s*(?:no\.?\s*)?)(?P<mod>\d{1,5})\b"
"""A modification: 'Mod. 12', 'Mod. No. 12'."""

_NAMES = re.compile(rf"{MARK}|{MOD}")
_TITLE = re.compile(r"^(?P<title>[^.:—–]{2,60}?)\s*(?:\.\s*[—–-]+|[—–:]|\.(?=\s+[\"'“‘(]?[A-Z0-9]))\s*(?P<rest>\S.*)$")
_SENTENCE_VERB = re.compile(r"\b(?:is|are|was|must|may|should|can|has|have|will)\b")


def title_and_rest(text: str) -> tuple[str, str]:
    """The title at the head of a paragraph, and the rest; a sentence is no title.

    >>> title_and_rest("Fuel lamp (Mk. II). The lamp lights.")
    ('Fuel lamp (Mk. II)', 'The lamp lights.')
    """
    # The full stop and the figure of 'Mk. 2' end no title and are no quantity.
    masked = _NAMES.sub(lambda match: "M" * len(match[0]), text)
    match = _TITLE.match(masked)
    if match is None:
        short = len(text) <= 60 and not text.endswith((".", ",", ";"))
        return (text, "") if short else ("", text)
    title = match["title"].strip()
    if len(title.split()) > 7 or re.search(r"\d", title) or _SENTENCE_VERB.search(title):
        return "", text
    start = match.start("title") + len(match["title"]) - len(match["title"].lstrip())
    return text[start : start + len(title)], text[match.start("rest") :].strip()
