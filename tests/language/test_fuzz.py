"""Whatever is written, the answer is a record or a problem with a place inside the text, never an exception."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from cutaway.language.keywords import FOREIGN, KEYWORDS, NUMBERS, VERBS
from cutaway.language.parse import parse_actions, parse_claim, parse_given, parse_mark, parse_scope, parse_statement
from cutaway.problems.printing import as_text
from cutaway.problems.span import Span, TextFile

PARSERS = (parse_claim, parse_statement, parse_actions, parse_scope, parse_given, parse_mark)

GOOD = (
    "on Mk 1, in cruising, after tank selector to off, within 40 s: fuel lamp is lit",
    "in approach, always: horn is sounding if throttle is closed and undercarriage is not locked down",
    "with any of the pumps seized, after (hand pump to pumping for 20 s then wait 1 s) repeated 3 times,"
    " takes 5 to 8 min: boost gauge falls as height rises from 8000 ft to 12000 ft",
    "tank selector is at cockpit, left wall, and has positions off, port tank, starboard tank",
    "fuel gauge is lower than with throttle at 60 %, in cruising",
    "there are 4 master cocks and none of (fuel lamp, charging lamp) is lit before engine is stopped",
    "fuel lamp lights at 2 lb/sq in ± 0.5 falling and petrol to the engine is served",
)

NAMES = (
    "fuel lamp", "engine", "engine starter", "tank selector", "port tank", "throttle", "gear box", "odd valve", "lamps",
    "petrol to the engine", "wheels down and locked", "cruising", "running up", "lit", "out", "on", "off", "in", "down",
    "seized", "failed seal", "height", "Mk 1", "Mk 2 with mod 40", "Dunlin D-7", "2 lb/sq in", "40 s",
    "60 %", "3", "-1", "5 to 8 min", "7 gal ± 0.5", ",", ":", "(", ")", '"', ";", ".", "the", "a", "blorp", "½",
    "±", "%", "§21",
)  # fmt: skip
PIECES = st.sampled_from((*NAMES, *KEYWORDS, *VERBS, *FOREIGN, *NUMBERS))

soup = st.lists(PIECES, max_size=14).map(" ".join)
noise = st.text(max_size=40)


@st.composite
def edited(draw: st.DrawFn) -> str:
    """A good claim with a few random cuts and insertions."""
    text = draw(st.sampled_from(GOOD))
    for _ in range(draw(st.integers(1, 3))):
        start = draw(st.integers(0, len(text)))
        stop = draw(st.integers(start, min(len(text), start + 8)))
        text = text[:start] + draw(PIECES | st.text(max_size=3)) + text[stop:]
    return text


@pytest.mark.parametrize("parse", PARSERS, ids=[p.__name__ for p in PARSERS])
@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(text=soup | noise | edited())
def test_any_text_gives_a_record_or_a_problem_inside_it(parse, text, words) -> None:
    file = TextFile("s.md", f"before\n{text}\nafter")
    found, problems = parse(Span(file, 7, 7 + len(text)), words)
    assert (found is None) == bool(problems)
    for problem in problems:
        assert problem.span is not None and problem.span.file is file
        assert 7 <= problem.span.start <= problem.span.end <= 7 + len(text)
        assert problem.message
    assert bool(as_text(problems)) == bool(problems)


@pytest.mark.parametrize("text", GOOD)
def test_the_claims_that_are_edited_are_good(text, read) -> None:
    _, problems = read(parse_claim, text)
    assert problems == ()
