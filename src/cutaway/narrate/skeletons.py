"""Skeletons from a paragraph: a part with what the paragraph prints of it, and claims about how it is built."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from cutaway.handbook.records import Paragraph
from cutaway.handbook.search import ParagraphIndex
from cutaway.handbook.sentences import cut
from cutaway.handbook.stems import EMPTY, WORD
from cutaway.narrate.agreeing import agrees, asserted, figures_of
from cutaway.parts.kind import Kind, Want
from cutaway.parts.library import KINDS
from cutaway.problems.counting import plural
from cutaway.quantities.quantity import Quantity

# So much of a kind's name must stand in the paragraph. A choice of ours.
_ENOUGH = 0.65
_MARKED = re.compile(r"\bmarked\s+([A-Z][A-Z0-9 /.\-]*[A-Z0-9])\b")
_PRONOUN = re.compile(r"(?:It|This|That|They|These|Each|Both)\b")
_DRIVEN = re.compile(r"\b(?:is |are )?driven by the (\w+(?: \w+)?)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class PartSkeleton:
    """A part as a paragraph lets one begin it. wants: what the kind needs besides and no paragraph gave."""

    name: str
    kind: str
    paragraph: Paragraph
    values: tuple[tuple[str, Quantity], ...]
    marked: str
    driven_by: str
    wants: tuple[str, ...]

    def lines(self) -> tuple[str, ...]:
        """The entry as it stands in a system's file, indented for `parts:`."""
        p = self.paragraph
        body = [f"kind: {self.kind}"]
        body += [f'on: "{p.on.words}"'] if p.on.words else []
        body += [f"driven by: {self.driven_by}"] if self.driven_by else []
        body += [f"{name}: {figure_text(quantity)}" for name, quantity in self.values]
        body += [f'marked: "{self.marked}"'] if self.marked else []
        body.append(f"cite: {p.source} {p.number}")
        return (f"  {self.name}:", *(f"    {line}" for line in body))


def figure_text(quantity: Quantity) -> str:
    """A figure as a type folder writes it."""
    numbers = f"{quantity.low:g} to {quantity.high:g}" if quantity.is_range else f"{quantity.value:g}"
    return f"{numbers} {quantity.unit.name}"


def part_skeleton(paragraph: Paragraph, index: ParagraphIndex) -> PartSkeleton | None:
    """The part that a paragraph is about, None where its title is of no kind of part or of two alike."""
    title = _part_name(paragraph.title)
    kind = _kind(paragraph, index) if title else None
    if kind is None:
        return None
    # 'Petrol tanks' is about tanks, and each of them is a tank.
    first, last, one = *title.rpartition(" ")[::2], kind.name.rpartition(" ")[2]
    name = f"{first} {one}".strip() if index.stems.one(last) == index.stems.one(one) else title
    values = tuple(_values(kind, paragraph))
    marked = _MARKED.search(paragraph.text)
    driven = _DRIVEN.search(paragraph.text) if any(c.name == "driven by" for c in kind.couplings) else None
    driven_by = driven[1].split()[0].lower() if driven else ""
    given = {value for value, _ in values} | ({"driven by"} if driven_by else set())
    wants = [w.name for w in kind.wants if not w.default and w.name not in given]
    wants += [c.name for c in kind.couplings if c.required and c.name not in given]
    return PartSkeleton(name, kind.name, paragraph, values, marked[1] if marked else "", driven_by, tuple(wants))


def claims_about(text: str, part: PartSkeleton, on: str) -> Iterator[str]:
    """The claims about how a part is built that a sentence seems to make. on: its standards, '' for all."""
    scope = f"on {on}: " if on else ""
    verb = "are" if part.name.endswith("s") else "is"
    for _, quantity in part.values:
        if any(agrees(said, quantity) for said in asserted(text)):
            yield f"{scope}{part.name} {verb} set at {figure_text(quantity)}"
    if part.marked and re.search(rf"\b{re.escape(part.marked)}\b", text):
        yield f"{scope}{part.name} {verb} marked {part.marked}"
    spoken_of = part.name.rpartition(" ")[2] in WORD.findall(text.lower())
    if on and part.paragraph.on.words and spoken_of and not _is_denied(text):
        yield f"{scope}{part.name} {verb} fitted"


def _is_denied(text: str) -> bool:
    return re.search(r"\b(?:no|not|none|gone|without|never)\b", text, re.IGNORECASE) is not None


def _part_name(title: str) -> str:
    """'Suction relief valve' as a part is named; '' for a title that is no thing's name."""
    first = re.split(r",| and ", title)[0]
    words = WORD.findall(first.lower())
    is_name = 0 < len(words) <= 4 and "".join(words).isalpha() and not set(words) & EMPTY
    return " ".join(words) if is_name else ""


def _kind(paragraph: Paragraph, index: ParagraphIndex) -> Kind | None:
    title = set(index.stems.of(re.split(r",| and ", paragraph.title)[0]))
    first = next(iter(cut(paragraph.text)), None)
    opening = paragraph.text[first.start : first.end] if first else ""
    there = title | set(index.stems.of(paragraph.text))
    opens = WORD.findall(paragraph.title.lower())[0]
    doing = opens if opens.endswith("ing") else ""
    head = index.stems.of(re.split(r",| and ", paragraph.title)[0])[-1:]
    scored: list[tuple[int, bool, float, int, Kind]] = []
    for kind in KINDS.values():
        words = index.stems.of(kind.name)
        if not set(words) & title or not (words[-1] in head or words[-1] in index.stems.of(opening)):
            continue
        if head and head[0] not in words:
            continue
        # 'General' has the stem of 'generator' and is about none.
        if not _named_alike(kind.name, paragraph.title):
            continue
        # 'Changing tanks' is something to do, 'Charging lamp' a thing.
        if doing and index.stems.one(doing) not in words:
            continue
        found = sum(word in there or bool(index.ring_of_stem(word) & there) for word in words)
        if found / len(words) >= _ENOUGH:
            # A figure that the kind has a place for tells more than a word: many a lamp's 'filament is whole'.
            values = any(True for _ in _values(kind, paragraph))
            scored.append((len(set(words) & title), values, found / len(words), found, kind))
    scored.sort(key=lambda one: one[:4], reverse=True)
    if len(scored) > 1 and scored[0][:4] == scored[1][:4]:
        return None
    return scored[0][4] if scored else None


def _named_alike(kind: str, title: str) -> bool:
    """Whether a title has a word of a kind's name, in the singular or the plural."""
    words = set(WORD.findall(title.lower()))
    return any(word in words or plural(word) in words for word in WORD.findall(kind.lower()))


def _of_another(figure: Quantity, kind: Kind, paragraph: Paragraph) -> bool:
    """Whether a figure stands in sentences that name other sorts of things and never the part."""
    own = {word for name in (kind.name, _part_name(paragraph.title)) for word in WORD.findall(name)[-1:]}
    heads = {WORD.findall(one.name.lower())[-1] for one in KINDS.values()}
    of_it = True  # what 'it' means in the next sentence; in the first it is the heading's thing
    found: list[bool] = []
    for stretch in cut(paragraph.text):
        text = paragraph.text[stretch.start : stretch.end]
        words = set(WORD.findall(text.lower()))
        named = {head for head in heads | own if head in words or plural(head) in words}
        pronoun = _PRONOUN.match(text) is not None
        of_it = bool(named & own) or (of_it if pronoun or not named else False)
        if figure.text in text:
            found.append(not of_it)
    return bool(found) and all(found)


def _values(kind: Kind, paragraph: Paragraph) -> Iterator[tuple[str, Quantity]]:
    """The quantities of the kind for which the paragraph prints the one figure of that dimension."""
    figures = figures_of(paragraph)
    for dimension in dict.fromkeys(want.dimension for want in kind.wants):
        printed = list(dict.fromkeys(q for q in figures if q.dimension == dimension))
        want = _meant([one for one in kind.wants if one.dimension == dimension])
        meant = len(printed) == 1 and want is not None and _is_meant(want, paragraph)
        if meant and want is not None and not _of_another(printed[0], kind, paragraph):
            yield want.name, printed[0]


def _is_meant(want: Want, paragraph: Paragraph) -> bool:
    """Whether the paragraph has a word of the quantity's name, where it has to: lengths and times stand everywhere."""
    if want.dimension not in ("length", "time", "temperature", "mass") or not want.default:
        return True
    return bool(set(WORD.findall(want.name)) & set(WORD.findall(paragraph.text.lower())))


def _meant(wants: list[Want]) -> Want | None:
    """The one quantity of a dimension that a lone figure must be of: the only one, or the one without a default."""
    needed = [one for one in wants if not one.default]
    return wants[0] if len(wants) == 1 else needed[0] if len(needed) == 1 else None
