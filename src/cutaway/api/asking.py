"""From the words of a question to its base: what every question of the command line and of Python users begins with."""

from dataclasses import dataclass

from cutaway.api.loading import Loaded
from cutaway.api.running import subject_named
from cutaway.inquiry.scenes import Question
from cutaway.inquiry.search.base import Base, base_of
from cutaway.inquiry.verdicts import NotModelled
from cutaway.inquiry.workshop import Workshop
from cutaway.language.parse import parse_claim
from cutaway.language.syntax import Claim
from cutaway.machine.subjects import Subject
from cutaway.problems.diagnostic import Diagnostic, Problems, has_error
from cutaway.problems.span import TextFile, whole


@dataclass(frozen=True, slots=True)
class Asked:
    """A question in the words of the command line. statement: 'horn is sounding', or the name of a service.

    situation: where it begins, '' for the very beginning. on: the standard or airframe, the first if ''. given: what
    has failed or is given (`--with`). do: what is done. at: how long after that it is looked at, '' once all is at
    rest.
    """

    statement: str
    situation: str = ""
    on: str = ""
    given: tuple[str, ...] = ()
    do: str = ""
    at: str = ""


def claim_of(loaded: Loaded, asked: Asked) -> tuple[Claim | None, Problems]:
    """The claim that a question comes to. The name of a service stands for its being served."""
    statement = asked.statement.strip()
    if any(service.name.casefold() == statement.casefold() for service in loaded.folder.services):
        statement = f"{statement} is served"
    scope = [f"in {asked.situation}"] if asked.situation else []
    scope += [f"with {one}" for one in asked.given]
    scope += [f"after {asked.do}"] if asked.do else []
    scope += [f"at {asked.at}"] if asked.at else []
    text = f"{', '.join(scope)}: {statement}" if scope else statement
    claim, problems = parse_claim(whole(TextFile("command line", text)), loaded.words)
    return (None if has_error(problems) else claim), problems


def base_for(
    loaded: Loaded, workshop: Workshop, asked: Asked
) -> tuple[Base | None, Subject | None, Problems]:
    """The base of a question on the one subject that it names; None with the reason where there is none."""
    claim, problems = claim_of(loaded, asked)
    subject, others = subject_named(loaded, asked.on)
    problems = (*problems, *others)
    if claim is None or subject is None or has_error(problems):
        return None, None, problems
    bound, _ = workshop.bound(subject)
    base = base_of(Question(claim.statement, claim.scope, bound, loaded.told, workshop))
    if isinstance(base, NotModelled):
        words = f"This cannot be asked of {subject.name}: it needs {'; '.join(base.missing)}."
        return None, None, (*problems, Diagnostic("I201", None, words, "Ask of another standard, or of another thing."))
    return base, subject, problems
