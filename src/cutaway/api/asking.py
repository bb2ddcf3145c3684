"""From the words of a question to its base: what every question of the command line and of Python users begins with."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from cutaway.api.loading import Loaded, load
from cutaway.api.places import memory_file
from cutaway.api.running import subject_named
from cutaway.inquiry.memory import Memory
from cutaway.inquiry.scenes import Question
from cutaway.inquiry.search.base import Base, base_of
from cutaway.inquiry.verdicts import NotModelled
from cutaway.inquiry.workshop import Workshop
from cutaway.language.parse import parse_claim
from cutaway.language.syntax import Claim
from cutaway.machine.subjects import Subject
from cutaway.problems.diagnostic import Diagnostic, Problems, has_error
from cutaway.problems.span import TextFile, whole
from cutaway.quantities.reading import read_quantity
from cutaway.quantities.si import to_si
from cutaway.wording.asking import are

_OF = re.compile(r" (?:to|of|for|from|in|on|by|down|up) ", re.IGNORECASE)


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
        # By what the name is of: 'current to the instruments is', 'flying instruments are'.
        statement = f"{statement} {are(_OF.split(statement)[0])} served"
    scope = [f"in {asked.situation}"] if asked.situation else []
    scope += [f"with {one}" for one in asked.given]
    scope += [f"after {asked.do}"] if asked.do else []
    scope += [f"at {asked.at}"] if asked.at else []
    text = f"{', '.join(scope)}: {statement}" if scope else statement
    claim, problems = parse_claim(whole(TextFile("command line", text)), loaded.words)
    return (None if has_error(problems) else claim), problems


def base_for(loaded: Loaded, workshop: Workshop, asked: Asked) -> tuple[Base | None, Subject | None, Problems]:
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


@dataclass(frozen=True, slots=True, eq=False)
class Opened:
    """A loaded folder with the workshop in which its questions are answered; questions on one share their runs."""

    loaded: Loaded
    workshop: Workshop


def opened(
    folder: Path | str | Opened, progress: Callable[[int], None] | None = None
) -> tuple[Opened | None, Problems]:
    """The folder at a place, with a workshop; one that is open already as it is. Only what keeps the folder from being
    asked at all is told: the rest is for `check`."""
    if isinstance(folder, Opened):
        return folder, ()
    loaded, problems = load(folder)
    if loaded is None:
        return None, problems
    return Opened(loaded, Workshop(loaded.folder, loaded.kinds, progress=progress)), ()


def remembered() -> Memory:
    """What was found in earlier sessions."""
    return Memory(memory_file())


def seconds_of(words: str, option: str) -> tuple[float | None, Problems]:
    """A length of time from the command line in seconds; None where nothing was said."""
    if not words:
        return None, ()
    quantity, problems = read_quantity(words, whole(TextFile(option, words)), "time")
    return (to_si(quantity) if quantity is not None else None), problems
