"""Terms over the whole series: whether each is introduced before it is used."""

from collections.abc import Mapping
from dataclasses import dataclass

from cutaway.handbook.names import did_you_mean, fold
from cutaway.handbook.records import Folder, Sentence, Term
from cutaway.narrate.naming import term_pattern
from cutaway.problems.diagnostic import Diagnostic, Problems


@dataclass(frozen=True, slots=True)
class Where:
    """A sentence of the series: the place of its script in the order of the films, and its own number, both from 0."""

    film: int
    number: int

    def __lt__(self, other: "Where") -> bool:
        return (self.film, self.number) < (other.film, other.number)


@dataclass(frozen=True, slots=True)
class TermUse:
    """A term with where it is introduced and where it is used. introduced: None where nothing says so.

    marked: whether a mark behind the sentence says so; else it is the first sentence that uses it in the script that
    the glossary names.
    """

    term: Term
    introduced: Where | None
    marked: bool
    uses: tuple[Where, ...]


def term_uses(folder: Folder) -> tuple[tuple[TermUse, ...], Problems]:
    """Every term of the glossary over all scripts in their order, and what is out of order."""
    marks, problems = _introductions(folder)
    found = tuple(_use(term, folder, marks) for term in folder.glossary)
    return found, problems + tuple(problem for one in found for problem in _faults(one, folder))


def sentence_at(folder: Folder, where: Where) -> Sentence:
    """The sentence at a place of the series."""
    return folder.scripts[where.film].sentences[where.number]


def _introductions(folder: Folder) -> tuple[Mapping[str, Where], Problems]:
    """Where a mark introduces a term, by the folded name of the term."""
    known = {fold(word): fold(term.name) for term in folder.glossary for word in (term.name, *term.also)}
    found: dict[str, Where] = {}
    problems: list[Diagnostic] = []
    for film, script in enumerate(folder.scripts):
        for number, sentence in enumerate(script.sentences):
            for mark in sentence.marks:
                if mark.sort != "introduces":
                    continue
                name = known.get(fold(mark.words))
                if name is not None:
                    found.setdefault(name, Where(film, number))
                    continue
                message = f"'{mark.words}' is introduced here, and is no term of the glossary."
                problems.append(
                    Diagnostic("N904", mark.span, message, did_you_mean(mark.words, (t.name for t in folder.glossary)))
                )
    return found, tuple(problems)


def _use(term: Term, folder: Folder, marks: Mapping[str, Where]) -> TermUse:
    pattern = term_pattern(term)
    uses = tuple(
        Where(film, number)
        for film, script in enumerate(folder.scripts)
        for number, sentence in enumerate(script.sentences)
        if pattern.search(sentence.text)
    )
    marked = marks.get(fold(term.name))
    if marked is not None:
        return TermUse(term, marked, True, uses)
    first = (use for use in uses if folder.scripts[use.film].name == term.introduced)
    return TermUse(term, next(first, None), False, uses)


def _faults(one: TermUse, folder: Folder) -> Problems:
    term = one.term
    if not one.uses:
        return ()
    first = min(one.uses, key=lambda use: (use.film, use.number))
    span = sentence_at(folder, first).span
    if one.introduced is None and not term.introduced:
        message = f"'{term.name}' is spoken of, and nothing says where it is introduced."
        script = folder.scripts[first.film].name
        hint = f"Write introduced: {script} in its entry if that film explains it."
        return (Diagnostic("N903", span, message, hint, ((term.span, "its entry"),)),)
    if one.introduced is None:
        message = f"The glossary introduces '{term.name}' in {term.introduced}, which never speaks of it."
        script = folder.scripts[first.film].name
        return (Diagnostic("N902", term.span, message, f"Write introduced: {script}, where it is first used."),)
    if first < one.introduced:
        film = folder.scripts[one.introduced.film].name
        message = f"'{term.name}' is used here, and only {_later(first, one.introduced, film)} introduces it."
        hint = f"Say in a few words what it is, and write `introduces: {term.name}` behind the sentence."
        also = ((sentence_at(folder, one.introduced).span, "introduced here"),)
        return (Diagnostic("N901", span, message, hint, also),)
    return ()


def _later(first: Where, introduced: Where, film: str) -> str:
    return "a later sentence" if first.film == introduced.film else film
