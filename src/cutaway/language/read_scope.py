"""From the parse tree of a scope to its record: where, with what, after what, and when."""

from typing import Literal, TypeVar

from lark import Token

from cutaway.language.name_index import key
from cutaway.language.read_actions import read_actions
from cutaway.language.read_given import read_given
from cutaway.language.said import Said
from cutaway.language.standards import standards_named
from cutaway.language.syntax import Action, Condition, FailureChoice, Held, Scope, When, WhenKind
from cutaway.language.trees import Branch, branch, first_token, name_in, span_of
from cutaway.problems.span import Span
from cutaway.quantities.si import low_high_si
from cutaway.quantities.which import Which

T = TypeVar("T")

_POINTS: dict[str, WhenKind] = {"within": "within", "throughout": "throughout", "at": "at"}


def empty_scope(span: Span) -> Scope:
    """The scope of a claim that says none: every standard, no situation, at rest."""
    return Scope(None, "", (), (), (), (), When(), "", span)


def read_scope(tree: Branch, said: Said) -> Scope:
    """The scope that a tree of items says; what was wrong in it is noted and left out."""
    reader = _ScopeReader(said)
    for item in tree.children:
        if not isinstance(item, Token):
            reader.read(item)
    return reader.scope(span_of(tree, said.file))


class _ScopeReader:
    """Takes the items of one scope in their order, and knows what was said already."""

    def __init__(self, said: Said) -> None:
        self._said = said
        self._on: Which | None = None
        self._situation = ""
        self._failures: list[FailureChoice] = []
        self._conditions: list[Condition] = []
        self._held: list[Held] = []
        self._actions: list[Action] = []
        self._when: When | None = None
        self._modality: Literal["", "always", "sometimes"] = ""
        self._taken: set[str] = set()

    def scope(self, span: Span) -> Scope:
        """What was read."""
        return Scope(
            self._on,
            self._situation,
            tuple(self._failures),
            tuple(self._conditions),
            tuple(self._held),
            tuple(self._actions),
            self._when or When(),
            self._modality,
            span,
        )

    def read(self, item: Branch) -> None:
        """Reads one item."""
        match item.data:
            case "on":
                if self._first(item, "on", "standards"):
                    self._on = standards_named(first_token(item, "WHICH"), self._said)
            case "situation":
                if self._first(item, "in", "a situation"):
                    self._read_situation(name_in(item))
            case "after":
                if self._first(item, "after", "what is done"):
                    self._actions.extend(read_actions(branch(item), self._said))
            case "with":
                self._read_given(branch(item))
            case "always" | "sometimes" as modality:
                if self._first(item, "modality", "'always' or 'sometimes'"):
                    self._modality = "always" if modality == "always" else "sometimes"
            case "never" | "takes" | "within" | "throughout" | "at":
                if self._first(item, "when", "a time"):
                    self._when = self._read_when(item)
            case _:
                self._read_given(item)

    def _first(self, item: Branch, slot: str, what: str) -> bool:
        if slot in self._taken:
            place = span_of(item, self._said.file)
            self._said.note(
                "L103", place, f"The claim says {what} twice.", "Write one claim for each, on lines of their own."
            )
            return False
        self._taken.add(slot)
        return True

    def _read_situation(self, name: Token) -> None:
        found = self._said.words.situations.get(key(name))
        if found is None:
            self._said.no_situation(name)
        self._situation = found or ""

    def _read_given(self, item: Branch) -> None:
        for one in read_given(item, self._said):
            match one:
                case FailureChoice():
                    self._failures.append(one)
                case Condition():
                    self._conditions.append(one)
                case Held():
                    self._held.append(one)

    def _read_when(self, item: Branch) -> When | None:
        if item.data == "never":
            return When("never")
        amount = first_token(item, "QUANTITY", "NUMBER")
        if item.data == "takes":
            return self._read_span_of_time(amount)
        seconds = self._said.seconds(amount)
        return None if seconds is None else When(_POINTS[item.data], seconds)

    def _read_span_of_time(self, amount: Token) -> When | None:
        quantity = self._said.quantity(amount, ("time",))
        if quantity is None:
            return None
        if not quantity.is_range or quantity.low < 0:
            hint = "Write the least and the most, such as takes 30 to 50 s, or within 50 s."
            self._said.note("L107", amount, f"'takes {amount}' leaves no room for the figure to be rounded.", hint)
            return None
        return When("takes", *low_high_si(quantity))
