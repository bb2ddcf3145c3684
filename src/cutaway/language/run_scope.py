"""The scope of a course of things that a file asks for by 'in', 'with' and 'do': of a chart, of a sheet at moments."""

from collections.abc import Iterable
from dataclasses import replace

from cutaway.language.parse import parse_actions, parse_given
from cutaway.language.syntax import Scope, When
from cutaway.language.words import Words
from cutaway.problems.diagnostic import Problems
from cutaway.problems.span import Span


def run_scope(
    situation: str, place: Span, failed: Iterable[Span], do: Span | None, words: Words
) -> tuple[Scope | None, Problems]:
    """The scope without standards; None where something of it is not understood.

    situation: by its name, which stands at `place`. failed: what stands behind 'with', each by itself.
    """
    scope: Scope = Scope(None, situation, (), (), (), (), When(), "", place)
    known = True
    problems: Problems = ()
    for span in failed:
        one, more = parse_given(span, words)
        problems += more
        known = known and one is not None
        scope = scope if one is None else _joined(scope, one)
    if do is not None:
        actions, more = parse_actions(do, words)
        problems += more
        known = known and actions is not None
        scope = replace(scope, actions=actions or ())
    return (scope if known else None), problems


def _joined(scope: Scope, one: Scope) -> Scope:
    return replace(
        scope,
        failures=(*scope.failures, *one.failures),
        conditions=(*scope.conditions, *one.conditions),
        held=(*scope.held, *one.held),
    )
