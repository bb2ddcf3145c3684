"""The lexer of statements: fixed words, names of the folder, figures and free text, as the parser can take them.

What a word means depends on where it stands ('on' begins a scope, and is a position of a switch), so each token is
chosen among those that the parser can take next: the longest, and of two alike the fixed word.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from lark import Token
from lark.lexer import Lexer

from cutaway.language.acceptable import Acceptable
from cutaway.language.failing import part_that_fails
from cutaway.language.keywords import FOREIGN, KEYWORDS, NUMBERS, PREDICATES, SCOPE_STARTS, VERBS
from cutaway.language.misspelt import misspelt
from cutaway.language.name_index import Word, name_index, words_in
from cutaway.language.words import Words
from cutaway.problems.span import Span
from cutaway.quantities.figures import unit_words
from cutaway.quantities.phrases import phrase_at

_TERMINALS = {**dict.fromkeys(FOREIGN, "FOREIGN"), **dict.fromkeys(VERBS, "VERB"), **KEYWORDS}
_FIXED = name_index(_TERMINALS)
_ITEM = re.compile(r"[,:();\"]")
_MARKS = {":": "COLON", ",": "COMMA", "(": "OPEN", ")": "CLOSE", ";": "FOREIGN"}
_ARTICLES = frozenset(("the", "a", "an"))
_LINKS = frozenset(("AND", "OR", "IF", "ONLY_IF", "EXACTLY_WHEN", "BEFORE"))
_CLAUSE_STARTS = PREDICATES | {"NOT", "ANY_OF", "EACH_OF", "NONE_OF", "THERE_IS"}
_FIGURE_START = re.compile(r"[+\-−–]?[0-9.·½⅓⅔¼¾⅛⅜⅝⅞]|between\b", re.IGNORECASE)


@dataclass(slots=True)
class Source:
    """What is to be cut: a stretch of a file, the folder's words, whether it begins amid a 'with'.

    cut: the tokens so far, kept for whoever has to say what is wrong with the next.
    """

    span: Span
    words: Words
    amid_with: bool = False
    cut: list[Token] = field(default_factory=list)


class StatementLexer(Lexer):
    """Given to lark; cuts a `Source`."""

    __future_interface__ = 2

    def __init__(self, lexer_conf: Any) -> None:
        """lexer_conf: what lark knows of the terminals; nothing here needs it."""

    def lex(self, lexer_state: Any, parser_state: Any) -> Iterator[Token]:
        """The tokens of a source, each cut when the parser asks for it."""
        cutter = Cutter(lexer_state.text)
        while (token := cutter.next(Acceptable(parser_state))) is not None:
            lexer_state.last_token = token
            lexer_state.text.cut.append(token)
            yield token


class Cutter:
    """Cuts one source, from its first word to its last."""

    def __init__(self, source: Source) -> None:
        self._words = source.words
        self._text = source.span.file.text
        self._end = source.span.end
        self._items = _items(self._text, source.span.start, source.span.end)
        self._at = 0
        self._before = ""
        self._amid_with = source.amid_with

    def next(self, accepted: Acceptable) -> Token | None:
        """The next token, one of the accepted ones if that can be; None at the end."""
        token = self._choose(accepted)
        if token is not None:
            # The 'at' of 'with throttle at closed' begins nothing new.
            held = self._amid_with and token.type == "AT" and self._before in ("NAME", "UNKNOWN")
            self._before = token.type
            if (token.type in SCOPE_STARTS and not held) or token.type == "COLON":
                self._amid_with = token.type == "WITH"
        return token

    def _choose(self, accepted: Acceptable) -> Token | None:
        while self._at < len(self._items):
            said = self._items[self._at].said
            if "WHICH" in accepted:
                return self._which()
            if "TEXT" in accepted and not ("QUANTITY" in accepted and self._figure_alone()):
                return self._free_text()
            if self._pause():
                self._at += 1
            elif said == "," and "THEN" in accepted and self._action_at(self._at + 1):
                return self._token("THEN", 1)
            elif said in _MARKS:
                return self._token(_MARKS[said], 1)
            elif said == '"' or (said in _ARTICLES and not self._name_at(self._at) and not self._fixed(self._at)[0]):
                self._at += 1
            else:
                return self._word(accepted)
        return None

    # --- one token at a time

    def _token(self, terminal: str, count: int) -> Token:
        first, last = self._items[self._at], self._items[self._at + count - 1]
        self._at += count
        return _token(terminal, self._text, first.start, last.end)

    def _up_to(self, terminal: str, end: int) -> Token:
        """A token that ends at an offset of the text, whatever words that takes."""
        start = self._items[self._at].start
        while self._at < len(self._items) and self._items[self._at].start < end:
            self._at += 1
        return _token(terminal, self._text, start, end)

    def _word(self, accepted: Acceptable) -> Token:
        if "VALUE" in accepted and (length := self._words.values.longest(self._items, self._at)):
            return self._token("VALUE", length)
        fixed_length, fixed = self._fixed(self._at)
        name_length = self._name_at(self._at)
        figure = self._figure(accepted, name_length)
        if figure is not None:
            return figure
        if fixed == "AND":
            fixed = self._kind_of_and(accepted)
        elif fixed == "WHILE" and fixed not in accepted:
            fixed = "FOREIGN"
        if fixed_length and fixed in accepted and not (name_length > fixed_length and "NAME" in accepted):
            return self._token(fixed, fixed_length)
        if "NUMBER" in accepted and not name_length and (number := NUMBERS.get(self._items[self._at].said)):
            token = self._token("NUMBER", 1)
            return token.update(value=number)
        if name_length and (name_length > fixed_length or "NAME" in accepted):
            return self._name(name_length)
        if fixed_length:
            return self._token(fixed, fixed_length)
        return self._name(0)

    def _name(self, length: int) -> Token:
        """A known name; or, if the words up to the next fixed one hold something unknown, what was likely meant."""
        stop = self._phrase_stop(self._at)
        if length and self._covered(self._at + length, stop):
            return self._token("NAME", length)
        count, known = misspelt(self._items, self._at, stop, self._words, self._amid_with)
        return self._token("NAME" if known else "UNKNOWN", count)

    def _which(self) -> Token:
        """What follows 'on', up to the comma, the colon, or the word that begins something else."""
        at = self._at + 1
        while at < len(self._items):
            said, (_, fixed) = self._items[at].said, self._fixed(at)
            if said in _MARKS or fixed in ("IF", "ONLY_IF", "EXACTLY_WHEN", "BEFORE"):
                break
            if at > self._at + 1 and fixed in SCOPE_STARTS - {"WITH", "ON"}:
                break
            if fixed == "AND" and (self._fixed(at + 1)[1] in SCOPE_STARTS or self._clause_at(at + 1)):
                break
            at += 1
        return self._token("WHICH", at - self._at)

    def _free_text(self) -> Token:
        """Words as they stand, up to the end or to what begins the next clause; or all between quotation marks."""
        if self._items[self._at].said == '"':
            return self._quoted()
        at, depth = self._at, 0
        while at < len(self._items):
            said = self._items[at].said
            depth += (said == "(") - (said == ")")
            link = at + (said == ",")
            if depth < 0 or (at > self._at and self._link_at(link)):
                break
            at += 1
        return self._token("TEXT", max(1, at - self._at))

    def _quoted(self) -> Token:
        start = self._items[self._at].end
        stop = self._text.find('"', start, self._end)
        self._at += 1
        if stop < 0 or self._at >= len(self._items):
            return _token("TEXT", self._text, start, self._end)
        token = self._up_to("TEXT", stop)
        self._at += 1
        return token

    # --- figures

    def _figure(self, accepted: Acceptable, name_length: int) -> Token | None:
        end = self._figure_end(self._at)
        if not end or (name_length and self._items[self._at + name_length - 1].end >= end and "NAME" in accepted):
            return None
        start = self._items[self._at].start
        phrase = phrase_at(self._text[:end], start)
        bare = phrase is not None and phrase.first.unit is None and phrase.second is None
        if bare and "QUANTITY" in accepted and self._before != "FROM":
            end = self._unknown_unit_end(end)
            bare = end == (phrase.end if phrase else end)
        return self._up_to("NUMBER" if bare else "QUANTITY", end)

    def _figure_end(self, at: int) -> int:
        """Where the quantity ends that begins at an item, or 0 if none does."""
        if at >= len(self._items) or not _FIGURE_START.match(self._text, self._items[at].start):
            return 0
        start, limit = self._items[at].start, self._end
        if self._before == "FROM" and (to := re.compile(r"\s+to\b").search(self._text, start, limit)):
            limit = to.start()
        phrase = phrase_at(self._text[:limit], start)
        return phrase.end if phrase is not None else 0

    def _figure_alone(self) -> bool:
        """Whether a figure stands here and ends the phrase: 'at 60 %', but not 'at 2 ft behind the seat'."""
        end = self._figure_end(self._at)
        after = next((i for i in range(self._at, len(self._items)) if self._items[i].start >= end), None)
        return bool(end) and (after is None or self._items[after].said in _MARKS or bool(self._fixed(after)[0]))

    def _unknown_unit_end(self, end: int) -> int:
        """The end of a figure and of the word behind it, if that can only be meant as a unit."""
        after = next((i for i in range(self._at, len(self._items)) if self._items[i].start >= end), None)
        if after is None or self._items[after].said in _MARKS or self._fixed(after)[0] or self._name_at(after):
            return end
        start, stop = unit_words(self._text[: self._end], end)
        return min(max(stop, start + 1), self._items[self._phrase_stop(after) - 1].end)

    # --- looking ahead

    def _fixed(self, at: int) -> tuple[int, str]:
        """The fixed words that begin at an item: how many, and their terminal."""
        length = _FIXED.longest(self._items, at)
        if not length:
            return 0, ""
        fixed = _TERMINALS[" ".join(w.said for w in self._items[at : at + length])]
        # 'open', 'shut' and 'light' are verbs only in front of 'at'; elsewhere they are words like others.
        if fixed == "VERB" and not (at + length < len(self._items) and self._items[at + length].said == "at"):
            return 0, ""
        return length, fixed

    def _name_at(self, at: int) -> int:
        longest = self._words.index.longest(self._items, at)
        if longest > 1 and self._amid_with:
            return part_that_fails(self._items, at, longest, self._words) or longest
        return longest

    def _phrase_stop(self, at: int) -> int:
        """The item behind the words that begin here and are neither fixed nor marks nor figures."""
        at += max(1, self._name_at(at))
        while at < len(self._items):
            name, (fixed, _) = self._name_at(at), self._fixed(at)
            if self._items[at].said in _MARKS or (fixed and fixed >= name) or self._figure_end(at):
                break
            at += max(1, name)
        return min(at, len(self._items))

    def _covered(self, at: int, stop: int) -> bool:
        """Whether known names alone fill the items from here to `stop`."""
        while at < stop:
            length = self._name_at(at)
            if not length:
                return self._items[at].said in _ARTICLES and self._covered(at + 1, stop)
            at += length
        return True

    def _behind_phrase(self, at: int) -> str:
        """The terminal of the fixed words behind the name that begins at an item; '' if there is none."""
        if at < len(self._items) and self._items[at].said in _ARTICLES:
            at += 1
        if at >= len(self._items) or self._items[at].said in _MARKS:
            return ""
        if self._fixed(at)[0] > self._name_at(at):
            return ""
        return self._fixed(self._phrase_stop(at))[1]

    def _clause_at(self, at: int) -> bool:
        """Whether a clause begins here: with its verb, or with a name and a verb behind it."""
        if self._items[at].said == "(" if at < len(self._items) else False:
            return self._clause_at(at + 1)
        return self._fixed(at)[1] in _CLAUSE_STARTS or self._behind_phrase(at) in PREDICATES

    def _link_at(self, at: int) -> bool:
        """Whether a link to another clause stands here."""
        length, fixed = self._fixed(at)
        return fixed in ("IF", "ONLY_IF", "EXACTLY_WHEN") or (fixed in _LINKS and self._clause_at(at + length))

    def _action_at(self, at: int) -> bool:
        return self._fixed(at)[1] == "WAIT" or self._behind_phrase(at) == "TO"

    def _pause(self) -> bool:
        """Whether a comma, or an 'and' before 'then', stands in front of a word that links by itself."""
        said, (_, behind) = self._items[self._at].said, self._fixed(self._at + 1)
        return behind == "THEN" if said == "and" else said == "," and behind in _LINKS | {"REPEATED", "THEN"}

    def _kind_of_and(self, accepted: Acceptable) -> str:
        if "THEN" in accepted and self._action_at(self._at + 1):
            return "THEN"
        if "LIST_AND" in accepted and not self._clause_at(self._at + 1):
            return "LIST_AND"
        return "AND"


def _items(text: str, start: int, end: int) -> list[Word]:
    marks = [Word(m[0], m.start(), m.end()) for m in _ITEM.finditer(text, start, end)]
    return sorted([*words_in(text, start, end), *marks], key=lambda item: item.start)


def _token(terminal: str, text: str, start: int, end: int) -> Token:
    return Token(terminal, text[start:end], start_pos=start, end_pos=end)
