"""After an edit: what of the published pack is touched, by sentence, caption, drawing and figure."""

import json
from datetime import date
from pathlib import Path

from cutaway.api.corrections import publish
from cutaway.api.telling import made_text


def errata(home: Path) -> dict:
    return json.loads((home / "pack" / "errata.json").read_bytes())["corrections"][-1]


def test_nothing_published_and_there_is_no_errata_page(home: Path, made) -> None:
    done, problems = made()
    assert done.touched == () and not (home / "pack" / "errata.html").exists()
    assert "K310" not in {p.code for p in problems}


def test_nothing_edited_and_nothing_is_touched(out: Path, made) -> None:
    done, problems = made()
    assert done.touched == () and "K310" not in {p.code for p in problems}
    record = errata(out)
    assert not any(record[what] for what in ("sentences", "captions", "drawings", "figures", "paragraphs"))
    assert "Nothing of it reads otherwise now." in (out / "pack" / "errata.html").read_text(encoding="utf-8")


def test_k310_a_reworded_sentence_touches_its_captions_and_no_other(out: Path, made, edit) -> None:
    edit("scripts/01-fuel.md", "on every mark that was ever built", "on both marks that were ever built")
    done, problems = made()
    (told,) = (p for p in problems if p.code == "K310")
    assert "1 sentence" in told.message and "2026-03-01" in told.message
    record = errata(out)
    (sentence,) = record["sentences"]
    assert (sentence["sort"], sentence["number"]) == ("reworded", 2)
    assert "every mark" in sentence["was"] and "both marks" in sentence["now"]
    assert record["captions"] and all("mark" in c["was"] or "built" in c["was"] for c in record["captions"])
    assert not record["drawings"] and not record["figures"]
    page = (out / "pack" / "errata.html").read_text(encoding="utf-8")
    assert "<del>every mark" in page and "<ins>both marks" in page
    assert any("both marks" in line for line in done.touched) and "both marks" in made_text(done)


def test_a_figure_touches_the_sentences_and_drawings_that_rest_on_it(out: Path, made, edit) -> None:
    edit("systems/fuel.yaml", "capacity: 20 gal, cite: §1", "capacity: 22 gal, cite: §21")
    made()
    (figure,) = errata(out)["figures"]
    assert (figure["part"], figure["was"], figure["now"]) == ("fuel tank", "20 gal", "22 gal")
    assert errata(out)["sentences"] == [], "no claim speaks of the tank"


def test_a_figure_shakes_a_claim_on_its_part(home: Path, made, edit) -> None:
    edit("scripts/01-fuel.md", "fuel cock is fitted", "in parked: fuel tank reads 20 gal")
    made()
    publish(home, date(2026, 3, 1))
    edit("systems/fuel.yaml", "capacity: 20 gal, cite: §1", "capacity: 22 gal, cite: §21")
    done, _ = made()
    (sentence,) = errata(home)["sentences"]
    assert sentence["sort"] == "shaken" and sentence["was"] == sentence["now"]
    assert "'capacity' of the fuel tank was 20 gal and is 22 gal" in sentence["because"]
    assert any("on Mk 1 and Mk 2: holds before, fails now" in reason for reason in sentence["because"])
    assert done.wrong


def test_the_same_change_on_several_standards_is_told_once(home: Path, made, edit) -> None:
    edit("scripts/01-fuel.md", "fuel cock is fitted", "in parked: fuel tank reads 20 gal")
    made()
    publish(home, date(2026, 3, 1))
    edit("systems/fuel.yaml", "capacity: 20 gal, cite: §1", "capacity: 22 gal, cite: §21")
    made()
    (sentence,) = errata(home)["sentences"]
    (told,) = (reason for reason in sentence["because"] if "fails now" in reason)
    assert told == "'in parked: fuel tank reads 20 gal' on Mk 1 and Mk 2: holds before, fails now"


def test_a_new_name_on_a_drawing_is_told(out: Path, made, edit) -> None:
    edit("systems/fuel.yaml", "  fuel tank: {kind: tank", "  main tank: {kind: tank")
    edit("systems/fuel.yaml", "  - fuel tank > fuel cock", "  - main tank > fuel cock")
    made()
    drawings = errata(out)["drawings"]
    assert drawings and all("main tank" in " ".join(one["new"]) and one["there"] for one in drawings)
    assert all("fuel tank" in " ".join(one["gone"]) for one in drawings)
    page = page_of(out)
    assert all(one["path"] in page for one in drawings)
    assert 1 <= page.count("main tank") < len(drawings), "what many drawings share is said once"


def test_a_paragraph_shakes_the_sentence_that_cites_it(out: Path, made, edit) -> None:
    edit("sources/hb.md", "The fuel tank holds 20 gallons.", "The fuel tank holds 20 gallons when it is clean.")
    made()
    record = errata(out)
    assert record["paragraphs"] == ["hb §1"]
    (sentence,) = record["sentences"]
    assert sentence["number"] == 1 and sentence["because"] == ["hb §1 reads otherwise"]


def test_sentences_taken_out_and_put_in(out: Path, made, edit) -> None:
    edit("scripts/01-fuel.md", "That is all that can be said of it today. `aside`", "Mind the step. `aside`")
    made()
    assert {one["sort"] for one in errata(out)["sentences"]} == {"taken out", "put in"}


def test_a_letter_is_told_beside_the_correction(out: Path, made, edit) -> None:
    (out / "letters.yaml").write_text(
        "letters:\n  the cock:\n    objects to: The cock is fitted on every mark that was ever built.\n"
        "    from: Mr. Pell\n    decision: Reworded.\n    because: There were two.\n",
        encoding="utf-8",
    )
    edit("scripts/01-fuel.md", "on every mark that was ever built", "on both marks that were ever built")
    made()
    page = (out / "pack" / "errata.html").read_text(encoding="utf-8")
    assert "After a letter. Reworded. There were two." in page
    assert "Pell" not in page, "a writer's name is not published"


LETTER = (
    "letters:\n  the cock:\n    objects to: The cock is fitted on every mark that was ever built.\n"
    "    decision: Kept.\n    because: There is no other.\n"
)


def page_of(home: Path) -> str:
    return (home / "pack" / "errata.html").read_text(encoding="utf-8")


def test_a_letter_is_not_told_under_an_edit_that_has_nothing_to_do_with_it(out: Path, made, edit) -> None:
    """The words to which it objects still stand; what was touched is a paragraph behind them."""
    edit("scripts/01-fuel.md", "fuel cock is fitted", "in parked: fuel tank reads 20 gal")
    made()
    publish(out, date(2026, 3, 2))
    (out / "letters.yaml").write_text(LETTER, encoding="utf-8")
    edit("systems/fuel.yaml", "capacity: 20 gal, cite: §1", "capacity: 22 gal, cite: §21")
    made()
    assert [one["sort"] for one in errata(out)["sentences"]] == ["shaken"]
    assert "Kept." not in page_of(out)


def test_a_decision_from_before_the_publication_is_not_the_reason_of_an_edit_after_it(home: Path, made, edit) -> None:
    (home / "letters.yaml").write_text(LETTER, encoding="utf-8")
    made()
    publish(home, date(2026, 3, 1))
    edit("scripts/01-fuel.md", "on every mark that was ever built", "on both marks that were ever built")
    made()
    assert "both marks" in page_of(home) and "Kept." not in page_of(home)


def test_a_letter_about_another_film_or_a_panel_is_not_told_under_this_film(out: Path, made, edit) -> None:
    (out / "scripts" / "02-more.md").write_text("# More\n\nMind the step. `aside`\n", encoding="utf-8")
    edit("scripts/01-fuel.md", "on every mark that was ever built", "on both marks that were ever built")
    for where in ("film: 02-more", "panel: the cock", "page: '12'"):
        (out / "letters.yaml").write_text(LETTER.replace("Kept.", "Reworded.") + f"    {where}\n", encoding="utf-8")
        made()
        assert "both marks" in page_of(out) and "Reworded." not in page_of(out), where
    (out / "letters.yaml").write_text(
        LETTER.replace("Kept.", "Reworded.") + "    film: 01-fuel\n    panel: the cock\n", encoding="utf-8"
    )
    made()
    assert "Reworded." in page_of(out)


def test_a_name_that_is_to_be_said_otherwise_touches_the_sentences_that_say_it(out: Path, made) -> None:
    (out / "glossary.yaml").write_text("pronounced:\n  gallons: GAL-uns\n", encoding="utf-8")
    done, _ = made()
    (sentence,) = errata(out)["sentences"]
    assert (sentence["number"], sentence["sort"]) == (1, "shaken")
    assert sentence["because"] == ["'gallons' is to be said 'GAL-uns'"]
    assert errata(out)["captions"] == [], "the words on the screen stay, and the film keeps its times"
    assert any("GAL-uns" in line for line in done.touched)


def test_a_caption_is_touched_only_where_its_own_words_change(home: Path, made, edit) -> None:
    edit(
        "scripts/01-fuel.md",
        "The cock is fitted on every mark that was ever built.",
        "The cock is fitted on every mark that was ever built, and on the floor under the tank it is easily reached.",
    )
    made()
    publish(home, date(2026, 3, 1))
    edit("scripts/01-fuel.md", "it is easily reached", "it is quickly reached")
    done, _ = made()
    (caption,) = errata(home)["captions"]
    assert "easily" in caption["was"] and caption["now"] == caption["was"].replace("easily", "quickly")
    assert sum("  caption " in line for line in done.touched) == 1


def test_a_figure_on_a_sheet_touches_the_sheet(home: Path, made, edit) -> None:
    """The four kinds in one edit of the system: the figure, the sheets that print it, the sentence that claims it."""
    edit("scripts/01-fuel.md", "fuel cock is fitted", "in parked: fuel tank reads 20 gal")
    made()
    publish(home, date(2026, 3, 1))
    edit("systems/fuel.yaml", "capacity: 20 gal, cite: §1", "capacity: 22 gal, cite: §21")
    done, _ = made()
    sheets = errata(home)["drawings"]
    assert sheets, "a sheet prints what the tank holds"
    for sort in ("sentence", "drawing", "figure"):
        assert any(line.startswith(f"  {sort} ") for line in done.touched), sort


def test_the_errata_of_every_publication_stay(out: Path, made, edit) -> None:
    edit("scripts/01-fuel.md", "on every mark", "on each mark")
    made()
    publish(out, date(2026, 4, 1))
    edit("scripts/01-fuel.md", "twenty gallons", "20 gallons")
    made()
    records = json.loads((out / "pack" / "errata.json").read_bytes())["corrections"]
    assert [(one["since"], one["until"]) for one in records] == [("2026-03-01", "2026-04-01"), ("2026-04-01", None)]
    assert [[s["number"] for s in one["sentences"]] for one in records] == [[2], [1]]


def test_the_same_state_gives_the_same_bytes(out: Path, made, edit) -> None:
    edit("scripts/01-fuel.md", "on every mark", "on each mark")
    made()
    before = {p.name: p.read_bytes() for p in (out / "pack").glob("errata.*")}
    made()
    assert {p.name: p.read_bytes() for p in (out / "pack").glob("errata.*")} == before and len(before) == 2


def test_a_decision_to_keep_a_sentence_never_stands_beside_a_change(out: Path, made, edit) -> None:
    """Somebody decided after the publication to keep it; then it was changed for another reason."""
    (out / "letters.yaml").write_text(LETTER, encoding="utf-8")
    edit("scripts/01-fuel.md", "on every mark that was ever built", "on both marks that were ever built")
    made()
    assert "both marks" in page_of(out) and "After a letter" not in page_of(out)


def test_the_reason_of_an_old_decision_may_be_reworded(home: Path, made, edit) -> None:
    (home / "letters.yaml").write_text(LETTER.replace("Kept.", "Reworded."), encoding="utf-8")
    made()
    publish(home, date(2026, 3, 1))
    (home / "letters.yaml").write_text(LETTER.replace("Kept.", "Reworded again."), encoding="utf-8")
    edit("scripts/01-fuel.md", "on every mark that was ever built", "on both marks that were ever built")
    made()
    assert "After a letter" not in page_of(home)
