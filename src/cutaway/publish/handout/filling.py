"""From what checking found to what stands on a handout: records to records. What does not hold is held back."""

from collections.abc import Iterable, Mapping
from itertools import groupby

from cutaway.handbook.names import fold, listed
from cutaway.handbook.records import Folder
from cutaway.machine.subjects import subjects
from cutaway.narrate.checked import Checked
from cutaway.narrate.naming import parts_named
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.publish.handout.records import Book, Chapter, Said, Story, Told, Word
from cutaway.publish.view import PackView, ScriptView, SentenceView

LEANING = frozenset(
    ("it", "they", "that", "this", "these", "those", "he", "she", "then", "there", "and", "but", "or", "nor", "so",
     "which", "done", "still", "yet")
)  # fmt: skip
"""First words of sentences that say nothing without what came before."""
MOST_POINTS = 5
MOST_TERMS = 6
LONGEST_POINT = 220
"""Letters of a sentence that still reads as a point on a sheet."""


def stories(view: PackView) -> tuple[tuple[Story, ...], Problems]:
    """Every script as it is read, less the sentences that must be mended; these are named."""
    found: list[Story] = []
    problems: list[Diagnostic] = []
    for script in view.scripts:
        chapters = []
        for title, sentences in groupby(script.sentences, key=lambda one: one.chapter):
            said = tuple(_paragraphs(tuple(sentences), script, problems))
            chapters += [Chapter(title, said)] if said else []
        found.append(Story(script.title, tuple(chapters)))
    return tuple(found), tuple(problems)


def _paragraphs(sentences: tuple[SentenceView, ...], script: ScriptView, problems: list[Diagnostic]) -> Iterable[Said]:
    """The sentences that hold, each with its note. problems: grows by those that do not."""
    last = -1
    for one in sentences:
        if one.wrong:
            message = f"'{one.text}' ({script.name}) does not hold, so it was left out of the handout."
            hint = f"In the type folder say cutaway check --script {script.name}, and mend it."
            problems.append(Diagnostic("K510", None, message, hint))
            continue
        yield Said(one.text, note(one), one.paragraph != last)
        last = one.paragraph


def note(one: SentenceView) -> str:
    """What stands behind a sentence: the paragraphs, and what came of it on each standard; '' where nothing does."""
    cites = dict.fromkeys((*one.cites, *(cite for claim in one.claims for cite in claim.cites)))
    verdicts: dict[str, dict[str, None]] = {}
    for claim in one.claims:
        for verdict in claim.verdicts:
            verdicts.setdefault(verdict.heading.lower(), {})[verdict.standard] = None
    found = "; ".join(f"{word} on {listed(names)}" for word, names in verdicts.items())
    words = [f"{listed(_by_book(cites))}."] if cites else []
    words += [f"Checked: {found}."] if found else []
    return " ".join(words)


def _by_book(keys: Iterable[str]) -> list[str]:
    """Keys of paragraphs with each book named once: 'hb §21, §22'."""
    books: dict[str, list[str]] = {}
    for key in keys:
        book, _, number = key.partition(" ")
        books.setdefault(book, []).append(number)
    return [f"{book} {', '.join(numbers)}" for book, numbers in books.items()]


def points(view: PackView, checked: Checked, system: str, standard: str) -> tuple[Said, ...]:
    """Sentences for a sheet of one system: true on the standard, short, and claiming of its parts above all.

    Those with most of their claims in the system come first; they are then told in the order of the scripts.
    """
    systems = {str(part.name): part.system for part in checked.folder.parts}
    names = frozenset(systems)
    shown = (one for script in view.scripts for one in script.sentences)
    found: list[tuple[float, int, Said]] = []
    for number, (one, put) in enumerate(zip(shown, checked.sentences, strict=True)):
        if one.wrong or not one.claims or len(one.text) > LONGEST_POINT or not _holds(one, standard):
            continue
        if not _stands_alone(one.text, systems, system):
            continue
        parts = {name for claim in put.claims for name in parts_named(claim.claim, names)}
        own = sum(systems[name] == system for name in parts)
        if parts and own / len(parts) >= 0.5:
            found.append((-own / len(parts), number, Said(one.text, note(one))))
    best = sorted(sorted(found)[:MOST_POINTS], key=lambda entry: entry[1])
    return tuple(said for _, _, said in best)


def _stands_alone(text: str, systems: Mapping[str, str], system: str) -> bool:
    """Whether a sentence is understood by itself: it names a part of the system, and leans on nothing before it."""
    words = fold(text)
    leans = words.split(" ", 1)[0].strip(",") in LEANING
    return not leans and any(fold(name) in words for name, its in systems.items() if its == system)


def _holds(one: SentenceView, standard: str) -> bool:
    """Whether every claim of a sentence speaks of the standard and holds or is stated on it."""
    return all(
        any(v.standard == standard and v.kind in ("holds", "stated") for v in claim.verdicts) for claim in one.claims
    )


def terms(folder: Folder) -> tuple[Word, ...]:
    """The whole glossary by the alphabet."""
    found = [
        Word(
            one.name,
            one.meaning,
            one.simply,
            one.said_as if fold(one.said_as) != fold(one.name) else "",
            listed(_by_book(cite.key for cite in one.cites)) if one.cites else "",
        )
        for one in folder.glossary
    ]
    return tuple(sorted(found, key=lambda word: fold(word.name)))


def terms_in(folder: Folder, texts: Iterable[str]) -> tuple[Word, ...]:
    """The terms that some texts use, the most used first, so many as a sheet has room for."""
    said = " ".join(f" {fold(text)} " for text in texts)
    also = {one.name: one.also for one in folder.glossary}
    counted = [(sum(said.count(fold(name)) for name in (word.name, *also[word.name])), word) for word in terms(folder)]
    counted = [(count, word) for count, word in counted if count]
    counted.sort(key=lambda pair: (not pair[1].simply, -pair[0]))
    return tuple(word for _, word in counted[:MOST_TERMS])


def cautions_of(view: PackView) -> tuple[Told, ...]:
    """Every caution of the folder, each once."""
    return tuple(Told(one.text, one.about, listed(_by_book(one.cites)) if one.cites else "") for one in view.cautions)


def cautions_on(view: PackView, folder: Folder, system: str, standard: str) -> tuple[str, ...]:
    """The cautions of one system's parts on one standard."""
    subject = next((one for one in subjects(folder) if one.name == standard), None)
    names = {
        str(part.name)
        for part in folder.parts
        if part.system == system and (subject is None or subject.standard in part.on.names)
    }
    return tuple(one.text for one in view.cautions if names & set(one.about.split(", ")))


def books(folder: Folder) -> tuple[Book, ...]:
    """The bibliography."""
    found = []
    for source in folder.sources:
        lists = listed(f"{one.name} ({one.date})" if one.date else one.name for one in source.amendments)
        words = ", ".join(word for word in (source.title, source.date, f"with {lists}" if lists else "") if word)
        found.append(Book(str(source.key), f"{words}.", source.rights))
    return tuple(found)
