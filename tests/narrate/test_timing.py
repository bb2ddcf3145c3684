"""Spoken length: from the spoken form, in proportion to the rate, with pauses."""

from dataclasses import replace

import pytest

from cutaway.handbook.records import Term
from cutaway.narrate.settings import CAPTIONS_37, CAPTIONS_42, SOURCES, SPEAKING, CaptionRules, SpeakingRules
from cutaway.narrate.spoken import spoken_form
from cutaway.narrate.timing import pause_after, pauses_inside, speaking_time, syllables, timeline
from cutaway.problems.span import Span, TextFile


def term(name: str, said_as: str, *also: str) -> Term:
    return Term(name, "", said_as, also, "", (), Span(TextFile("", ""), 0, 0))


@pytest.mark.parametrize(
    "word, count",
    [
        *(("cock", 1), ("valve", 1), ("valves", 1), ("closed", 1), ("fitted", 2), ("throttle", 2), ("gauges", 2)),
        *(("switches", 2), ("engine", 2), ("pressure", 2), ("starboard", 2), ("aeroplane", 3), ("seconds", 2)),
        *(("carburettor", 4), ("hydraulic", 3), ("R", 1), ("RPM", 3), ("the", 1), ("lamps", 1), ("twenty", 2)),
    ],
)
def test_syllables(word: str, count: int) -> None:
    assert syllables(word) == count


def test_a_figure_takes_as_long_as_its_words() -> None:
    written, spelt = "below 2 lb/sq in", "below two pounds per square inch"
    assert speaking_time(spoken_form(written)) == speaking_time(spelt)
    assert speaking_time(spoken_form(written)) > 2 * speaking_time("below two")


def test_the_rate_is_a_hundred_and_fifty_words_a_minute() -> None:
    """A hundred words of three syllables in two words take forty seconds."""
    assert speaking_time("power on " * 50) == pytest.approx(40.0)
    assert speaking_time("power on", SpeakingRules(words_a_minute=300.0)) == pytest.approx(
        speaking_time("power on") / 2
    )


def test_pauses() -> None:
    assert pauses_inside("Shut it, wait; then look. All is well.") == pytest.approx(0.25 * 2 + 0.6)
    assert pauses_inside("In 1,800 turns.") == 0.0
    assert pause_after("He said 'off.'") == 0.6
    assert pause_after("the") == 0.0


def test_slots_lie_end_to_end(script_of) -> None:  # type: ignore[no-untyped-def]
    script = script_of("Shut the cock, and wait.", "## Later", "The lamp lights below 2 lb/sq in.", "Good!")
    slots = timeline(script, ())
    assert slots[0].start == 0.0
    assert [slot.next for slot in slots[:-1]] == [slot.start for slot in slots[1:]]
    assert all(slot.start < slot.stop < slot.next for slot in slots)
    slow = timeline(script, (), replace(SPEAKING, words_a_minute=75.0))
    assert slow[-1].stop > 1.5 * slots[-1].stop


def test_a_term_is_said_as_the_glossary_says_and_only_as_a_whole_word() -> None:
    glossary = (term("H.T.", "high tension"), term("gal", "GAL"), term("pump", ""))
    assert (
        spoken_form("The H.T. lead, 3 gal of petrol.", glossary[:1])
        == "The high tension lead, three gallons of petrol."
    )
    assert spoken_form("regal", glossary) == "regal"
    assert spoken_form("H.T. on the Mk 2", glossary) == "high tension on the Mark Two"
    assert spoken_form("the pump", glossary) == "the pump"


def test_a_said_form_is_not_read_a_second_time() -> None:
    assert spoken_form("the T2 lamp", (term("T2", "tee 2"),)) == "the tee 2 lamp"


def test_every_setting_names_its_source() -> None:
    fields = {*CaptionRules.__dataclass_fields__, *SpeakingRules.__dataclass_fields__}
    assert {name for name, _ in SOURCES} == fields
    assert (CAPTIONS_42.line_length, CAPTIONS_37.line_length) == (42, 37)
