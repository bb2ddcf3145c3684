"""Letters for Python users: each with its sentence, the verdict of today and a draft reply."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

from cutaway.api.checking import check
from cutaway.handbook.names import did_you_mean, fold
from cutaway.handbook.records import Folder, Paragraph
from cutaway.narrate.clock import clock
from cutaway.narrate.letters import Answer, SaidOnce, answers, draft_reply
from cutaway.problems.counting import counted
from cutaway.problems.diagnostic import Diagnostic, Problems, in_order
from cutaway.problems.printing import as_records
from cutaway.publish.published import publications


@dataclass(frozen=True, slots=True)
class Post:
    """The letters of a folder, answered as far as they can be."""

    folder: Folder
    answers: tuple[Answer, ...]


def letters(
    folder: Path | str, name: str = "", rests: bool = True, progress: Callable[[int], None] | None = None
) -> tuple[Post | None, Problems]:
    """The letters with the verdicts of today. name: only that one ('': all)."""
    checked, problems = check(folder, rests=rests, progress=progress)
    if checked is None:
        return None, problems
    everyone = tuple(letter.name for letter in checked.folder.letters)
    if name and fold(name) not in map(fold, everyone):
        hint = did_you_mean(name, everyone) or "There are no letters in letters.yaml."
        return None, (Diagnostic("C202", None, f"There is no letter '{name}'.", hint),)
    earlier, more = publications(Path(folder))
    said = tuple(
        SaidOnce(one.date.isoformat(), script.name, number, sentence.text, sentence.start)
        for one in reversed(earlier)
        for script in one.says.scripts
        for number, sentence in enumerate(script.sentences)
    )
    found, again = answers(checked.folder, checked, said)
    if name:
        found = tuple(one for one in found if fold(one.letter.name) == fold(name))
        spans = {one.letter.span for one in found}
        again = tuple(problem for problem in again if problem.span in spans)
    return Post(checked.folder, found), in_order(problems + more + again)


def letters_text(post: Post) -> str:
    """Every letter as a person reads it."""
    if not post.answers:
        return "There are no letters in letters.yaml."
    still = sum(1 for one in post.answers if not one.letter.decision)
    blocks = ["\n".join(_lines(one)) for one in post.answers]
    return "\n\n".join([*blocks, f"{counted(len(blocks), 'letter')}, {still} of them not decided."])


def replies_text(post: Post) -> str:
    """The draft replies, one after the other."""
    return "\n----\n\n".join(draft_reply(one, post.folder) for one in post.answers)


def _lines(one: Answer) -> Iterator[str]:
    letter = one.letter
    who = ", ".join(word for word in (letter.who, letter.date) if word)
    yield letter.name + (f"  ({who})" if who else "")
    yield f"    objects to: {letter.objects_to}"
    yield f"    where: {_where(one)}"
    if letter.says:
        yield f"    says: {letter.says}"
    if one.sentence and fold(one.sentence) != fold(letter.objects_to):
        yield f"    now reads: {one.sentence}"
    for claim in one.verdict:
        yield from (f"    today: {verdict}" for verdict in claim.verdicts)
    for word, found in (("for", one.favour), ("against", one.against)):
        if found:
            yield f"    {word}: {', '.join(_key(p) for p in found)}"
    decided = f"{letter.decision} {letter.because}".strip()
    yield f"    decided: {decided}" if letter.decision else "    decided: nothing yet"


def _where(one: Answer) -> str:
    words = [one.script] if one.script else []
    words += [f"at {clock(one.start)}"] if one.start is not None else []
    words += [f"page {one.letter.page}"] if one.letter.page else []
    words += [f"panel {one.letter.panel}"] if one.letter.panel else []
    out = f" (published on {one.published})" if one.published else ""
    return (", ".join(words) or "in no script") + out


def _key(one: Paragraph) -> str:
    return f"{one.source} {one.number}"


def letters_record(post: Post | None, problems: Problems) -> dict[str, object]:
    """The same for a program."""
    return {
        "problems": as_records(problems),
        "letters": [
            {
                "letter": one.letter.name,
                "from": one.letter.who,
                "date": one.letter.date,
                "objects to": one.letter.objects_to,
                "says": one.letter.says,
                "script": one.script,
                "at": one.start,
                "page": one.letter.page,
                "panel": one.letter.panel,
                "published": one.published,
                "reads now": one.sentence,
                "today": [{"claim": claim.text, "verdicts": list(claim.verdicts)} for claim in one.verdict],
                "for": [_key(p) for p in one.favour],
                "against": [_key(p) for p in one.against],
                "decision": one.letter.decision,
                "because": one.letter.because,
                "reply": draft_reply(one, post.folder),
            }
            for one in (post.answers if post is not None else ())
            if post is not None
        ],
    }
