"""One link of a chain of cause as a clause."""

from dataclasses import replace
from typing import assert_never

from cutaway.handbook.records import Folder
from cutaway.inquiry.questions.cause_words import STILL
from cutaway.inquiry.questions.links import (
    Broken,
    Charged,
    Cut,
    Fed,
    Given,
    Holds,
    Is,
    Lasts,
    Link,
    Other,
    Reads,
    Same,
    Stands,
    Step,
    Tied,
    Unjoined,
    Unmoved,
)
from cutaway.quantities.si import shown as shown_in
from cutaway.quantities.units import unit_named
from cutaway.wording.asking import are, the
from cutaway.wording.figures import shown, shown_apart
from cutaway.wording.shown import inner, listed_with

MEDIA = {"petrol": "petrol", "oil": "oil", "air": "air", "current": "current", "heat": "heat", "shaft": "drive"}
# Couplings whose name is what the part does, with the word for several.
_VERBS = {"watches": "watch", "senses": "sense", "reads": "read", "shows": "show"}
CONDITIONS = {"height": "ft", "airspeed": "kt", "temperature": "°C"}


def link_words(link: Link, folder: Folder) -> str:
    """One link as a clause."""
    match link:
        case Is(part=part, state=state):
            return f"{the(part)} {are(part)} {state}"
        case Reads():
            return _reads(link, folder)
        case Fed():
            return _fed(link)
        case Cut():
            return _cut(link)
        case Unjoined(part=part, medium=medium, drawn=drawn, lines=lines):
            nothing = f"nothing that {'draws' if drawn else 'gives'} {MEDIA[medium]} is joined to {the(part)}"
            return nothing if not lines else f"{nothing}, directly or by way of others"
        case Tied(part=part, by=by, to=to, state=state):
            goes = _goes(part, by, to)
            return f"{goes}, which {are(to)} {state}" if state else goes
        case Stands(control=control, position=position):
            return f"{the(control)} {'stand' if are(control) == 'are' else 'stands'} at {position}"
        case Broken(part=part, failure=failure, says=says):
            return f"{the(part)} has failed ({failure}): {inner(says)}"
        case Charged():
            return _charged(link)
        case Same(to=to):
            return f"that is for the same reason as at {the(to)}"
        case Lasts(part=part, called=called, seconds=seconds):
            return _lasts(part, called, shown(seconds, "time", "", folder.type.house_units))
        case Unmoved(part=part):
            return f"nothing pushes {the(part)} either way, and so it stays as it is"
        case Holds(part=part, content=content, dimension=dimension):
            return _holds(part, content, dimension, folder)
        case Given():
            return given_words(link)
        case _:
            assert_never(link)


def _goes(part: str, by: str, to: str) -> str:
    """How a part goes with another, by the name of the coupling."""
    if by.endswith((" by", " with")):
        return f"{the(part)} {are(part)} {by} {the(to)}"
    if by in _VERBS:
        return f"{the(part)} {_VERBS[by] if are(part) == 'are' else by} {the(to)}"
    if by == "of":
        return f"{the(part)} {'go' if are(part) == 'are' else 'goes'} with {the(to)}"
    if by == "starter":  # once it runs it has no need of one
        return f"{the(part)} is set going by {the(to)}"
    return f"{the(part)} {'depend' if are(part) == 'are' else 'depends'} on {the(to)}"


def _lasts(part: str, called: str, time: str) -> str:
    several = are(part) == "are"
    if called:
        stays, its = ("stay as they are", "their") if several else ("stays as it is", "its")
        return f"{the(part)} {stays} until {its} {called} of {time} is over, which it is not yet"
    return f"{the(part)} {'heed' if several else 'heeds'} only after {time} what follows, and these are not over yet"


def _charged(link: Charged) -> str:
    if link.empty:
        return f"nothing was in {the(link.part)} to begin with"
    if link.given:
        return f"{the(link.part)} holds what the situation begins with, and nothing need come to it"
    if link.supply:
        by = f" by way of {listed_with(map(_step, link.steps))}" if link.steps else ""
        return f"{the(link.part)} holds what has come to it from {the(link.supply)}{by}"
    return f"{the(link.part)} holds what has come to it before, and nothing need come to it now"


def _reads(link: Reads, folder: Folder) -> str:
    house = folder.type.house_units
    value = shown_apart(link.value, link.limit, link.dimension, link.datum, house)
    limit = shown(link.limit, link.dimension, link.datum, house)
    noun = {"pressure": "pressure" if link.datum else "suction", "angular speed": "speed"}.get(
        link.dimension, link.dimension
    )
    if link.dimension == "angular speed" and value.startswith("0 "):
        return f"{the(link.what)} does not turn"
    side = "above" if link.above else "below" if value != limit else "no more than"
    reads = f"the {noun} at {the(link.what)} is {value}, {side}"
    if link.becomes:
        become = "become" if are(link.part) == "are" else "becomes"
        return f"{reads} the {limit} at which {the(link.part)} {become} {link.becomes}"
    if link.dimension == "voltage" and link.what == link.part:
        return f"{reads} the {limit} that it needs"
    return f"{reads} the limit of {limit} for {the(link.part)}"


def _fed(link: Fed) -> str:
    medium = MEDIA[link.medium]
    by = f" by way of {listed_with(map(_step, link.steps))}" if link.steps else ""
    if link.drawn:
        return f"{the(link.supply)} draws {medium} from {the(link.part)}{by}"
    return f"{medium} comes to {the(link.part)} from {the(link.supply)}{by}"


def _cut(link: Cut) -> str:
    alike: dict[tuple[Step, ...], list[Other]] = {}
    for one in link.others:
        own = tuple(replace(step, part="") if step.part == one.supply else step for step in one.steps)
        alike.setdefault(own, []).append(one)
    return "; ".join((_not_from(link), *(_nor_from(several) for several in alike.values())))


def _nor_from(several: list[Other]) -> str:
    """Other supplies that do not give what is missing either, and for one reason."""
    first = several[0]
    names = f"nor from {listed_with((the(one.supply) for one in several), 'or')}"
    if not first.steps:
        return f"{names}, for the same reason"
    if all(step.part == first.supply and step.setting == STILL for step in first.steps):
        return f"{names}, which {'stands' if len(several) == 1 else 'stand'} still"
    return f"{names}, because {listed_with(_shut_step(step, first.supply, False) for step in first.steps)}"


def _not_from(link: Cut) -> str:
    medium = MEDIA[link.medium]
    nothing = (
        f"no suction reaches {the(link.part)} from {the(link.supply)}"
        if link.drawn
        else f"no {medium} comes to {the(link.part)} from {the(link.supply)}"
    )
    if not link.steps:
        return f"{nothing}, though the way is open" if link.supply != link.part else nothing
    steps = [_shut_step(step, link.supply, link.drawn) for step in link.steps]
    return f"{nothing}, because {listed_with(steps)}"


def _step(step: Step) -> str:
    inside = ", ".join(words for words in (step.setting, step.failure) if words)
    return f"{the(step.part)} ({inside})" if inside else the(step.part)


def _shut_step(step: Step, supply: str, drawn: bool) -> str:
    if step.failure:
        return f"{the(step.part)} has failed ({step.failure})"
    if step.setting == STILL:
        return f"{the(step.part)} stands still"
    if step.setting:
        verb = "is" if step.setting.startswith("not ") or step.setting in ("broken", "open") else "stands at"
        return f"{the(step.part)} {verb} {step.setting}"
    gives = "draws nothing" if drawn else "gives nothing"
    return f"{the(step.part)} {gives if step.part == supply else 'passes nothing'}"


def _holds(part: str, content: float, dimension: str, folder: Folder) -> str:
    if dimension == "length":
        return f"{the(part)} is extended {shown(content, dimension, '', folder.type.house_units)}"
    return f"{the(part)} holds {shown(content, dimension, '', folder.type.house_units)}"


def given_words(link: Given) -> str:
    unit = unit_named(CONDITIONS[link.name]) if link.name in CONDITIONS else None
    return f"the {link.name} is {shown_in(link.value, unit) if unit is not None else f'{link.value:g}'}"
