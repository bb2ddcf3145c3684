"""Statements of figures that the paragraph cited for them does not have: nothing is stated of them."""

import shutil

import pytest

from cutaway.api.asking import Opened, opened
from cutaway.inquiry.check import judge
from cutaway.inquiry.verdicts import NotModelled, Stated, Verdict
from cutaway.language.parse import parse_claim
from cutaway.problems.span import TextFile, whole
from cutaway.wording.verdicts import verdict_sentence
from tests.inquiry.questions.asking import WHINCHAT

PRINTED = "{is: 2 lb/sq in, on: Mk 1, cite: §25}"


@pytest.fixture(
    scope="module", params=["is: 1.5 lb/sq in, on: Mk 1, cite: §25", "is: 3 lb/sq in, on: Mk 1, cite: §25a"]
)
def figure(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> tuple[str, Opened]:
    """The demo with another figure for its lamp: one that §25 does not have; one that §25a has for Mk 2 alone."""
    folder = tmp_path_factory.mktemp("unprinted") / "wren"
    shutil.copytree(WHINCHAT, folder, ignore=shutil.ignore_patterns("pack"))
    file = folder / "systems" / "fuel.yaml"
    text = file.read_text(encoding="utf-8")
    assert PRINTED in text
    file.write_text(text.replace(PRINTED, f"{{{request.param}}}"), encoding="utf-8")
    here, _ = opened(folder)
    assert here is not None
    return str(request.param), here


def verdict(here: Opened, text: str) -> tuple[Verdict, str]:
    claim, problems = parse_claim(whole(TextFile("claim", text)), here.loaded.words)
    assert claim is not None and not problems
    (judged,) = judge(claim, here.workshop, here.loaded.told, rests=False)
    return judged.verdict, verdict_sentence(claim, judged.verdict, here.loaded.folder)


def test_a_figure_that_the_cited_paragraph_does_not_have_is_neither_stated_nor_denied(
    figure: tuple[str, Opened],
) -> None:
    given, here = figure
    value = given.split(":")[1].split(",")[0].strip()
    for claimed in (value, "2 lb/sq in", "5 lb/sq in"):
        found, told = verdict(here, f"on Mk 1: fuel lamp is set at {claimed}")
        assert isinstance(found, NotModelled), told
        assert f"there is no record of '{value}' for 'lights below' of fuel lamp" in told
        why = (
            "§25a, which is cited for it, is not about Mk 1"
            if "25a" in given
            else "does not have it and has 2 lb./sq. in"
        )
        assert why in told, told


def test_other_figures_are_stated_as_before(figure: tuple[str, Opened]) -> None:
    _, here = figure
    for text in (
        "on Mk 2 without mod 12: fuel lamp is set at 3 lb/sq in",
        "on Mk 1: flap relief valve is set at 300 lb/sq in",
    ):
        assert isinstance(verdict(here, text)[0], Stated), text
