"""A recording of a part of a script: what is not in it at all, told from what the speaker left out."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import groupby

from cutaway.narrate.alignment import Absent, Alignment, Departure
from cutaway.narrate.script_words import SaidWord

# So many sentences in a row are more than a slip of the speaker's. Where half as many words are heard in their place,
# something was said there, well or badly, and somebody has to listen. Choices of ours.
_IN_A_ROW = 3
_SAID_INSTEAD = 0.5


def set_apart(alignment: Alignment, script: tuple[SaidWord, ...]) -> Alignment:
    """The same with the sentences that are not in the recording as stretches of their own, and not as departures."""
    lengths: dict[int, int] = {}
    for word in script:
        lengths[word.sentence] = lengths.get(word.sentence, 0) + 1
    absent = tuple(one for one in _unheard(alignment, lengths) if _is_absent(one, alignment, lengths))
    departures = tuple(found for one in alignment.departures for found in _kept(one, absent))
    return replace(alignment, departures=departures, absent=absent)


def _unheard(alignment: Alignment, lengths: dict[int, int]) -> Iterator[Absent]:
    """Runs of sentences that were not heard; one without a word, such as a row of stars, goes with its neighbours."""
    spoken = (one for one in alignment.sentences if one.sentence in lengths)
    for heard, run in groupby(spoken, key=lambda one: bool(one.words)):
        sentences = [one.sentence for one in run]
        if not heard and len(sentences) >= _IN_A_ROW:
            yield Absent(sentences[0], sentences[-1])


def _is_absent(stretch: Absent, alignment: Alignment, lengths: dict[int, int]) -> bool:
    written = sum(lengths.get(at, 0) for at in range(stretch.first, stretch.last + 1))
    said = sum(one.of_heard[1] - one.of_heard[0] for one in alignment.departures if _within(one, stretch))
    return said < _SAID_INSTEAD * written


def _within(one: Departure, stretch: Absent) -> bool:
    return one.kind == "not heard" and stretch.first <= one.sentence <= stretch.last


def _kept(one: Departure, absent: tuple[Absent, ...]) -> Iterator[Departure]:
    """A departure as it is to be told; what is said where a stretch is absent was added."""
    stretch = next((stretch for stretch in absent if _within(one, stretch)), None)
    if stretch is None:
        yield one
    elif one.said:
        place = one.of_script[0], one.of_script[0]
        yield replace(one, kind="added", sentence=stretch.first - 1, written="", of_script=place)
