"""Which sheets a handout shows: what the scripts show or speak of, in their order, then the rest of the aircraft."""

from dataclasses import dataclass

from cutaway.handbook.names import fold
from cutaway.machine.subjects import Subject, parts_of
from cutaway.narrate.checked import Checked
from cutaway.publish.spoken_of import pictures, systems_in_order, usual_situations


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
    """The sheets of each system, in the order in which the scripts come to the systems; last those that none speaks of.

    Of a system all sheets that the scripts are marked to show; where there are none one, in the situation of which
    most claims about it speak. With a standard or a situation named, each system once, so.
    """
    folder, subject = checked.folder, wish.subject
    there = {part.system for part in parts_of(folder, subject)}
    seen = pictures(checked)
    usual = usual_situations(checked)
    marked = [Shown(one.system, one.standard, one.situation) for one in seen if one.system and one.by == "marked"]
    films = {one.system: one for one in reversed(seen) if one.system}
    found: list[Shown] = []
    for system in systems_in_order(folder, seen):
        if wish.named or wish.situation:
            own = [one.situation for one in marked if (one.system, one.standard) == (system, subject.name)]
            situation = wish.situation or next(iter(own), usual[system])
            found += [Shown(system, str(subject.name), situation)] if system in there else []
        elif own_marked := [one for one in marked if one.system == system]:
            found += own_marked
        elif system in films:
            found.append(Shown(system, films[system].standard, usual[system]))
        elif system in there:
            found.append(Shown(system, str(subject.name), usual[system]))
    return tuple(one for one in dict.fromkeys(found) if not wish.system or fold(one.system) == fold(wish.system))
