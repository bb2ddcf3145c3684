"""A quiz in plain words: the question, what can be chosen, and the reason that is told once something was chosen."""

import re
from dataclasses import replace
from typing import assert_never

from cutaway.handbook.records import Folder
from cutaway.inquiry.questions.links import Given
from cutaway.inquiry.quiz.proving import cites_in
from cutaway.inquiry.quiz.records import (
    Choice,
    FigureOf,
    Option,
    Proof,
    QuizQuestion,
    StepOf,
    Trap,
    WhatReads,
    WhatShows,
    WhichFailure,
    WhichFigure,
    WhichStandards,
    WhichStep,
)
from cutaway.inquiry.verdicts import Fails, Holds
from cutaway.language.syntax import Action, FailureRef, Scope, Wait
from cutaway.problems.counting import counted
from cutaway.wording.asking import action_words, are, scope_words, situation_words, statement_words, the
from cutaway.wording.figures import duration
from cutaway.wording.shown import cites_words, inner, listed_with, seen_words, sentence
from cutaway.wording.why import cause_lines

_OF = re.compile(r" (?:to|of|for|from|in|on|by) ", re.IGNORECASE)
_LEADS_ON = frozenset(("at", "above", "below", "from", "to", "by", "after", "until", "within"))
"""The last words of a quantity's name that a figure follows: 'lights below', 'set at'."""
MOST_LINKS = 3
"""How many links of a chain of cause are told with an answer. A choice of ours."""


def question_words(one: QuizQuestion, folder: Folder) -> str:
    """What is asked, in one or two sentences."""
    name = the_standard(one.subject.name, folder)
    match one.asked:
        case WhatShows(scope=scope, parts=parts):
            what = listed_with(the(part) for part in dict.fromkeys(parts))
            return f"{_case(scope, name)} What can be said of {what}{_moment(scope)}?"
        case WhatReads(scope=scope, what=what):
            return f"{_case(scope, name)} What does {the(what)} read{_moment(scope)}?"
        case WhichFailure(situation=situation, service=service):
            where = sentence(f"On {name}, {situation_words(situation)}, one thing alone goes wrong")
            return f"{where} Which of these takes away {the(service)}?"
        case WhichStandards(claim=claim):
            said = ", ".join(words for words in (_given(claim.scope), statement_words(claim, folder)) if words)
            return f"On which of these is it so? {sentence(said)}"
        case WhichStep(title=title, sight=sight, at=at):
            drill = sentence(f"This is about the drill '{title}' on {name}, up to step {at}")
            seen = statement_words(sight, folder)
            return f"{drill} Which of these steps cannot be left out, if it is to be seen that {seen}?"
        case WhichFigure(part=part, value=value):
            if value.rsplit(" ", 1)[-1] in _LEADS_ON:
                return f"On {name}, what figure belongs here: {the(part)} {value} …?"
            return f"On {name}, what is the {value} of {the(part)}?"
        case _:
            assert_never(one.asked)


def the_standard(name: str, folder: Folder) -> str:
    """A standard as it is spoken of: 'the Mk 2'; an airframe by its name."""
    return f"the {name}" if any(name == s.name for s in folder.type.standards) else name


def _case(scope: Scope, name: str) -> str:
    """The course of things, as sentences."""
    where = sentence(f"On {name}, {scope_words(scope)}")
    done = action_words(_moved(scope))
    return f"{where.removesuffix('.')}: {inner(sentence(done))}" if done else where


def _moved(scope: Scope) -> tuple[Action, ...]:
    """What is done, without the waiting at its end: the moment that is asked about is counted from before it."""
    return scope.actions[:-1] if scope.actions and isinstance(scope.actions[-1], Wait) else scope.actions


def _moment(scope: Scope) -> str:
    """The moment that is asked about."""
    done = _moved(scope)
    if scope.when.kind != "at":
        return " once all has come to rest" if scope.actions or scope.failures else ""
    if not done:
        return f" {duration(scope.when.first)} later"
    return f" {duration(scope.when.first)} after {'the last of these' if len(done) > 1 else 'that'}"


def _given(scope: Scope) -> str:
    """Where a claim is to be true, with what is done and when."""
    words = [scope_words(scope)] if scope_words(scope) else []
    if scope.actions:
        words.append(f"once {action_words(scope.actions)}")
    match scope.when.kind:
        case "within" | "throughout" | "at":
            words.append(f"{'after' if scope.when.kind == 'at' else scope.when.kind} {duration(scope.when.first)}")
        case "never":
            words.append("never")
        case "takes":
            words.append(f"after {duration(scope.when.first)} to {duration(scope.when.second)}")
        case "settled":
            pass
    words += [scope.modality] if scope.modality else []
    return ", ".join(words)


# --- what can be chosen --------------------------------------------------------------------------------------------


def choice_words(choice: Choice, folder: Folder) -> str:
    """An option as it stands in the list."""
    match choice:
        case FailureRef(part=part, failure=failure):
            return sentence(f"{the(part)} {'have' if are(part) == 'are' else 'has'} failed ({failure})")
        case StepOf(number=number, actions=actions):
            return f"Step {number}: {sentence(action_words(actions))}"
        case FigureOf(words=words):
            return words
        case _ if choice and isinstance(choice[0], str):
            return sentence(f"on {_standards(tuple(map(str, choice)), folder)}")
        case _:
            return sentence(listed_with(seen_words(one, folder) for one in choice if not isinstance(one, str)))


def _standards(names: tuple[str, ...], folder: Folder) -> str:
    every = tuple(str(s.name) for s in folder.type.standards)
    if names == every:
        return "all of them"
    return f"{listed_with(the_standard(name, folder) for name in names)} only"


# --- why -----------------------------------------------------------------------------------------------------------


def reason_words(one: QuizQuestion, chosen: Option, folder: Folder) -> str:
    """Why an option is right or wrong: whose answer it would be, what is so in truth, the paragraphs behind it."""
    told = _chain(one, folder) if chosen.right else ()
    # Each link of a chain carries its own paragraphs.
    whose, found, own = _trap(chosen.trap, folder), _found(one, chosen, folder), cites_in(chosen.proofs)
    # What a wrong answer would be true of has paragraphs of its own, and what is so in truth has others.
    of = cites_words(chosen.trap.cites, folder) if chosen.trap.cites else ""
    behind = told or (cites_words(own if found or not of else (), folder),)
    return " ".join(part for part in (whose, of, found, *behind) if part)


def _chain(one: QuizQuestion, folder: Folder) -> tuple[str, ...]:
    """Why the answer is so, as far as the model tells it."""
    if one.cause is None:
        return ()
    links = tuple(link for link in one.cause.links if not isinstance(link, Given))
    lines = cause_lines(replace(one.cause, links=links, under=()), "", folder)
    return tuple(line.removeprefix("  - ") for line in lines[1 : 1 + MOST_LINKS])


def _trap(trap: Trap, folder: Folder) -> str:
    """Whose answer it is, '' where it is nobody's in particular."""
    match trap.sort:
        case "other mark":
            return sentence(f"That is so on {the_standard(trap.of, folder)}, not here")
        case "before":
            return "That is so before anything is done."
        case "overlooked":
            return sentence(f"That would be so but for what is given: {trap.of}")
        case "last alone":
            return "That would be so if the last thing that is done decided alone."
        case "other situation":
            return f"That is so in the situation '{trap.of}', with nothing else given or done."
        case "figure of":
            return sentence(f"That figure belongs to {trap.of}")
        case "same paragraph":
            return sentence(f"{trap.of} prints that figure too, but not for this")
        case "opposite":
            return "That is the other way about, at least in part."
        case "needless":
            return "It can be left out, and the same is seen."
        case "too many":
            return "That is more than it is true of."
        case "too few":
            return "That leaves some out."
        case "others":
            return "It is the other way about."
        case "" | "no harm":
            return sentence(f"What it does: {trap.of}") if trap.of else ""
        case _:
            assert_never(trap.sort)


def _found(one: QuizQuestion, chosen: Option, folder: Folder) -> str:
    """What is so in truth, as the runs saw it or the records have it."""
    match one.asked:
        case WhatShows() | WhatReads():
            if not chosen.right:
                return f"In truth {inner(choice_words(one.answer.choice, folder))}"
            return "So it comes out in the model."
        case WhichFailure(service=service):
            several = are(_OF.split(service)[0]) == "are"  # by what the name is of: 'current to the instruments is'
            goes = ("are lost" if several else "is lost") if chosen.right else ("go on" if several else "goes on")
            return _seen(chosen.proofs[0], f"{the(service)} {goes}: {{}}", folder)
        case WhichStep():
            return _seen(chosen.proofs[0], "Without it {}", folder) if chosen.right else ""
        case WhichStandards():
            if not chosen.right:
                return ""
            so = [the_standard(p.subject.name, folder) for p in chosen.proofs if p.holds]
            told = dict.fromkeys(_otherwise(p, folder) for p in chosen.proofs if not p.holds)
            return " ".join((sentence(f"It is so on {listed_with(so)}"), *told))
        case WhichFigure():
            return "So the books have it." if chosen.right else ""
        case _:
            assert_never(one.asked)


def _seen(proof: Proof, words: str, folder: Folder) -> str:
    """What a run saw of what its claim speaks of, in a sentence."""
    verdict = proof.verdict
    seen = verdict.seen if isinstance(verdict, (Holds, Fails)) else ()
    told = listed_with(dict.fromkeys(seen_words(one, folder) for one in seen))
    return sentence(words.format(told)) if told else ""


def _otherwise(proof: Proof, folder: Folder) -> str:
    """What is so instead on a standard on which a claim fails."""
    verdict, name = proof.verdict, the_standard(proof.subject.name, folder)
    if isinstance(verdict, Fails) and verdict.found:
        return sentence(verdict.found if str(proof.subject.name) in verdict.found else f"On {name}: {verdict.found}")
    return _seen(proof, f"On {name} {{}}", folder) or sentence(f"On {name} it is not")


def summary_words(count: int, wanted: int, looked: int, stopped: bool = False) -> str:
    """What is told where fewer questions came of a folder than were wanted; '' otherwise. stopped: by whoever asked."""
    if count >= wanted:
        return ""
    if stopped:
        return f"Stopped after {counted(count, 'question')} of the {wanted} that were wanted."
    return sentence(f"{counted(count, 'question')} came of {counted(looked, 'possible one')}; {wanted} were wanted")


def assumed_words(count: int, tried: bool) -> str:
    """What the answers stand on besides the books. count: how many values no book gives. tried: whether each was taken
    to both ends of its range."""
    if not count:
        return ""
    if tried:
        return "Nothing is asked whose answer would be another with an assumed value elsewhere in its range."
    several = "value that no book gives is" if count == 1 else "values that no book gives are"
    return f"The answers are worked out with the values as stated; {count} {several} assumed."
