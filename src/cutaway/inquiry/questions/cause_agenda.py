"""What a tracing back still has to answer, in the order in which it came up."""

from collections import deque
from dataclasses import dataclass

from cutaway.inquiry.questions.leaves import Leaf, Limit, deciding
from cutaway.inquiry.questions.links import Link
from cutaway.inquiry.questions.watched import Watched
from cutaway.parts.recipe import Expr


@dataclass(frozen=True, slots=True)
class Ask:
    """A question that is still to be answered: why a leaf is as high, or as low, as it is, for the part `of`. by: the
    link that it came of. becomes: the state that the part comes to at a limit."""

    leaf: Leaf | Limit
    of: str
    depth: int
    by: Link | None = None
    becomes: str = ""


class Agenda:
    """The questions that wait; grows as links are found. at: the link being explained, None at the statement."""

    def __init__(self, seen: Watched) -> None:
        self.seen = seen
        self.waiting: deque[Ask] = deque()
        self.at: Link | None = None

    def ask(self, leaf: Expr, high: bool, of: str, depth: int) -> None:
        """Ask why one leaf is so high, or so low."""
        self.waiting.append(Ask(Leaf(leaf, high), of, depth, self.at))

    def further(self, expression: Expr, high: bool, of: str, depth: int, becomes: str = "") -> None:
        """Ask of all that an expression owes its value to."""
        several = list(deciding(self.seen, expression, high))
        alone = len(several) == 1  # of several limits none alone makes the part what it becomes
        for one in several:
            self.waiting.append(Ask(one, of, depth, self.at, becomes if alone else ""))
