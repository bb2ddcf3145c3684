"""Letting a node of the tree in: its shape is checked against a model, and each complaint gets its place."""

import re
from collections.abc import Iterable
from typing import Any, TypeVar

from pydantic import ValidationError

from cutaway.handbook.names import did_you_mean, fold, listed
from cutaway.handbook.nodes import Block, Faulty, Items, Node, Words
from cutaway.handbook.shapes import Shape
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import Span

S = TypeVar("S", bound=Shape)


def admit(shape: type[S], node: Node, what: str) -> tuple[S | None, Problems]:
    """The node as a record of its shape; None where it does not fit. what: the entry in words ('the term magneto')."""
    if isinstance(node, Faulty):
        return None, ()
    if not isinstance(node, Block):
        return None, (wrong_form(node, what, "entries, each a name, a colon and what is said of it"),)
    plain, faulty = _plain_block(node, keys_of(shape))
    try:
        admitted = shape.model_validate(plain)
    except ValidationError as error:
        told = (_told(shape, node, what, dict(one)) for one in error.errors(include_url=False, include_input=False))
        return None, _one_a_place(problem for problem in told if problem is not None)
    return (None if faulty else admitted), ()


def keys_of(shape: type[Shape]) -> tuple[str, ...]:
    """The keys of a shape as an author writes them."""
    return tuple(field.alias or name for name, field in shape.model_fields.items())


def form(node: Node) -> str:
    """What a node is, in words."""
    match node:
        case Block():
            return "a block of entries"
        case Items():
            return "a list"
        case Words(text=""):
            return "nothing"
        case _:
            return f"'{node.text}'" if isinstance(node, Words) else "something"


def wrong_form(node: Node, what: str, wanted: str) -> Diagnostic:
    """The diagnostic for a list where words are wanted, and the like."""
    return Diagnostic("H108", node.span, f"{_capital(what)} should be {wanted}, not {form(node)}.", _form_hint(wanted))


def unknown_key(key: Words, what: str, known: Iterable[str]) -> Diagnostic:
    """The diagnostic for a key that an entry does not have."""
    return Diagnostic("H110", key.span, f"{_capital(what)} has no entry '{key.text}'.", did_you_mean(key.text, known))


def missing_key(span: Span, what: str, key: str, means: str = "") -> Diagnostic:
    """The diagnostic for a key that must be there."""
    hint = f"Add {key}: … ({means})" if means else f"Add {key}: …"
    return Diagnostic("H111", span, f"{_capital(what)} has no '{key}'.", hint)


def head_span(node: Node) -> Span:
    """A short span for what concerns a whole block: its first key."""
    if isinstance(node, Block) and node.entries:
        return node.entries[0].key.span
    return node.span


def block_of(node: Node | None, what: str) -> tuple[Block | None, Problems]:
    """A node as a block; a missing or empty one is no mistake."""
    match node:
        case Block():
            return node, ()
        case None | Faulty() | Words(text=""):
            return None, ()
        case _:
            return None, (wrong_form(node, what, "entries, each a name, a colon and what is said of it"),)


def words_of(node: Node | None, what: str) -> tuple[Words | None, Problems]:
    """A node as words; a missing one is no mistake."""
    match node:
        case Words():
            return node, ()
        case None | Faulty():
            return None, ()
        case _:
            return None, (wrong_form(node, what, "words"),)


def several_of(node: Node | None) -> tuple[Node, ...]:
    """The items of a list; a single node is a list of itself, a missing or empty one is an empty list."""
    match node:
        case None | Words(text=""):
            return ()
        case Items():
            return node.items
        case _:
            return (node,)


def has_faulty(node: Node | None) -> bool:
    """Whether anything in the node was written wrongly and has been told."""
    match node:
        case Faulty():
            return True
        case Items():
            return any(has_faulty(item) for item in node.items)
        case Block():
            return any(has_faulty(entry.value) for entry in node.entries)
        case _:
            return False


def _plain_block(block: Block, keys: tuple[str, ...]) -> tuple[dict[str, Any], bool]:
    """The block as dictionaries and lists, with the shape's own spelling of keys; and whether any of it is faulty."""
    own = {fold(key): key for key in keys}
    faulty = False
    plain: dict[str, Any] = {}
    for entry in block.entries:
        name = own.get(fold(entry.key.text), entry.key.text)
        if isinstance(entry.value, Faulty):
            # Told already: leave a required key in place, so that it is not called missing as well.
            faulty = True
            continue
        if isinstance(entry.value, Words) and entry.value.empty and name in own.values():
            continue
        plain[name] = _plain(entry.value)
    return plain, faulty


def _plain(node: Node) -> Any:
    match node:
        case Words():
            return node.text
        case Items():
            return [_plain(item) for item in node.items if not isinstance(item, Faulty)]
        case Block():
            return {e.key.text: _plain(e.value) for e in node.entries if not isinstance(e.value, Faulty)}
        case Faulty():
            return None


def _told(shape: type[Shape], block: Block, what: str, error: dict[str, Any]) -> Diagnostic | None:
    loc = tuple(error["loc"])
    key = str(loc[0]) if loc else ""
    name = next((f.alias or n for n, f in shape.model_fields.items() if key in (n, f.alias)), key)
    entry = block.entry(name)
    if error["type"] == "missing":
        # Written but empty, or told already as faulty.
        if entry is not None and isinstance(entry.value, Faulty):
            return None
        field = next((f for n, f in shape.model_fields.items() if name in (n, f.alias)), None)
        return missing_key(
            entry.key.span if entry else head_span(block), what, name, (field and field.description) or ""
        )
    if entry is None:
        return Diagnostic("H108", head_span(block), f"{_capital(what)} is not of the right form.", "")
    if error["type"] == "extra_forbidden":
        return unknown_key(entry.key, what, keys_of(shape))
    if error["type"] == "value_error":
        return missing_key(entry.key.span, what, name)
    node = _walk(entry.value, loc[1:])
    if error["type"] == "literal_error" and isinstance(node, Words):
        return _other_word(node, f"'{name}' of {what}", _words_allowed(error))
    wanted = {"dict_type": "entries, each a name, a colon and what is said of it", "list_type": "a list"}
    return wrong_form(node, f"'{name}' of {what}", wanted.get(error["type"], "words"))


def _words_allowed(error: dict[str, Any]) -> tuple[str, ...]:
    """The words that may stand there, of an error that says so: "'left', 'right' or ''"."""
    return tuple(word for word in re.findall(r"'([^']*)'", str(error.get("ctx", {}).get("expected", ""))) if word)


def _other_word(node: Words, what: str, known: tuple[str, ...]) -> Diagnostic:
    """The diagnostic for a word where only a few can stand."""
    hint = did_you_mean(node.text, known) or f"Write {listed(known, 'or')}."
    return Diagnostic("H108", node.span, f"{_capital(what)} can be {listed(known, 'or')}, not '{node.text}'.", hint)


def _one_a_place(problems: Iterable[Diagnostic]) -> Problems:
    """A value that fits none of several forms is complained of once, not once a form."""
    return tuple({(problem.code, problem.span): problem for problem in problems}.values())


def _walk(node: Node, loc: tuple[Any, ...]) -> Node:
    """The node that a pydantic location points at, as far as it can be followed."""
    for step in loc:
        if isinstance(node, Items) and isinstance(step, int) and step < len(node.items):
            node = node.items[step]
        elif isinstance(node, Block) and isinstance(step, str) and node.get(step) is not None:
            node = node.get(step) or node
    return node


def _form_hint(wanted: str) -> str:
    if wanted.startswith("entries"):
        return "Write each on a line of its own, two spaces further in: name: words"
    if wanted == "a list":
        return "Write [first, second], or each on a line of its own with - before it."
    return "Write the words after the colon; put them in quotes if they begin with a sign such as [ or {."


def _capital(text: str) -> str:
    """The text as a sentence begins; a file's name keeps its own letters."""
    return text if text.endswith((".yaml", ".md")) else text[:1].upper() + text[1:]
