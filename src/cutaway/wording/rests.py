"""What the verdicts rest on, in sentences that read aloud."""

from cutaway.handbook.records import Folder
from cutaway.inquiry.questions.rests import Flip, Influential, Rests
from cutaway.problems.counting import counted
from cutaway.wording.asking import the
from cutaway.wording.shown import listed_with, sentence

# How many verdicts are told of one value before the rest is only counted. A choice of ours.
MOST_FLIPS = 5


def rests_lines(found: Rests, folder: Folder, most: int = 20) -> tuple[str, ...]:
    """The answer, a line each: how firm the verdicts are, then the values, the most influential first."""
    if not found.values:
        return (_nothing(found), *_still(found))
    lines = [
        sentence(
            f"{counted(found.resting, 'verdict')} of {found.resting + found.firm} "
            f"{'rests' if found.resting == 1 else 'rest'} on {counted(len(found.values), 'assumed value')}"
        )
    ]
    lines += [_advice(found.values[0], folder)]
    for place, one in enumerate(found.values[:most], 1):
        lines.append(f"{place}. {value_words(one)}")
        lines += [f"   - {flip_words(flip)}" for flip in one.flips[:MOST_FLIPS]]
        if len(one.flips) > MOST_FLIPS:
            lines.append(f"   - and {len(one.flips) - MOST_FLIPS} more.")
        lines.append(f"   {where_words(one, folder)}")
    if len(found.values) > most:
        lines.append(sentence(f"{counted(len(found.values) - most, 'value')} more; say --most to see them"))
    if found.not_tried:
        lines.append(_not_tried(found))
    return (*lines, *_still(found))


def _still(found: Rests) -> tuple[str, ...]:
    """What was not come to, and how to go on."""
    if not found.not_yet:
        return ()
    return (
        sentence(
            f"{counted(found.not_yet, 'verdict')} {'is' if found.not_yet == 1 else 'are'} still to be tried, so that "
            "there may be more; what was found is remembered, and the same command goes on from there"
        ),
    )


def _nothing(found: Rests) -> str:
    if not found.firm:
        if found.not_yet:
            return "Nothing is known yet to rest on an assumed value."
        return "Nothing rests on an assumed value here: no verdict was tried with one."
    so_far = "so far " if found.not_yet else ""
    firm = f"{counted(found.firm, 'verdict')} stood with every assumed value at both ends of its range"
    tail = f"; {_not_tried(found)[:1].lower()}{_not_tried(found)[1:]}" if found.not_tried else ""
    return sentence(f"Nothing {so_far}rests on an assumed value: {firm}{tail}")


def _not_tried(found: Rests) -> str:
    return sentence(f"for {counted(found.not_tried, 'verdict')} it would have taken too many runs to try")


def _advice(one: Influential, folder: Folder) -> str:
    count = len(one.flips)
    where = listed_with((_paragraph(cite.source, cite.number, folder) for cite in one.likely), "or")
    look = f", in {where}" if where else "; none of the books seems to give it"
    verdicts = "one verdict" if count == 1 else f"{count} verdicts"
    return sentence(f"Look first for the {one.value} of {the(one.part)}{look}: {verdicts} would be firmer for it")


def value_words(one: Influential) -> str:
    """The value with its range and its reason."""
    between = f", between {' and '.join(one.between.split(' to ', 1))}" if one.between else ""
    because = f" {one.because.rstrip('. ')}." if one.because else ""
    alone, count = one.alone, len(one.flips)
    does = f"turns {counted(alone, 'verdict')} over by itself" if alone else ""
    helps = f"{counted(count - alone, 'verdict')} together with others" if count > alone else ""
    tells = " and ".join(words for words in (does, helps) if words) if alone else f"turns over {helps}"
    return sentence(f"The {one.value} of {the(one.part)} (assumed {one.stated}{between}) {tells}") + because


def flip_words(flip: Flip) -> str:
    """One verdict that turns over."""
    now = "holds" if flip.holds else "fails"
    others = ""
    if flip.together:
        others = f" with {listed_with(f'the {value} of {the(part)}' for part, value in flip.together)} at once"
    turned = "does not" if flip.holds else "holds"
    words = f"'{flip.claim.span.words}' {now}, and {turned} {flip.flips.rstrip('. ')}{others}"
    return sentence(f"On {flip.standard}, {words}")


def where_words(one: Influential, folder: Folder) -> str:
    """Where in the books the value most likely stands."""
    if not one.likely:
        return "No paragraph seems to give it."
    return sentence(f"Look in {listed_with((_paragraph(c.source, c.number, folder) for c in one.likely), 'or')}")


def _paragraph(source: str, number: str, folder: Folder) -> str:
    for one in folder.sources:
        for p in one.paragraphs:
            if one.key == source and p.number == number:
                return f"{source} {number} ({p.title})" if p.title else f"{source} {number}"
    return f"{source} {number}"
