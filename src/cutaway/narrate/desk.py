"""The script desk: one script or the whole series, timed and looked over before it is spoken."""

from collections.abc import Mapping
from dataclasses import dataclass

from cutaway.handbook.records import Folder, Script
from cutaway.language.claims import ParsedClaims
from cutaway.narrate.coverage import Checking, checking
from cutaway.narrate.covered import Covered, covered
from cutaway.narrate.promises import Promise, promises
from cutaway.narrate.settings import SPEAKING, SpeakingRules
from cutaway.narrate.shots import Shot, shots
from cutaway.narrate.spoken import spoken_form, spoken_terms
from cutaway.narrate.terms import TermUse, Where, term_uses
from cutaway.narrate.timing import timeline
from cutaway.parts.kind import Kind
from cutaway.problems.diagnostic import Problems, in_order


@dataclass(frozen=True, slots=True)
class Line:
    """A sentence on the desk, from `start` to `stop` in s. spoken: its words as they are read aloud."""

    number: int
    start: float
    stop: float
    chapter: str
    text: str
    spoken: str
    checking: Checking


@dataclass(frozen=True, slots=True)
class Chapter:
    """A chapter: its title, when it begins, how long it is, s."""

    title: str
    start: float
    length: float


@dataclass(frozen=True, slots=True)
class ScriptDesk:
    """One script on the desk. length: s. words: as spoken."""

    name: str
    title: str
    length: float
    words: int
    chapters: tuple[Chapter, ...]
    lines: tuple[Line, ...]
    shots: tuple[Shot, ...]


@dataclass(frozen=True, slots=True)
class Desk:
    """What the desk says: the scripts asked for; terms and promises of the whole series; what is covered."""

    folder: Folder
    script: str
    scripts: tuple[ScriptDesk, ...]
    terms: tuple[TermUse, ...]
    promises: tuple[Promise, ...]
    covered: Covered


def desk(
    folder: Folder,
    parsed: ParsedClaims,
    kinds: Mapping[str, Kind],
    script: str = "",
    rules: SpeakingRules = SPEAKING,
) -> tuple[Desk, Problems]:
    """The desk of a folder. script: only that one's lines, shots, coverage and problems ('': all)."""
    problems: Problems = ()
    found: list[ScriptDesk] = []
    for one in folder.scripts:
        if script in ("", one.name):
            made, more = _script(one, folder, parsed, rules)
            found.append(made)
            problems += more
    terms, more = term_uses(folder)
    made_promises, again = promises(folder)
    told = tuple(p for p in more + again if not script or _is_about(p.span.file.path if p.span else "", script))
    result = Desk(folder, script, tuple(found), terms, made_promises, covered(folder, parsed, kinds, script))
    return result, in_order(problems + told)


def _is_about(path: str, script: str) -> bool:
    return path in (f"scripts/{script}.md", "glossary.yaml")


def _script(script: Script, folder: Folder, parsed: ParsedClaims, rules: SpeakingRules) -> tuple[ScriptDesk, Problems]:
    said = spoken_terms(folder)
    slots = timeline(script, said, rules)
    lines = tuple(
        Line(number, slot.start, slot.stop, s.chapter, s.text, spoken_form(s.text, said), checking(s))
        for number, (s, slot) in enumerate(zip(script.sentences, slots, strict=True), 1)
    )
    mine = tuple(one for one in parsed.sentences if one.script == script.name)
    listed, problems = shots(script, mine, slots, folder)
    length = slots[-1].stop if slots else 0.0
    words = sum(len(line.spoken.split()) for line in lines)
    return ScriptDesk(script.name, script.title, length, words, _chapters(lines, length), lines, listed), problems


def _chapters(lines: tuple[Line, ...], length: float) -> tuple[Chapter, ...]:
    starts = [at for at, line in enumerate(lines) if at == 0 or line.chapter != lines[at - 1].chapter]
    ends = [lines[at].start for at in starts[1:]] + [length]
    return tuple(
        Chapter(lines[at].chapter, lines[at].start, end - lines[at].start) for at, end in zip(starts, ends, strict=True)
    )


def film_at(folder: Folder, where: Where) -> tuple[str, int]:
    """The script's name and the sentence's number from 1, as the desk tells a place."""
    return folder.scripts[where.film].name, where.number + 1
