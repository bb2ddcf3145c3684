"""decided.yaml: where books or paragraphs conflict, which one is followed and why."""

from cutaway.handbook.door import admit, several_of, wrong_form
from cutaway.handbook.head import Head, read_cites
from cutaway.handbook.names import did_you_mean, fold
from cutaway.handbook.nodes import Block, Items, Node, Words
from cutaway.handbook.records import Decided, PartName
from cutaway.handbook.shapes import DecidedShape
from cutaway.handbook.whereabouts import Index
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import Span


def read_decided(root: Node | None, head: Head) -> tuple[tuple[Decided, ...], Problems]:
    """The decisions, in order; whether their parts exist is seen once the parts are read (`checked`)."""
    if root is not None and not isinstance(root, Items | Block):
        return (), (wrong_form(root, "decided.yaml", "a list"),)
    decided: list[Decided] = []
    problems: Problems = ()
    for node in several_of(root):
        shape, more = admit(DecidedShape, node, "this decision")
        problems += more
        if shape is None or not isinstance(node, Block):
            continue
        cites, more = read_cites(node.get("prefer"), head, "")
        problems += more
        if cites:
            span = node.entries[0].key.span
            decided.append(Decided(PartName(shape.part), shape.value, cites[0], shape.because, span))
    return tuple(decided), problems


def checked(decided: tuple[Decided, ...], root: Node | None, index: Index) -> tuple[tuple[Decided, ...], Problems]:
    """The decisions about parts and quantities that exist, with the parts' own spelling.

    Where a folder has no parts at all yet, no name can be judged, and every decision is kept as it is written.
    """
    if index.nothing:
        return decided, ()
    kept: list[Decided] = []
    problems: Problems = ()
    for one in decided:
        parts = index.parts.get(fold(one.part))
        if parts is None:
            if fold(one.part) not in index.left_out:
                hint = did_you_mean(one.part, index.names())
                message = f"A decision is about '{one.part}', but there is no such part."
                problems += (Diagnostic("H310", _place(root, one, "part"), message, hint),)
            continue
        wants = [want.name for part in parts for want in index.kind(part).wants]
        value = next((name for name in wants if fold(name) == fold(one.value)), "")
        if not value:
            message = f"A decision is about '{one.value}' of {parts[0].name}, which has no such figure."
            problems += (Diagnostic("H325", _place(root, one, "value"), message, did_you_mean(one.value, wants)),)
            continue
        if not any(given.decided for part in parts for v in part.values if v.name == value for given in v.givens):
            problems += (
                Diagnostic(
                    "H325",
                    one.span,
                    f"There is nothing to decide: '{value}' of {parts[0].name} does not have two values, "
                    f"one of which cites {one.prefer.source} {one.prefer.number}.",
                    f"Give both values in the part's entry, each with its paragraph: "
                    f"{value}: [{{is: …, cite: {one.prefer.number}}}, {{is: …, cite: …}}]",
                ),
            )
        kept.append(Decided(parts[0].name, value, one.prefer, one.because, one.span))
    return tuple(kept), problems


def _place(root: Node | None, one: Decided, key: str) -> Span:
    for node in several_of(root):
        if isinstance(node, Block) and node.entries and node.entries[0].key.span == one.span:
            value = node.get(key)
            if isinstance(value, Words):
                return value.span
    return one.span
