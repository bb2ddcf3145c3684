"""The chain of cause, the reasons and what would change a thing, in sentences that read aloud."""

from typing import assert_never

from cutaway.handbook.records import Cite, Folder
from cutaway.inquiry.questions.cause import STILL
from cutaway.inquiry.questions.links import (
    Broken,
    Cut,
    Fed,
    Given,
    Holds,
    Is,
    Link,
    Reads,
    Stands,
    Step,
    Tied,
    Unjoined,
)
from cutaway.inquiry.questions.why import Cause, Found, Standing, Whole, Why
from cutaway.inquiry.search.changes import Alteration, Put
from cutaway.quantities.si import shown as shown_in
from cutaway.quantities.units import unit_named
from cutaway.wording.asking import are, the
from cutaway.wording.figures import shown, shown_apart
from cutaway.wording.how_far import bound_words
from cutaway.wording.shown import alteration_words, cites_words, inner, listed_with, seen_words, sentence

MEDIA = {"petrol": "petrol", "oil": "oil", "air": "air", "current": "current", "heat": "heat", "shaft": "drive"}
# How many reasons are told: more cannot be followed by ear. A choice of ours.
MOST_REASONS = 3
CONDITIONS = {"height": "ft", "airspeed": "kt", "temperature": "°C"}


def cause_lines(cause: Cause, asked: str, folder: Folder) -> tuple[str, ...]:
    """Whether it is so, and because of what: a line each."""
    seen = listed_with(seen_words(one, folder) for one in cause.seen)
    plain = seen.casefold() == asked.casefold()
    says = f"It is so: {seen}" if cause.so else f"It is not so that {asked}: {seen}"
    if not cause.seen:
        says = f"It is so: {asked}" if cause.so else f"It is not so that {asked}"
    out = [
        f"{sentence(f'It is so: {asked}' if plain and cause.so else says)} {cites_words(cause.cites, folder)}".strip()
    ]
    return (*out, *(f"  - {line}" for line in because_lines(cause.links, folder)))


def because_lines(links: tuple[Link, ...], folder: Folder) -> tuple[str, ...]:
    """Because of what, a sentence a link."""
    out: list[str] = []
    began = {link.part for link in links[:1] if isinstance(link, Is)}
    for link in _not_told_twice(links):
        words = link_words(link, folder)
        if isinstance(link, Tied) and link.to in began and out:
            words += ": there the chain comes round to where it began"
        if words:
            because = "because " if not out and ", because " not in words else ""
            out.append(f"{sentence(because + words)} {cites_words(_cites(link), folder)}".rstrip())
    return tuple(out)


def _not_told_twice(links: tuple[Link, ...]) -> list[Link]:
    """The links without what the first line says, and without controls whose position is told with a way."""
    ways = [link for link in links if isinstance(link, Cut | Fed)]
    steps = {(step.part, step.setting) for way in ways for step in way.steps}
    return [
        link
        for link in links
        if not isinstance(link, Is) and not (isinstance(link, Stands) and (link.control, link.position) in steps)
    ]


def _cites(link: Link) -> tuple[Cite, ...]:
    return () if isinstance(link, Given) else link.cites


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
            goes = f"{the(part)} {are(part)} {by} {the(to)}" if by.endswith((" by", " with")) else ""
            goes = goes or f"{the(part)} {_depends(part)} on {the(to)}"
            return f"{goes}, which {are(to)} {state}" if state else goes
        case Stands(control=control, position=position):
            return f"{the(control)} {'stand' if are(control) == 'are' else 'stands'} at {position}"
        case Broken(part=part, failure=failure, says=says):
            return f"{the(part)} has failed ({failure}): {inner(says)}"
        case Holds(part=part, content=content, dimension=dimension):
            return _holds(part, content, dimension, folder)
        case Given():
            return _given(link)
        case _:
            assert_never(link)


def _depends(part: str) -> str:
    return "depend" if are(part) == "are" else "depends"


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
    return f"the {noun} at {the(link.what)} is {value}, {side} the {limit} that {the(link.part)} goes by"


def _fed(link: Fed) -> str:
    medium = MEDIA[link.medium]
    by = f" by way of {listed_with(map(_step, link.steps))}" if link.steps else ""
    if link.drawn:
        return f"{the(link.supply)} draws {medium} from {the(link.part)}{by}"
    return f"{medium} comes to {the(link.part)} from {the(link.supply)}{by}"


def _cut(link: Cut) -> str:
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
        return f"{the(part)} is out by {shown(content, dimension, '', folder.type.house_units)}"
    return f"{the(part)} holds {shown(content, dimension, '', folder.type.house_units)}"


def _given(link: Given) -> str:
    unit = unit_named(CONDITIONS[link.name]) if link.name in CONDITIONS else None
    return f"the {link.name} is {shown_in(link.value, unit) if unit is not None else f'{link.value:g}'}"


def _standing_words(one: Standing) -> str:
    match one:
        case Stands(control=control, position=position):
            return f"{the(control)} {'stand' if are(control) == 'are' else 'stands'} at {position}"
        case Given():
            return _given(one)
        case Whole(part=part, failure=failure):
            return f"{the(part)} has not failed ({failure})"
        case _:
            assert_never(one)


def why_lines(why: Why, folder: Folder, most: int) -> tuple[str, ...]:
    """What would change it, and the reasons, a line each."""
    so = "not so" if why.cause.so else "so"
    out: list[str] = []
    if why.changes:
        out.append(f"It would be {so}:")
        out += [f"  - {_change_words(one, folder)}" for one in why.changes[:most]]
        left = len(why.changes) - most
        if left > 0:
            out.append(sentence(f"{'one more way is' if left == 1 else f'{left} more ways are'} not told; say --most"))
    if why.reasons:
        now = "so" if why.cause.so else "not so"
        out.append(f"It stays {now}, as far as was looked, so long as any one of these lines stays as it is:")
        out += [f"  - {sentence(listed_with(map(_standing_words, one)))}" for one in why.reasons[:MOST_REASONS]]
        left = len(why.reasons) - MOST_REASONS
        if left > 0:
            out.append(f"{'One more such line is' if left == 1 else f'{left} more such lines are'} in --json.")
    does = f"would make it {so}"
    out += [sentence(one) for one in bound_words(why.far, "change", len(why.changes), does)]
    return tuple(out)


def _change_words(one: Found, folder: Folder) -> str:
    words = [sentence(f"with {listed_with(map(_moved, one.of))}")]
    if one.twins:
        words.append(sentence(f"Likewise with {listed_with((listed_with(map(_moved, t)) for t in one.twins), 'or')}"))
    return f"{' '.join(words)} {cites_words(one.cites, folder)}".strip()


def _moved(one: Alteration) -> str:
    """A change as a condition: 'the battery switch at off'."""
    if isinstance(one, Put):
        return f"{the(f'{one.part} {one.control}'.strip())} at {one.words}"
    return alteration_words(one).replace(" is ", " at ", 1)
