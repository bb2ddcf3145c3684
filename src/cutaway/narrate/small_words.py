"""The small words that make a sentence another one than the book's: not, may, all, only, if, before."""

from collections.abc import Callable, Iterator

from cutaway.narrate.lacks import Lack
from cutaway.narrate.paragraph_parts import Part, Read
from cutaway.narrate.taken_apart import Apart

Among = Callable[[str, frozenset[str]], bool]


def small_words(said: Apart, read: Read, used_near: bool, label: str, as_said: bool, among: Among) -> Iterator[Lack]:
    """The small words: denial, duty, all, only, if, before."""
    book, text = read.part.apart, read.part.clause.text
    wrong_near = used_near and any(one.denied != said.denied for one in read.near)
    ordered = said.order is not None and book.order is not None
    if not as_said and not ordered and (said.denied != book.denied or wrong_near):
        has, not_ = (label, "the sentence") if book.denied else ("The sentence", label)
        why = f"{has} has a 'not' where {not_} has none: '{text}'"
        yield Lack("denial", "not", why, "" if wrong_near or said.order or book.order else "not")
    limited = said.order is not None or any(one.side for one in said.figures)
    if not as_said and not limited and book.negated and not said.negated and not book.denied:
        # 'must not be left on for more than 2 hours' is no 'must be left on'.
        yield Lack("denial", "not", f"{label} has a 'not' there: '{text}'", "not")
    gone = {stem for stem in book.behind("without") if among(stem, said.stems)} - said.behind("without")
    if gone and "without" not in said.stems:
        yield Lack("word", "with", f"{label} has 'without' there: '{text}'", "without")
    yield from _duty(said, book, label, text)
    if said.every and not any(one.every for one in (book, *read.near)):
        yield Lack("every", "every", f"{label} does not say it of every one or at all times: '{text}'")
    if said.only and not book.only:
        yield Lack("only", "only", f"{label} has no 'only' there: '{text}'")
    if book.condition and not said.condition and (said.duty or said.denied or book.denied):
        behind = book.text.lower().find(book.condition)
        stems = {w.stem for w in book.words if w.at > behind}
        if not any(among(stem, said.stems) for stem in stems):
            yield Lack("condition", book.condition, f"{label} says it only '{book.text[behind:].strip(' .,')}'.")
    yield from _ordered(said, read.part, label, among)


def _ordered(said: Apart, part: Part, label: str, among: Among) -> Iterator[Lack]:
    book, text = part.apart, part.clause.text
    if said.order is None:
        if book.order is not None and said.duty == "must":
            yield Lack("order", book.order.word, f"{label} says it only '{book.order.word}' something: '{text}'")
        return
    if book.order is None:
        yield Lack("order", said.order.word, f"{label} has no '{said.order.word}' there: '{text}'")
        return
    first = any(among(one, book.order.later) for one in said.order.earlier)
    then = any(among(one, book.order.earlier) for one in said.order.later)
    if first and then:
        why = f"The sentence has '{said.order.word}' where {label} has '{book.order.word}': '{text}'"
        if said.order.word == book.order.word:
            why = f"The sentence has what comes first and what comes then the other way round than {label}: '{text}'"
        yield Lack("order", said.order.word, why, book.order.word)
    elif first or then:
        yield Lack("order", said.order.word, f"{label} puts other things before and after: '{text}'")


def _duty(said: Apart, book: Apart, label: str, text: str) -> Iterator[Lack]:
    if said.duty in ("", book.duty) or (said.negated and book.negated):
        return
    said_word, printed = said.duty, book.duty or "neither 'may' nor 'must'"
    if book.duty:
        yield Lack(
            "duty", said_word, f"The sentence has '{said_word}' where {label} has '{printed}': '{text}'", printed
        )
    else:
        yield Lack("duty", said_word, f"The sentence has '{said_word}' where {label} has {printed}: '{text}'")
