"""A sentence that reports a paragraph must have its figures, in its units."""

import pytest

from cutaway.handbook.records import AircraftType, Cite, Folder, Paragraph, Sentence, Source, SourceKey
from cutaway.inquiry.verdicts import Stated
from cutaway.narrate.citing import cite_verdict
from cutaway.problems.span import Span, TextFile, whole
from cutaway.quantities.which import Which

BOOK = TextFile("sources/hb.md", "paragraphs")
HB = SourceKey("hb")


def paragraph(number: str, title: str, text: str, *cautions: str) -> Paragraph:
    return Paragraph(HB, number, title, text, Which("", frozenset()), "", cautions, whole(BOOK))


PARAGRAPHS = (
    paragraph("§21", "Tanks", "Each of the two tanks holds 22 gallons, in all 44 gals."),
    paragraph("§25", "Lamp", "The lamp lights when it falls below 2 lb. per sq. in.", "Not above 3,000 r.p.m."),
    paragraph("§26", "Gauge", "The gauge should read 4½ to 5½ in. Hg at 1,800 r.p.m."),
    paragraph("§30", "Levers", "The levers are painted red."),
)
FOLDER = Folder(
    root=".",
    type=AircraftType("Whinchat", "", "", ("Mk 1",), (), (), (), (), "", whole(BOOK)),
    sources=(Source(HB, "Handbook", "1938", "", (), PARAGRAPHS, whole(BOOK)),),
    decided=(),
    systems=(),
    parts=(),
    lines=(),
    groups=(),
    situations=(),
    services=(),
    drills=(),
    scripts=(),
    glossary=(),
    letters=(),
    files=(),
    left_out=frozenset(),
)


def sentence(text: str, *numbers: str) -> Sentence:
    file = TextFile("scripts/01.md", f"# A\n\n{text}\n")
    span = Span(file, 5, 5 + len(text))
    return Sentence(text, "A", 1, (), tuple(Cite(HB, number, span) for number in numbers), False, span)


@pytest.mark.parametrize(
    "text, numbers",
    [
        ("Each tank holds 22 gal.", ["§21"]),
        ("Two tanks, of twenty-two gallons each, forty-four gallons in all.", ["§21"]),
        ("The lamp lights below two pounds per square inch.", ["§25"]),
        ("The lamp lights below 2 lb/sq in, but never above 3000 rpm.", ["§25"]),
        ("It reads 4.5 to 5.5 in Hg at 1,800 rpm.", ["§26"]),
        ("It reads at least 4.5 in Hg.", ["§26"]),
        ("The lamp lights below 2 lb/sq in, and each tank holds 22 gal.", ["§21", "§25"]),
        ("On the Mk 1 the levers are red; see §30.", ["§30"]),
        ("That one is the red one.", ["§30"]),
    ],
)
def test_what_the_paragraph_says_is_stated(text: str, numbers: list[str]) -> None:
    one = sentence(text, *numbers)
    assert cite_verdict(one, FOLDER) == (Stated(one.cites, text), ())


@pytest.mark.parametrize(
    "text, numbers, words, at",
    [
        ("The lamp lights below 3 lb/sq in.", ["§25"], "'2 lb. per sq. in.'", "3 lb/sq in"),
        ("The lamp lights below 2 in Hg.", ["§25"], "'2 lb. per sq. in.'", "2 in Hg"),
        ("Each tank holds 22 pints.", ["§21"], "'22 gallons' or '44 gals'", "22 pints"),
        ("It reads 4 in Hg.", ["§26"], "4½ to 5½ in. Hg", "4 in Hg"),
        ("The levers move 30 degrees.", ["§30"], "no angle at all", "30 degrees"),
        ("There are 3 tanks.", ["§21"], "", "3"),
    ],
)
def test_what_it_does_not_say_is_told_with_what_it_says(text: str, numbers: list[str], words: str, at: str) -> None:
    verdict, problems = cite_verdict(sentence(text, *numbers), FOLDER)
    assert verdict is None
    (problem,) = problems
    assert problem.code == "N201"
    assert words in problem.message
    assert numbers[0] in problem.message
    assert problem.span is not None
    assert problem.span.file.text[problem.span.start : problem.span.end] == at
    assert problem.hint.endswith(".")


def test_each_wrong_figure_is_told() -> None:
    _, problems = cite_verdict(sentence("It lights below 3 lb/sq in at 2,000 rpm.", "§25"), FOLDER)
    assert len(problems) == 2


def test_without_a_paragraph_there_is_no_verdict() -> None:
    assert cite_verdict(sentence("It lights below 3 lb/sq in."), FOLDER) == (None, ())
    assert cite_verdict(sentence("It lights below 3 lb/sq in.", "§99"), FOLDER) == (None, ())
