"""Captions of a film that is out already, corrected: new words in the time that the old ones had.

The film still runs as it was recorded, so that its captions keep their times. Changed words go into the captions that
the old ones stood in; where they do not fit there or could not be read, the captions of their sentence are laid anew
within the time of that sentence.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from cutaway.handbook.records import Script, Sentence, Term
from cutaway.narrate.breaking import best_lines, kept_together, pieces
from cutaway.narrate.captions import Cue, captions
from cutaway.narrate.cue_words import words_in_place
from cutaway.narrate.settings import CAPTIONS_42, SPEAKING, CaptionRules, SpeakingRules
from cutaway.narrate.timing import timeline
from cutaway.problems.diagnostic import Diagnostic, Problems


@dataclass(frozen=True, slots=True)
class Film:
    """A film as published: the words of its sentences, and its captions."""

    name: str
    sentences: tuple[str, ...]
    cues: tuple[Cue, ...]


def corrected(
    film: Film, changed: Mapping[int, Sentence], glossary: tuple[Term, ...], rules: CaptionRules = CAPTIONS_42
) -> tuple[tuple[Cue, ...], Problems]:
    """The captions of a film with some sentences in other words; a problem for each that can now not be read in time.

    changed: the sentence of today, by the number that it has in the film. Captions that none of them stands in are
    handed back as they were.
    """
    touched = _touched(film.cues, frozenset(changed))
    words = words_in_place(film.cues, film.sentences, {number: one.text for number, one in changed.items()})
    cues: list[Cue] = []
    problems: Problems = ()
    at = 0
    while at < len(film.cues):
        if at not in touched:
            cues.append(film.cues[at])
            at += 1
            continue
        last = at
        while last + 1 in touched:
            last += 1
        cues_then = film.cues[at : last + 1]
        new = _kept(cues_then, words[at : last + 1], glossary, rules)
        if new is None:
            limit = film.cues[last + 1].start - rules.gap if last + 1 < len(film.cues) else film.cues[last].end
            new, more = _laid(film, at, last, min(limit, film.cues[last].end), changed, glossary, rules)
            problems += more
        cues.extend(new)
        at = last + 1
    return tuple(cues), problems


def _touched(cues: tuple[Cue, ...], changed: frozenset[int]) -> frozenset[int]:
    """The captions to be laid anew: those of changed sentences, and those that share a sentence with one of them."""
    sentences = set(changed)
    found: set[int] = set()
    while True:
        more = {at for at, cue in enumerate(cues) if at not in found and sentences & set(cue.sentences)}
        if not more:
            return frozenset(found)
        found |= more
        sentences |= {number for at in more for number in cues[at].sentences}


def _kept(
    cues: tuple[Cue, ...], words: tuple[str, ...], glossary: tuple[Term, ...], rules: CaptionRules
) -> tuple[Cue, ...] | None:
    """The captions at their own times with the new words in them; None where one cannot hold them or be read."""
    found: list[Cue] = []
    for cue, text in zip(cues, words, strict=True):
        if text == " ".join(cue.lines):
            found.append(cue)
            continue
        lines = best_lines(pieces(text, kept_together(text, glossary)), rules)
        new = replace(cue, lines=lines[0] if lines else ())
        if not text or lines is None or new.speed > rules.fastest * (1.0 + 1e-6):
            return None
        found.append(new)
    return tuple(found)


def _laid(
    film: Film,
    first: int,
    last: int,
    end: float,
    changed: Mapping[int, Sentence],
    glossary: tuple[Term, ...],
    rules: CaptionRules,
) -> tuple[tuple[Cue, ...], Problems]:
    """The sentences of a run of captions in the time of that run."""
    group = film.cues[first : last + 1]
    numbers = tuple(dict.fromkeys(number for cue in group for number in cue.sentences))
    anyone = next(iter(changed.values()))
    sentences = tuple(
        changed[number] if number in changed else replace(anyone, text=film.sentences[number]) for number in numbers
    )
    # One chapter, so that the whole stretch is one piece of speech.
    script = Script(film.name, "", tuple(replace(one, chapter="") for one in sentences), anyone.span)
    start = group[0].start
    slots = timeline(script, glossary)
    speaking = _at_pace((end - start) / slots[-1].stop if slots[-1].stop > 0.0 else 1.0)
    found, problems = captions(script, glossary, {}, rules, speaking)
    problems = tuple(_of_the_film(one, film.name) for one in problems)
    cites = {number: cue.cites for cue in group for number in cue.sentences}
    return tuple(
        Cue(
            f"{group[0].identifier.partition('-corrected')[0]}-corrected-{place}",
            round(start + cue.start, 3),
            round(min(end, start + cue.end), 3),
            cue.lines,
            tuple(numbers[one] for one in cue.sentences),
            tuple(dict.fromkeys(cite for one in cue.sentences for cite in cites.get(numbers[one], ()))),
        )
        for place, cue in enumerate(found, 1)
    ), problems


def _of_the_film(one: Diagnostic, name: str) -> Diagnostic:
    """What is wrong with a corrected caption. No speech can be added to a film that is out; only fewer words help."""
    hint = one.hint.partition(", or ")[0].rstrip(".") + "; the film that is out gives no more time."
    return replace(one, message=f"In the corrected captions of {name}: {one.message}", hint=hint)


def _at_pace(factor: float) -> SpeakingRules:
    """Speech that takes so many times as long, its pauses too."""
    return replace(
        SPEAKING,
        words_a_minute=SPEAKING.words_a_minute / factor,
        sentence_pause=SPEAKING.sentence_pause * factor,
        clause_pause=SPEAKING.clause_pause * factor,
    )
