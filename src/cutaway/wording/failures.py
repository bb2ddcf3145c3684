"""What must fail for a thing to be lost, in sentences that read aloud."""

from collections import Counter
from collections.abc import Iterator, Sequence

from cutaway.handbook.records import Folder
from cutaway.inquiry.questions.failures import AlreadyUndone, Common, Failures, FailureSet
from cutaway.wording.asking import the
from cutaway.wording.how_far import alike_words, bound_words, leaks_words, scope_words
from cutaway.wording.shown import (
    all_noticed,
    cites_words,
    failures_briefly,
    inner,
    listed_with,
    seen_words,
    sentence,
    set_words,
)

# How many indications are told of one set before the rest is only counted. A choice of ours.
MOST_SEEN = 6
_BY_SIZE = {1: "One failure alone does it", 2: "Two failures together do it", 3: "Three failures together do it"}


def undone_words(already: AlreadyUndone, asked: str, folder: Folder) -> str:
    """That a thing is lost to begin with."""
    instead = listed_with(seen_words(one, folder) for one in already.seen)
    tail = f": {instead}" if instead else ""
    return sentence(f"Nothing need fail for that: to begin with it is not so that {asked}{tail}")


def failures_lines(answer: Failures, asked: str, folder: Folder, most: int) -> tuple[str, ...]:
    """The answer, a line each. asked: what was asked, as a clause. most: how many sets are told at length."""
    out = [sentence(f"With nothing of this wrong, {listed_with(seen_words(one, folder) for one in answer.seen)}")]
    counts = dict(answer.counts)
    told = answer.sets[:most]
    common = Counter(words for one in told for words in all_noticed(one.noticed or (), folder))
    for size in sorted(counts):
        ways = f", in {counts[size]} ways" if counts[size] > 1 else ""
        out.append(f"{_BY_SIZE.get(size, f'{size} failures together do it')}{ways}:")
        out += [f"  - {_set_words(one, folder, answer.crew_looked, common)}" for one in told if len(one.of) == size]
    out += _alike_words(told, folder)
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
        out.append(sentence(leaks_words(answer.leaks, "do it")))
    out.append(sentence(scope_words(answer.faultless)))
    return tuple(out)


def _alike_words(told: Sequence[FailureSet], folder: Folder) -> Iterator[str]:
    """The sets of which the crew would notice the same."""
    groups: dict[tuple[str, ...], list[FailureSet]] = {}
    for one in told:
        if one.noticed:
            groups.setdefault(tuple(all_noticed(one.noticed, folder)), []).append(one)
    for several in groups.values():
        if len(several) > 1:
            yield alike_words([one.of for one in several])


def _set_words(one: FailureSet, folder: Folder, looked: bool, common: Counter[str]) -> str:
    """One set: what has failed, what that takes away, what the crew would see, where it is written."""
    words = [sentence(set_words(one.of))]
    if one.twins:
        words.append(sentence(f"Likewise {listed_with(map(failures_briefly, one.twins), 'or')}"))
    several = len(one.of) > 1
    words += [sentence(f"{the(b.part)}: {inner(s)}" if several else s) for b, s in zip(one.of, one.says, strict=True)]
    if one.lost:
        words.append(sentence(f"Then {listed_with(seen_words(lost, folder) for lost in one.lost)}"))
    if one.noticed is not None:
        words.append(_crew_words(one, folder, common))
    elif looked:
        words.append("What the crew would notice the model cannot say.")
    return f"{' '.join(words)} {cites_words(one.cites, folder)}".strip()


def _crew_words(one: FailureSet, folder: Folder, common: Counter[str]) -> str:
    """What the crew would notice, first what is noticed of the fewest sets, since that tells them apart."""
    assert one.noticed is not None
    lost = {seen.what for seen in one.lost}
    others = [noticed for noticed in one.noticed if noticed.now.what not in lost]
    if not one.noticed:
        return "The crew would see and hear nothing of it."
    if not others:
        return "The crew would notice nothing else."
    every = all_noticed(others, folder)
    if len(every) > MOST_SEEN:
        every.sort(key=lambda words: common[words])
    told, rest = every[:MOST_SEEN], len(every) - MOST_SEEN
    return sentence(f"The crew would notice: {'; '.join((*told, *([f'and {rest} more'] if rest > 0 else [])))}")


def _common_words(one: Common) -> str:
    return sentence(f"{the(one.part)} stands in {one.sets} of the {one.of} sets of several failures")
