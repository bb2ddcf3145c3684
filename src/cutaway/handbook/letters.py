"""letters.yaml: what readers and viewers objected to, and what was decided."""

import re
from dataclasses import replace

from cutaway.handbook.door import admit, block_of
from cutaway.handbook.head import Head, read_cites
from cutaway.handbook.names import did_you_mean, fold, one_line
from cutaway.handbook.nodes import Block, Faulty, Node, Words
from cutaway.handbook.records import Letter, Script
from cutaway.handbook.shapes import LetterShape, LettersShape
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import Span

_MOMENT = re.compile(r"(?:(\d{1,2}):)?(\d{1,3}):([0-5]\d(?:\.\d{1,3})?)")


def read_letters(
    root: Node | None, head: Head, scripts: tuple[Script, ...] = (), unread: frozenset[str] = frozenset()
) -> tuple[tuple[Letter, ...], Problems]:
    """The letters in order. unread: the names of scripts that are there but could not be read."""
    if root is None or isinstance(root, Faulty):
        return (), ()
    _, problems = admit(LettersShape, root, "letters.yaml")
    block, more = block_of(root.get("letters") if isinstance(root, Block) else None, "'letters'")
    problems = tuple(dict.fromkeys(problems + more))
    letters: list[Letter] = []
    for entry in block.entries if block else ():
        name = " ".join(entry.key.text.split())
        shape, more = admit(LetterShape, entry.value, f"the letter {name}")
        problems += more
        if shape is None or not isinstance(entry.value, Block):
            continue
        letter, more = _letter(name, shape, entry.value, entry.key.span, head)
        problems += more
        film, more = _film(letter, entry.value, scripts, unread)
        at, again = _moment(letter, entry.value)
        problems += more + again
        letters.append(replace(letter, film=film, at=at))
    return tuple(letters), problems


def moment(words: str) -> float | None:
    """Seconds from 'minutes:seconds' or 'hours:minutes:seconds'; None for anything else.

    >>> moment("2:10"), moment("1:02:03.5"), moment("2.10")
    (130.0, 3723.5, None)
    """
    found = _MOMENT.fullmatch(words.strip())
    if found is None:
        return None
    return int(found[1] or 0) * 3600.0 + int(found[2]) * 60.0 + float(found[3])


def _letter(name: str, shape: LetterShape, block: Block, span: Span, head: Head) -> tuple[Letter, Problems]:
    cites, problems = read_cites(block.get("cite"), head, "")
    favour, more = read_cites(block.get("for"), head, "")
    against, again = read_cites(block.get("against"), head, "")
    letter = Letter(
        name,
        one_line(shape.objects_to),
        one_line(shape.says),
        one_line(shape.decision),
        one_line(shape.because),
        cites,
        span,
        who=one_line(shape.from_),
        date=one_line(shape.date),
        page=one_line(shape.page),
        panel=one_line(shape.panel),
        favour=favour,
        against=against,
        reply=shape.reply.strip(),
    )
    return letter, problems + more + again


def _film(letter: Letter, block: Block, scripts: tuple[Script, ...], unread: frozenset[str]) -> tuple[str, Problems]:
    place = block.get("film")
    said = place.text if isinstance(place, Words) else ""
    known = [script.name for script in scripts]
    film = next((name for name in known if fold(name) == fold(said)), "")
    if not said or film or said in unread or not isinstance(place, Words):
        return film, ()
    message = f"The letter {letter.name} is about the film '{said}', of which there is no script."
    return "", (Diagnostic("H702", place.span, message, did_you_mean(said, known)),)


def _moment(letter: Letter, block: Block) -> tuple[float | None, Problems]:
    place = block.get("at")
    if not isinstance(place, Words) or not place.text.strip():
        return None, ()
    at = moment(place.text)
    if at is not None:
        return at, ()
    message = f"The letter {letter.name} speaks of the moment '{place.text}', which is no time in a film."
    return None, (Diagnostic("H703", place.span, message, "Write minutes and seconds: 2:10"),)
