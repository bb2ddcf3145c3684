"""The quantities of a part: read with their standards and paragraphs, held against the book and the kind's range."""

import math
from dataclasses import replace

from cutaway.handbook.door import admit, several_of, wrong_form
from cutaway.handbook.doubts import Owner, doubts, own_quantity, standards_listed, usual_quantity
from cutaway.handbook.head import Head, read_cites, read_on
from cutaway.handbook.limits import impossible
from cutaway.handbook.names import fold, listed
from cutaway.handbook.nodes import Block, Entry, Faulty, Node, Words
from cutaway.handbook.records import Decided, Given, Value
from cutaway.handbook.shapes import AssumedShape, GivenShape
from cutaway.parts.kind import Want
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.quantities.reading import read_quantity
from cutaway.quantities.si import low_high_si, to_si
from cutaway.quantities.which import StandardName, Which

CITATION_CODES = frozenset({"H201", "H202", "H203", "H204"})


def read_value(
    want: Want, entry: Entry, owner: Owner, head: Head, decided: tuple[Decided, ...]
) -> tuple[Value | None, Problems]:
    """All that was said of one quantity; None where any of it was said wrongly."""
    givens: list[Given] = []
    problems: Problems = ()
    failed = False
    for node in several_of(entry.value):
        given, more = _given(want, node, owner, head)
        if given is not None and (wrong := impossible(given, want, owner)):
            given, more = None, (*more, *wrong)
        problems += more
        failed = failed or given is None
        if given is not None:
            givens.append(given)
    if not givens and not failed and not problems:
        message = f"'{want.name}' of {owner.name} has no value."
        hint = f"Write {want.name}: {_example(want)}, or take the line out and the usual value is assumed."
        return None, (Diagnostic("H111", entry.key.span, message, hint),)
    settled, more = _settled(tuple(givens), want, owner, decided)
    problems += more
    failed = failed or settled is None
    for given in givens:
        problems += doubts(given, want, owner, head)
    return (None if failed or settled is None else Value(want.name, settled, entry.key.span)), problems


def _given(want: Want, node: Node, owner: Owner, head: Head) -> tuple[Given | None, Problems]:
    what = f"'{want.name}' of {owner.name}"
    if isinstance(node, Words):
        quantity, problems = read_quantity(node.text, node.span, want.dimension, usual_quantity(want))
        if quantity is None:
            return None, problems
        return Given(quantity, owner.on, owner.cites, False, "", None, node.span), problems
    if isinstance(node, Faulty):
        return None, ()
    if not isinstance(node, Block):
        return None, (wrong_form(node, what, "a value with its unit"),)
    if node.get("assume") is not None:
        return _assumed(want, node, what, owner, head)
    shape, problems = admit(GivenShape, node, what)
    if shape is None:
        return None, problems
    words = node.get("is")
    assert isinstance(words, Words)
    quantity, more = read_quantity(words.text, words.span, want.dimension, usual_quantity(want))
    on, others = _on(node, owner, head)
    cites, cited = read_cites(node.get("cite"), head, owner.source)
    problems += more + others + cited
    if quantity is None or on is None:
        return None, problems
    own = node.get("cite") is not None
    return Given(quantity, on, cites if own else owner.cites, False, "", None, words.span), problems


def _assumed(want: Want, node: Block, what: str, owner: Owner, head: Head) -> tuple[Given | None, Problems]:
    shape, problems = admit(AssumedShape, node, what)
    if shape is None:
        return None, problems
    words, range_words = node.get("assume"), node.get("between")
    assert isinstance(words, Words)
    quantity, more = read_quantity(words.text, words.span, want.dimension, usual_quantity(want))
    problems += more
    between = own_quantity(want.between, want)
    if isinstance(range_words, Words) and not range_words.empty:
        between, more = read_quantity(range_words.text, range_words.span, want.dimension, usual_quantity(want))
        problems += more
        if between is None:
            return None, problems
        if not between.is_range:
            return None, (*problems, _no_range(range_words))
    on, more = _on(node, owner, head)
    problems += more
    if quantity is None or on is None:
        return None, problems
    return Given(quantity, on, (), True, shape.because, between, words.span), problems


def _on(node: Block, owner: Owner, head: Head) -> tuple[Which | None, Problems]:
    """The standards of a value: among those of its part."""
    said = node.get("on")
    if said is None:
        return owner.on, ()
    on, problems = read_on(said, head)
    if on is None:
        return None, problems
    names = on.names & owner.on.names
    if on.names and not names:
        problems += (
            Diagnostic(
                "H322",
                said.span,
                f"This value is for {on.words}, but {owner.name} is on {standards_listed(owner.on.names, head)} only.",
                "Give it to a standard that has the part, or take it out.",
            ),
        )
    return Which(on.words, names), problems


def _settled(
    givens: tuple[Given, ...], want: Want, owner: Owner, decided: tuple[Decided, ...]
) -> tuple[tuple[Given, ...] | None, Problems]:
    """One value a standard: printed before assumed, decided before the other; else a conflict."""
    kept: list[Given] = []
    problems: Problems = ()
    # What is printed comes before what is assumed for the rest.
    for given in sorted(givens, key=lambda one: one.assumed):
        names = given.on.names
        for other in tuple(kept):
            both = names & other.on.names
            if not both or _same(given, other) or (given.assumed and not other.assumed):
                names -= other.on.names
                continue
            ruling = _ruling(decided, owner.name, want.name, given, other)
            if ruling is None:
                problems += (_conflict(given, other, both, want, owner),)
            elif any(
                (cite.source, cite.number) == (ruling.prefer.source, ruling.prefer.number) for cite in given.cites
            ):
                rest = Which(other.on.words, other.on.names - both)
                kept[kept.index(other)] = replace(other, on=rest)
                given = replace(given, decided=ruling.because)
            else:
                kept[kept.index(other)] = replace(other, decided=ruling.because)
                names -= both
        kept.append(replace(given, on=Which(given.on.words, names)))
    if problems:
        return None, problems
    return tuple(given for given in kept if given.on.names), ()


def _same(given: Given, other: Given) -> bool:
    a, b = given.quantity, other.quantity
    alike = math.isclose(to_si(a), to_si(b), rel_tol=1e-9) and low_high_si(a) == low_high_si(b)
    return alike and a.datum == b.datum


def _ruling(decided: tuple[Decided, ...], part: str, value: str, given: Given, other: Given) -> Decided | None:
    for one in decided:
        if fold(one.part) == fold(part) and fold(one.value) == fold(value):
            preferred = (one.prefer.source, one.prefer.number)
            cited = [[(cite.source, cite.number) for cite in each.cites] for each in (given, other)]
            if (preferred in cited[0]) != (preferred in cited[1]):
                return one
    return None


def _conflict(given: Given, other: Given, both: frozenset[StandardName], want: Want, owner: Owner) -> Diagnostic:
    prefer = next((cite.key for cite in (*given.cites, *other.cites)), "")
    decide = f"- {{part: {owner.name}, value: {want.name}, prefer: {prefer}, because: …}}"
    also = [(other.span, f"the other value is {other.quantity.text}{_by(other)}:")]
    return Diagnostic(
        "H305",
        given.span,
        f"'{want.name}' of {owner.name} is given twice for {listed(sorted(both))}: "
        f"{other.quantity.text}{_by(other)}, and {given.quantity.text}{_by(given)}.",
        f"Say with 'on' which is for which mark, or decide in decided.yaml: {decide}"
        if prefer
        else "Say with 'on' which is for which mark, or take one of them out.",
        tuple(also),
    )


def _by(given: Given) -> str:
    return f" by {listed([cite.number for cite in given.cites])}" if given.cites else ""


def _example(want: Want) -> str:
    quantity = usual_quantity(want)
    return f"5 {quantity.unit.name}" if quantity else "the figure with its unit"


def _no_range(words: Words) -> Diagnostic:
    return Diagnostic(
        "H321", words.span, f"'{words.text}' is not a range.", "Write the least and the most: 0.05 to 0.6 lb/sq in"
    )
