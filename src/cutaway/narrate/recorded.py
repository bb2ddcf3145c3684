"""What an alignment says of captions and chapters: when each written piece and each sentence is said."""

from dataclasses import replace

from cutaway.handbook.records import Script, Term
from cutaway.narrate.alignment import Alignment, SentenceTime
from cutaway.narrate.captions import PieceTimes
from cutaway.narrate.script_words import sentence_pieces
from cutaway.narrate.timing import Slot


def piece_times(script: Script, glossary: tuple[Term, ...], alignment: Alignment) -> dict[int, PieceTimes]:
    """The times of the pieces of every sentence that was heard."""
    return {
        at: _times_of(len(sentence_pieces(script.sentences[at].text, glossary)), one)
        for at, one in enumerate(alignment.sentences)
        if one.words
    }


def _times_of(count: int, sentence: SentenceTime) -> PieceTimes:
    """A piece lasts from its first word to its last; one that is not spoken, such as a dash, takes no time."""
    times: list[tuple[float, float]] = []
    now = sentence.start
    for piece in range(count):
        own = [word for word in sentence.words if word.said.piece == piece]
        start, stop = (max(own[0].start, now), max(own[-1].end, now)) if own else (now, now)
        times.append((start, stop))
        now = stop
    return tuple(times)


def chapters_heard(script: Script, alignment: Alignment) -> tuple[Script, tuple[Slot, ...]]:
    """The script without the chapters of which nothing is in the recording, and when each of its sentences is said."""
    heard = {script.sentences[at].chapter for at, one in enumerate(alignment.sentences) if one.words}
    kept = [
        (sentence, slot)
        for sentence, slot in zip(script.sentences, slots(alignment), strict=True)
        if sentence.chapter in heard
    ]
    return replace(script, sentences=tuple(one for one, _ in kept)), tuple(slot for _, slot in kept)


def slots(alignment: Alignment) -> tuple[Slot, ...]:
    """When each sentence of the script is said; one that was not heard has no length."""
    starts = [one.start for one in alignment.sentences]
    # The first chapter opens with the recording, whatever comes before its first word.
    after = [*starts[1:], alignment.sentences[-1].end]
    return tuple(
        Slot(one.start, one.end, max(one.end, later)) for one, later in zip(alignment.sentences, after, strict=True)
    )
