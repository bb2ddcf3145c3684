"""From the parse tree of a statement to its record: how clauses are joined, and who each is about."""

from lark import Token

from cutaway.language.name_index import key
from cutaway.language.predicates import is_negated, reading_of
from cutaway.language.read_built import BUILT
from cutaway.language.read_doing import DOING
from cutaway.language.read_scope import read_scope
from cutaway.language.said import Said
from cutaway.language.subjects import Subject, Subjects, join, read_subjects
from cutaway.language.syntax import AgainstScope, And, Built, Earlier, If, Not, Or, Statement
from cutaway.language.trees import Branch, branch, branches, first_token, name_in, span_of
from cutaway.problems.counting import plural
from cutaway.problems.span import Span

_AGAINST = ("is_higher", "is_lower", "is_same")


def read_statement(tree: Branch, said: Said) -> Statement | None:
    """The statement that a tree says; None, with a note, if part of it cannot be understood."""
    return _StatementReader(said).read(tree)


class _StatementReader:
    """Reads the clauses of one statement in order, and knows who the last one was about ('… and has positions …')."""

    def __init__(self, said: Said) -> None:
        self._said = said
        self._last: Subjects | None = None

    def read(self, tree: Branch) -> Statement | None:
        """Any statement."""
        span = span_of(tree, self._said.file)
        match tree.data:
            case "in_brackets":
                return self.read(branch(tree))
            case "not_":
                of = self.read(branch(tree))
                return None if of is None else Not(of, span)
            case "and_" | "or_":
                return self._joined(tree, span)
            case "before":
                first, second = self.read(branch(tree, 0)), self.read(branch(tree, 1))
                return None if first is None or second is None else Earlier(first, second, span)
            case "if_" | "only_if" | "exactly_when":
                return self._if(tree, span)
            case "clause":
                self._last = read_subjects(branch(tree), self._said)
                return self._predicated(branch(tree, 1), span)
            case "bare_clause":
                return self._bare(tree, span)
            case _:
                return self._count(tree, span)

    def _joined(self, tree: Branch, span: Span) -> Statement | None:
        found = [self.read(child) for child in branches(tree)]
        made = tuple(one for one in found if one is not None)
        if len(made) < len(found):
            return None
        return And(made, span) if tree.data == "and_" else Or(made, span)

    def _if(self, tree: Branch, span: Span) -> Statement | None:
        then, condition = self.read(branch(tree, 0)), self.read(branch(tree, 1))
        if then is None or condition is None:
            return None
        match tree.data:
            case "only_if":
                return If(then, condition, "only if", span)
            case "exactly_when":
                return If(then, condition, "exactly when", span)
            case _:
                return If(then, condition, "if", span)

    def _bare(self, tree: Branch, span: Span) -> Statement | None:
        if self._last is None:
            start = Span(span.file, span.start, span.start + 1)
            if not self._said.problems:
                self._said.note("L109", start, "It is not said what this is about.", "Begin with the name of a part.")
            return None
        return self._predicated(branch(tree), span)

    def _predicated(self, predicate: Branch, span: Span) -> Statement | None:
        if self._last is None:
            return None
        subjects, said = self._last, self._said
        if predicate.data in _AGAINST:
            return self._against(predicate, subjects, span)
        if predicate.data in BUILT:
            built = BUILT[predicate.data]
            return join(subjects, lambda subject: built(subject, predicate, said, span), span)
        doing = DOING[predicate.data]
        return join(subjects, lambda subject: doing(subject, predicate, said, span), span)

    def _against(self, predicate: Branch, subjects: Subjects, span: Span) -> Statement | None:
        before = len(self._said.problems)
        other = read_scope(branch(predicate, 1), self._said)
        if len(self._said.problems) > before:
            return None
        negated = is_negated(predicate)

        def one(subject: Subject) -> Statement | None:
            reading = reading_of(subject, self._said)
            if reading is None:
                return None
            made: Statement
            match predicate.data:
                case "is_higher":
                    made = AgainstScope(reading.ref, "higher", other, span)
                case "is_lower":
                    made = AgainstScope(reading.ref, "lower", other, span)
                case _:
                    made = AgainstScope(reading.ref, "same", other, span)
            return Not(made, span) if negated else made

        return join(subjects, one, span)

    # --- how many there are

    def _count(self, tree: Branch, span: Span) -> Statement | None:
        """'there are 2 tanks', 'there is no hand pump', 'there is a hand pump'."""
        self._last = None
        said, name = self._said, name_in(tree)
        part = said.words.parts.get(key(name))
        number: int | None = 0 if tree.data == "there_is_no" else 1
        if tree.data == "there_are":
            number = _whole(first_token(tree, "NUMBER"))
        if number is None:
            said.note(
                "L108", first_token(tree, "NUMBER"), "Parts are counted in whole numbers.", "Write a whole number."
            )
            return None
        many = said.words.collections.get(key(name)) or said.words.collections.get(key(plural(str(name))))
        if part is not None and (many is None or key(many.name) != key(name)):
            fitted = Built("fitted", part.name, (), 0, None, "", number == 0, span)
            if number > 1:
                said.note("L217", name, f"'{name}' is one part.", f"Write {part.name} is fitted.")
                return None
            return fitted
        if many is None:
            names = [c.name for c in said.words.collections.values() if c.members]
            said.unknown(name, "group or kind", [*names, *(p.name for p in said.words.parts.values())])
            return None
        if tree.data == "there_is":
            hint = f"Write their number, such as there are {max(2, len(many.members))} {many.name}."
            said.note("L217", name, f"It is not said how many {many.name} there are.", hint)
            return None
        return Built("count", many.counted, tuple(many.members), number, None, "", False, span)


def _whole(number: Token) -> int | None:
    try:
        return int(number)
    except ValueError:
        return None
