"""The standards that a paragraph says it is for, in its heading or its opening words: '(Mk. II)', 'Mk 2 only'.

Where the words can mean nothing else and the type has that mark, the paragraph gets its `on`. Anything less plain ('on
later Mk. II aeroplanes', a mark that type.yaml has not) is put to a person, and nothing is written meanwhile.
"""

import re
from collections.abc import Mapping
from dataclasses import replace

from cutaway.handbook.names import fold
from cutaway.handbook.records import AircraftType
from cutaway.taking.confirming import NO, RIGHT, Answer
from cutaway.taking.headings import AEROPLANES, MARK, MARKS, MOD
from cutaway.taking.records import Proposal, Taken

_ROMAN = {"i": 1, "ii": 2, "iii": 3, "iv": 4, "v": 5, "vi": 6, "vii": 7, "viii": 8, "ix": 9, "x": 10, "xi": 11,
          "xii": 12, "xiv": 14, "xvi": 16}  # fmt: skip
_AEROPLANES = AEROPLANES
_LIST = MARKS
_ONLY = r"(?:\s+only)?"
# As a whole heading or at its end; as the first words of the text.
_IN_TITLE = (
    re.compile(rf"[(\[]\s*(?:on |for )?(?:the )?{_LIST}{_AEROPLANES}{_ONLY}\s*[)\]]\s*[.:]?$"),
    re.compile(rf"(?:^|[,:;]\s*|\s[—–-]\s*){_LIST}{_AEROPLANES}{_ONLY}$"),
    re.compile(rf"(?:^|\s){_LIST}{_AEROPLANES}\s+only$"),
)
_OPENING = (
    re.compile(rf"^[(\[]\s*(?:on |for )?(?:the )?{_LIST}{_AEROPLANES}{_ONLY}\s*[)\]]"),
    re.compile(rf"^{_LIST}{_AEROPLANES}\s+only\s*[.:;,—–-]"),
    re.compile(rf"^{_LIST}{_AEROPLANES}\s*(?::|\.?\s*[—–]\s*(?=[A-Z])|\.\s*[—–-]|\.(?=\s+[A-Z]))"),
)
_NAMED = re.compile(rf"{_LIST}|{MOD}", re.IGNORECASE)
_ONE = re.compile(rf"(?P<joint>\bto\b|[–-]|,|\band\b|\bor\b|&)?\s*(?P<mark>(?:{MARK})|[\dIVX]+[A-Z]?)")
_HEADING = 60
_FIRST_WORDS = 45
"""A mark that stands later in the first sentence is part of what is said, not a heading."""


def with_standards(
    runs: tuple[tuple[Taken, ...], ...], about: AircraftType | None, answers: tuple[Answer, ...]
) -> tuple[tuple[tuple[Taken, ...], ...], tuple[Proposal, ...]]:
    """The paragraphs with their `on`, and what was proposed or given: for each paragraph that names a mark."""
    known = {(answer.id, fold(answer.read)): answer for answer in answers}
    proposals: list[Proposal] = []
    done: list[tuple[Taken, ...]] = []
    for at, run in enumerate(runs, 1):
        made: list[Taken] = []
        for taken in run:
            one = _proposal(taken, about, f"on-{taken.number}" if at == 1 else f"on-{at}-{taken.number}")
            if one is not None:
                answer = known.get((one.id, fold(one.words)))
                one = replace(one, answer=answer.answer if answer is not None else "")
                proposals.append(one)
                taken = replace(taken, on=_chosen(one))
            made.append(taken)
        done.append(tuple(made))
    return tuple(done), tuple(proposals)


def _chosen(one: Proposal) -> str:
    """What is written: the person's answer, else what is sure."""
    said = fold(one.answer)
    if said in NO:
        return ""
    if said in RIGHT:
        return one.on
    return one.answer or (one.on if one.sure else "")


def _proposal(taken: Taken, about: AircraftType | None, id: str) -> Proposal | None:
    text = next((block.removeprefix("> ") for block in taken.blocks if not block.startswith("|")), "")
    # A heading with nothing under it is the text itself.
    heading = taken.title or (text if len(taken.blocks) == 1 and len(text) <= _HEADING else "")
    for where, patterns in ((heading, _IN_TITLE), (text, _OPENING)):
        for pattern in patterns:
            match = pattern.search(where)
            if match and not _turned_round(where, match):
                words = match[0].strip(" ,;:—–-")
                on, lacks = _expression(match["list"], about)
                return Proposal(id, taken.number, taken.page, words, on, sure=bool(on), why=_why(lacks, about))
    if taken.section:
        on, lacks = _expression(taken.section, about)
        why = _why(lacks, about) or "the heading of the section above it says so"
        return Proposal(id, taken.number, taken.page, taken.section, on, sure=False, why=why)
    return _perhaps(taken, text, about, id)


def _turned_round(where: str, match: re.Match[str]) -> bool:
    """Whether a word before or after it says something else than 'on these': 'not on', 'except', 'later'."""
    around = f"{where[: match.start()][-24:]} {where[match.end() :][:20]}".lower()
    return bool(re.search(r"\b(?:not|except|without|unlike|other than|later|earlier|before|after|up to)\b", around))


def _perhaps(taken: Taken, text: str, about: AircraftType | None, id: str) -> Proposal | None:
    """A mark or mod that is named in the heading or in the first words, in some other way."""
    for where in (taken.title, text):
        match = _NAMED.search(where)
        if match and match.start() <= _FIRST_WORDS:
            on, lacks = _expression(match["list"], about) if match["list"] else _mod(match["mod"], about)
            shown = where if where == taken.title else f"{where[: match.end()]} …"
            why = _why(lacks, about) or "it can be meant otherwise"
            return Proposal(id, taken.number, taken.page, shown, on, sure=False, why=why)
    return None


def _why(lacks: str, about: AircraftType | None) -> str:
    return f"type.yaml lists no {lacks}" if lacks and about is not None else "type.yaml cannot be read" if lacks else ""


def _mod(number: str, about: AircraftType | None) -> tuple[str, str]:
    name = f"mod {number}"
    mods = about.mods if about is not None else ()
    known = next((mod.name for mod in mods if fold(mod.name).split()[-1:] == [number]), "")
    return (f"with {known}", "") if known else ("", name)


def _expression(words: str, about: AircraftType | None) -> tuple[str, str]:
    """The `on:` for a list of marks as printed, and the first mark that the type has not."""
    known: Mapping[tuple[int, str], str] = {key(mark): mark for mark in (about.marks if about else ()) if key(mark)[0]}
    made = ""
    for match in _ONE.finditer(words):
        mark = known.get(key(match["mark"]))
        if mark is None:
            name = re.sub(r"(?i)^(?:mark|mk)s?\.?\s*", "Mk ", match["mark"])
            return "", name if name.startswith("Mk") else f"Mk {name}"
        joint = " to " if match["joint"] in ("to", "–", "-") else " or "
        made = f"{made}{joint}{mark}" if made else mark
    return made, ""


def key(mark: str) -> tuple[int, str]:
    """A mark as number and letter, however it is spelt; (0, '') for what is no mark of that sort.

    >>> key("Mk. II"), key("Mark 2A"), key("Series 1")
    ((2, ''), (2, 'a'), (0, ''))
    """
    match = re.fullmatch(r"(?:(?:mark|mk)s?\.?\s*)?(?:(\d+)|([ivx]+))\s*([a-h]?)", mark.strip().lower())
    if match is None:
        return 0, ""
    return (int(match[1]) if match[1] else _ROMAN.get(match[2], 0)), match[3]
