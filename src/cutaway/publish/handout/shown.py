"""Which sheets a handout shows: as the scripts show them, then the rest of the aircraft."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import groupby

from cutaway.handbook.names import fold
from cutaway.language.claims import ParsedSentence
from cutaway.machine.subjects import Subject, parts_of
from cutaway.narrate.checked import Checked
from cutaway.narrate.shots import Picture, shots
from cutaway.narrate.spoken import spoken_terms
from cutaway.narrate.timing import timeline


@dataclass(frozen=True, slots=True)
class Shown:
    """A sheet to be printed: a system of a standard or airframe in a situation."""

    system: str
    standard: str
    situation: str


@dataclass(frozen=True, slots=True)
class Wish:
    """What a handout is to show. subject: the standard or airframe, where `named` by somebody; else the one for
    what no script shows. system, situation: '' for those that the scripts show."""

    subject: Subject
    named: bool = False
    system: str = ""
    situation: str = ""


def shown_sheets(checked: Checked, wish: Wish) -> tuple[Shown, ...]:
    """All sheets that the scripts are marked to show, each system that their claims are about as it first comes up,
    then the other systems.

    With a standard or a situation named, each system once, so.
    """
    folder, subject = checked.folder, wish.subject
    there = {part.system for part in parts_of(folder, subject)}
    systems = [system.name for system in folder.systems if system.name in there]
    first = next((one.name for one in folder.situations), "")
    pictures = list(_pictures(checked))
    films = [Shown(one.system, one.standard, one.situation) for one in pictures if one.system]
    marked = {Shown(one.system, one.standard, one.situation) for one in pictures if one.by == "marked"}
    if wish.named or wish.situation:
        liked = {one.system: one.situation for one in reversed(films) if one.standard == subject.name}
        found = [Shown(one, str(subject.name), wish.situation or liked.get(one, first)) for one in systems]
    else:
        rest = [Shown(one, str(subject.name), first) for one in systems if one not in {film.system for film in films}]
        first_of = {film.system: film for film in reversed(films)}
        found = [*dict.fromkeys(film for film in films if film in marked or film == first_of[film.system]), *rest]
    return tuple(one for one in found if not wish.system or fold(one.system) == fold(wish.system))


def _pictures(checked: Checked) -> Iterable[Picture]:
    """What is seen while the scripts are spoken, in their order; what is wrong with the marks is told elsewhere."""
    said = spoken_terms(checked.folder)
    for script, group in groupby(checked.sentences, key=lambda one: one.script):
        parsed = tuple(
            ParsedSentence(script.name, one.sentence, tuple(claim.claim for claim in one.claims), 0) for one in group
        )
        listed, _ = shots(script, parsed, timeline(script, said), checked.folder)
        yield from (shot.picture for shot in listed if shot.picture is not None)
