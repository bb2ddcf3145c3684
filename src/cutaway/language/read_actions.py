"""From the parse tree of actions to their records, repeated ones written out."""

from dataclasses import replace

from lark import Token

from cutaway.language.said import Said
from cutaway.language.syntax import Action, Move, Wait
from cutaway.language.trees import Branch, branch, branches, first_token, name_in, span_of

MOST_ACTIONS = 1000
"""More than this, written out, is taken for a slip of the pen."""


def read_actions(tree: Branch, said: Said) -> tuple[Action, ...]:
    """The actions in order; those with something wrong are noted and left out.

    'repeated 3 times' repeats all that stands before it, or all in the brackets before it.
    """
    if tree.data == "repeated" or (tree.data == "bracketed"):
        inner = read_actions(branch(tree), said)
        return _repeated(inner, next(t for t in tree.children if isinstance(t, Token) and t.type == "NUMBER"), said)
    if tree.data == "hold_through":
        inner = read_actions(branch(tree, 2), said)
        held = _move(tree, said)
        return inner if held is None else (replace(held, through=len(inner)), *inner)
    if tree.data in ("actions", "sequence", "meanwhile"):
        return tuple(action for child in branches(tree) for action in read_actions(child, said))
    action = _wait(tree, said) if tree.data == "wait" else _move(tree, said)
    return () if action is None else (action,)


def _repeated(actions: tuple[Action, ...], number: Token, said: Said) -> tuple[Action, ...]:
    try:
        count = int(number)
    except ValueError:
        count = 0
    if not 1 <= count * max(1, len(actions)) <= MOST_ACTIONS:
        said.note(
            "L108",
            number,
            f"'{number} times' cannot be done.",
            f"Write a whole number, at most {MOST_ACTIONS} actions in all.",
        )
        return actions
    return actions * count


def _wait(tree: Branch, said: Said) -> Wait | None:
    seconds = said.seconds(first_token(tree, "QUANTITY", "NUMBER"))
    return None if seconds is None else Wait(seconds, span_of(tree, said.file))


def _move(tree: Branch, said: Said) -> Move | None:
    control = said.control(name_in(branch(tree, 0)))
    held = said.seconds(first_token(branch(tree, 2), "QUANTITY", "NUMBER")) if tree.data == "hold" else None
    if control is None or (held is None and tree.data == "hold"):
        return None
    place = branch(tree, 1)
    if place.data == "amount":
        level = said.level(control, first_token(place, "QUANTITY", "NUMBER"))
        return None if level is None else Move(control.ref, "", level, held, span_of(tree, said.file))
    position = said.position(control, name_in(place))
    return None if position is None else Move(control.ref, position, None, held, span_of(tree, said.file))
