"""How long a text takes to say: from the syllables of its spoken form, with pauses at the punctuation."""

import re
from dataclasses import dataclass

from cutaway.handbook.records import Script, Term
from cutaway.narrate.settings import SPEAKING, SpeakingRules
from cutaway.narrate.spoken import spoken_form

_WORD = re.compile(r"[^\W_]+(?:['’][^\W_]+)*")
_VOWELS = re.compile(r"[aeiouyàáâäèéêëìíîïòóôöùúûü]+")
# A last e that is not heard: 'valve', 'closed' and 'valves', but not 'throttle', 'fitted' or 'gauges'.
_SILENT = re.compile(r"(?<![aeiouyl])e$|(?<=[aeiou]l)e$|(?<![aeiouytd])ed$|(?<![aeiouyszxcgl])(?<!ch)(?<!sh)es$")
_SENTENCE_END = re.compile(r"[.!?…]+(?=[\"'”’)\]]*(?:\s|$))")
_CLAUSE_END = re.compile(r"[,;:–—](?=[\"'”’)\]]*(?:\s|$))")


@dataclass(frozen=True, slots=True)
class Slot:
    """When one sentence is spoken: its words from `start` to `stop`, then a pause until `next`, all in s."""

    start: float
    stop: float
    next: float


def syllables(word: str) -> int:
    """How many syllables a word is likely to have; letters that are spelt out count one each.

    >>> [syllables(word) for word in ("lamp", "pressure", "selector", "carburettor", "RPM", "valve", "the")]
    [1, 2, 3, 4, 3, 1, 1]
    """
    if len(word) > 1 and word.isupper() and not _VOWELS.search(word.lower()):
        return len(word)
    if word.isdigit():
        return len(word)
    letters = word.lower()
    groups = len(_VOWELS.findall(letters))
    return max(1, groups - (1 if groups > 1 and _SILENT.search(letters) else 0))


def speaking_time(spoken: str, rules: SpeakingRules = SPEAKING) -> float:
    """Seconds that the words of a spoken form take, without any pause.

    Six syllables at 150 words a minute, 1.5 syllables a word:
    >>> round(speaking_time("The lamp comes on at once."), 2)
    1.6
    """
    a_syllable = 60.0 / (rules.words_a_minute * rules.syllables_a_word)
    return a_syllable * sum(syllables(word) for word in _WORD.findall(spoken))


def pauses_inside(spoken: str, rules: SpeakingRules = SPEAKING) -> float:
    """Seconds of pauses inside a sentence, the one at its end left out.

    >>> pauses_inside("Shut the cock, and the lamp tells you.")
    0.25
    """
    text = spoken.strip()
    body = text.rstrip(".!?…,;:–—\"'”’)]")
    return rules.clause_pause * len(_CLAUSE_END.findall(body + " ")) + rules.sentence_pause * len(
        _SENTENCE_END.findall(body + " ")
    )


def pause_after(spoken: str, rules: SpeakingRules = SPEAKING) -> float:
    """Seconds of the pause at the end of a piece: long after a full stop, short after a comma, else none.

    >>> pause_after("Shut the cock,"), pause_after("It stops.")
    (0.25, 0.6)
    """
    text = spoken.strip().rstrip("\"'”’)]")
    if text.endswith((".", "!", "?", "…")):
        return rules.sentence_pause
    return rules.clause_pause if text.endswith((",", ";", ":", "–", "—")) else 0.0


def timeline(script: Script, glossary: tuple[Term, ...], rules: SpeakingRules = SPEAKING) -> tuple[Slot, ...]:
    """One slot a sentence of the script, laid end to end from 0."""
    slots: list[Slot] = []
    now = 0.0
    for sentence in script.sentences:
        spoken = spoken_form(sentence.text, glossary)
        stop = now + speaking_time(spoken, rules) + pauses_inside(spoken, rules)
        after = stop + max(pause_after(spoken, rules), rules.clause_pause)
        slots.append(Slot(now, stop, after))
        now = after
    return tuple(slots)
