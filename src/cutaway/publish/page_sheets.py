"""The sheets on the page: every drawing, and what they show in words, each sentence once for all its situations.

A folder has a sheet for every standard, system and situation, most of whose words are the same in many situations. So
the sheets of one system of one standard stand together with one list, of which a chosen situation shows its own part.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import count, pairwise

from cutaway.publish.html import Html, drawing, el
from cutaway.publish.page_choice import choice
from cutaway.publish.view import PackView, SheetView
from cutaway.wording.verdicts import listed


@dataclass(frozen=True, slots=True)
class Family:
    """One sheet in every situation in which it is drawn. part: ', sheet 1 of 2' where its system has several."""

    system: str
    standard: str
    part: str
    sheets: tuple[SheetView, ...]


def sheets(view: PackView) -> tuple[Html, ...]:
    """The choice of system and situation, then every sheet; the standard is chosen at the top of the page."""
    systems, situations = systems_of(view), situations_of(view)
    found = pictures(view.sheets, view.subjects, systems, situations)
    if not found:
        return ()
    choices = (choice("System", "system", systems, 0), choice("Situation", "situation", situations, 0))
    asked = [word for word, several in (("system", systems), ("situation", situations)) if len(several) > 1]
    above = " The standard is chosen at the top of the page." if len(view.subjects) > 1 else ""
    lead = el("p", f"Choose a {' and a '.join(asked)}.{above}") if asked else Html("")
    return (lead, *choices, *found)


def pictures(
    several: Iterable[SheetView],
    subjects: tuple[str, ...],
    systems: tuple[str, ...],
    situations: tuple[str, ...],
    sort: str = "sheet",
) -> tuple[Html, ...]:
    """Pictures of every standard and situation, those of one family together. sort: what one of several is called."""
    numbers = count(1)
    return tuple(_family(one, subjects, systems, situations, numbers) for one in families(several, sort))


def systems_of(view: PackView) -> tuple[str, ...]:
    """The systems that there are sheets of, in the order of the sheets."""
    return tuple(dict.fromkeys(sheet.system for sheet in view.sheets))


def situations_of(view: PackView) -> tuple[str, ...]:
    """The situations that there are sheets of, in the order of the sheets."""
    return tuple(dict.fromkeys(sheet.situation for sheet in view.sheets))


def situation_rules(situations: int) -> str:
    """Style rules: with a situation chosen, what is not so in it is hidden, and need not say when it is so."""
    chosen = [f"body:has(#situation-{n}:checked)" for n in range(situations)]
    hidden = [f"{one} .for:not(.in-{n}) {{ display: none; }}" for n, one in enumerate(chosen)]
    return "\n".join((*hidden, *(f"{one} .when {{ display: none; }}" for one in chosen)))


def families(several: Iterable[SheetView], sort: str = "sheet") -> tuple[Family, ...]:
    """The sheets put together; of a system with several sheets the first of each situation, then the second."""
    numbers: dict[tuple[str, str, str], int] = {}
    found: dict[tuple[str, str, int], list[SheetView]] = {}
    for sheet in several:
        number = numbers.get(key := (sheet.system, sheet.standard, sheet.situation), 0)
        numbers[key] = number + 1
        found.setdefault((sheet.system, sheet.standard, number), []).append(sheet)
    many = Counter((system, standard) for system, standard, _ in found)
    return tuple(
        Family(
            system,
            standard,
            f", {sort} {number + 1} of {of}" if (of := many[system, standard]) > 1 else "",
            tuple(those),
        )
        for (system, standard, number), those in found.items()
    )


def told_once(several: Sequence[tuple[str, ...]]) -> tuple[str, ...]:
    """Sentences of several lists, each once, so that those of every list stand in its order where the lists agree.

    >>> told_once((("Sheet.", "The lamp is lit.", "Caution."), ("Sheet.", "The lamp is out.", "Caution.")))
    ('Sheet.', 'The lamp is lit.', 'The lamp is out.', 'Caution.')
    """
    before: dict[str, set[str]] = {words: set() for sentences in several for words in sentences}
    for sentences in several:
        for one, other in pairwise(dict.fromkeys(sentences)):
            before[other].add(one)
    found: dict[str, None] = {}
    while left := [words for words in before if words not in found]:
        found[next((words for words in left if before[words] <= found.keys()), left[0])] = None
    return tuple(found)


def _family(
    one: Family,
    subjects: tuple[str, ...],
    systems: tuple[str, ...],
    situations: tuple[str, ...],
    numbers: Iterator[int],
) -> Html:
    words = told_once([sheet.words for sheet in one.sheets])
    idents = {sentence: f"w{next(numbers)}" for sentence in words}
    figures = [
        _figure(sheet, one.part, situations, [idents[sentence] for sentence in dict.fromkeys(sheet.words)])
        for sheet in one.sheets
    ]
    told = [_told(sentence, ident, one, situations) for sentence, ident in idents.items()]
    summary = el("summary", f"What it shows, in words: {one.system}, {one.standard}{one.part}")
    where = [sheet.situation for sheet in one.sheets]
    folded = el("details", summary, el("ul", *told), class_=f"told {_within(where, situations)}".strip())
    only = f" only-{subjects.index(one.standard)}" if one.standard in subjects else ""
    return el("div", *figures, folded, class_=f"family system-{systems.index(one.system)}{only}")


def _within(where: Iterable[str], situations: tuple[str, ...]) -> str:
    """The classes of what is so in some situations; none where it is so in all."""
    numbers = sorted({situations.index(one) for one in where})
    return " ".join(("for", *(f"in-{n}" for n in numbers))) if len(numbers) < len(situations) else ""


def _figure(sheet: SheetView, part: str, situations: tuple[str, ...], idents: list[str]) -> Html:
    where, told = f"{sheet.system}, {sheet.standard}, {sheet.situation}{part}", " ".join(idents)
    picture = (
        drawing(sheet.svg, told)
        if sheet.svg
        else el("img", src=sheet.path, alt=where, loading="lazy", aria_describedby=told)
    )
    return el(
        "figure",
        el("div", picture, class_="drawn", tabindex="0", role="region", aria_label=where),
        el("figcaption", el("b", where), " ", el("a", "The drawing by itself", href=sheet.path)),
        class_=_within((sheet.situation,), situations),
    )


def _told(sentence: str, ident: str, family: Family, situations: tuple[str, ...]) -> Html:
    """One sentence with the situations in which it is so, unless that is all in which there is the sheet."""
    where = [sheet.situation for sheet in family.sheets if sentence in sheet.words]
    when: Html | str = ""
    if len(where) < len(family.sheets) and not sentence.startswith(tuple(f"{one}:" for one in where)):
        when = el("span", f"In {listed(tuple(where))}: ", class_="when")
    words = el("span", sentence, id=ident) if when else sentence
    return el("li", when, words, id="" if when else ident, class_=_within(where, situations))
