"""Handouts: what stands on them, that readers of tags can follow, that all can be read; the same bytes twice."""

import json
from pathlib import Path

import pytest

import cutaway.api.handout as room
import cutaway.publish.handout.ground as ground
from cutaway.api.handout import Asked, handout
from cutaway.publish.handout.filling import note, stories
from cutaway.publish.handout.pdf import TEMPLATE, on_one_page, pdf_of
from cutaway.publish.handout.records import PAPERS, Chapter, Handout, Key, Plate, Said, Story, Tile, Told, Word
from cutaway.publish.view import ClaimView, PackView, ScriptView, SentenceView, VerdictView
from tests.cli.running import cutaway
from tests.publish.handout import reading_back

WHINCHAT = Path(__file__).parents[3] / "demo" / "whinchat"
SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="200" height="100" viewBox="0 0 200 100">'
    '<text x="10" y="50" font-size="20" font-family="DejaVu Sans">tank 7</text></svg>'
)


def plate(**more: object) -> Plate:
    tiles = (Tile(SVG, 200.0, 100.0, 0, 0),)
    given = {"tiles": tiles, "columns": 1, "rows": 1, "flipped": False, "whole": False} | more
    return Plate(
        "Wren Mk 1: Fuel", "Parked.", ("Sheet of the fuel.", "tank: 7 gal."), smallest=20.0, key=(Key(SVG, "petrol"),),
        cautions=("No flames.",), **given,  # type: ignore[arg-type]
    )  # fmt: skip


def small(kind: str = "booklet", paper: int = 0, plates: tuple[Plate, ...] | None = None) -> Handout:
    said = (Said("The cock has <three> positions & a #stop.", "hb §21. Checked: holds on Mk 1.", True), Said("So.", ""))
    return Handout(
        kind, PAPERS[paper], "Wren", "Wren", "Hallam & Reeve", "A trainer.", "Not for flight.", "Mk 1", "parked",  # type: ignore[arg-type]
        plates=(plate(),) if plates is None else plates,
        points=said[:1],
        stories=(Story("Petrol", (Chapter("Tanks", said),)),),
        terms=(Word("cock", "A tap of brass.", "A tap.", "kok", "hb §21"),),
        cautions=(Told("No flames.", "tank", "hb §22"),),
        credits=("By us.",),
    )  # fmt: skip


@pytest.fixture(scope="module")
def whinchat(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """Every handout of the demo on both papers, by its name."""
    out = tmp_path_factory.mktemp("handout")
    made, problems = handout(WHINCHAT, Asked(papers=("a4", "letter")), out, rests=False)
    assert problems == () and len(made) == 6 and all(one.fresh for one in made)
    return {f"{one.kind} {one.paper}": one.path.read_bytes() for one in made}


# --- the typesetter's own judgement -------------------------------------------------------------------------------


@pytest.mark.parametrize("kind", ["visitor", "large", "booklet"])
@pytest.mark.parametrize("paper", [0, 1])
def test_every_kind_is_accepted_as_universally_accessible(kind: str, paper: int) -> None:
    assert pdf_of(small(kind, paper)).startswith(b"%PDF-")


@pytest.mark.parametrize(
    "old, new, said",
    [
        ("  alt: alt-of(p, tile, number),\n", "", "alt text"),
        ('title: if d.called != "" { d.called } else { d.title }, author', "author", "title"),
        ("heading(level: 2, s.title)", "heading(level: 4, s.title)", "heading"),
    ],
)
def test_the_typesetter_refuses_what_tags_need(old: str, new: str, said: str) -> None:
    import typst

    template = TEMPLATE.read_text(encoding="utf-8")
    assert template.count(old) == 1
    with pytest.raises(typst.TypstError, match=said):
        pdf_of(small(), template.replace(old, new).encode())


# --- read back by another program ---------------------------------------------------------------------------------


def test_what_is_in_the_records_stands_on_the_paper() -> None:
    words = " ".join(reading_back.texts(pdf_of(small())))
    for one in (
        "The cock has <three> positions & a #stop.", "hb §21. Checked: holds on Mk 1.", "Wren Mk 1: Fuel", "tank 7",
        "Simply: A tap.", "In full: A tap of brass.", "No flames.", "hb §22", "By us.", "Not for flight.", "petrol",
    ):  # fmt: skip
        assert one in words, one


def test_every_picture_is_told_in_words() -> None:
    two = plate(tiles=(Tile(SVG, 200.0, 100.0, 0, 0), Tile(SVG, 200.0, 100.0, 1, 0)), columns=2, whole=True)
    found = reading_back.tags(pdf_of(small(plates=(plate(), two))))
    figures = [one.alt for one in found if one.sort == "Figure"]
    assert figures[:2] == ["Sheet of the fuel. tank: 7 gal."] * 2
    assert figures[2].startswith("The same sheet goes on: piece 2 of 2.") and len(figures) == 3
    assert {"H1", "H2", "H3", "Note", "L", "Link"} <= {one.sort for one in found}


@pytest.mark.parametrize("kind", ["visitor", "large", "booklet"])
def test_nothing_is_too_small_and_every_font_is_inside(whinchat: dict[str, bytes], kind: str) -> None:
    for paper in ("a4", "letter"):
        pdf = whinchat[f"{kind} {paper}"]
        found = reading_back.letter_sizes(pdf)
        least = 18.0 if kind == "large" else 7.0
        assert min(found) >= least - 0.01, found[min(found)]
        embedded = reading_back.fonts(pdf)
        assert embedded and all(embedded.values())


def test_pages_are_of_the_paper(whinchat: dict[str, bytes]) -> None:
    for paper, sides in (("a4", (595.28, 841.89)), ("letter", (612.0, 792.0))):
        for kind in ("visitor", "large", "booklet"):
            for size in reading_back.sizes(whinchat[f"{kind} {paper}"]):
                assert sorted(size) == pytest.approx(sorted(sides), abs=0.1)


def test_the_visitor_sheet_is_one_page_with_the_notice(whinchat: dict[str, bytes]) -> None:
    for paper in ("a4", "letter"):
        (words,) = reading_back.texts(whinchat[f"visitor {paper}"])
        assert "not flight, maintenance or operating advice" in words
        assert "Caution:" in words and "What to look for" in words and "Checked: holds on" in words


def test_the_booklet_has_all_its_parts(whinchat: dict[str, bytes]) -> None:
    pages = reading_back.texts(whinchat["booklet a4"])
    words = " ".join(pages)
    for one in (
        "Contents", "The story", "The sheets", "Cautions", "Words of the trade", "Books", "Credits", "Please note",
        "station: where the parts are fitted", "part on another sheet", "The Whinchat Trainer, Marks 1 and 2",
        "A.L. 2 (May 1939)", "Simply:", "In full:", "Rights:",
    ):  # fmt: skip
        assert one in words, one
    assert "it was not tried whether a sentence hangs on one" in words  # as was asked for: rests=False
    assert reading_back.about(whinchat["booklet a4"])["Title"] == "Whinchat: booklet"
    assert b"/Lang(en-GB)" in whinchat["booklet a4"]


def test_drawings_stay_drawings(whinchat: dict[str, bytes]) -> None:
    """The names on a sheet are words in the file, and no picture is of pixels."""
    assert "tank selector" in " ".join(reading_back.texts(whinchat["booklet a4"]))
    assert all(b"/Subtype/Image" not in pdf for pdf in whinchat.values())


def test_same_records_same_bytes() -> None:
    first = pdf_of(small())
    assert pdf_of(small()) == first and b"CreationDate" not in first


def test_what_is_there_already_is_left(whinchat: dict[str, bytes], tmp_path: Path) -> None:
    asked = Asked(kinds=("visitor",))
    (one,), _ = handout(WHINCHAT, asked, tmp_path, rests=False)
    assert one.path.read_bytes() == whinchat["visitor a4"]  # made in another run
    (again,), _ = handout(WHINCHAT, asked, tmp_path, rests=False)
    assert one.fresh and not again.fresh
    one.path.write_bytes(b"mine")
    made, problems = handout(WHINCHAT, asked, tmp_path, rests=False)
    assert made == () and [p.code for p in problems] == ["K402"] and one.path.read_bytes() == b"mine"


# --- what is printed and what is not ------------------------------------------------------------------------------


def sentence(text: str, wrong: bool = False) -> SentenceView:
    verdict = VerdictView("Mk 1", "fails" if wrong else "holds", "Fails" if wrong else "Holds", "", wrong)
    return SentenceView(text, "Tanks", 0, "claimed", claims=(ClaimView("", (verdict,), ("hb §21", "hb §22", "ap §1")),))


def test_a_note_names_each_book_once() -> None:
    assert note(sentence("It is shut.")) == "hb §21, §22 and ap §1. Checked: holds on Mk 1."
    assert note(SentenceView("Good morning.", "", 0, "aside")) == ""


def test_k510_what_does_not_hold_is_held_back() -> None:
    script = ScriptView("01-fuel", "Petrol", (sentence("It is shut."), sentence("It is open.", wrong=True)))
    told, problems = stories(PackView("Wren", "", "", "", ("Mk 1",), scripts=(script,)))
    assert [one.text for story in told for chapter in story.chapters for one in chapter.sentences] == ["It is shut."]
    assert [p.code for p in problems] == ["K510"] and "'It is open.'" in problems[0].message


def test_points_and_terms_give_way_until_the_page_is_enough() -> None:
    full = small("visitor")
    crowded = Handout(**{name: getattr(full, name) for name in Handout.__dataclass_fields__} | {
        "points": full.points * 60, "terms": full.terms * 40,
    })  # fmt: skip
    fitted = on_one_page(crowded)
    assert fitted is not None and len(reading_back.sizes(pdf_of(fitted))) == 1
    assert 0 < len(fitted.points) < 60
    assert on_one_page(small("visitor"), pages=lambda _: 2) is None


def test_k511_a_sheet_that_cannot_be_read_on_one_page_is_not_on_it(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setitem(ground.SMALLEST, "visitor", 30.0)
    (one,), problems = handout(WHINCHAT, Asked(("visitor",), system="Fuel"), tmp_path, rests=False)
    assert one.plates == 0 and one.pages == 1 and [p.code for p in problems] == ["K511"]


def test_what_the_scripts_speak_of_comes_first_and_as_most_claims_have_it(sample: Path, tmp_path: Path) -> None:
    """The system 'Air' stands before 'Fuel' in the folder, and nobody speaks of it."""
    air = "system: Air\nparts:\n  bottle: {kind: air bottle, volume: 1 gal, cite: hb §1}\n"
    (sample / "systems" / "air.yaml").write_text(air, encoding="utf-8")
    says = (
        "# Petrol\n\nThere is a cock behind the fuel tank.\n\n```claim\nfuel cock is fitted\n```\n\n"
        "With her engine running the fuel cock is on.\n\n```claim\nin running: fuel cock is on\n```\n"
    )
    (sample / "scripts" / "01-fuel.md").write_text(says, encoding="utf-8")
    asked = "handouts:\n  the whole story: {kind: [visitor, booklet], paper: [A4, Letter]}\n"
    (sample / "handouts.yaml").write_text(asked, encoding="utf-8")
    made, problems = handout(sample, Asked(), tmp_path, rests=False)
    assert [one.path.stem for one in made] == [
        f"the-whole-story-{kind}-{paper}" for kind in ("visitor", "booklet") for paper in ("a4", "letter")
    ]
    assert [p.code for p in problems if p.code.startswith("K")] == []
    page = " ".join(reading_back.texts(made[0].path.read_bytes()))
    assert "Sparrow Mk 1: Fuel" in page and "Running" in page
    booklet = " ".join(" ".join(reading_back.texts(made[2].path.read_bytes())).split())
    assert 0 < booklet.find("Sheet 1. Sparrow Mk 1: Fuel") < booklet.find("Sheet 2. Sparrow Mk 1: Air"), booklet
    assert reading_back.about(made[2].path.read_bytes())["Title"] == "Sparrow: the whole story, booklet"


def test_large_print_in_words_says_cautions_and_notice_once(
    sample: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setitem(ground.MOST_PAGES, "large", 0)
    (one,), problems = handout(sample, Asked(("large",), system="Fuel"), tmp_path, rests=False)
    words = " ".join(reading_back.texts(one.path.read_bytes()))
    assert [p.code for p in problems if p.code == "K511"] == ["K511"] and "The sheet in words" in words
    notice = " ".join(words.split()).split("Please note ")[1].removesuffix(" 1").split(" 2")[0][:40]
    assert " ".join(words.split()).count(notice) == 1
    assert words.count("Caution:") == 1


# --- bad input ----------------------------------------------------------------------------------------------------


def test_k509_the_typesetter_is_not_there(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(room, "find_spec", lambda name: None)
    made, problems = handout(WHINCHAT, Asked(), rests=False)
    assert made == () and [p.code for p in problems] == ["K509"] and "-e '.[handout]'" in problems[0].hint


@pytest.mark.parametrize(
    "asked, code",
    [
        (Asked(kinds=("poster",)), "K505"),
        (Asked(papers=("a0",)), "K505"),
        (Asked(system="fule"), "K501"),
        (Asked(situation="crusing"), "K501"),
    ],
)
def test_what_is_not_there_is_told(asked: Asked, code: str, tmp_path: Path) -> None:
    made, problems = handout(WHINCHAT, asked, tmp_path, rests=False)
    assert made == () and [p.code for p in problems] == [code] and not list(tmp_path.iterdir())


def test_the_verb(tmp_path: Path) -> None:
    said = ("handout", WHINCHAT, "--kind", "visitor", "--system", "flaps", "--no-rests", "--out", tmp_path, "--json")
    result = cutaway(*said)
    record = json.loads(result.stdout)
    assert result.exit_code == 0 and record["problems"] == []
    assert record["handouts"][0]["pages"] == 1 and Path(record["handouts"][0]["file"]).is_file()
    assert cutaway("handout", WHINCHAT, "--paper", "a0").exit_code == 2
