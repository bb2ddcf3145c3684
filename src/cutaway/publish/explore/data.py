"""The stops of a page as compact data: every text once, and of each stop only what differs from the first."""

import json
from collections.abc import Iterable

from cutaway.publish.explore.records import ArcView, ExploreView, PartView, StopView

ITEMS = "; "
"""What parts the items of a sentence of a text alternative."""


class Pool:
    """Texts by number; grows."""

    def __init__(self) -> None:
        self.texts: dict[str, int] = {}

    def number(self, text: str) -> int:
        """The number of a text, a new one if it is new."""
        return self.texts.setdefault(text, len(self.texts))

    def numbers(self, texts: Iterable[str]) -> list[int]:
        """The same of several."""
        return [self.number(text) for text in texts]


class Lists:
    """Lists of texts by number; grows."""

    def __init__(self, pool: Pool) -> None:
        self.pool = pool
        self.lists: dict[tuple[int, ...], int] = {}

    def number(self, texts: Iterable[str]) -> int:
        """The number of a list of texts, a new one if it is new."""
        return self.lists.setdefault(tuple(self.pool.numbers(texts)), len(self.lists))


def data_of(view: ExploreView) -> str:
    """The data as JSON that can stand in a page.

    texts: all of them. lists: lists of numbers of texts. places: by place of the drawing, the texts of its looks.
    words: the sentences of text alternatives, each the numbers of its items. moves: the movements, each with its
    control, its place, for how long it is held, and in words. stops: `l` pairs of place and look where they differ from
    those of the first stop, which has them all; `w` the sentences of the text alternative; `c` where the controls
    stand, `n` the nearest places on their slides, where there are any; `p` of each part its words and the list of its
    reasons; `a` of each movement null, or the stop that it leads to and the list of what happens on the way, or -1 and
    the reason why not.
    """
    pool = Pool()
    lists, words = Lists(pool), Lists(pool)
    looks = view.looks
    first = looks.states[0]
    stops = []
    for number, stop in enumerate(view.stops):
        here = looks.states[number]
        changed = [(place, look) for place, look in enumerate(here) if number == 0 or look != first[place]]
        stops.append(
            {
                "l": [figure for pair in changed for figure in pair],
                "w": [words.number(line.split(ITEMS)) for line in looks.descriptions[number]],
                **_told(stop, pool, lists),
            }
        )
    places = [pool.numbers(place) for place in looks.places]
    moves = [[m.control, m.place, m.back, m.told] for m in view.moves]
    record = {
        "places": places,
        "moves": moves,
        "stops": stops,
        "lists": list(lists.lists),
        "words": list(words.lists),
        "texts": list(pool.texts),
    }
    return json.dumps(record, ensure_ascii=False, separators=(",", ":")).replace("<", "\\u003c")


def _told(stop: StopView, pool: Pool, lists: Lists) -> dict[str, object]:
    slid = {"n": stop.nearest} if any(place >= 0 for place in stop.nearest) else {}
    return {
        **slid,
        "c": pool.numbers(stop.places),
        "p": [_part(part, pool, lists) for part in stop.parts],
        "a": [_arc(arc, pool, lists) for arc in stop.arcs],
    }


def _part(part: PartView, pool: Pool, lists: Lists) -> list[int]:
    return [pool.number(part.words), lists.number(part.because)]


def _arc(arc: ArcView | None, pool: Pool, lists: Lists) -> list[int] | None:
    if arc is None:
        return None
    return [arc.to, lists.number(arc.happened) if arc.to >= 0 else pool.number(arc.reason)]
