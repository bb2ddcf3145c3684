"""The figures that captions and timing go by, each with where it comes from. They are house rules, not physics."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class CaptionRules:
    """How a caption may look and how fast it may be. `SOURCES` says where each figure comes from.

    line_length: characters a line. lines: lines a caption. fastest: characters a second. shortest, longest: how long a
    caption stands, s. gap: between two captions, s. linger: how long a caption may stand after its last word, s.
    """

    line_length: int = 42
    lines: int = 2
    fastest: float = 17.0
    shortest: float = 5.0 / 6.0
    longest: float = 7.0
    gap: float = 0.08
    linger: float = 1.5


@dataclass(frozen=True, slots=True)
class SpeakingRules:
    """How fast a script is spoken. `SOURCES` says where each figure comes from.

    words_a_minute: between the pauses. syllables_a_word: what a word counts as, so that long words take longer.
    sentence_pause, clause_pause: s, after `. ! ?` and after `, ; : –`.
    """

    words_a_minute: float = 150.0
    syllables_a_word: float = 1.5
    sentence_pause: float = 0.6
    clause_pause: float = 0.25


CAPTIONS_42 = CaptionRules()
CAPTIONS_37 = CaptionRules(line_length=37)
SPEAKING = SpeakingRules()

SOURCES: tuple[tuple[str, str], ...] = (
    ("line_length", "42: UTK Libraries, Timed Text Style Guide, section 5.2. 37: common practice, no source"),
    ("lines", "UTK Libraries, Timed Text Style Guide, section 5.2"),
    ("fastest", "common practice, no source"),
    ("shortest", "UTK Libraries, Timed Text Style Guide, section 2"),
    ("longest", "UTK Libraries, Timed Text Style Guide, section 2"),
    ("gap", "two frames at 25 a second: common practice, no source"),
    ("linger", "BBC Subtitle Guidelines 1.1.7 (2018), section 5.2, for a speaker in shot"),
    ("words_a_minute", "common practice, no source"),
    ("syllables_a_word", "common practice, no source"),
    ("sentence_pause", "common practice, no source"),
    ("clause_pause", "common practice, no source"),
)
