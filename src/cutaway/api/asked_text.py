"""What the answers of the questions share as text and for a program."""

from cutaway.api.asking import Asked
from cutaway.api.loading import Loaded
from cutaway.inquiry.questions.asked import HowFar
from cutaway.inquiry.questions.indications import Noticed
from cutaway.inquiry.search.base import Base
from cutaway.inquiry.search.changes import Alteration, Assume, Break, Give, Put
from cutaway.inquiry.verdicts import Seen
from cutaway.machine.subjects import Subject
from cutaway.wording.otherwise import asked_clause, meant_lines


def asked_words(base: Base, loaded: Loaded) -> str:
    """What was asked, as a clause with its articles."""
    return asked_clause(base.question, loaded.folder)


def meaning(base: Base, loaded: Loaded) -> tuple[str, ...]:
    """What the services that were asked of mean, a line each."""
    return tuple(meant_lines(base.question, loaded.folder))


def opening(asked: Asked, subject: Subject, loaded: Loaded) -> str:
    """Of what a question was asked: 'on Mk 1, in cruising, with …, after …'; whether anybody asked for that mark."""
    by_default = not asked.on and len(loaded.folder.type.standards) > 1
    words = [f"on {subject.name}{' (the first, since none was named)' if by_default else ''}"]
    words += [f"in {asked.situation}"] if asked.situation else []
    words += [f"with {one}" for one in asked.given]
    words += [f"after {asked.do}"] if asked.do else []
    words += [f"at {asked.at}"] if asked.at else []
    return ", ".join(words)


def alteration_record(one: Alteration) -> dict[str, object]:
    """A change for a program."""
    match one:
        case Put(part=part, control=control, words=words, value=value):
            instead = {"instead of": one.instead} if one.instead else {}
            return {"part": part, "control": control, "position": words, "value": value, **instead}
        case Break(part=part, failure=failure):
            return {"part": part, "failure": failure}
        case Give(part=part, name=name, si=si, words=words):
            return {"part": part, "condition": name, "si": si, "words": words}
        case Assume(part=part, value=name, si=si, words=words):
            return {"part": part, "value": name, "si": si, "words": words}


def seen_record(one: Seen) -> dict[str, object]:
    """A thing seen, for a program: its state, or its value in SI."""
    if one.value is None:
        return {"what": one.what, "state": one.state}
    return {"what": one.what, "si": one.value, "dimension": one.dimension}


def noticed_record(one: Noticed) -> dict[str, object]:
    """An indication that differs, for a program."""
    return {"part": one.indication.part, "before": seen_record(one.before), "now": seen_record(one.now)}


def far_record(far: HowFar) -> dict[str, object]:
    """How far a search went, for a program."""
    return {
        "ended": far.ended,
        "changes": far.universe,
        "size": far.asked,
        "size done": far.done,
        "tried": far.tried,
        "possible": far.possible,
        "undecided": far.undecided,
    }
