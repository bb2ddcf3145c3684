"""What was asked and its plain opposite, as clauses; what a service means."""

import re
from collections.abc import Iterable, Iterator

from cutaway.handbook.records import Folder
from cutaway.inquiry.scenes import Question
from cutaway.inquiry.signals import kind_on, services_in, stands_for, state_of
from cutaway.language.syntax import AtPosition, Claim, Compare, InState, Served, Statement
from cutaway.wording.asking import are, statement_words, the
from cutaway.wording.shown import cites_words, listed_with, sentence

_SERVED = re.compile(r"\b(is|are)( not)? served\b", re.IGNORECASE)
_NOT = re.compile(r"\b(is|are|reads|read)\b(?! not\b)")
_OPPOSITE = {"above": "no more than", "below": "no less than", "at least": "below", "at most": "above"}


def spoken(words: str) -> str:
    """A statement without what only the grammar says: a service that is served is in order.

    >>> spoken("air for the brakes is served"), spoken("flying instruments are not served")
    ('air for the brakes is in order', 'flying instruments are not in order')
    """
    return _SERVED.sub(lambda found: f"{found[1]}{found[2] or ''} in order", words)


def asked_clause(question: Question, folder: Folder) -> str:
    """What was asked, as a clause."""
    return spoken(statement_words(Claim(question.scope, question.statement, question.statement.span), folder))


def otherwise_clause(question: Question, folder: Folder) -> str:
    """The plain opposite of what was asked, as a clause."""
    asked, statement = asked_clause(question, folder), question.statement
    match statement:
        case InState(part=part, state=words, negated=negated):
            kind = kind_on(question.bound, part)
            state = state_of(kind, words) if kind is not None else None
            if negated:
                return f"{the(str(part))} {are(str(part))} {words}"
            if state is not None and state.opposite:
                return (
                    f"{the(str(part))} {are(str(part))} {state.opposite if stands_for(state, words) else state.words}"
                )
            return _denied(asked)
        case Compare(op=op, negated=False) if op in _OPPOSITE:
            return re.sub(rf"\b{op}\b", _OPPOSITE[op], asked, count=1)
        case Served() | AtPosition():
            return _denied(asked)
        case _:
            return "that is otherwise"


def _denied(clause: str) -> str:
    """A clause with a 'not' behind its verb, or without it.

    >>> _denied("the flaps are down"), _denied("the gauge is not dead")
    ('the flaps are not down', 'the gauge is dead')
    """
    if " not " in clause:
        return clause.replace(" not ", " ", 1)
    return _NOT.sub(lambda found: f"{found[1]} not", clause, count=1)


def asks_words(asks: Iterable[str], folder: Folder) -> str:
    """What rules ask, as a clause: 'the safety bolt is held aside'."""
    names = {str(part.name).casefold() for part in folder.parts}
    return listed_with(f"the {one}" if any(one.casefold().startswith(f"{n} ") for n in names) else one for one in asks)


def meant_lines(question: Question, folder: Folder) -> Iterator[str]:
    """What the services in a question mean, a line each."""
    named = services_in(question.statement, question.told.services)
    for service in folder.services:
        meaning = question.told.services.get(service.name)
        if service.name in named and meaning is not None:
            words = spoken(_statement(question, meaning, folder))
            means = sentence(f"By '{service.name}' is meant that {words}")
            yield f"{means} {cites_words(service.cites, folder)}".rstrip()


def _statement(question: Question, statement: Statement, folder: Folder) -> str:
    return statement_words(Claim(question.scope, statement, statement.span), folder)
