"""What a parser can take next, asked one terminal at a time."""

from typing import Any

from lark.parsers.lalr_analysis import Shift


class Acceptable:
    """The terminals that a parser can take next. The table alone says too much: behind a name it has whatever can
    follow any name anywhere, so what the parser would do is followed to where it takes the terminal, or cannot."""

    def __init__(self, parser_state: Any) -> None:
        self._states = parser_state.parse_conf.states
        self._stack = parser_state.state_stack

    def __contains__(self, terminal: str) -> bool:
        stack = list(self._stack)
        while (step := self._states[stack[-1]].get(terminal)) is not None:
            action, to = step
            if action is Shift:
                return True
            if to.expansion:
                del stack[-len(to.expansion) :]
            stack.append(self._states[stack[-1]][to.origin.name][1])
        return False
