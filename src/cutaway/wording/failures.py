"""What must fail for a thing to be lost, in sentences that read aloud."""

from cutaway.handbook.records import Folder
from cutaway.inquiry.questions.failures import AlreadyUndone, Common, Failures, FailureSet
from cutaway.inquiry.search.changes import Break
from cutaway.problems.counting import counted
from cutaway.wording.asking import the
from cutaway.wording.how_far import bound_words
from cutaway.wording.shown import all_noticed, cites_words, inner, listed_with, seen_words, sentence, set_words

# How many indications are told of one set before the rest is only counted. A choice of ours.
MOST_SEEN = 6
_BY_SIZE = {1: "One failure alone does it", 2: "Two failures together do it", 3: "Three failures together do it"}


def undone_words(already: AlreadyUndone, asked: str, folder: Folder) -> str:
    """That a thing is lost to begin with."""
    instead = listed_with(seen_words(one, folder) for one in already.seen)
    tail = f": {instead}" if instead else ""
    return sentence(f"Nothing need fail for that: it is not so to begin with that {asked}{tail}")


def failures_lines(answer: Failures, asked: str, folder: Folder, most: int) -> tuple[str, ...]:
    """The answer, a line each. asked: what was asked, as a clause. most: how many sets are told at length."""
    out = [sentence(f"With nothing of this wrong, {listed_with(seen_words(one, folder) for one in answer.seen)}")]
    counts = dict(answer.counts)
    told = answer.sets[:most]
    for size in sorted(counts):
        out.append(f"{_BY_SIZE.get(size, f'{size} failures together do it')}, in {counted(counts[size], 'way')}:")
        out += [f"  - {_set_words(one, folder, answer.crew_looked)}" for one in told if len(one.of) == size]
    if told and not answer.crew_looked:
        each = "it" if len(told) == 1 else "any of these"
        out.append(sentence(f"What the crew would notice of {each} was not looked at, since it was stopped"))
    left = sum(1 + len(one.twins) for one in answer.sets[most:])
    if left:
        more = "one more set is not" if left == 1 else f"{left} more sets are not"
        out.append(sentence(f"{more} told here; say --most to see more"))
    out += [_common_words(one) for one in answer.common]
    out += [sentence(one) for one in bound_words(answer.far, "failure", len(answer.sets))]
    if answer.leaks:
        out.append(
            sentence(
                f"A leak of {listed_with(map(the, answer.leaks))} alone does not do it by the time that all else is at "
                "rest, which may be two minutes; what it has let go by later can be asked with --at"
            )
        )
    return tuple(out)


def _set_words(one: FailureSet, folder: Folder, looked: bool) -> str:
    """One set: what has failed, what that takes away, what the crew would see, where it is written."""
    words = [sentence(set_words(one.of))]
    if one.twins:
        words.append(sentence(f"Likewise {listed_with(map(_brief, one.twins), 'or')}"))
    several = len(one.of) > 1
    words += [sentence(f"{the(b.part)}: {inner(s)}" if several else s) for b, s in zip(one.of, one.says, strict=True)]
    if one.lost:
        words.append(sentence(f"Then {listed_with(seen_words(lost, folder) for lost in one.lost)}"))
    if one.noticed is not None:
        words.append(_crew_words(one, folder))
    elif looked:
        words.append("What the crew would notice the model cannot say.")
    return f"{' '.join(words)} {cites_words(one.cites, folder)}".strip()


def _brief(of: tuple[Break, ...]) -> str:
    return " with ".join(f"{the(one.part)} ({one.failure})" for one in of)


def _crew_words(one: FailureSet, folder: Folder) -> str:
    assert one.noticed is not None
    lost = {seen.what for seen in one.lost}
    others = [noticed for noticed in one.noticed if noticed.now.what not in lost]
    if not one.noticed:
        return "The crew would see and hear nothing of it."
    if not others:
        return "The crew would notice nothing else."
    every = all_noticed(others, folder)
    told, rest = every[:MOST_SEEN], len(every) - MOST_SEEN
    return sentence(f"The crew would notice: {'; '.join((*told, *([f'and {rest} more'] if rest > 0 else [])))}")


def _common_words(one: Common) -> str:
    return sentence(f"{the(one.part)} stands in {one.sets} of the {one.of} sets of several failures")
