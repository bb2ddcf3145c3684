"""What html5lib, a parser of HTML by the letter of its standard, has against a page."""

import html5lib
from html5lib.constants import E


def faults(text: str) -> list[str]:
    """Each place where the standard's parser says that the text is wrong, as a line."""
    parser = html5lib.HTMLParser(namespaceHTMLElements=False)
    parser.parse(text)
    return [f"line {line}, column {column}: {E[code] % data}" for (line, column), code, data in parser.errors]
