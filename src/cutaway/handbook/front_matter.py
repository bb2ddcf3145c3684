"""The head of a Markdown file: YAML between two lines of ---, at the very top."""

import re

from cutaway.handbook.nodes import Block, Faulty
from cutaway.handbook.yaml_tree import read_tree
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import Span, TextFile

_OPENING = re.compile(r"\A---[ \t]*\n")
_CLOSING = re.compile(r"^---[ \t]*$", re.MULTILINE)


def front_matter(file: TextFile) -> tuple[Block | None, int, Problems]:
    """The head's entries (None where there is no head), and where the text after it begins."""
    opening = _OPENING.match(file.text)
    if opening is None:
        return None, 0, ()
    closing = _CLOSING.search(file.text, opening.end())
    if closing is None:
        problem = Diagnostic(
            "H605",
            Span(file, 0, 3),
            "The head of this file begins with --- but does not end.",
            "Write a line --- after its last entry.",
        )
        return None, opening.end(), (problem,)
    node, problems = read_tree(file, opening.end(), closing.start())
    if isinstance(node, Block) or node is None:
        return node, closing.end(), problems
    if not isinstance(node, Faulty):
        problems += (
            Diagnostic(
                "H108", node.span, "The head of this file should be entries.", "Write title: … between the ---."
            ),
        )
    return None, closing.end(), problems
