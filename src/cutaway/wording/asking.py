"""What a claim asks, as parts of a sentence: the statement, the scope before it, the actions after it.

The statement keeps the author's own words; only the articles that speech wants are put in.
"""

import re

from cutaway.handbook.records import Folder
from cutaway.language.syntax import Action, Claim, Condition, FailureChoice, Held, Move, Scope, Wait
from cutaway.quantities.si import figure
from cutaway.wording.figures import duration

# Words after which a name opens a clause or is acted on, and wants its article.
_OPENERS = ("and", "or", "if", "when", "before", "not", "on", "by", "feeds", "works")
_BEFORE_NAME = "(?:^|" + "|".join(rf"(?<=\b{word} )" for word in _OPENERS) + r"|(?<=\())"


def the(name: str) -> str:
    """A name with its article: 'the fuel lamp'; a port or control is named after its part, without the stop.

    >>> the("fuel lamp"), the("carburettor.inlet"), the("the flaps")
    ('the fuel lamp', 'the carburettor inlet', 'the flaps')
    """
    words = " ".join(name.replace(".", " ").split())
    return words if words.lower().startswith("the ") else f"the {words}"


# How a thing stands, as the end of a name: 'wheels down'.
_STANDS = frozenset(("up", "down", "open", "closed", "shut", "locked"))


def are(name: str) -> str:
    """'is' or 'are', by the look of the name's last word that does not say how a thing stands.

    >>> are("flaps"), are("instrument bus"), are("fuel lamp"), are("wheels locked down")
    ('are', 'is', 'is', 'are')
    """
    words = [word for word in name.lower().split() if word not in _STANDS] or name.lower().split()
    last = words[-1] if words else ""
    return "are" if last.endswith("s") and not last.endswith(("ss", "us", "is", "as")) else "is"


def statement_words(claim: Claim, folder: Folder) -> str:
    """The claim's statement in the author's words, with articles before the names that open a clause."""
    words = claim.statement.span.words
    names = sorted({*(p.name for p in folder.parts), *(g.name for g in folder.groups)}, key=len, reverse=True)
    if not names:
        return words
    known = "|".join(re.escape(name) for name in names)
    spoken = re.sub(rf"{_BEFORE_NAME}({known})(?![\w-])", r"the \1", words, flags=re.IGNORECASE)
    return re.sub(r"(?<=\w)\.(?=[a-z])", " ", spoken)


def scope_words(scope: Scope) -> str:
    """Where the claim is to be true, without the actions: 'in cruising, with the engine pump failed (seized)'."""
    words = [situation_words(scope.situation)] if scope.situation else []
    words.extend(_failed(choice) for choice in scope.failures)
    words.extend(_condition(condition) for condition in scope.conditions)
    words.extend(_held(held) for held in scope.held)
    return ", ".join(words)


def situation_words(situation: str) -> str:
    """A situation as part of a sentence, by the look of its first word.

    >>> situation_words("running up"), situation_words("parked"), situation_words("approach")
    ('when running up', 'when parked', 'in approach')
    """
    first = situation.split()[0].lower()
    return f"when {situation}" if first.endswith(("ing", "ed")) else f"in {situation}"


def action_words(actions: tuple[Action, ...]) -> str:
    """The actions in order: 'the tank selector is put to off, then 10 s pass'."""
    out: list[str] = []
    at = 0
    while at < len(actions):
        action = actions[at]
        inner = actions[at + 1 : at + 1 + (action.through if isinstance(action, Move) else 0)]
        during = f" and held there while {action_words(inner)}" if inner else ""
        out.append(_action(action) + during)
        at += 1 + len(inner)
    return ", then ".join(out)


def _failed(choice: FailureChoice) -> str:
    names = [f"{the(option.part)} failed ({option.failure})" for option in choice.options]
    return f"with {names[0]}" if len(names) == 1 else f"with any one of these: {', or '.join(names)}"


def _condition(condition: Condition) -> str:
    what = the(condition.part) if condition.part else condition.name
    return f"with {what} at {condition.quantity.text}"


def _held(held: Held) -> str:
    return f"with {_control(held.control.part, held.control.control)} at {_place(held.position, held.level)}"


def _action(action: Action) -> str:
    match action:
        case Move(control=control, position=position, level=level, held=held):
            words = f"{_control(control.part, control.control)} is put to {_place(position, level)}"
            return words if held is None else f"{words} for {duration(held)}"
        case Wait(seconds=seconds):
            return f"{duration(seconds)} pass"


def _control(part: str, control: str) -> str:
    return the(f"{part} {control}" if control else part)


def _place(position: str, level: float | None) -> str:
    return position if level is None or position else f"{figure(100.0 * level)} %"
