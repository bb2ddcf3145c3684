"""What the YAML parser refuses, told in our own words: the mistake that was most likely made, and what to write."""

import re

from cutaway.problems.diagnostic import Diagnostic
from cutaway.problems.span import Span, TextFile

_ENTRY = re.compile(r"[\w .'-]+: [{\[]")  # what opens an entry of its own: 'valve: {kind: …}'
_THOUSANDS = re.compile(r"^\d{3}(?!\d)")


def fault(file: TextFile, offset: int, text: str, error: Exception | None, tab: int | None) -> Diagnostic:
    """The diagnostic for a text that is not YAML. offset: where `text` begins in the file; tab: a tab that indents."""
    if tab is not None:
        return _at(file, offset + tab, offset + tab + 1, "H103", *_TAB)
    problem = str(getattr(error, "problem", "") or "")
    context = str(getattr(error, "context", "") or "")
    at = _index(getattr(error, "problem_mark", None), len(text))
    began = _index(getattr(error, "context_mark", None), at)
    if "'\\t'" in problem:
        return _at(file, offset + at, offset + at + 1, "H103", *_TAB)
    if "quoted scalar" in context:
        return _quote(file, offset, text, began, problem)
    if "flow mapping" in context or "flow sequence" in context or "flow node" in context:
        return _bracket(file, offset, text, began, context)
    if "mapping values are not allowed" in problem or "could not find expected ':'" in problem:
        return _colon(file, offset, text, began if "could not find" in problem else at)
    if "cannot start any token" in problem or "alias" in context or "anchor" in context or "tag" in context:
        return _sign(file, offset, text, began if "cannot start" not in problem else at)
    if hasattr(error, "character"):
        odd = min(int(getattr(error, "position", 0)), max(len(text) - 1, 0))
        return _at(
            file,
            offset + odd,
            offset + odd + 1,
            "H101",
            "There is a character here that cannot be shown.",
            "Delete it and type the line again.",
        )
    if at >= len(text.rstrip()):
        at = max(len(text.rstrip()) - 1, 0)
    return _line(
        file,
        offset,
        text,
        at,
        "H101",
        "This line does not fit with those above it.",
        "Entries that belong together begin in the same column; those inside another stand two spaces further in.",
    )


_TAB = ("There is a tab here.", "Use spaces: two for each step inwards.")


def _index(mark: object, otherwise: int) -> int:
    index = getattr(mark, "index", None)
    return index if isinstance(index, int) else otherwise


def _at(file: TextFile, start: int, end: int, code: str, message: str, hint: str) -> Diagnostic:
    start = min(max(start, 0), len(file.text))
    return Diagnostic(code, Span(file, start, min(max(end, start), len(file.text))), message, hint)


def _line(file: TextFile, offset: int, text: str, at: int, code: str, message: str, hint: str) -> Diagnostic:
    """A diagnostic that marks the whole line around `at`."""
    begin = text.rfind("\n", 0, at) + 1
    end = text.find("\n", at)
    line = text[begin : len(text) if end < 0 else end]
    lead = len(line) - len(line.lstrip())
    return _at(file, offset + begin + lead, offset + begin + len(line.rstrip()), code, message, hint)


def _quote(file: TextFile, offset: int, text: str, began: int, problem: str) -> Diagnostic:
    if "end of stream" in problem or "document separator" in problem:
        message = f"The quotation that begins here with {text[began : began + 1]} is not closed."
        hint = 'Close it with the same sign; for an apostrophe in a text write the text without quotes or in "…".'
    else:
        message = "In this quotation a \\ begins something that is not understood."
        hint = "Use single quotes '…', in which \\ is an ordinary sign."
    return _line_from(file, offset, text, began, "H104", message, hint)


def _line_from(file: TextFile, offset: int, text: str, at: int, code: str, message: str, hint: str) -> Diagnostic:
    end = text.find("\n", at)
    return _at(file, offset + at, offset + (len(text) if end < 0 else end), code, message, hint)


def _bracket(file: TextFile, offset: int, text: str, began: int, context: str) -> Diagnostic:
    opened = _opened(text, began)
    if opened is None:
        while began < len(text) - 1 and text[began] not in "{[":
            began += 1
        opened = began
    began = opened
    square = text[began : began + 1] == "[" or (text[began : began + 1] != "{" and "mapping" not in context)
    sign, close, what = ("[", "]", "bracket") if square else ("{", "}", "brace")
    return _line_from(
        file,
        offset,
        text,
        began,
        "H101",
        f"The {what} {sign} that opens here is not closed, or two things inside it have no comma between them.",
        f"End it with {close}, and put a comma between one thing and the next.",
    )


_BRACKET = re.compile(r"(?:(?<=^)|(?<=[\s\[{]))[\[{]|[\]}]|\"[^\"]*\"|(?<=\s)'[^']*'|(?<=\s)#[^\n]*")


def _opened(text: str, stop: int) -> int | None:
    """Where the first brace or bracket stands that is open at `stop`: what follows it was taken for a part of it."""
    open_ones: list[int] = []
    for found in _BRACKET.finditer(text, 0, min(stop + 1, len(text))):
        if found[0] in "{[":
            open_ones.append(found.start())
        elif found[0] in "}]" and open_ones:
            open_ones.pop()
    return open_ones[0] if open_ones else None


def _colon(file: TextFile, offset: int, text: str, at: int) -> Diagnostic:
    """A line without 'colon and space', or one with two of them."""
    begin = text.rfind("\n", 0, at) + 1
    line = text[begin:].partition("\n")[0]
    before = text[:begin].rstrip("\n")
    above = before[before.rfind("\n") + 1 :]
    glued = re.search(r"^\s*(?:- )?[\w<> .'-]+:(?=[^\s/])", above) or re.search(
        r"^\s*(?:- )?[\w<> .'-]+:(?=[^\s/])", line
    )
    if glued:
        where = begin - len(above) - 1 if glued.string is above else begin
        colon = where + glued.end() - 1
        written = glued.string.strip()
        key, _, rest = written.partition(":")
        return _at(
            file,
            offset + colon,
            offset + colon + 2,
            "H105",
            f"There is no space after the colon in '{written}'.",
            f"Write {key}: {rest}",
        )
    key, _, rest = line.strip().partition(": ")
    if ": " in rest or rest.endswith(":"):
        return _at(
            file,
            offset + at,
            offset + at + 1,
            "H105",
            "There is a second colon in this line, where only one can divide the name from what is said of it.",
            f"Write {key} {rest}" if _ENTRY.match(rest) else f'Put the words in quotes: {key}: "{rest}"',
        )
    lead = len(above) - len(above.lstrip())
    if above.strip() and len(line) - len(line.lstrip()) > lead and ": " in above:
        return _line(
            file,
            offset,
            text,
            at,
            "H101",
            "This line stands further in than the one above it, which already has its value.",
            "Begin it in the same column as the line above.",
        )
    return _line(
        file,
        offset,
        text,
        at,
        "H105",
        f"'{line.strip()}' has no colon with a space after it.",
        "Write a name, a colon, a space, and what is said of it.",
    )


def _sign(file: TextFile, offset: int, text: str, at: int) -> Diagnostic:
    value = text[at:].partition("\n")[0].strip()
    return _line_from(
        file,
        offset,
        text,
        at,
        "H107",
        f"The text '{value}' begins with a sign that has a meaning of its own in YAML.",
        f'Put it in quotes: "{value}"',
    )


def comma_hint(before: str, key: str) -> tuple[str, str]:
    """Message and hint for words after a comma inside braces that are no entry of their own."""
    if before[-1:].isdigit() and _THOUSANDS.match(key):
        figure = f"{before},{key}"
        plain = before + key
        return (
            f"The comma in '{figure}' ends the value: inside braces a comma divides entries.",
            f"Write the figure without it: {plain}",
        )
    return (
        f"'{key}' stands alone after a comma: inside braces a comma divides entries.",
        f'If it belongs to what is before it, put both in quotes: "{before}, {key}"' if before else "Write key: value",
    )
