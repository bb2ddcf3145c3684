"""Standards (a mark with its mods) and the expressions that say to which of them a thing belongs.

An expression is a list of choices joined by `or`. A choice is a mark, a range of marks, a standard or an airframe by
name, narrowed by `with` and `without` a mod, and turned round by `not`:

    Mk 1 · Mk 2 to Mk 4 · Mk 2 with mod 40 · Mk 2 without mod 40 · not Mk 1 · Mk 1 or Mk 4 · with mod 40
"""

import re
from dataclasses import dataclass
from typing import NewType

from rapidfuzz import fuzz, process

from cutaway.problems.diagnostic import Diagnostic, Problems, has_error
from cutaway.problems.span import Span

StandardName = NewType("StandardName", str)


@dataclass(frozen=True, slots=True)
class Standard:
    """One build standard that is judged by itself: `Mk 2 with mod 40` is mark 'Mk 2' with mods ('mod 40',)."""

    name: StandardName
    mark: str
    mods: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Which:
    """A set of standards with the words that named it. words: '' where nothing was said, which means all."""

    words: str
    names: frozenset[StandardName]


def every(standards: tuple[Standard, ...]) -> Which:
    """All standards: what is meant where nothing was said."""
    return Which("", frozenset(standard.name for standard in standards))


def standards_of(marks: tuple[str, ...]) -> tuple[Standard, ...]:
    """The standards of a type that lists none: each mark without a mod."""
    return tuple(Standard(StandardName(mark), mark) for mark in marks)


def read_standard(
    text: str, span: Span, marks: tuple[str, ...], mods: tuple[str, ...]
) -> tuple[Standard | None, Problems]:
    """One line of the list of standards: 'Mk 2', 'Mk 2 with mod 12', 'Mk 2 with mod 12 and mod 13'."""
    reader = _Reader(text, span, marks, mods, ())
    mark = reader.name(marks, "mark")
    fitted: list[str] = []
    if mark and reader.word("with"):
        fitted = reader.mods()
    reader.end()
    if mark is None or has_error(reader.told):
        return None, reader.told
    # Mods in the type's own order, so that a standard has one name however it was written.
    own = tuple(mod for mod in mods if mod in fitted)
    name = StandardName(mark if not own else f"{mark} with {' and '.join(own)}")
    return Standard(name, mark, own), reader.told


def read_which(
    text: str, span: Span, marks: tuple[str, ...], mods: tuple[str, ...], standards: tuple[Standard, ...]
) -> tuple[Which | None, Problems]:
    """The standards that an `on:` expression names, out of those given.

    An airframe is given by the caller as one more standard, under its own name and with the mark and mods that it was
    built to. A mark means every standard of that mark, airframes among them.
    """
    reader = _Reader(text, span, marks, mods, standards)
    found = reader.choices()
    reader.end()
    if has_error(reader.told):
        return None, reader.told
    if not found:
        reader.tell("Q122", f"No standard of this type is '{text.strip()}'.", reader.known_standards())
    return Which(" ".join(text.split()), frozenset(found)), reader.told


class _Reader:
    """Reads one expression from left to right, keeping its place and what it has to tell."""

    def __init__(
        self,
        text: str,
        span: Span,
        marks: tuple[str, ...],
        mods: tuple[str, ...],
        standards: tuple[Standard, ...],
    ) -> None:
        self.text = text
        self.span = span
        self.marks = marks
        self.known_mods = mods
        self.standards = standards
        self.at = 0
        self.told: Problems = ()

    # --- the grammar

    def choices(self) -> set[StandardName]:
        found = self.choice()
        while not has_error(self.told) and self.word("or", "and", ","):
            found |= self.choice()
        return found

    def choice(self) -> set[StandardName]:
        if self.word("not"):
            return {standard.name for standard in self.standards} - self.choice()
        if self.word("("):
            found = self.choices()
            if not has_error(self.told) and not self.word(")"):
                self.tell("Q121", f"A closing bracket is missing in '{self.text.strip()}'.", "Write ) at its end.")
            return found
        found = self.named()
        while not has_error(self.told):
            if self.word("with"):
                wanted = self.mods()
                found = {s.name for s in self.standards if s.name in found and set(wanted) <= set(s.mods)}
            elif self.word("without"):
                barred = self.mods()
                found = {s.name for s in self.standards if s.name in found and not set(barred) & set(s.mods)}
            else:
                break
        return found

    def named(self) -> set[StandardName]:
        """A mark, a range of marks, a name; or all, where `with` follows at once or `all` is written."""
        if self.word("all marks", "every mark", "all") or self.follows("with", "without"):
            return {standard.name for standard in self.standards}
        own_names = tuple(s.name for s in self.standards if s.name not in self.marks and " with " not in s.name)
        name = self.name((*self.marks, *own_names), "mark or airframe")
        if name is None:
            return set()
        if name not in self.marks:
            return {StandardName(name)}
        last = self.name(self.marks, "mark") if self.word("to") else name
        return self.from_to(name, last) if last else set()

    def from_to(self, first: str, last: str) -> set[StandardName]:
        low, high = self.marks.index(first), self.marks.index(last)
        if low > high:
            self.tell("Q123", f"The range '{first} to {last}' runs backwards.", f"Write {last} to {first}.")
        wanted = self.marks[low : high + 1]
        return {standard.name for standard in self.standards if standard.mark in wanted}

    def mods(self) -> list[str]:
        first = self.name(self.known_mods, "mod")
        found = [first] if first else []
        while found and self.follows_mod():
            self.word("and")
            found.append(self.name(self.known_mods, "mod") or "")
        return found

    # --- words

    def word(self, *words: str) -> bool:
        """Whether one of these words comes next; if so it is passed."""
        found = self._match(*words)
        if found:
            self.at = found.end()
        return found is not None

    def follows(self, *words: str) -> bool:
        return self._match(*words) is not None

    def follows_mod(self) -> bool:
        here = self.at
        joined = self.word("and")
        known = joined and self._longest(self.known_mods) is not None
        self.at = here
        return known

    def _match(self, *words: str) -> re.Match[str] | None:
        patterns = (re.escape(word) + (r"\b" if word[-1].isalpha() else "") for word in words)
        return re.compile(rf"\s*(?:{'|'.join(patterns)})", re.IGNORECASE).match(self.text, self.at)

    def name(self, known: tuple[str, ...], sort: str) -> str | None:
        """The longest known name that comes next; where none does, that is told."""
        found = self._longest(known)
        if found:
            self.at = found[1]
            return found[0]
        self._unknown(known, sort)
        return None

    def _longest(self, known: tuple[str, ...]) -> tuple[str, int] | None:
        ends = ((name, m.end()) for name in known if (m := _spelled(name).match(self.text, self.at)))
        return max(ends, key=lambda pair: pair[1], default=None)

    def _unknown(self, known: tuple[str, ...], sort: str) -> None:
        start = self.at + len(self.text[self.at :]) - len(self.text[self.at :].lstrip())
        stop = re.compile(r"\s+(?:or|and|to|with|without)\b|\s*[,()]|\s*$", re.IGNORECASE).search(self.text, start)
        end = stop.start() if stop else len(self.text)
        words = self.text[start:end]
        bare = re.sub(r"^mods?\.?\s*", "", words, flags=re.IGNORECASE)
        near = process.extractOne(words, known, scorer=fuzz.ratio, processor=str.lower, score_cutoff=60)
        if sort == "mod" and bare != words and bare in known:
            hint = f"type.yaml names it '{bare}'. Write its name there in full: mods: {{{words}: {{says: …}}}}"
        elif same := next((name for name in known if _arabic(name) == _arabic(words)), None):
            hint = f"Did you mean {same}?"
        elif len(alike := [name for name in known if _letters(name) == _letters(words)]) > 1:
            # Only the number is another: any of them may be meant.
            hint = f"There is {', '.join(alike[:-1])} and {alike[-1]}."
        elif near:
            hint = f"Did you mean {near[0]}?"
        elif known:
            hint = f"Known here: {', '.join(known)}."
        else:
            hint = f"type.yaml names no {sort}."
        said = f"There is no {sort} '{words}'." if words else f"A {sort} is missing in '{self.text.strip()}'."
        self.tell("Q120" if words else "Q121", said, hint, start, end)
        self.at = len(self.text)

    def end(self) -> None:
        """Tells of anything that was not read."""
        rest = self.text[self.at :]
        if rest.strip() and not has_error(self.told):
            start = self.at + len(rest) - len(rest.lstrip())
            said = f"'{rest.strip()}' is not understood in '{self.text.strip()}'."
            self.tell("Q121", said, "Write for instance Mk 1, Mk 2 to Mk 4, Mk 2 with mod 40, not Mk 1.", start)

    def tell(self, code: str, message: str, hint: str, start: int = 0, end: int | None = None) -> None:
        end = len(self.text) if end is None else end
        place = self.span
        if self.span.end - self.span.start == len(self.text) and start < end:
            place = Span(self.span.file, self.span.start + start, self.span.start + end)
        self.told = (*self.told, Diagnostic(code, place, message, hint))

    def known_standards(self) -> str:
        return f"The standards are {', '.join(standard.name for standard in self.standards)}."


def _spelled(name: str) -> re.Pattern[str]:
    """A name without regard to case, blanks and stops; 'Mark 2' and 'Mk. 2' are 'Mk 2'."""
    parts = [re.escape(part) for part in re.findall(r"[^\W\d_]+|\d+|[^\s.]", name)]
    loose = r"[\s.]*".join("(?:mk|mark)" if part.lower() == "mk" else part for part in parts)
    return re.compile(rf"\s*{loose}(?![\w])", re.IGNORECASE)


_ROMAN = re.compile(r"\b(?=[IVX])(X{0,3})(IX|IV|V?I{0,3})\b")
_ONES = {"": 0, "I": 1, "II": 2, "III": 3, "IV": 4, "V": 5, "VI": 6, "VII": 7, "VIII": 8, "IX": 9}


def _letters(name: str) -> str:
    """A name without its figures, as it is compared."""
    return re.sub(r"[\d\s]+", "", name).casefold()


def _arabic(name: str) -> str:
    """A name with its Roman figures as Arabic ones: 'Mk II' and 'Mark 2' are one mark, written in two ways."""
    plain = _ROMAN.sub(lambda found: str(10 * len(found[1]) + _ONES[found[2]]), name)
    return re.sub(r"\bmark\b", "mk", re.sub(r"[\s.]+", " ", plain).strip().lower())
