"""Everything in a folder that is written in the language, read: claims, services, drills, rules, situations."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

from cutaway.handbook.records import Drill, Folder, Part, Script, Sentence, Service, Situation, Step
from cutaway.language.clashes import clashes
from cutaway.language.parse import parse_actions, parse_claim, parse_mark, parse_statement
from cutaway.language.read_settings import condition_of, contents_of, held_by
from cutaway.language.syntax import Action, Claim, Condition, ControlRef, Held, Statement
from cutaway.language.words import Words
from cutaway.problems.diagnostic import Problems, in_order
from cutaway.problems.span import Span


@dataclass(frozen=True, slots=True)
class ParsedSentence:
    """A sentence of a script with the claims under it; left_out: how many more could not be understood."""

    script: str
    sentence: Sentence
    claims: tuple[Claim, ...]
    left_out: int


@dataclass(frozen=True, slots=True)
class ParsedService:
    """A service and what it means, None where that could not be understood."""

    service: Service
    statement: Statement | None


@dataclass(frozen=True, slots=True)
class Done:
    """A mark of a step that says what to do."""

    actions: tuple[Action, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Looked:
    """A mark of a step that says what is then seen."""

    statement: Statement
    span: Span


@dataclass(frozen=True, slots=True)
class ParsedStep:
    """A step of a drill; its marks in their order, those that could not be understood left out."""

    drill: str
    step: Step
    marks: tuple[Done | Looked, ...]


@dataclass(frozen=True, slots=True)
class ParsedRule:
    """A rule of movement of a part's control: what must be so, what happens besides."""

    part: Part
    control: ControlRef
    to: str
    only_when: Statement | None
    then: tuple[Action, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class ParsedSituation:
    """What a situation sets, gives and starts from, names resolved."""

    situation: Situation
    sets: tuple[Held, ...]
    given: tuple[Condition, ...]
    starts: tuple[Condition, ...]


@dataclass(frozen=True, slots=True)
class ParsedClaims:
    """All of a folder that is written in the language, each in the order of the files."""

    sentences: tuple[ParsedSentence, ...]
    services: tuple[ParsedService, ...]
    steps: tuple[ParsedStep, ...]
    rules: tuple[ParsedRule, ...]
    situations: tuple[ParsedSituation, ...]


Sentences = tuple[tuple[ParsedSentence, ...], Problems]
"""The sentences of a script with their claims, and what could not be understood."""


def read_here(script: Script, read: Callable[[], Sentences]) -> Sentences:
    """Nothing is kept of a script that was read."""
    return read()


def read_claims(
    folder: Folder, words: Words, keep: Callable[[Script, Callable[[], Sentences]], Sentences] = read_here
) -> tuple[ParsedClaims, Problems]:
    """Everything that the folder says in the language; what cannot be understood is left out and told.

    keep: given a script and what reads it, its sentences; they may be kept from an earlier session.
    """
    scripts = [keep(script, partial(_script, script, words)) for script in folder.scripts]
    told: list[Problems] = [problems for _, problems in scripts]
    parsed = ParsedClaims(
        tuple(sentence for sentences, _ in scripts for sentence in sentences),
        tuple(_service(service, words, told) for service in folder.services),
        tuple(_step(drill, step, words, told) for drill in folder.drills for step in drill.steps),
        tuple(rule for part in folder.parts for rule in _rules(part, words, told)),
        tuple(_situation(situation, words) for situation in folder.situations),
    )
    told.append(clashes(folder, words))
    return parsed, in_order(tuple(problem for problems in told for problem in problems))


def _script(script: Script, words: Words) -> Sentences:
    told: list[Problems] = []
    sentences = tuple(_sentence(script, one, words, told) for one in script.sentences)
    return sentences, tuple(problem for problems in told for problem in problems)


def _sentence(script: Script, sentence: Sentence, words: Words, told: list[Problems]) -> ParsedSentence:
    claims: list[Claim] = []
    for span in sentence.claims:
        claim, problems = parse_claim(span, words)
        told.append(problems)
        if claim is not None:
            claims.append(claim)
    return ParsedSentence(script.name, sentence, tuple(claims), len(sentence.claims) - len(claims))


def _service(service: Service, words: Words, told: list[Problems]) -> ParsedService:
    statement, problems = parse_statement(service.statement, words)
    told.append(problems)
    return ParsedService(service, statement)


def steps_of(drill: Drill, words: Words) -> tuple[ParsedStep, ...]:
    """The steps of a drill; what cannot be understood of them is told where the whole folder is read."""
    return tuple(_step(drill, step, words, []) for step in drill.steps)


def _step(drill: Drill, step: Step, words: Words, told: list[Problems]) -> ParsedStep:
    marks: list[Done | Looked] = []
    for span in step.marks:
        mark, problems = parse_mark(span, words)
        told.append(problems)
        if isinstance(mark, tuple):
            marks.append(Done(mark, span))
        elif mark is not None:
            marks.append(Looked(mark, span))
    return ParsedStep(drill.name, step, tuple(marks))


def _rules(part: Part, words: Words, told: list[Problems]) -> tuple[ParsedRule, ...]:
    """The rules of a part; one whose condition or consequence is not understood is left out whole, since half of it
    would let through what it forbids."""
    found: list[ParsedRule] = []
    for rule in part.rules:
        only_when, problems = (None, ()) if rule.only_when is None else parse_statement(rule.only_when, words)
        then, more = ((), ()) if rule.then is None else parse_actions(rule.then, words)
        told.extend((problems, more))
        missing = (rule.only_when is not None and only_when is None) or then is None
        if not missing and then is not None:
            control = ControlRef(part.name, rule.control)
            found.append(ParsedRule(part, control, rule.to, only_when, then, rule.span))
    return tuple(found)


def _situation(situation: Situation, words: Words) -> ParsedSituation:
    sets = [held_by(setting, words) for setting in situation.sets]
    given = [condition_of(setting, words) for setting in situation.given]
    starts = [contents_of(setting, words) for setting in situation.starts]
    return ParsedSituation(
        situation,
        tuple(one for one in sets if one is not None),
        tuple(one for one in given if one is not None),
        tuple(one for one in starts if one is not None),
    )
