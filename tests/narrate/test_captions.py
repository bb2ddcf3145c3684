"""Captions: nothing is lost or parted, all can be read, and what cannot is told."""

import itertools
import re
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cutaway.handbook.records import Script, Sentence, Term
from cutaway.narrate.captions import Cue, captions
from cutaway.narrate.settings import CAPTIONS_37, CAPTIONS_42, SPEAKING, CaptionRules
from cutaway.problems.span import Span, TextFile, whole

NOWHERE = Span(TextFile("", ""), 0, 0)
TALK = (
    "Good morning, and do come closer.",
    "Yes.",
    "Her petrol is carried in two tanks, one in the root of each wing, and each of them holds eleven gallons.",
    "The lamp lights below 2 lb/sq in, and on the Mk 2 with mod 12 below 3 lb/sq in, whatever the gauge may say.",
    "## Later",
    "Now suppose that a pupil, changing tanks over the hedge, leaves that cock at off.",
    "No.",
    "At 1,800 r.p.m. the suction gauge reads 4.5 in Hg, which is what the artificial horizon wants.",
)


def keeps_the_rules(cues: tuple[Cue, ...], rules: CaptionRules) -> None:
    for cue in cues:
        assert 1 <= len(cue.lines) <= rules.lines
        assert all(0 < len(line) <= rules.line_length for line in cue.lines)
        assert cue.speed <= rules.fastest + 0.01
        assert rules.shortest - 0.001 <= cue.end - cue.start <= rules.longest + 0.001
    for before, after in itertools.pairwise(cues):
        assert after.start - before.end >= rules.gap - 0.0005


@pytest.mark.parametrize("rules", [CAPTIONS_42, CAPTIONS_37])
def test_an_ordinary_talk_keeps_every_rule(script_of, rules: CaptionRules) -> None:  # type: ignore[no-untyped-def]
    cues, problems = captions(script_of(*TALK), (), rules=rules)
    assert problems == ()
    keeps_the_rules(cues, rules)
    words = " ".join(line for line in TALK if not line.startswith("#"))
    assert " ".join(" ".join(cue.lines) for cue in cues) == words
    assert [cue.identifier for cue in cues] == [f"01-fuel-{n}" for n in range(1, len(cues) + 1)]


def test_a_figure_and_a_term_are_never_parted(script_of) -> None:  # type: ignore[no-untyped-def]
    glossary = (Term("artificial horizon", "", "", (), "", (), NOWHERE),)
    for length in range(20, 43):
        cues, _ = captions(script_of(*TALK), glossary, rules=CaptionRules(line_length=length))
        lines = [line for cue in cues for line in cue.lines]
        for whole_piece in (
            "2 lb/sq in",
            "3 lb/sq in",
            "4.5 in Hg",
            "1,800 r.p.m.",
            "artificial horizon",
            "eleven gallons",
        ):
            assert any(whole_piece in line for line in lines), (length, whole_piece, lines)


def test_the_text_is_written_and_the_time_spoken(script_of) -> None:  # type: ignore[no-untyped-def]
    (figure,), _ = captions(script_of("It lights below 2 lb/sq in."), ())
    (spelt,), _ = captions(script_of("It lights below two pounds per square inch."), ())
    (short,), _ = captions(script_of("It lights below two."), ())
    assert figure.lines == ("It lights below 2 lb/sq in.",)
    assert figure.end == spelt.end > short.end


def test_a_short_sentence_joins_its_neighbour_and_no_other_does(script_of) -> None:  # type: ignore[no-untyped-def]
    cues, _ = captions(script_of(*TALK), ())
    for cue in cues:
        assert len(cue.sentences) == 1 or {1, 5} & set(cue.sentences)
    assert all(not {3, 4} <= set(cue.sentences) for cue in cues), "a caption runs over two chapters"


def test_captions_name_the_paragraphs_behind_them(script_of) -> None:  # type: ignore[no-untyped-def]
    cues, _ = captions(script_of(*TALK), (), {2: ("hb §21", "hb §21a"), 5: ("hb §30",)})
    assert {cue.cites for cue in cues if 2 in cue.sentences} == {("hb §21", "hb §21a")}
    assert all(cue.cites == () for cue in cues if not {2, 5} & set(cue.sentences))


def test_faster_than_can_be_read_is_told(script_of) -> None:  # type: ignore[no-untyped-def]
    script = script_of(
        "Strengths stretched through straight scratched springs, and breadths through lengths of breeched", "On."
    )
    cues, problems = captions(script, (), speaking=replace(SPEAKING, words_a_minute=300.0))
    assert {problem.code for problem in problems} == {"N301"}
    assert problems[0].span == script.sentences[0].span
    assert re.search(r"\d+\.\d characters a second, and 17 can be read", problems[0].message)
    assert any(cue.speed > 17 for cue in cues)


def test_a_word_longer_than_a_line_is_told(script_of) -> None:  # type: ignore[no-untyped-def]
    script = script_of("The selector is a " + "o" * 50 + " of the usual pattern, they say.")
    cues, problems = captions(script, ())
    assert "hyphen" in next(problem.hint for problem in problems if problem.code == "N302")
    assert any("o" * 50 in line for cue in cues for line in cue.lines)


def test_a_figure_longer_than_a_line_wants_fewer_words_and_no_hyphen(script_of) -> None:  # type: ignore[no-untyped-def]
    long = "two hundred and sixty-five to three hundred and seventy-five pounds"
    _, problems = captions(script_of(f"The air bottle stands at {long}."), ())
    (hint,) = (problem.hint for problem in problems if problem.code == "N302")
    assert "fewer words" in hint and "hyphen" not in hint


def test_too_short_to_be_seen_is_told(script_of) -> None:  # type: ignore[no-untyped-def]
    script = script_of("## One", "Oh", "## Two", "That is all there is to be said about it.")
    _, problems = captions(script, (), speaking=replace(SPEAKING, words_a_minute=300.0))
    assert [problem.code for problem in problems if problem.code == "N303"] == ["N303"]


def test_a_script_with_nothing_in_it_has_no_captions(script_of) -> None:  # type: ignore[no-untyped-def]
    assert captions(script_of(), ()) == ((), ())
    assert captions(script_of("..."), ())[0][0].lines == ("...",)


@settings(max_examples=60, deadline=None)
@given(
    st.lists(
        st.lists(
            st.sampled_from(
                ("cock", "the", "of", "carburettor,", "2 lb/sq in", "lamp", "through", "a", "§25", "o" * 44, "–")
            ),
            min_size=1,
            max_size=24,
        ).map(lambda words: " ".join(words) + "."),
        max_size=6,
    ),
    st.sampled_from((CAPTIONS_42, CAPTIONS_37, CaptionRules(lines=1), CaptionRules(line_length=20))),
)
def test_whatever_is_said_is_shown_once_in_order_and_time_goes_on(lines: list[str], rules: CaptionRules) -> None:
    file = TextFile("x", "x")
    script = Script("x", "", tuple(Sentence(t, "", 0, (), (), False, whole(file)) for t in lines), whole(file))
    cues, problems = captions(script, (), rules=rules)
    assert " ".join(" ".join(cue.lines) for cue in cues) == " ".join(lines)
    assert all(cue.start < cue.end for cue in cues)
    assert all(before.end <= after.start for before, after in itertools.pairwise(cues))
    faulty = [
        cue
        for cue in cues
        if cue.speed > rules.fastest + 0.01
        or any(len(line) > rules.line_length for line in cue.lines)
        or cue.end - cue.start < rules.shortest - 0.001
    ]
    assert bool(problems) == bool(faulty)
