"""Rules of movement: which positions are barred until something is so, and what moves with a control."""

import re

from cutaway.handbook.door import admit, several_of
from cutaway.handbook.names import did_you_mean, fold, listed
from cutaway.handbook.nodes import Block, Node, Words
from cutaway.handbook.ports import control_named, positions_of
from cutaway.handbook.records import Part, Rule
from cutaway.handbook.shapes import RuleShape
from cutaway.parts.kind import Kind
from cutaway.problems.diagnostic import Diagnostic, Problems


def read_rules(node: Node | None, part: Part, kind: Kind) -> tuple[tuple[Rule, ...], Problems]:
    """The rules of one part; one that does not fit its controls is told and left out."""
    rules: list[Rule] = []
    problems: Problems = ()
    for item in several_of(node):
        shape, more = admit(RuleShape, item, f"the rule of {part.name}")
        problems += more
        if shape is None or not isinstance(item, Block):
            continue
        control = control_named(shape.control, kind)
        if control is None:
            names = [c.name or part.name for c in kind.controls]
            hint = f"Add control: with {listed(names, 'or')}." if names else "Take the rule out."
            what = (
                f"no control '{shape.control}'" if shape.control else "not one control but " + (listed(names) or "none")
            )
            problems += (Diagnostic("H318", item.span, f"{part.name} has {what}.", hint),)
            continue
        positions = positions_of(control, part)
        to = next((position for position in positions if fold(position) == fold(shape.to)), "")
        if not to and not control.ranged:
            place = item.get("to")
            hint = did_you_mean(shape.to, positions)
            span = place.span if place else item.span
            problems += (Diagnostic("H318", span, f"{part.name} has no position '{shape.to}'.", hint),)
            continue
        spans = [words.span if isinstance(words := item.get(key), Words) else None for key in ("only when", "then")]
        if any(span and re.search(r"<[^<>]+>", span.text) for span in spans):
            message = "A rule is not repeated by 'for each': its words in < > stay as they are."
            problems += (Diagnostic("H319", item.span, message, "Write the parts out, one block for each."),)
            continue
        rules.append(Rule(control.name, to or shape.to, spans[0], spans[1], item.span))
    return tuple(rules), problems
