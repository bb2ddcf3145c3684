"""How the fixed words of the language are written, and what each is called when a message speaks of it."""

from collections.abc import Mapping
from types import MappingProxyType

_WRITTEN: tuple[tuple[str, str], ...] = (
    ("AND", "and"),
    ("OR", "or"),
    ("IF", "if"),
    ("ONLY_IF", "only if"),
    ("EXACTLY_WHEN", "exactly when | if and only if"),
    ("BEFORE", "before"),
    ("NOT", "not"),
    ("ON", "on"),
    ("IN", "in"),
    ("WITH", "with"),
    ("AFTER", "after"),
    ("WITHIN", "within"),
    ("THROUGHOUT", "throughout"),
    ("AT", "at"),
    ("NEVER", "never"),
    ("TAKES", "takes"),
    ("ALWAYS", "always"),
    ("SOMETIMES", "sometimes"),
    ("FAILED", "failed"),
    ("TO", "to"),
    ("FOR", "for"),
    ("WHILE", "while"),
    ("THEN", "then"),
    ("WAIT", "wait"),
    ("REPEATED", "repeated"),
    ("TIMES", "times | time"),
    ("ANY_OF", "any of | any one of"),
    ("EACH_OF", "each of | all of"),
    ("NONE_OF", "none of"),
    ("IS", "is | are"),
    ("ABOVE", "above"),
    ("BELOW", "below"),
    ("AT_LEAST", "at least"),
    ("AT_MOST", "at most"),
    ("READS", "reads | read"),
    ("SETTLES_AT", "settles at | settle at"),
    ("SERVED", "served"),
    ("FITTED", "fitted"),
    ("MARKED", "marked"),
    ("WORKED_BY", "worked by"),
    ("DRIVEN_BY", "driven by"),
    ("FED_BY", "fed by"),
    ("SET_AT", "set at | set to"),
    ("HIGHER_THAN", "higher than"),
    ("LOWER_THAN", "lower than"),
    ("SAME_AS", "the same as | same as"),
    ("BECOMES", "becomes | become"),
    ("FALLING", "falling"),
    ("RISING", "rising"),
    ("RISES", "rises | rise"),
    ("FALLS", "falls | fall"),
    ("AS", "as"),
    ("FROM", "from"),
    ("DOES_NOT", "does not | do not"),
    ("DEPENDS_ON", "depends on | depend on"),
    ("CAN_MOVE", "can be moved to"),
    ("CANNOT_MOVE", "cannot be moved to | can not be moved to"),
    ("HAS_POSITIONS", "has positions | have positions | has the positions"),
    ("HAS", "has | have"),
    ("OF", "of"),
    ("FEEDS", "feeds | feed"),
    ("WORKS", "works | work"),
    ("THERE_IS", "there is | there are"),
    ("NO", "no"),
)

KEYWORDS: Mapping[str, str] = MappingProxyType(
    {way.strip(): terminal for terminal, ways in _WRITTEN for way in ways.split("|")}
)
"""From the words to the terminal of the grammar."""

SPELLED: Mapping[str, str] = MappingProxyType(
    {terminal: ways.split("|")[0].strip() for terminal, ways in _WRITTEN}
    | {"COLON": ":", "COMMA": ",", "OPEN": "(", "CLOSE": ")", "LIST_AND": "and"}
)
"""From the terminal to the first way of writing it."""

NUMBERS: Mapping[str, str] = MappingProxyType(
    {
        "one": "1",
        "two": "2",
        "three": "3",
        "four": "4",
        "five": "5",
        "six": "6",
        "seven": "7",
        "eight": "8",
        "nine": "9",
        "ten": "10",
        "eleven": "11",
        "twelve": "12",
    }
)
"""Numbers that people write as words."""

VERBS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "lights": ("lit",),
        "light": ("lit",),
        "lights up": ("lit",),
        "comes on": ("lit", "on", "working", "alive"),
        "goes out": ("out",),
        "go out": ("out",),
        "opens": ("open",),
        "open": ("open",),
        "closes": ("closed", "shut"),
        "close": ("closed", "shut"),
        "shuts": ("shut", "closed"),
        "shut": ("shut", "closed"),
        "starts": ("running", "working"),
        "start": ("running", "working"),
        "stops": ("stopped", "dead"),
        "stop": ("stopped", "dead"),
        "sounds": ("sounding",),
        "sound": ("sounding",),
        "cuts in": ("charging", "cut in"),
        "cut in": ("charging", "cut in"),
        "cuts out": ("not charging", "cut out"),
        "cut out": ("not charging", "cut out"),
        "locks": ("locked",),
        "unlocks": ("unlocked",),
        "blows": ("blown",),
    }
)
"""What a part does when a state of it begins: the verb, and the states that it may mean, the likelier first."""

PREDICATES = frozenset(
    (
        "IS",
        "READS",
        "SETTLES_AT",
        "VERB",
        "BECOMES",
        "RISES",
        "FALLS",
        "DEPENDS_ON",
        "DOES_NOT",
        "CAN_MOVE",
        "CANNOT_MOVE",
        "HAS_POSITIONS",
        "HAS",
        "FEEDS",
        "WORKS",
    )
)
"""The terminals with which a predicate begins."""

SCOPE_STARTS = frozenset(
    (
        "ON",
        "IN",
        "WITH",
        "AFTER",
        "WITHIN",
        "THROUGHOUT",
        "AT",
        "NEVER",
        "TAKES",
        "ALWAYS",
        "SOMETIMES",
    )
)
"""The terminals with which an item of a scope begins."""

FOREIGN: Mapping[str, str] = MappingProxyType(
    {
        "when": "if",
        "whenever": "if",
        "while": "if",
        "unless": "if … not",
        "more than": "above",
        "greater than": "above",
        "less than": "below",
        "equals": "is",
        "equal to": "is",
        "=": "is",
        ">": "above",
        "<": "below",
        ">=": "at least",
        "<=": "at most",
        "isn't": "is not",
        "aren't": "are not",
        "doesn't": "does not",
        "will be": "is",
        "should be": "is",
        "must be": "is",
        "has failed": "failed",
        "have failed": "failed",
        "until": "within",
        "during": "throughout",
        "but": "and",
        ";": "and",
    }
)
"""Words that people write and the language does not have, with what to write instead."""
