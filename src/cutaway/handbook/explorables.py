"""explore.yaml: the pages to be explored; what their names mean is seen when they are worked out."""

from cutaway.handbook.door import admit, block_of, several_of
from cutaway.handbook.nodes import Block, Entry, Faulty, Node, Words
from cutaway.handbook.records import AskedExplorable
from cutaway.handbook.shapes import ExplorableShape, ExploreShape
from cutaway.problems.diagnostic import Diagnostic, Problems, has_error
from cutaway.problems.span import Span
from cutaway.quantities.quantity import Quantity
from cutaway.quantities.reading import read_quantity
from cutaway.quantities.si import to_si

LONGEST = 3600.0
"""The longest that things can be let settle after a movement, s."""
MOST = 5000
"""How many states a page may be given."""


def read_explorables(root: Node | None) -> tuple[tuple[AskedExplorable, ...], Problems]:
    """The pages in order; one with a mistake is left out."""
    if root is None or isinstance(root, Faulty):
        return (), ()
    _, problems = admit(ExploreShape, root, "explore.yaml")
    block, more = block_of(root.get("explore") if isinstance(root, Block) else None, "'explore'")
    problems = tuple(dict.fromkeys(problems + more))
    found: list[AskedExplorable] = []
    for entry in block.entries if block else ():
        one, more = _explorable(entry)
        problems += more
        found += [] if one is None else [one]
    return tuple(found), problems


def _explorable(entry: Entry) -> tuple[AskedExplorable | None, Problems]:
    name = " ".join(entry.key.text.split())
    shape, problems = admit(ExplorableShape, entry.value, f"the page {name}")
    if shape is None or not isinstance(entry.value, Block):
        return None, problems
    settle, more = _settle(entry.value.get("settle"))
    states, again = _states(entry.value.get("states"))
    problems += more + again
    if has_error(problems):
        return None, problems
    moved = [one for one in several_of(entry.value.get("move")) if isinstance(one, Words) and not one.empty]
    asked = AskedExplorable(
        name,
        " ".join(shape.says.split()),
        shape.system,
        shape.on,
        shape.in_,
        tuple(one.text for one in moved),
        settle,
        states,
        entry.key.span,
        _place(entry.value.get("system")),
        _place(entry.value.get("on")),
        _place(entry.value.get("in")),
        tuple(one.span for one in moved),
    )
    return asked, problems


def _place(node: Node | None) -> Span | None:
    return node.span if isinstance(node, Words) and not node.empty else None


def _settle(node: Node | None) -> tuple[Quantity | None, Problems]:
    if not isinstance(node, Words) or node.empty:
        return None, ()
    quantity, problems = read_quantity(node.text, node.span, "time")
    if quantity is not None and not 1.0 <= to_si(quantity) <= LONGEST:
        return None, (_told(f"Nothing can be let settle for {node.text}.", node.span, "Write 1 s to 60 min: 30 s"),)
    return quantity, problems


def _states(node: Node | None) -> tuple[int, Problems]:
    if not isinstance(node, Words) or node.empty:
        return 0, ()
    if not node.text.isdecimal() or not 2 <= int(node.text) <= MOST:
        return 0, (_told(f"A page cannot have '{node.text}' states.", node.span, f"Write a number from 2 to {MOST}."),)
    return int(node.text), ()


def _told(message: str, span: Span, hint: str) -> Diagnostic:
    return Diagnostic("H931", span, message, hint)
