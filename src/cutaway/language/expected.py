"""Where the parser stopped: what is wrong there in the user's words, and what could stand there instead."""

import re
from dataclasses import dataclass
from itertools import pairwise

from lark import Token

from cutaway.handbook.names import listed
from cutaway.language.keywords import FOREIGN, PREDICATES, SCOPE_STARTS, SPELLED
from cutaway.language.lexer import Source
from cutaway.language.name_index import key
from cutaway.language.said import Said, name_of
from cutaway.language.words import CONDITIONS, Words
from cutaway.problems.span import Span


@dataclass(frozen=True, slots=True, eq=False)
class Stopped:
    """A parser that cannot go on: what it was cutting, the token that it cannot take, those that it could."""

    source: Source
    token: Token
    expected: frozenset[str]
    start: str


def misread(stopped: Stopped, said: Said) -> None:
    """Notes what stopped the parser: a situation that there is not, words that are no names, or where it stands."""
    if _note_situation(stopped, said):
        return
    unknown = [token for token in stopped.source.cut if token.type == "UNKNOWN"]
    for token in unknown:
        said.unknown(token, "part, situation or other name", _all_names(said.words))
    if unknown:
        return
    if any(token.type == "NAME" and said.left_out(token) for token in stopped.source.cut):
        return
    if not [token for token in stopped.source.cut if token.type not in ("COLON", "COMMA")]:
        span = stopped.source.span
        said.note(
            "L102",
            Span(span.file, span.start, max(span.start, span.end)),
            "Nothing is said here.",
            _example(said.words),
        )
        return
    if _colon_is_missing(stopped):
        _note_colon(stopped, said)
        return
    _note_unexpected(stopped, said)


def _note_situation(stopped: Stopped, said: Said) -> bool:
    """Notes that what stands behind 'in' is no situation, where words of it are other names: 'running' of 'running up'
    may be a state. Whether it was so."""
    cut, span = stopped.source.cut, stopped.source.span
    if stopped.start not in ("claim", "only_scope") or not cut:
        return False
    if cut[0].type == "NAME" and key(cut[0]) in said.words.situations and key(cut[0]).startswith("in "):
        bare = cut[0][3:]
        message = f"The situation '{cut[0]}' has the 'in' of a claim in its name."
        said.note("L203", cut[0], message, f"Call it '{bare}' in situations.yaml; a claim then begins: in {bare}")
        return True
    if cut[0].type not in SCOPE_STARTS:
        return False
    for one, then in pairwise(cut):
        if one.type == "IN" and then.type in ("NAME", "UNKNOWN") and key(then) not in said.words.situations:
            text = span.file.text[one.end_pos : span.end]
            words = re.split(r"[,:]", text)[0]
            start = (one.end_pos or 0) + len(words) - len(words.lstrip())
            name = Token("NAME", " ".join(words.split()), start_pos=start, end_pos=start + len(words.strip()))
            said.no_situation(name)
            return True
    return False


def _all_names(words: Words) -> list[str]:
    return [
        *(str(part.name) for part in words.parts.values()),
        *(name_of(control.ref) for control in words.controls.values()),
        *words.situations.values(),
        *words.services.values(),
        *(many.name for many in words.collections.values() if many.members),
        *words.complements.values(),
        *words.failures.values(),
        *words.conditions.values(),
    ]


def _example(words: Words) -> str:
    for part in words.parts.values():
        if part.states:
            return f"Write a claim, such as {part.name} is {part.states[0].words}."
    return "Write a claim."


# --- the colon ---------------------------------------------------------------------------------------------------


def _colon_is_missing(stopped: Stopped) -> bool:
    """Whether a statement began where the scope had not been closed."""
    cut = stopped.source.cut
    if stopped.start != "claim" or cut[0].type not in SCOPE_STARTS or any(t.type == "COLON" for t in cut):
        return False
    if "COLON" in stopped.expected:
        return stopped.token.type in ("NAME", "NOT", "OPEN", "ANY_OF", "EACH_OF", "NONE_OF", "THERE_IS", "$END")
    return stopped.token.type in PREDICATES


def _note_colon(stopped: Stopped, said: Said) -> None:
    cut, span = stopped.source.cut, stopped.source.span
    text = span.file.text
    if stopped.token.type == "$END":
        end = cut[-1].end_pos or span.end
        scope = text[span.start : end].strip().rstrip(",:.")
        said.note(
            "L104",
            Span(span.file, end, end),
            "This says where, and claims nothing.",
            f"Write {scope}: and behind it what is claimed.",
        )
        return
    # The name in front of the verb belongs to the statement, as far back as the last comma.
    first = len(cut) - 1
    while first > 0 and stopped.token.type in PREDICATES and cut[first - 1].type in ("NAME", "AND"):
        first -= 1
    start = cut[first].start_pos or span.start
    scope = text[span.start : start].strip().rstrip(",")
    rest = text[start : span.end].strip()
    place = Span(span.file, start, cut[-1].end_pos or start)
    said.note("L104", place, "A colon is missing between where it holds and what is claimed.", f"Write {scope}: {rest}")


# --- anything else -----------------------------------------------------------------------------------------------


def _note_unexpected(stopped: Stopped, said: Said) -> None:
    cut, token, span = stopped.source.cut, stopped.token, stopped.source.span
    hint = what_next(stopped, said.words)
    if token.type == "$END":
        end = cut[-1].end_pos or span.end
        hint = (_movement(cut[-1], said.words) if "TO" in stopped.expected else "") or hint
        said.note("L105", Span(span.file, end, end), f"The sentence stops after '{cut[-1]}'.", hint)
        return
    before = cut[-2] if len(cut) > 1 else None
    if token.type == "FOREIGN":
        instead = FOREIGN[key(token)]
        said.note("L101", token, f"'{token}' is not a word of claims.", f"Write {instead}.")
        return
    hint = _as_meant(stopped, said) or hint
    where = f"after '{before}'" if before is not None else "at the beginning"
    said.note("L101", token, f"'{token}' is not understood {where}.", hint)


def _movement(token: Token, words: Words) -> str:
    """A hint for a control and its position with no 'to' between them."""
    text = key(token)
    for name, control in words.controls.items():
        position = next((p for p in control.positions if text == f"{name} {key(p)}"), "")
        if position:
            return f"Write {name_of(control.ref)} to {position}."
    return ""


def _as_meant(stopped: Stopped, said: Said) -> str:
    """A hint for the usual slips: a scope behind the statement, a missing 'is' or 'to', a bracket too many."""
    cut, token, span = stopped.source.cut, stopped.token, stopped.source.span
    text = span.file.text
    before, behind = text[span.start : token.start_pos].strip(), text[token.start_pos : span.end].strip()
    if token.type == "CLOSE":
        return "Take the bracket out, or write the one that opens before it."
    if token.type in SCOPE_STARTS and "IF" in stopped.expected and stopped.start == "claim":
        scope, colon, statement = before.partition(":")
        front = f"{scope}, {behind.rstrip('.')}" if colon else behind.rstrip(".")
        return f"Write {front}: {(statement if colon else before).strip()}"
    name = cut[-2] if len(cut) > 1 else None
    if token.type == "NAME" and name is not None and name.type == "NAME" and key(token) in said.words.complements:
        if "VERB" in stopped.expected:
            return f"Write {name} is {token}."
        if "TO" in stopped.expected:
            return f"Write {name} to {token}."
    if name is not None and "TO" in stopped.expected and (movement := _movement(name, said.words)):
        return movement
    if token.type == "TO" and name is not None and name.type == "NAME" and "AT" in stopped.expected:
        return f"Write {name} at {text[token.end_pos or 0 : span.end].split(',')[0].split(':')[0].strip()}."
    return ""


def what_next(stopped: Stopped, words: Words) -> str:
    """A hint: what could stand where the parser stopped, in the user's words."""
    cut = stopped.source.cut if stopped.token.type == "$END" else stopped.source.cut[:-1]
    before = cut[-1] if cut else None
    expected = stopped.expected
    ways: list[str] = []
    if "NAME" in expected:
        ways.append(_a_name(before, cut, words))
    if "WHICH" in expected:
        ways.append(f"a mark or an airframe, such as {listed(words.folder.type.marks[:3], 'or') or 'Mk 1'}")
    if "TEXT" in expected:
        ways.append("the words themselves")
    if "QUANTITY" in expected:
        ways.append(_a_figure(before))
    if "ABOVE" in expected:
        ways.append("a comparison such as 'above 2 lb/sq in'")
    if "VERB" in expected:
        ways.append("a verb ('is', 'reads', 'has positions' …)")
    ways.extend(_small_words(expected))
    if not ways and "$END" in expected:
        ways.append("nothing more")
    said_before = f"After '{before}' comes" if before is not None else "It begins with"
    return f"{said_before} {listed(ways[:5], 'or')}." if ways else ""


_SHOWN_ALONE = (
    "COMMA",
    "COLON",
    "TO",
    "THEN",
    "FAILED",
    "TIMES",
    "CLOSE",
    "FALLING",
    "RISING",
    "AS",
    "FROM",
    "OF",
    "FOR",
    "AND",
    "OR",
    "IF",
)


def _small_words(expected: frozenset[str]) -> list[str]:
    ways = [f"'{SPELLED[terminal]}'" for terminal in _SHOWN_ALONE if terminal in expected]
    if expected & {"RISES", "FALLS"} and "VERB" not in expected:
        ways.append("'rises' or 'falls'")
    if "IN" in expected and "VERB" not in expected:
        ways.append("a scope such as 'in cruising' or 'within 40 s'")
    if "DEPENDS_ON" in expected and "VERB" not in expected:
        ways.append("'depend on', 'feed' or 'work'")
    return ways


def _a_figure(before: Token | None) -> str:
    if before is not None and before.type in ("WITHIN", "THROUGHOUT", "TAKES", "FOR", "WAIT"):
        return "a time such as 40 s" if before.type != "TAKES" else "two times such as 30 to 50 s"
    return "a figure with its unit"


def _a_name(before: Token | None, cut: list[Token], words: Words) -> str:
    match before.type if before is not None else "":
        case "IN":
            return f"a situation ({_some(list(words.situations.values()))})"
        case "TO" | "CAN_MOVE" | "CANNOT_MOVE":
            control = words.controls.get(key(cut[-2])) if len(cut) > 1 else None
            return f"a position ({_some(control.positions)})" if control else "a position"
        case "IS" | "NOT" if len(cut) > 1:
            can = _can_be(cut, words)
            return f"a state or position ({_some(can)})" if can else "a state or a position"
        case "WITH":
            return "what has failed, or a condition with its figure"
        case "AFTER" | "THEN":
            return "a control"
        case "AS":
            return f"a condition ({_some(list(CONDITIONS))})"
        case "HAS_POSITIONS":
            return "its positions"
        case "NAME":
            return "what is wrong with it" if "WITH" in [t.type for t in cut] else "a name"
        case _:
            return "the name of a part or service"


def _can_be(cut: list[Token], words: Words) -> list[str]:
    name = next((token for token in reversed(cut) if token.type == "NAME"), None)
    part = words.parts.get(key(name)) if name is not None else None
    if part is None:
        return []
    states = [word for state in part.states for word in (state.words, state.opposite) if word]
    return [*states, *(position for control in part.controls for position in control.positions)]


def _some(names: tuple[str, ...] | list[str]) -> str:
    shown = list(dict.fromkeys(names))
    return ", ".join(shown[:6]) + (" …" if len(shown) > 6 else "")
