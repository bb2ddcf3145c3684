"""The quiz: every option put to the model by another way, the same each time, and other answers from another model."""

import shutil
from collections import Counter
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path

import pytest

from cutaway.api.asking import Opened, opened
from cutaway.api.quiz import Asked, QuizMade, quiz
from cutaway.handbook.records import given_on
from cutaway.inquiry.check import judge
from cutaway.inquiry.memory import Memory
from cutaway.inquiry.questions.indications import indications
from cutaway.inquiry.quiz.proving import Setter, on_words, proof
from cutaway.inquiry.quiz.records import SORTS, QuizQuestion, Trap, WhichFigure
from cutaway.inquiry.quiz.showing import Variant, shown, variants
from cutaway.inquiry.verdicts import Fails, Holds, Stated
from cutaway.inquiry.workshop import Workshop
from cutaway.language.parse import parse_claim
from cutaway.language.print_back import printed
from cutaway.language.syntax import Scope, When
from cutaway.machine.subjects import subjects
from cutaway.problems.diagnostic import has_error
from cutaway.problems.span import TextFile, whole
from tests.inquiry.questions.asking import WHINCHAT, whinchat

COUNT = 20


@lru_cache(maxsize=1)
def made() -> QuizMade:
    """A long quiz of the demo, with the values as stated."""
    found, problems = quiz(whinchat(), Asked(COUNT), rests=False, memory=Memory(None))
    assert found is not None and not has_error(problems), problems
    return found


def of(asked: Asked, folder: Opened | Path | None = None) -> tuple[QuizQuestion, ...]:
    found, problems = quiz(folder or whinchat(), asked, rests=False, memory=Memory(None))
    assert found is not None and not has_error(problems), problems
    return found.quiz.questions


def test_every_option_comes_out_the_same_when_its_claims_are_put_to_the_model_again() -> None:
    here = whinchat()
    # Nothing that was run for the quiz is used: a workshop of its own, and the text alone of each claim.
    workshop = Workshop(here.loaded.folder, here.loaded.kinds)
    tried = 0
    for question in made().view.questions:
        right = 0
        for option in question.options:
            agrees = []
            for one in option.proofs:
                claim, problems = parse_claim(whole(TextFile("again", one.claim)), here.loaded.words)
                assert claim is not None and not problems, one.claim
                (judged,) = judge(claim, workshop, here.loaded.told, rests=False)
                assert isinstance(judged.verdict, Holds | Stated | Fails), one.claim
                agrees.append(isinstance(judged.verdict, Holds | Stated) is one.holds)
                tried += 1
            assert all(agrees) is option.right, (question.text, option.text)
            right += option.right
        assert right == 1, question.text
    assert tried > 2 * COUNT


def test_it_is_spread_and_nothing_is_asked_twice() -> None:
    questions = made().view.questions
    assert len(questions) == COUNT and made().fewer == ""
    assert {one.sort for one in questions} == set(SORTS)
    assert {one.system for one in questions} == {system.name for system in whinchat().loaded.folder.systems}
    assert max(Counter(one.sort for one in questions).values()) <= COUNT / 2
    assert len({one.chapter for one in questions if one.chapter}) >= 5
    assert {one.standard for one in questions} == {"Mk 1", "Mk 2", "Mk 2 with mod 12"}
    assert len({one.ident for one in questions}) == len({one.text for one in questions}) == COUNT
    for one in questions:
        assert 2 <= len(one.options) <= 4
        assert len({option.text for option in one.options}) == len(one.options), one.text
        assert all(option.reason.endswith((".", ")")) for option in one.options), one.text
    places = Counter(one.answer for one in questions)
    assert len(places) >= 3 and max(places.values()) < COUNT * 0.6, "the answer stands anywhere"


def test_every_answer_has_its_paragraphs() -> None:
    numbers = {f"{p.source} {p.number}" for source in whinchat().loaded.folder.sources for p in source.paragraphs}
    for one in made().view.questions:
        right = one.options[one.answer]
        assert right.cites and set(right.cites) <= numbers, one.text
        assert "§" in right.reason, one.text


def test_the_same_folder_gives_the_same_quiz_and_a_shorter_one_begins_alike() -> None:
    again, _ = opened(WHINCHAT)
    assert again is not None
    first = [one.key for one in made().quiz.questions[:6]]
    assert [one.key for one in of(Asked(6), again)] == first


def test_wrong_options_say_whose_answer_they_are() -> None:
    sorts = {option.trap.sort for one in made().quiz.questions for option in one.options if not option.right}
    assert {"other mark", "before", "other situation", "figure of", "no harm", "needless", "too many"} <= sorts


def test_a_wrong_figure_is_cited_with_the_paragraphs_of_what_it_belongs_to() -> None:
    folder = whinchat().loaded.folder
    seen = 0
    for one in of(Asked(30, sorts=("figure",))):
        for option in one.options:
            if option.trap.sort == "figure of" and option.trap.of.startswith("the "):
                part, _, value = option.trap.of.removeprefix("the ").removesuffix(")").partition(" (")
                owner = next(
                    found for found in folder.parts if found.name == part and one.subject.name in found.on.names
                )
                given = given_on(owner, value, one.subject.standard)
                assert given is not None and option.cites == given.cites, option.trap
                seen += 1
    assert seen > 5


def test_another_situation_is_told_only_where_it_is_so_there_by_itself() -> None:
    here = whinchat()
    setter = Setter(here.workshop, here.loaded.told, here.loaded.parsed, here.loaded.words, Memory(None), False)
    seen = 0
    for one, shown_as in zip(made().quiz.questions, made().view.questions, strict=True):
        for option, words in zip(one.options, shown_as.options, strict=True):
            if option.trap.sort == "other situation" and one.sort == "shows":
                (there,) = option.proofs
                statement = printed(there.claim.statement)
                text = f"on {on_words(setter.folder, one.subject)}, in {option.trap.of}: {statement}"
                found = proof(setter, one.subject, text, holds=True)
                assert found is not None and found.agrees, text
                assert f"in the situation '{option.trap.of}'" in words.reason
                seen += 1
    assert seen > 2


def test_of_a_figure_is_asked_late_and_only_where_the_talk_tells_it() -> None:
    places = {n: one.asked for n, one in enumerate(made().quiz.questions) if isinstance(one.asked, WhichFigure)}
    assert list(places.values()) == [WhichFigure("fuel lamp", "lights below")]
    assert min(places) >= 6, "what it does is asked before what figure it has"


def test_twins_of_one_kind_of_quantity_are_not_asked_together(tmp_path: Path) -> None:
    claims = "\n".join(
        f"on {mark}: fuel lamp is set at {figure} lb/sq in" for mark, figure in (("Mk 1", 2), ("Mk 2", 3))
    )
    other = edited(tmp_path / "wren")
    script = other / "scripts" / "09-twins.md"
    script.write_text(f"# Twins\n\nThe lamp is set otherwise.\n\n```claim\n{claims}\n```\n", encoding="utf-8")
    asked = of(Asked(30, system="Fuel", sorts=("marks", "figure")), other)
    about = [one.key for one in asked if one.sort == "figure" or "lamp is set at" in one.key or "lights at" in one.key]
    assert len(about) == 1, about


def test_before_anything_is_done_is_the_end_of_the_situation_and_not_after_a_long_rest() -> None:
    # At the situation's end the pump has not yet brought the gyros up; after a rest the horizon works.
    here = whinchat()
    words = "on Mk 1, in starting, after battery switch to off, within 5 s: artificial horizon is working"
    claim, problems = parse_claim(whole(TextFile("claim", words)), here.loaded.words)
    assert claim is not None and not problems
    setter = Setter(here.workshop, here.loaded.told, here.loaded.parsed, here.loaded.words, Memory(None), False)
    scope = replace(claim.scope, when=When("at", 5.0))
    mk1 = next(one for one in subjects(here.loaded.folder) if one.name == "Mk 1")
    every = indications(here.workshop.bound(mk1)[0])

    def horizon(of: Scope) -> str:
        found = shown(setter, mk1, of, every)
        assert found is not None
        return next(seen.state for one, seen in found.items() if one.part == "artificial horizon")

    before = next(one for one in variants(setter, Variant(Trap(""), mk1, scope)) if one.trap.sort == "before")
    rested = horizon(replace(scope, actions=(), when=When()))
    assert (horizon(before.scope), rested) == ("unreliable", "working")


def test_on_and_system_and_sort_narrow_it() -> None:
    only = of(Asked(4, on="Mk 1", system="fuel", sorts=("shows", "figure")))
    assert only and {(one.subject.name, one.system) for one in only} == {("Mk 1", "Fuel")}
    assert {one.sort for one in only} <= {"shows", "figure"}


@pytest.mark.parametrize(
    ("asked", "hint"),
    [
        (Asked(system="Feul"), "Fuel"),
        (Asked(sorts=("riddle",)), "failure"),
        (Asked(count=0), "--count"),
    ],
)
def test_what_there_is_not_is_told(asked: Asked, hint: str) -> None:
    found, problems = quiz(whinchat(), asked, memory=Memory(None))
    assert found is None
    assert [one.code for one in problems] == ["I204"] and hint in problems[0].hint


def test_a_quiz_that_is_stopped_has_what_there_was() -> None:
    left = [True] * 3
    found, _ = quiz(whinchat(), Asked(12), False, stop=lambda: not left or not left.pop(), memory=Memory(None))
    assert found is not None and len(found.quiz.questions) <= 3
    assert found.fewer.startswith("Stopped after ") and "were wanted" in found.fewer


@dataclass(frozen=True, slots=True)
class Edit:
    """A change of the demo's books or systems, and what is then the answer that was not."""

    file: str
    old: str
    new: str


def edited(path: Path, *edits: Edit) -> Path:
    shutil.copytree(WHINCHAT, path, ignore=shutil.ignore_patterns("pack"))
    for edit in edits:
        file = path / edit.file
        text = file.read_text(encoding="utf-8")
        assert edit.old in text, edit
        file.write_text(text.replace(edit.old, edit.new), encoding="utf-8")
    return path


def answers(questions: tuple[QuizQuestion, ...]) -> dict[str, str]:
    return {one.key: one.answer.proofs[0].text for one in questions}


def test_another_figure_in_the_records_is_another_answer(tmp_path: Path) -> None:
    asked = Asked(30, on="Mk 1", system="Fuel", sorts=("figure",))
    was = next(one for one in of(asked) if one.asked == WhichFigure("fuel lamp", "lights below"))
    assert was.answer.proofs[0].text == "on Mk 1: fuel lamp has lights below of 2 lb/sq in"
    records = Edit("systems/fuel.yaml", "is: 2 lb/sq in, on", "is: 1.5 lb/sq in, on")
    unprinted = of(asked, edited(tmp_path / "unprinted", records))
    assert was.key not in {one.key for one in unprinted}, "what the cited paragraph does not have is not asked"
    assert not any("1.5 lb/sq in" in option.proofs[0].text for one in unprinted for option in one.options)
    other = edited(tmp_path / "wren", records, Edit("sources/hb.md", "below 2 lb./sq. in", "below 1.5 lb./sq. in"))
    now = next(one for one in of(asked, other) if one.key == was.key)
    assert now.answer.proofs[0].text == "on Mk 1: fuel lamp has lights below of 1.5 lb/sq in"


def test_a_figure_that_stands_beside_the_answer_is_not_said_to_be_of_another_paragraph(tmp_path: Path) -> None:
    beside = Edit("sources/hb.md", "3 lb./sq. in. The lamp", "3 lb./sq. in., and is out at 3.5 lb./sq. in. The lamp")
    asked = of(Asked(30, on="Mk 2", system="Fuel", sorts=("figure",)), edited(tmp_path / "wren", beside))
    lamp = next(one for one in asked if one.asked == WhichFigure("fuel lamp", "lights below"))
    (trap,) = (one.trap for one in lamp.options if "3.5" in one.proofs[0].text)
    assert trap == Trap("same paragraph", "hb §25a")


def test_another_machine_is_another_answer(tmp_path: Path) -> None:
    # With a relief valve that holds the suction elsewhere, every reading of the gauge is another one.
    asked = Asked(40, system="Vacuum", sorts=("reads",))
    was = answers(of(asked))
    assert any("suction gauge reads 4.6 in Hg" in text for text in was.values())
    other = edited(tmp_path / "wren", Edit("systems/vacuum.yaml", "4.5 in Hg", "3 in Hg"))
    now = answers(of(asked, other))
    assert now and not any("reads 4.6 in Hg" in text for text in now.values())
    assert any("suction gauge reads 3.1 in Hg" in text or "reads 3 in Hg" in text for text in now.values()), now


def test_what_rests_on_an_assumed_value_is_not_asked() -> None:
    asked = Asked(6, on="Mk 1", sorts=("shows", "reads", "failure"))
    found, _ = quiz(whinchat(), asked, rests=True, memory=Memory(None))
    assert found is not None
    assert "elsewhere in its range" in found.view.stands
    tried = 0
    for question in found.quiz.questions:
        for option in question.options:
            for verdict in (one.verdict for one in option.proofs):
                assert isinstance(verdict, Holds | Fails | Stated)
                # Of readings only the answer is taken to the ends: where it always is so, no other one can be.
                if option.right or question.sort == "failure":
                    assert isinstance(verdict, Holds | Fails) and verdict.assumed != -1
                    tried += max(0, verdict.assumed)
    assert tried > 50


def test_an_answer_that_rests_on_an_assumed_value_makes_no_question(tmp_path: Path) -> None:
    """The setting of the suction relief valve, made an assumption with a wide range, decides what the gauge reads."""
    asked = Asked(30, on="Mk 1", system="Vacuum", sorts=("reads",))
    cited = "\n      - {is: 4.5 in Hg, cite: §32}\n      - {is: 4 in Hg, cite: §45}"
    wide = " {assume: 4.5 in Hg, between: 2.5 to 6 in Hg, because: The handbook is silent.}"
    other = edited(tmp_path / "wren", Edit("systems/vacuum.yaml", cited, wide))
    assert any("reads 4.6 in Hg" in text for text in answers(of(asked, other)).values())
    found, _ = quiz(other, asked, rests=True, memory=Memory(None))
    assert found is not None
    assert not any("reads 4.6 in Hg" in text for text in answers(found.quiz.questions).values())
