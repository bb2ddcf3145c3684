"""What was seen, what has failed and what was moved, as parts of a sentence."""

from collections.abc import Iterable

from cutaway.handbook.records import Cite, Folder
from cutaway.inquiry.questions.indications import LEAST, Noticed
from cutaway.inquiry.search.changes import Alteration, Assume, Break, Give, Put
from cutaway.inquiry.verdicts import Seen
from cutaway.wording.asking import are, the
from cutaway.wording.citing import cited
from cutaway.wording.figures import shown

# The verb of two that do alike; of figures it is said that each reads so much, and not both together.
_BOTH = {"reads": "each read", "read": "each read", "goes": "each go", "go": "each go"}


def listed_with(words: Iterable[str], joined: str = "and") -> str:
    """A list as it is said.

    >>> listed_with(["a"]), listed_with(["a", "b", "c"], "or")
    ('a', 'a, b or c')
    """
    every = list(words)
    return every[0] if len(every) == 1 else ", ".join(every[:-1]) + f" {joined} " + every[-1] if every else ""


def value_words(one: Seen, folder: Folder) -> str:
    """What a thing shows, without its name: 'lit', '3 lb/sq in', 'dead'."""
    if one.value is None:
        return one.state
    # A pointer that trembles at nought stands at nought.
    value = 0.0 if abs(one.value) < 0.1 * LEAST.get(one.dimension, 0.0) else one.value
    return shown(value, one.dimension, one.datum, folder.type.house_units, digits=2)


def seen_words(one: Seen, folder: Folder) -> str:
    """'the fuel lamp is lit', 'the suction gauge reads 4.5 in Hg'."""
    if one.value is None:
        return f"{the(one.what)} {are(one.what)} {one.state}"
    return f"{the(one.what)} {'read' if are(one.what) == 'are' else 'reads'} {value_words(one, folder)}"


def noticed_words(one: Noticed, folder: Folder, since: bool = False) -> str:
    """'the fuel lamp is lit', 'the suction gauge reads 0 in Hg, not 4.6 in Hg'. since: told of what changes in time,
    'the suction gauge goes from 4.6 in Hg to 0 in Hg', rather than of what would be otherwise."""
    if one.now.value is None and one.now.state != "dead":
        return seen_words(one.now, folder)
    if since:
        goes = "go" if are(one.now.what) == "are" else "goes"
        return f"{the(one.now.what)} {goes} from {value_words(one.before, folder)} to {value_words(one.now, folder)}"
    before = value_words(one.before, folder)
    if one.now.value is None:  # 'dead, not working' would read as if it said the same twice
        return f"{seen_words(one.now, folder)} instead of {before if one.before.value is None else f'showing {before}'}"
    return f"{seen_words(one.now, folder)}, not {before}"


def all_noticed(several: Iterable[Noticed], folder: Folder, since: bool = False) -> list[str]:
    """What is otherwise, a clause each: what is lit, sounds or runs first, then what dials read. What goes alike to
    port and to starboard is one clause: 'the port generator lamp and the starboard one are out'. since: as for one."""
    in_order = sorted(several, key=lambda one: one.now.state == "")
    return sides_together([(one.now.what, noticed_words(one, folder, since)) for one in in_order])


def sides_together(several: Iterable[tuple[str, str]]) -> list[str]:
    """Clauses, each with the name of what it is about; what goes alike to port and to starboard is one clause."""
    told = list(several)
    out: list[str] = []
    while told:
        what, words = told.pop(0)
        twin = next((one for one in told if _other_side(what, one[0]) and one[1] == words.replace(what, one[0])), None)
        if twin is not None:
            told.remove(twin)
            verb, rest = words.removeprefix(f"{the(what)} ").split(" ", 1)
            both = f"{the(what)} and the {_other_side(what, twin[0])} {'ones' if are(what) == 'are' else 'one'}"
            words = f"{both} {_BOTH.get(verb, 'are')} {rest}"
        out.append(words)
    return out


def _other_side(one: str, other: str) -> str:
    """The word in which a name differs from another that is the same otherwise, '' where there is more to it."""
    pairs = [(a, b) for a, b in zip(one.split(), other.split(), strict=False) if a != b]
    words = one.split()
    return pairs[0][1] if len(pairs) == 1 and len(words) == len(other.split()) and len(words) > 1 else ""


def alteration_words(one: Alteration) -> str:
    """A change as a clause: 'the tank selector stands at off', 'the engine pump has failed (seized)'."""
    match one:
        case Put(part=part, control=control, words=words):
            return f"{the(f'{part} {control}'.strip())} {_stands(part, control)} at {words}"
        case Break(part=part, failure=failure):
            return f"{the(part)} {'have' if are(part) == 'are' else 'has'} failed ({failure})"
        case Give(part=part, name=name, words=words):
            return f"{the(part) if part else f'the {name}'} is {words}"
        case Assume(part=part, value=value, words=words):
            return f"the {value} of {the(part)} is {words}"


def _stands(part: str, control: str) -> str:
    return "stand" if are(control or part) == "are" else "stands"


def set_words(several: Iterable[Alteration]) -> str:
    """The changes of one set, as they are said together."""
    return listed_with(alteration_words(one) for one in several)


def cites_words(cites: tuple[Cite, ...], folder: Folder) -> str:
    """The paragraphs in brackets; where there are several books, by their short names, since there may be many."""
    if len(folder.sources) <= 1:
        return cited(cites, folder)
    books: dict[str, dict[str, None]] = {}
    for cite in cites:
        books.setdefault(str(cite.source), {}).setdefault(cite.number)
    told = "; ".join(f"{key} {', '.join(numbers)}" for key, numbers in books.items())
    return f"({told})" if told else ""


def failures_briefly(of: tuple[Break, ...]) -> str:
    """Several failures in a list: 'the port pump (seized) with the starboard pump (seized)'."""
    return " with ".join(f"{the(one.part)} ({one.failure})" for one in of)


def inner(words: str) -> str:
    """A sentence after a colon: its first letter small.

    >>> inner("No current can pass through it.")
    'no current can pass through it.'
    """
    return f"{words[:1].lower()}{words[1:]}"


def sentence(words: str) -> str:
    """Words as a sentence: its first letter large, one full stop, single blanks."""
    line = " ".join(words.split()).rstrip(" .;,")
    return f"{line[:1].upper()}{line[1:]}." if line else ""
