"""An invented pack with every kind of verdict in it, and a browser to look at its page with."""

# ruff: noqa: E501

import shutil
from pathlib import Path
from typing import Any

import pytest

from cutaway.draw.shapes import Line, Picture, Rect, Shape, Text
from cutaway.draw.svg import write_inner_svg
from cutaway.problems.diagnostic import Diagnostic
from cutaway.problems.span import Span, TextFile
from cutaway.publish.page import page
from cutaway.publish.view import (
    AssumptionView,
    CautionView,
    ClaimView,
    PackView,
    ParagraphView,
    ScriptView,
    SentenceView,
    SheetView,
    TermView,
    VerdictView,
)
from tests.publish.demo import made, put_wrong
from tests.whinchat import WHINCHAT

STANDARDS = ("Mk 1", "Mk 2", "Mk 2 with mod 12")
SCRIPT = TextFile("scripts/01-fuel.md", "# Petrol\n\nThe lamp lights below 3 lb/sq in. `cite: hb §25`\n")


def on_each(kind: Any, heading: str, sentence: str) -> tuple[VerdictView, ...]:
    return tuple(VerdictView(standard, kind, heading, sentence) for standard in STANDARDS)


def drawing(name: str) -> str:
    """A stand-in for a sheet: boxes joined by a pipe, by the writer of all sheets."""
    shapes: list[Shape] = []
    for at, words in enumerate(("port tank", "selector", "filter", "pump")):
        x = 40.0 + 190 * at
        shapes += [Rect((x, 70.0), (140.0, 60.0), "box", 4.0), Text((x + 70, 105.0), words, "name", 18.0, "middle")]
        shapes += [Line((x + 140, 100.0), (x + 190, 100.0), "pipe petrol flowing")] if at < 3 else []
    return write_inner_svg(Picture((800.0, 200.0), tuple(shapes), name, name, ()))


def sentences() -> tuple[SentenceView, ...]:
    tanks, lamp = "Two tanks and a cock", "One lamp, two settings"
    return (
        SentenceView("Good morning, and do come closer.", tanks, 1, "aside", "0:00"),
        SentenceView(
            "Hallam & Reeve put the type into production in 1938.",
            tanks, 1, "cited", "0:03", cites=("hb §1",), cite_verdict="stated",
            cite_words="Stated: its figures stand in handbook §1.",
        ),
        SentenceView(
            "Shut the cock, and within forty seconds the lamp tells you.",
            tanks, 2, "claimed", "0:09",
            claims=(
                ClaimView(
                    "in cruising, after tank selector to off, within 40 s: fuel lamp is lit",
                    (
                        VerdictView("Mk 1", "holds", "Holds", "Holds: in cruising, the fuel lamp is lit 31 s after the "
                                    "tank selector is put to off (handbook §22, §25)."),
                        VerdictView("Mk 2", "holds", "Holds", "Holds: in cruising, the fuel lamp is lit 28 s after the "
                                    "tank selector is put to off (handbook §22, §25a)."),
                        VerdictView("Mk 2 with mod 12", "fails", "Fails", "Fails: in cruising, with the lamp switch at "
                                    "off, it does not come about that the fuel lamp is lit within 40 s once the tank "
                                    "selector is put to off; at 40 s the fuel lamp is out (handbook §22, §25b).", True),
                    ),
                    ("hb §22", "hb §25"),
                ),
            ),
        ),
        SentenceView(
            "The cock has three positions: port, off and starboard.",
            tanks, 2, "claimed", "0:14",
            claims=(
                ClaimView(
                    "tank selector has positions off, port tank, starboard tank",
                    on_each("stated", "Stated", "Stated: the tank selector has positions off, port tank, starboard tank "
                            "(handbook §22)."),
                    ("hb §22",),
                ),
            ),
        ),
        SentenceView(
            "The filter takes hardly anything of the pressure, and the gauge shows it.",
            lamp, 3, "claimed", "0:19",
            claims=(
                ClaimView(
                    "in cruising: carburettor.inlet is above 4.8 lb/sq in",
                    on_each("rests-on", "Rests on", "Rests on the drop of the filter (assumed 0.2 lb/sq in, between 0.05 "
                            "and 0.6 lb/sq in): above 0.41 lb/sq in the answer is the other."),
                ),
                ClaimView(
                    "fuel pressure gauge reads 5 lb/sq in ± 0.6",
                    (
                        VerdictView("Mk 1", "holds", "Holds", "Holds: the fuel pressure gauge reads 5 lb/sq in ± 0.6."),
                        VerdictView("Mk 2", "not-modelled", "Not modelled", "Not modelled: Mk 2 has no fuel pressure gauge."),
                        VerdictView("Mk 2 with mod 12", "not-modelled", "Not modelled",
                                    "Not modelled: Mk 2 with mod 12 has no fuel pressure gauge."),
                    ),
                ),
            ),
        ),
        SentenceView(
            "The lamp lights below three pounds.",
            lamp, 3, "cited", "0:25", cites=("hb §25",), cite_verdict="fails",
            cite_words="The sentence says 'three lb/sq in', and §25 has '2 lb/sq in'.",
        ),
        SentenceView(
            "If nobody touches anything, the horn stays quiet.",
            lamp, 4, "claimed", "0:28",
            claims=(ClaimView("always: horn is silent if throttle is open", on_each(
                "empty", "Empty", "Empty: 'throttle is open' never comes about in the 4 cases tried, so nothing was "
                "tested.")),
                ClaimView("in gliding, always: engine is running", on_each(
                    "undecided", "Undecided", "Undecided: 2,000 cases were tried, and there are more."))),
        ),
        SentenceView("Old hands say that it ran best on a Friday.", lamp, 4, "unchecked", "0:33", likely=("hb §22",)),
        SentenceView("And that is all there is to be said.", lamp, 4, "unchecked", "0:36"),
    )  # fmt: skip


def sheets() -> tuple[SheetView, ...]:
    return tuple(
        SheetView(
            standard,
            system,
            situation,
            f"sheets/{system}-{standard}-{situation}.svg",
            (f"{system} on {standard}, {situation}.", "The port tank, the selector, the filter and the pump in a row."),
            drawing(f"{system} {standard} {situation}"),
        )
        for system in ("Fuel", "Vacuum")
        for situation in ("parked", "cruising")
        for standard in STANDARDS
    )


@pytest.fixture(scope="session")
def view() -> PackView:
    book = "Handbook of the Whinchat"
    return PackView(
        title="Whinchat",
        maker="Hallam & Reeve",
        says="A single-engined trainer of 1938, petrol from two wing tanks, flaps by a hand pump.",
        notice="For interpretation on the ground only. It is not flight, maintenance or operating advice; the approved "
        "documents and the licensed people of the place come first.",
        standards=STANDARDS,
        scripts=(ScriptView("01-fuel", "Petrol, and the lamp that watches it", sentences(), "captions/01-fuel.vtt", "0:41"),),
        drills=(
            ScriptView("starting", "Starting the engine", (
                SentenceView("Petrol: tank selector to port tank.", "", 0, "step", "1.",
                             caution="Nobody may stand within reach of the propeller."),
                SentenceView("She fires.", "", 0, "claimed", "2.", claims=(
                    ClaimView("engine is running", on_each("holds", "Holds", "Holds: the engine is running.")),)),
            ), says="Begins from: parked."),
        ),
        sheets=sheets(),
        paragraphs=(
            ParagraphView("hb §1", "§1", "General", "The type was put into production in 1938.", book),
            ParagraphView("hb §22", "§22", "Fuel cock", "A selector cock on the left wall takes petrol from the port tank, "
                          "from the starboard tank, or from neither.", book,
                          cautions=("Never leave the cock between two positions.",)),
            ParagraphView("hb §25", "§25", "Fuel lamp", "The fuel lamp lights when the pressure at the carburettor falls "
                          "below 2 lb./sq. in. <Mk 1 & Mk 2>", book, "Mk 1"),
        ),
        glossary=(
            TermView("selector cock", "A cock that joins one of several pipes to the engine.", "", ("petrol cock",)),
            TermView("H.T.", "High tension, the magnetos' current.", "high tension"),
        ),
        cautions=(CautionView("Never leave the cock between two positions.", "tank selector", ("§22",)),),
        assumptions=(AssumptionView("filter", "drop", "0.2 lb/sq in", "0.05 to 0.6 lb/sq in", "The handbook is silent."),),
        problems=(
            Diagnostic("N201", Span(SCRIPT, 32, 42), "The sentence says '3 lb/sq in', and §25 has '2 lb/sq in'.",
                       "Write 2 lb/sq in, or cite the paragraph that says 3 lb/sq in."),
        ),
    )  # fmt: skip


@pytest.fixture(scope="session")
def wrong_demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a copy of the demo that has five wrong sentences, its pack, and what was kept of making it."""
    base: Path = tmp_path_factory.mktemp("demo")
    shutil.copytree(WHINCHAT, base / "whinchat", ignore=shutil.ignore_patterns("pack", "handout"))
    put_wrong(base / "whinchat")
    found, problems = made(base / "whinchat", base / "pack", base / "memory.sqlite")
    assert found is not None, problems
    return base


@pytest.fixture(scope="session")
def page_file(view: PackView, tmp_path_factory: pytest.TempPathFactory) -> Path:
    path: Path = tmp_path_factory.mktemp("pack") / "index.html"
    path.write_text(page(view), encoding="utf-8")
    return path
