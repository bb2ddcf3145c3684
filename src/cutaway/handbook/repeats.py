"""`for each:` in a part or a line: the block once for every item, with `<side>` replaced in its words."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import product

from cutaway.handbook.door import several_of
from cutaway.handbook.nodes import Block, Entry, Faulty, Items, Node, Words
from cutaway.problems.diagnostic import Diagnostic, Problems

MOST = 200
_SLOT = re.compile(r"<([^<>]+)>")


@dataclass(frozen=True, slots=True)
class Repeat:
    """One turn of a repeated block: its name and its entries with the items put in."""

    name: Words
    block: Block


def repeats(name: Words, block: Block) -> tuple[tuple[Repeat, ...], Problems]:
    """The block as often as its `for each:` says; once where there is none. name: the key, or the line's run."""
    node = block.get("for each")
    if node is None:
        return (Repeat(name, block),), ()
    if isinstance(node, Faulty):
        return (), ()
    if not isinstance(node, Block) or not node.entries:
        return (), (_wrong(node),)
    choices: list[list[tuple[str, str]]] = []
    for entry in node.entries:
        items = [item.text for item in several_of(entry.value) if isinstance(item, Words) and not item.empty]
        if not items:
            return (), (_wrong(entry.value),)
        if f"<{entry.key.text}>" not in name.text:
            return (), (_unused(entry.key, name),)
        choices.append([(entry.key.text, item) for item in items])
    body = Block(tuple(entry for entry in block.entries if entry.key.text.lower() != "for each"), block.span)
    turns = tuple(product(*choices))[: MOST + 1]
    if len(turns) > MOST:
        hint = "Name fewer items, or make several blocks."
        return (), (Diagnostic("H319", node.span, f"'for each' makes more than {MOST} of these.", hint),)
    made = tuple(Repeat(_filled_words(name, dict(turn)), _filled_block(body, dict(turn))) for turn in turns)
    lost = next(_slots(made[0].block), None)
    if lost is not None:
        return (), (_no_such_slot(lost, tuple(entry.key.text for entry in node.entries)),)
    return made, ()


def _filled(node: Node, items: dict[str, str]) -> Node:
    match node:
        case Words():
            return _filled_words(node, items)
        case Items():
            return Items(tuple(_filled(item, items) for item in node.items), node.span)
        case Block():
            return _filled_block(node, items)
        case Faulty():
            return node


def _filled_words(words: Words, items: dict[str, str]) -> Words:
    if "<" not in words.text:
        return words
    return replace(words, text=_SLOT.sub(lambda match: items.get(match[1], match[0]), words.text))


def _filled_block(block: Block, items: dict[str, str]) -> Block:
    entries = (Entry(_filled_words(entry.key, items), _filled(entry.value, items)) for entry in block.entries)
    return Block(tuple(entries), block.span)


def _slots(node: Node) -> Iterator[Words]:
    match node:
        case Words():
            if _SLOT.search(node.text):
                yield node
        case Items():
            for item in node.items:
                yield from _slots(item)
        case Block():
            for entry in node.entries:
                yield from _slots(entry.key)
                yield from _slots(entry.value)


def _wrong(node: Node) -> Diagnostic:
    return Diagnostic(
        "H319",
        node.span,
        "'for each' wants a word and the items that stand in its place.",
        "Write for each: {side: [port, starboard]}, and <side> in the names.",
    )


def _unused(slot: Words, name: Words) -> Diagnostic:
    return Diagnostic(
        "H319",
        name.span,
        f"'{name.text}' does not hold <{slot.text}>, so 'for each' would make several of one name.",
        f"Write <{slot.text}> {name.text}",
    )


def _no_such_slot(words: Words, slots: tuple[str, ...]) -> Diagnostic:
    return Diagnostic(
        "H319",
        words.span,
        f"In '{words.text}' nothing says what stands for the words in < >.",
        f"'for each' here has {', '.join(f'<{slot}>' for slot in slots)}.",
    )
