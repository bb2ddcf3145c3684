"""Finding a part, and a port or control of it, by the words of the folder."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from cutaway.handbook.names import did_you_mean, fold
from cutaway.handbook.ports import Kinds
from cutaway.handbook.records import Part, PartName
from cutaway.parts.kind import Kind
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import Span


@dataclass(frozen=True, slots=True)
class Index:
    """The parts by name. left_out: names that were written but could not be used; nobody is told of them again."""

    parts: Mapping[str, tuple[Part, ...]]
    kinds: Kinds
    left_out: frozenset[str]

    @property
    def nothing(self) -> bool:
        """Whether the folder has no parts and none were left out: nothing is known of how the aircraft is built."""
        return not self.parts and not self.left_out

    def names(self) -> tuple[PartName, ...]:
        """Every part's name as first written."""
        return tuple(parts[0].name for parts in self.parts.values())

    def kind(self, part: Part) -> Kind:
        """The kind of a part that was read."""
        return self.kinds[part.kind]


@dataclass(frozen=True, slots=True)
class Found:
    """A part as it is on its several marks, and the port or control that was named with it ('' if none)."""

    name: PartName
    parts: tuple[Part, ...]
    inner: str
    inner_span: Span


def index_of(parts: Iterable[Part], kinds: Kinds, left_out: frozenset[str]) -> Index:
    """The parts by name in lower case, in the order of the files."""
    by_name: dict[str, tuple[Part, ...]] = {}
    for part in parts:
        by_name[fold(part.name)] = (*by_name.get(fold(part.name), ()), part)
    return Index(by_name, kinds, left_out)


def find(text: str, span: Span, index: Index, what: str) -> tuple[Found | None, Problems]:
    """The part that some words name, with or without `.port`. what: who asks, for the message ('the line').

    The longest name wins, since a name may itself hold a full stop ('No. 1 tank'). None without a problem where the
    part was left out before.
    """
    exact = index.parts.get(fold(text))
    if exact:
        return Found(exact[0].name, exact, "", Span(span.file, span.end, span.end)), ()
    for at in (i for i in range(len(text) - 1, 0, -1) if text[i] == "."):
        parts = index.parts.get(fold(text[:at]))
        if parts:
            return Found(parts[0].name, parts, " ".join(text[at + 1 :].split()), _after(text, span, at + 1)), ()
        if fold(text[:at]) in index.left_out:
            return None, ()
    if fold(text) in index.left_out:
        return None, ()
    name = text.partition(".")[0].strip()
    hint = did_you_mean(text, index.names()) if "." not in text else did_you_mean(name, index.names())
    return None, (Diagnostic("H310", span, f"{what} names '{name}', but there is no such part.", hint),)


def _after(text: str, span: Span, at: int) -> Span:
    if span.end - span.start != len(text):
        return span
    return Span(span.file, span.start + at, span.end)
