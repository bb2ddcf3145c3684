"""What a failed claim would have to say, as short sentences under it."""

from cutaway.handbook.records import Folder, Paragraph
from cutaway.inquiry.questions.corrections import Correction
from cutaway.language.print_back import printed, printed_claim
from cutaway.language.syntax import And, ComesOnAt, Compare, Statement, When
from cutaway.quantities.which import StandardName
from cutaway.wording.asking import the
from cutaway.wording.citing import book_name
from cutaway.wording.figures import duration
from cutaway.wording.verdicts import listed

_BEFORE = {"is": "at", "above": "above", "below": "below", "at least": "at", "at most": "at"}


def correction_sentence(
    correction: Correction, statement: Statement, judged: tuple[StandardName, ...], folder: Folder
) -> str:
    """One correction: 'True on Mk 2 only.', 'On Mk 2 true at 3 lb/sq in.'

    statement: what the claim says as it stands. judged: all standards that it was put to.
    """
    words = _words(correction, statement)
    if correction.sort == "standards" or len(correction.standards) == len(judged):
        return f"True {words}."
    return f"On {listed(correction.standards)}, true {words}."


def corrected_text(correction: Correction) -> str:
    """The claim as it would then read, ready to paste."""
    return printed_claim(correction.claim)


def _words(correction: Correction, statement: Statement) -> str:
    claim = correction.claim
    match correction.sort:
        case "standards":
            words = claim.scope.on.words if claim.scope.on is not None else ""
            return f"on {words} only"
        case "time":
            return when_words(claim.scope.when)
        case "control":
            put = listed(tuple(f"{the(name)} at {position}" for name, position in correction.put))
            return f"{'only ' if correction.only else ''}with {put}"
        case "figure":
            return _figure(claim.statement, statement)


def when_words(when: When) -> str:
    """A time as a correction has it: 'within 50 s', 'if it takes 5 s to 9 s'."""
    if when.kind == "takes":
        return f"if it may take from {duration(when.first)} to {duration(when.second)}"
    return f"{when.kind} {duration(when.first)}"


def _figure(now: Statement, before: Statement) -> str:
    match now:
        case And(of=several) if isinstance(before, And):
            pairs = zip(several, before.of, strict=True)
            return next((_figure(one, other) for one, other in pairs if one != other), printed(now))
        case Compare(op=op, quantity=quantity):
            return f"{_BEFORE[op]} {quantity.text}"
        case ComesOnAt(quantity=quantity):
            return f"at {quantity.text}"
        case _:
            return f"as '{printed(now)}'"


def overtaken_sentence(
    said: str, old: Paragraph, new: Paragraph, standards: tuple[StandardName, ...], folder: Folder
) -> str:
    """That an amendment overtook a sentence: 'It was so until A.L. 1 (September 1938): …'."""
    dates = {(s.key, a.name): a.date for s in folder.sources for a in s.amendments}
    date = dates.get((new.source, new.amended_by), "")
    when = f"{new.amended_by} ({date})" if date else new.amended_by
    book = book_name(old.source, folder)
    return (
        f"Overtaken by {when} on {listed(standards)}: '{said}' stands in {book} {old.number}, altered by {new.number}."
    )
