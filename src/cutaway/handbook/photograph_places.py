"""Where on a photograph something is: `[31 %, 42 %]`, or `[620, 410]` in pixels of the upright picture."""

import re

from cutaway.handbook.door import several_of
from cutaway.handbook.nodes import Faulty, Node, Words
from cutaway.problems.diagnostic import Diagnostic, Problems

_ONE = re.compile(r"\s*(-?\d{1,7}(?:\.\d{1,6})?)\s*(%|px)?\s*")


def read_place(
    node: Node | None, name: str, size: tuple[int, int]
) -> tuple[tuple[float, float] | None, Problems]:  # fmt: skip
    """From the left and from the top, as shares of the picture; None where it is no place on it."""
    if node is None or isinstance(node, Faulty):
        return None, ()
    items = several_of(node)
    pieces = [item.text for item in items if isinstance(item, Words)]
    if len(pieces) == 1:
        pieces = pieces[0].split(",")
    found = [_ONE.fullmatch(piece) for piece in pieces]
    if len(pieces) != 2 or len(pieces) < len(items) or found[0] is None or found[1] is None:
        message = f"The place of {name} is not understood."
        return None, (Diagnostic("H904", node.span, message, _hint(size)),)
    units = {match[2] or "px" for match in found if match is not None}
    if len(units) > 1:
        message = f"The place of {name} is in per cent one way and in pixels the other."
        return None, (Diagnostic("H904", node.span, message, _hint(size)),)
    across, down = float(found[0][1]), float(found[1][1])
    whole = (100.0, 100.0) if units == {"%"} else (float(size[0]), float(size[1]))
    at = (across / whole[0], down / whole[1])
    if all(0.0 <= share <= 1.0 for share in at):
        return at, ()
    most = "100 % each way" if units == {"%"} else f"{size[0]} pixels across and {size[1]} down"
    message = f"The point {name} lies outside the picture, which has {most}."
    hint = "Count from the upper left corner of the picture as it is seen upright, for instance " + _example(size)
    return None, (Diagnostic("H910", node.span, message, hint),)


def _example(size: tuple[int, int]) -> str:
    return f"at: [31 %, 42 %] or at: [{round(size[0] * 0.31)}, {round(size[1] * 0.42)}]"


def _hint(size: tuple[int, int]) -> str:
    return f"Write how far from the left and from the top: {_example(size)}"
