"""The shot list: for each sentence its time, the picture that is seen and the part that is pointed at."""

import re
from dataclasses import dataclass, replace
from typing import Literal

from cutaway.handbook.names import did_you_mean, fold
from cutaway.handbook.records import Folder, Mark, Script, Sentence
from cutaway.language.claims import ParsedSentence
from cutaway.language.syntax import Claim
from cutaway.machine.subjects import subjects
from cutaway.narrate.naming import parts_named, pattern_of
from cutaway.narrate.timing import Slot
from cutaway.problems.diagnostic import Diagnostic, Problems

_MOST_PROPOSED = 3


@dataclass(frozen=True, slots=True)
class Picture:
    """What is seen. words: as the list says it. system, standard, situation: of the sheet, '' for a picture of one's
    own. by: whether the author marked it or it is proposed from what the sentence claims."""

    words: str
    system: str
    standard: str
    situation: str
    by: Literal["marked", "proposed"]


@dataclass(frozen=True, slots=True)
class Shot:
    """One sentence of the list. number: in its script, from 1. picture None: as before."""

    number: int
    start: float
    stop: float
    chapter: str
    sentence: str
    picture: Picture | None
    callouts: tuple[str, ...]
    by: Literal["marked", "proposed"]


def shots(
    script: Script, parsed: tuple[ParsedSentence, ...], slots: tuple[Slot, ...], folder: Folder
) -> tuple[tuple[Shot, ...], Problems]:
    """The shot list of a script; what the author did not mark is proposed from the claims under the sentence."""
    systems = {str(part.name): part.system for part in folder.parts}
    names = frozenset(systems)
    found: list[Shot] = []
    last: Picture | None = None
    problems: Problems = ()
    for number, (one, slot) in enumerate(zip(parsed, slots, strict=True), 1):
        sentence = one.sentence
        picture, more = _marked_picture(sentence, folder)
        callouts, again = _marked_callouts(sentence, names)
        problems += more + again
        claimed = tuple(dict.fromkeys(part for claim in one.claims for part in parts_named(claim, names)))
        by: Literal["marked", "proposed"] = "marked" if callouts else "proposed"
        if picture is None and claimed:
            told = _named_first(claimed, sentence.text, names)
            picture = _proposed(one.claims, systems[told], folder, last)
        last = picture or last
        shown = callouts or claimed[:_MOST_PROPOSED]
        found.append(Shot(number, slot.start, slot.stop, sentence.chapter, sentence.text, picture, shown, by))
    return _without_repeats(tuple(found)), problems


def _named_first(claimed: tuple[str, ...], text: str, names: frozenset[str]) -> str:
    """Of the parts that are claimed about the one that the sentence itself names first; else the first of them."""
    said = [fold(found) for found in pattern_of(names).findall(text)]
    ours = {form: part for part in claimed for form in (fold(part), f"{fold(part)}s", f"{fold(part)}es")}
    return next((ours[one] for one in said if one in ours), claimed[0])


def _without_repeats(found: tuple[Shot, ...]) -> tuple[Shot, ...]:
    """The same picture several times over is told once; the rest is 'as before'."""
    out: list[Shot] = []
    last: Picture | None = None
    for shot in found:
        if shot.picture is None or (last is not None and shot.picture.words == last.words):
            out.append(replace(shot, picture=None))
            continue
        last = shot.picture
        out.append(shot)
    return tuple(out)


def _marked_picture(sentence: Sentence, folder: Folder) -> tuple[Picture | None, Problems]:
    found: Picture | None = None
    problems: Problems = ()
    for mark in sentence.marks:
        if mark.sort == "show":
            picture, more = _picture(mark, folder)
            found = picture or found
            problems += more
    return found, problems


def _picture(mark: Mark, folder: Folder) -> tuple[Picture | None, Problems]:
    if own := re.fullmatch(r"[\"'“‘](.+)[\"'”’]", mark.words):
        return Picture(own[1], "", "", "", "marked"), ()
    systems = [system.name for system in folder.systems]
    standards = [str(subject.name) for subject in subjects(folder)]
    situations = [situation.name for situation in folder.situations]
    chosen = {"system": "", "standard": "", "situation": ""}
    for word in (piece.strip() for piece in mark.words.split(",")):
        for sort, known in (("system", systems), ("standard", standards), ("situation", situations)):
            name = next((one for one in known if fold(one) == fold(word)), "")
            if name:
                chosen[sort] = name
                break
        else:
            hint = did_you_mean(word, (*systems, *standards, *situations))
            message = f"There is no sheet of '{word}'."
            return None, (Diagnostic("N921", mark.span, message, f"{hint} Put a picture of your own in quotes."),)
    if not chosen["system"]:
        message = f"'{mark.words}' does not say of which system the sheet is."
        return None, (Diagnostic("N921", mark.span, message, did_you_mean("", systems)),)
    standard = chosen["standard"] or standards[0]
    situation = chosen["situation"] or next(iter(situations), "")
    return _sheet(chosen["system"], standard, situation, "marked"), ()


def _sheet(system: str, standard: str, situation: str, by: Literal["marked", "proposed"]) -> Picture:
    words = ", ".join(word for word in (system, standard, situation) if word)
    return Picture(words, system, standard, situation, by)


def _proposed(claims: tuple[Claim, ...], system: str, folder: Folder, last: Picture | None) -> Picture:
    """The sheet of a system, of which a part is claimed about, on the first standard and in the situation of the claim.

    Where the claim names neither, the last picture stays if it is of the same system.
    """
    unsaid = all(claim.scope.on is None and not claim.scope.situation for claim in claims)
    if unsaid and last is not None and last.system == system:
        return last
    names = [str(subject.name) for subject in subjects(folder)]
    on = claims[0].scope.on
    standard = next((name for name in names if on is None or name in on.names), names[0] if names else "")
    situation = next((claim.scope.situation for claim in claims if claim.scope.situation), "")
    return _sheet(system, standard, situation or next((one.name for one in folder.situations), ""), "proposed")


def _marked_callouts(sentence: Sentence, names: frozenset[str]) -> tuple[tuple[str, ...], Problems]:
    found: list[str] = []
    problems: list[Diagnostic] = []
    known = {fold(name): name for name in names}
    for mark in sentence.marks:
        if mark.sort != "call-out":
            continue
        for word in (piece.strip() for piece in mark.words.split(",")):
            own = re.fullmatch(r"[\"'“‘](.+)[\"'”’]", word)
            name = own[1] if own else known.get(fold(word), "")
            if name:
                found.append(name)
                continue
            hint = f"{did_you_mean(word, sorted(names))} Put words of your own in quotes."
            problems.append(Diagnostic("N921", mark.span, f"There is no part '{word}' to point at.", hint))
    return tuple(found), tuple(problems)
