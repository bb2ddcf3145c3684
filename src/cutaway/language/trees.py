"""Small questions about a parse tree."""

from collections.abc import Iterator

from lark import Token, Tree

from cutaway.problems.span import Span, TextFile

Branch = Tree[Token]


def tokens(tree: Branch) -> Iterator[Token]:
    """All tokens of a tree, in the order of the text."""
    return (leaf for leaf in tree.scan_values(lambda leaf: isinstance(leaf, Token)))


def first_token(tree: Branch, *types: str) -> Token:
    """The first token of one of these types, which the grammar promises."""
    return next(token for token in tokens(tree) if token.type in types)


def has_token(tree: Branch, *types: str) -> bool:
    """Whether the tree itself, not a branch of it, has such a token."""
    return any(isinstance(leaf, Token) and leaf.type in types for leaf in tree.children)


def branches(tree: Branch) -> tuple[Branch, ...]:
    """The children that are trees."""
    return tuple(child for child in tree.children if not isinstance(child, Token))


def branch(tree: Branch, at: int = 0) -> Branch:
    """One of the children that are trees, which the grammar promises."""
    return branches(tree)[at]


def names_in(tree: Branch) -> tuple[Token, ...]:
    """The names under a tree, known or not, in the order of the text."""
    return tuple(token for token in tokens(tree) if token.type in ("NAME", "UNKNOWN"))


def name_in(tree: Branch) -> Token:
    """The first name under a tree, which the grammar promises."""
    return names_in(tree)[0]


def span_of(tree: Branch, file: TextFile) -> Span:
    """From the first to the last token of a tree."""
    found = tuple(tokens(tree))
    return Span(file, found[0].start_pos or 0, found[-1].end_pos or 0)
