"""From text to the records of `syntax.py`, in place: offsets are the file's. Each function gives what it could
understand and what was wrong, and never raises for anything that a user can write."""

from functools import lru_cache, partial
from pathlib import Path
from typing import Any

from lark import Lark, Tree
from lark.exceptions import UnexpectedToken

from cutaway.language.expected import Stopped, misread
from cutaway.language.lexer import Source, StatementLexer
from cutaway.language.read_actions import read_actions
from cutaway.language.read_scope import empty_scope, read_scope
from cutaway.language.read_statement import read_statement
from cutaway.language.said import Said
from cutaway.language.syntax import Action, Claim, Scope, Statement
from cutaway.language.tables import kept_tables
from cutaway.language.trees import Branch, branch, branches, span_of
from cutaway.language.words import Words
from cutaway.problems.diagnostic import Problems
from cutaway.problems.span import Span

_STARTS = ("claim", "statement", "actions", "only_scope", "given_scope", "mark")


@lru_cache(maxsize=1)
def _grammar() -> Lark:
    """The parser, made or read once in a process."""
    grammar = Path(__file__).with_name("statements.lark").read_text(encoding="utf-8")
    return kept_tables(grammar, " ".join(_STARTS), partial(_worked_out, grammar))


def _worked_out(grammar: str) -> Lark:
    return Lark(
        grammar,
        parser="lalr",
        lexer=StatementLexer,
        start=list(_STARTS),
        maybe_placeholders=False,
        propagate_positions=False,
    )


def parse_claim(span: Span, words: Words) -> tuple[Claim | None, Problems]:
    """A claim: scope, colon, statement; the scope may be empty, and the colon with it."""
    tree, said = _tree(span, words, "claim")
    if tree is None:
        return None, said.problems
    scope = read_scope(branch(tree), said) if tree.data == "scoped" else empty_scope(_start_of(tree, said))
    statement = read_statement(branches(tree)[-1], said)
    if statement is None or not said.whole:
        return None, said.problems
    return Claim(scope, statement, span_of(tree, said.file)), ()


def parse_statement(span: Span, words: Words) -> tuple[Statement | None, Problems]:
    """A statement without a scope, as a service has it, or the rule of a control."""
    tree, said = _tree(span, words, "statement")
    statement = None if tree is None else read_statement(tree, said)
    return (statement if said.whole else None), said.problems


def parse_actions(span: Span, words: Words) -> tuple[tuple[Action, ...] | None, Problems]:
    """Actions in order: 'tank selector to off then wait 10 s'."""
    tree, said = _tree(span, words, "actions")
    actions = () if tree is None else read_actions(tree, said)
    return (actions if said.whole and actions else None), said.problems


def parse_scope(span: Span, words: Words) -> tuple[Scope | None, Problems]:
    """A scope alone: 'on Mk 1, in cruising, with engine pump seized'. A colon at its end is allowed."""
    tree, said = _tree(span, words, "only_scope")
    return _scope(None if tree is None else branch(tree), said)


def parse_given(span: Span, words: Words) -> tuple[Scope | None, Problems]:
    """What stands behind 'with', the word itself left out or not: 'engine pump seized, height 8000 ft'."""
    tree, said = _tree(span, words, "given_scope")
    return _scope(tree, said)


def parse_mark(span: Span, words: Words) -> tuple[tuple[Action, ...] | Statement | None, Problems]:
    """A mark in a step of a drill: actions to be done, or a statement of what is then seen."""
    tree, said = _tree(span, words, "mark")
    if tree is None:
        return None, said.problems
    made = read_actions(branch(tree), said) if tree.data == "does" else read_statement(branch(tree), said)
    return (made if said.whole and made else None), said.problems


def _scope(tree: Branch | None, said: Said) -> tuple[Scope | None, Problems]:
    scope = None if tree is None else read_scope(tree, said)
    return (scope if said.whole else None), said.problems


def _start_of(tree: Branch, said: Said) -> Span:
    start = span_of(tree, said.file).start
    return Span(said.file, start, start)


def _tree(span: Span, words: Words, start: str) -> tuple[Branch | None, Said]:
    """The parse tree, or None with what stopped the parser noted."""
    said = Said(span.file, words)
    source = Source(span, words, amid_with=start == "given_scope")
    try:
        tree = _grammar().parse(source, start=start)
    except UnexpectedToken as stop:
        parser: Any = stop.interactive_parser
        misread(Stopped(source, stop.token, frozenset(parser.accepts()), start), said)
        return None, said
    assert isinstance(tree, Tree)
    return tree, said
