"""What a parsed text says, looked up in the folder's words: the thing that is meant, or a note of what is wrong."""

from collections.abc import Iterable

from lark import Token

from cutaway.handbook.names import listed, missing_situation, nearest
from cutaway.language.name_index import key
from cutaway.language.syntax import ControlRef
from cutaway.language.words import Collection, ControlWords, PartWords, ReadingWords, Words
from cutaway.problems.diagnostic import Diagnostic, Problems
from cutaway.problems.span import Span, TextFile
from cutaway.quantities.quantity import Dimension, Quantity, Unit
from cutaway.quantities.reading import read_quantity
from cutaway.quantities.si import to_si
from cutaway.quantities.units import unit_named

# The longest time that a claim can speak of, s: nothing on an aeroplane lasts longer, and a run has an end.
LONGEST = 48 * 3600.0


class Said:
    """One text while it is read: its file, the folder's words, and what was found wrong so far."""

    def __init__(self, file: TextFile, words: Words) -> None:
        self.file = file
        self.words = words
        self._problems: list[Diagnostic] = []
        self._lost = False

    @property
    def whole(self) -> bool:
        """Whether nothing was found wrong and nothing is missing for what was found wrong elsewhere.

        A claim that speaks of what was left out is left out itself: without it, it would be another claim.
        """
        return not self._problems and not self._lost

    @property
    def problems(self) -> Problems:
        """What was found wrong so far."""
        return tuple(self._problems)

    def note(self, code: str, at: Token | Span, message: str, hint: str = "") -> None:
        """Adds a problem at a token or a place, unless that place has one already."""
        span = at if isinstance(at, Span) else self.span(at)
        if not any(p.span == span for p in self._problems):
            self._problems.append(Diagnostic(code, span, message, hint))

    def pass_on(self, problems: Problems) -> None:
        """Adds problems that another reader found."""
        self._problems.extend(p for p in problems if p not in self._problems)

    def span(self, first: Token, last: Token | None = None) -> Span:
        """The place of a token, or from one to another."""
        end = (last or first).end_pos
        return Span(self.file, first.start_pos or 0, end or 0)

    # --- names

    def left_out(self, token: Token) -> bool:
        """Whether the name is of something that was left out elsewhere, about which enough was said there."""
        lost = key(token) in self.words.left_out
        self._lost = self._lost or lost
        return lost

    def unknown(self, token: Token, what: str, choices: Iterable[str], code: str = "L201") -> None:
        """Notes that there is nothing of this name, with the nearest that there is."""
        if not self.left_out(token):
            self.note(code, token, f"There is no {what} called '{token}'.", _instead(str(token), list(choices)))

    def no_situation(self, token: Token) -> None:
        """Notes that there is no situation of this name, with the nearest that there is, or how one is written."""
        if not self.left_out(token):
            known = list(self.words.situations.values())
            hint = _instead(str(token), known) if known else missing_situation(str(token))
            self.note("L203", token, f"There is no situation called '{token}'.", hint)

    def part(self, token: Token) -> PartWords | None:
        """The part of this name."""
        found = self.words.parts.get(key(token))
        if found is None:
            self.unknown(token, "part", (p.name for p in self.words.parts.values()))
        return found

    def parts(self, token: Token) -> tuple[PartWords, ...] | None:
        """The part of this name, or the parts of this group or plural."""
        if key(token) in self.words.parts:
            return (self.words.parts[key(token)],)
        many = self.words.collections.get(key(token))
        if many is None:
            names = [p.name for p in self.words.parts.values()]
            self.unknown(token, "part or group", [*names, *(c.name for c in self.words.collections.values())])
            return None
        return self.members(many, token)

    def members(self, many: Collection, token: Token) -> tuple[PartWords, ...] | None:
        """The parts of a group or plural, which must have some."""
        found = tuple(self.words.parts[key(m)] for m in many.members if key(m) in self.words.parts)
        if not found and not self.left_out(token):
            self.note("L202", token, f"This aircraft has no {many.name}.", "Name parts that it has.")
        return found or None

    def control(self, token: Token) -> ControlWords | None:
        """The control of this name; a part with one control is that control's name too."""
        found = self.words.controls.get(key(token))
        if found is not None:
            return found
        part = self.words.parts.get(key(token))
        if part is None:
            self.unknown(token, "control", (name_of(c.ref) for c in self.words.controls.values()))
        elif part.controls:
            names = [name_of(c.ref) for c in part.controls]
            self.note("L207", token, f"'{token}' has several controls.", f"Write {listed(names, 'or')}.")
        else:
            self.note("L208", token, f"Nothing of '{token}' can be moved.", self._controls_there_are())
        return None

    def _controls_there_are(self) -> str:
        names = list(dict.fromkeys(name_of(c.ref) for c in self.words.controls.values()))
        if not names:
            return "No part of this folder can be moved. A cock, a switch or a lever could."
        return f"What can be moved is {', '.join(names[:8])}{' …' if len(names) > 8 else '.'}"

    def position(self, control: ControlWords, token: Token) -> str | None:
        """The control's position of this name, as it is spelled."""
        found = next((p for p in control.positions if key(p) == key(token)), None)
        if found is None and not self.left_out(token):
            name = name_of(control.ref)
            self.note("L205", token, f"{name} cannot be put to '{token}'.", choose(str(token), control.positions))
        return found

    # --- figures

    def quantity(
        self,
        token: Token,
        dimensions: Iterable[Dimension] = (),
        units: tuple[str, ...] = (),
        usual: Quantity | None = None,
    ) -> Quantity | None:
        """The quantity that a token spells, in one of the dimensions; with none given, any that has a unit.

        units, usual: in what such a thing is measured as a rule, and how much of it there is, for hints.
        """
        span, wanted = self.span(token), tuple(dimensions)
        text = self.file.text[span.start : span.end]
        first: Problems = ()
        for dimension in wanted or (None,):
            quantity, problems = read_quantity(text, span, dimension, usual or self._unit(dimension, units))
            if quantity is not None and not problems:
                if not wanted and quantity.dimension == "number":
                    self.note("L106", token, f"'{text}' has no unit.", f"Write the unit too, such as {text} lb/sq in.")
                    return None
                return quantity
            first = first or problems
        self.pass_on(first)
        return None

    def _unit(self, dimension: Dimension | None, units: tuple[str, ...]) -> Unit | None:
        """The unit of this dimension that the folder shows, or else one of these."""
        house = [name for of, name in self.words.folder.type.house_units if of == dimension]
        return next((unit_named(name) for name in (*house, *units) if unit_named(name).dimension == dimension), None)

    def seconds(self, token: Token) -> float | None:
        """A single time, s."""
        quantity = self.quantity(token, ("time",))
        if quantity is not None and quantity.is_range:
            self.note("L107", token, f"'{token}' is a range, and one time is wanted.", "Write one time, such as 40 s.")
            return None
        if quantity is not None and quantity.value < 0:
            self.note("L107", token, f"'{token}' is before the beginning.", "Write a time of 0 s or more.")
            return None
        if quantity is not None and to_si(quantity) > LONGEST:
            self.note("L107", token, f"'{token}' is longer than anything is run.", "Write a time of up to 48 hours.")
            return None
        return None if quantity is None else to_si(quantity)

    def level(self, control: ControlWords, token: Token) -> float | None:
        """How far a ranged control is moved, 0 to 1."""
        name = name_of(control.ref)
        if not control.ranged:
            self.note(
                "L205",
                token,
                f"{name} cannot be put to '{token}'.",
                f"It can be put to {listed(control.positions, 'or')}.",
            )
            return None
        quantity = self.quantity(token, ("fraction",))
        if quantity is None:
            return None
        if quantity.is_range or not 0.0 <= quantity.value * quantity.unit.size <= 1.0:
            self.note("L107", token, f"{name} cannot be put to '{token}'.", "Write one figure from 0 % to 100 %.")
            return None
        return to_si(quantity)


def _instead(word: str, choices: list[str]) -> str:
    """A hint for a name that is not known; a long list of what there is would hide the message."""
    near = nearest(word, choices)
    if near:
        return f"Did you mean {near}?"
    few = list(dict.fromkeys(choices))
    return f"There is {listed(few)}." if 0 < len(few) <= 8 else "Write a name that the folder has, or add it there."


def name_of(ref: ControlRef) -> str:
    """A control as a sentence names it."""
    return f"{ref.part} {ref.control}" if ref.control else str(ref.part)


def reading_name(reading: ReadingWords) -> str:
    """A reading as a sentence names it."""
    ref = reading.ref
    return f"{ref.part}.{ref.port}" if ref.port else f"{ref.part} {ref.reading}"


def choose(word: str, choices: Iterable[str]) -> str:
    """A hint that offers what can be written, the nearest first."""
    known = list(dict.fromkeys(choices))
    near = nearest(word, known)
    if not known:
        return ""
    can = f"It can be {listed(known, 'or')}."
    return f"Did you mean {near}? {can}" if near else can
