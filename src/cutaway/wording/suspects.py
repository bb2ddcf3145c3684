"""What could be behind what is seen, and the next look, in sentences that read aloud."""

from collections.abc import Sequence

from cutaway.handbook.records import Folder
from cutaway.inquiry.questions.suspects import Explanation, Look, NothingWrong, Suspects
from cutaway.inquiry.search.changes import Break
from cutaway.wording.asking import the
from cutaway.wording.how_far import alike_words, bound_words, leaks_words, scope_words
from cutaway.wording.shown import cites_words, failures_briefly, inner, listed_with, seen_words, sentence, set_words

_BY_SIZE = {1: "One failure alone explains it", 2: "Two failures together explain it"}


def nothing_wrong_words(answer: NothingWrong, folder: Folder) -> str:
    """That all is as it should be."""
    seen = listed_with(seen_words(one, folder) for one in answer.seen)
    return sentence(f"Nothing need be wrong: {seen} in any case here")


def suspects_lines(answer: Suspects, folder: Folder, most: int) -> tuple[str, ...]:
    """The answer, a line each. most: how many explanations are told."""
    out = [sentence(f"With nothing wrong, {listed_with(seen_words(one, folder) for one in answer.otherwise)}")]
    told = answer.explanations[:most]
    for size in sorted({len(one.of) for one in answer.explanations}):
        ways = sum(1 + len(one.twins) for one in answer.explanations if len(one.of) == size)
        many = f", in {ways} ways" if ways > 1 else ""
        out.append(f"{_BY_SIZE.get(size, f'{size} failures together explain it')}{many}:")
        out += [f"  - {_explanation(one, folder)}" for one in told if len(one.of) == size]
    left = len(answer.explanations) - len(told)
    if left > 0:
        out.append(sentence(f"{'One more is' if left == 1 else f'{left} more are'} not told here; say --most"))
    out += _next_words(answer, folder)
    out += [sentence(one) for one in bound_words(answer.far, "failure", len(answer.explanations), "explains it")]
    if answer.leaks:
        out.append(sentence(leaks_words(answer.leaks, "explain it")))
    out.append(sentence(scope_words(answer.faultless)))
    return tuple(out)


def _explanation(one: Explanation, folder: Folder) -> str:
    words = [sentence(set_words(one.of))]
    if one.twins:
        words.append(sentence(f"Likewise {listed_with(map(failures_briefly, one.twins), 'or')}"))
    several = len(one.of) > 1
    words += [sentence(f"{the(b.part)}: {inner(s)}" if several else s) for b, s in zip(one.of, one.says, strict=False)]
    return f"{' '.join(words)} {cites_words(one.cites, folder)}".strip()


def _next_words(answer: Suspects, folder: Folder) -> list[str]:
    if answer.apart < 2:
        return []
    if answer.look is None and answer.move is None:
        return ["No lamp, gauge or movement that was tried tells these apart."]
    out: list[str] = []
    if answer.look is not None:
        out += _look_words(answer.look, folder, "To tell them apart, look next at")
    if answer.move is not None:
        out += _look_words(answer.move, folder, "More is told if you put")
    out += map(alike_words, answer.alike)
    return out


def _look_words(look: Look, folder: Folder, opening: str) -> list[str]:
    what = the(look.answers[0].shows.what)
    if look.move is not None:
        move = look.move
        what = f"{the(f'{move.part} {move.control}'.strip())} to {move.words} and look at {what}"
    out = [f"{opening} {what}:"]
    for one in look.answers:
        out.append(f"  - {sentence(f'If {seen_words(one.shows, folder)}, it is {_several(one.by)}')}")
    return out


def _several(by: Sequence[tuple[Break, ...]]) -> str:
    return listed_with(map(failures_briefly, by), "or")
