"""The chain of cause, the reasons and what would change a thing, in sentences that read aloud."""

from collections.abc import Iterator
from dataclasses import replace
from typing import assert_never

from cutaway.handbook.records import Cite, Folder
from cutaway.inquiry.questions.held_back import HeldBack
from cutaway.inquiry.questions.links import Cut, Fed, Given, Is, Link, Other, Stands, Tied
from cutaway.inquiry.questions.why import Cause, Found, Moved, Standing, Whole, Why
from cutaway.inquiry.search.changes import Alteration, Put
from cutaway.wording.asking import are, the
from cutaway.wording.how_far import bound_words
from cutaway.wording.links import given_words, link_words
from cutaway.wording.otherwise import asks_words
from cutaway.wording.shown import alteration_words, cites_words, listed_with, seen_words, sentence

# How many reasons are told: more cannot be followed by ear. A choice of ours.
MOST_REASONS = 3


def cause_lines(cause: Cause, asked: str, folder: Folder) -> tuple[str, ...]:
    """Whether it is so, and because of what: a line each, what explains another set in below it."""
    seen = listed_with(seen_words(one, folder) for one in cause.seen)
    plain = seen.casefold() == asked.casefold()
    says = f"It is so: {seen}" if cause.so else f"It is not so that {asked}: {seen}"
    if not cause.seen:
        says = f"It is so: {asked}" if cause.so else f"It is not so that {asked}"
    out = [
        f"{sentence(f'It is so: {asked}' if plain and cause.so else says)} {cites_words(cause.cites, folder)}".strip()
    ]
    order = tuple(_as_they_hang(cause))
    told = _not_told_twice(tuple(cause.links[i] for i, _ in order))
    levels = {cause.links[i]: level for i, level in order}
    lines = zip(told, because_lines(tuple(told), folder), strict=True)
    return (*out, *(f"  {'  ' * levels[link]}- {line}" for link, line in lines))


def _as_they_hang(cause: Cause) -> Iterator[tuple[int, int]]:
    """The links by their places, each followed by those that explain it, and how deep each stands. What the first line
    says already counts for no depth."""
    under = cause.under or (-1,) * len(cause.links)
    told = set(_not_told_twice(cause.links))

    def below(one: int, level: int) -> Iterator[tuple[int, int]]:
        for i, by in enumerate(under):
            if by == one:
                yield i, level
                yield from below(i, level + (cause.links[i] in told))

    yield from below(-1, 0)


def because_lines(links: tuple[Link, ...], folder: Folder) -> tuple[str, ...]:
    """Because of what, a sentence a link."""
    out: list[str] = []
    began = {link.part for link in links[:1] if isinstance(link, Is)}
    known: set[tuple[Other, ...]] = set()
    for link in _not_told_twice(links):
        if isinstance(link, Cut) and link.others:
            # What cuts the other supplies off is told once, however many things miss them.
            again, known = link.others in known, known | {link.others}
            words = link_words(replace(link, others=()) if again else link, folder)
        else:
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
    others = [step for way in ways if isinstance(way, Cut) for other in way.others for step in other.steps]
    steps = {(step.part, step.setting) for step in (*(step for way in ways for step in way.steps), *others)}
    return [
        link
        for link in links
        if not isinstance(link, Is) and not (isinstance(link, Stands) and (link.control, link.position) in steps)
    ]


def _cites(link: Link) -> tuple[Cite, ...]:
    return () if isinstance(link, Given) else link.cites


def _standing_words(one: Standing) -> str:
    match one:
        case Stands(control=control, position=position):
            return f"{the(control)} {'stand' if are(control) == 'are' else 'stands'} at {position}"
        case Moved(control=control, position=position):
            return f"{the(control)} {are(control)} put to {position}"
        case Given():
            return given_words(one)
        case Whole(part=part, failure=failure):
            return f"{the(part)} has not failed ({failure})"
        case _:
            assert_never(one)


# What a change is where it is asked how things are after some actions.
_AFTER_ACTIONS = (
    "What the actions move counts as changed where they put it elsewhere, or leave it alone; all else where it stood "
    "otherwise before them"
)


def why_lines(why: Why, asked: str, otherwise: str, folder: Folder, most: int, acts: bool = False) -> tuple[str, ...]:
    """What would change it, and the reasons, a line each. asked: what was asked, as a clause; otherwise: its opposite.
    acts: whether it was asked how things are after actions."""
    now, then = (asked, otherwise) if why.cause.so else (otherwise, asked)
    out: list[str] = []
    if why.changes:
        any_of = "This alone" if len(why.changes) == 1 and not why.changes[0].twins else "Any one of these"
        out.append(f"{any_of} would bring it about that {then}:")
        out += [f"  - {_change_words(one, folder)}" for one in why.changes[:most]]
        left = len(why.changes) - most
        if left > 0:
            out.append(sentence(f"{'one more way is' if left == 1 else f'{left} more ways are'} not told; say --most"))
    if why.reasons:
        out += _reason_lines(why, now)
    does = f"would bring it about that {then}"
    out += [sentence(one) for one in bound_words(why.far, "change", len(why.changes), does)]
    out += [sentence(_AFTER_ACTIONS)] if acts else []
    return tuple(out)


def _reason_lines(why: Why, now: str) -> list[str]:
    """What keeps it as it is: one set of things in a sentence, several as a list."""
    if len(why.reasons) == 1:
        (only,) = why.reasons
        these = "this stays" if len(only) == 1 else "all of these stay"
        standing = listed_with(map(_standing_words, only))
        return [sentence(f"As far as was looked, {now} so long as {these} as now: {standing}")]
    out = [f"As far as was looked, {now} so long as every item of any one of these lists stays as now:"]
    out += [f"  - {sentence(listed_with(map(_standing_words, one)))}" for one in why.reasons[:MOST_REASONS]]
    left = len(why.reasons) - MOST_REASONS
    if left > 0:
        out.append(f"{'One more such list is' if left == 1 else f'{left} more such lists are'} in --json.")
    return out


def _change_words(one: Found, folder: Folder) -> str:
    words = [sentence(f"with {listed_with(map(_moved, one.of))}")]
    if one.twins:
        words.append(sentence(f"Likewise with {listed_with((listed_with(map(_moved, t)) for t in one.twins), 'or')}"))
    words += [_held_words(held, folder) for held in one.held]
    return f"{' '.join(words)} {cites_words(one.cites, folder)}".strip()


def _held_words(one: HeldBack, folder: Folder) -> str:
    """What has to be so before hands can do it."""
    return sentence(f"But {the(one.control)} goes to {one.position} only when {asks_words(one.asks, folder)}")


def _moved(one: Alteration) -> str:
    """A change as a condition: 'the battery switch at off'."""
    if isinstance(one, Put):
        instead = f" instead of {one.instead}" if one.instead else ""
        return f"{the(f'{one.part} {one.control}'.strip())} at {one.words}{instead}"
    return alteration_words(one).replace(" is ", " at ", 1)
