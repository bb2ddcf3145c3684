"""The shot list: marked pictures, proposed ones, call-outs, and as a file for a spreadsheet."""

import csv
import io

from cutaway.narrate.shots import _named_first
from cutaway.publish.shot_list import COLUMNS, shot_list_csv, shot_list_page

CLAIMED = "The cock is there.\n\n```claim\nfuel cock is fitted\n```\n"


def codes(problems) -> list[str]:
    return [problem.code for problem in problems]


def test_a_picture_is_proposed_from_the_claim(series) -> None:
    looked, problems = series(CLAIMED)
    (shot,) = looked.scripts[0].shots
    assert codes(problems) == []
    assert shot.picture is not None and (shot.picture.system, shot.picture.by) == ("Fuel", "proposed")
    assert shot.callouts == ("fuel cock",) and shot.by == "proposed"


def test_the_system_is_that_of_the_part_which_the_sentence_names() -> None:
    names = frozenset({"engine", "engine pump", "hand pump", "carburettor"})
    claimed = ("engine", "engine pump", "hand pump")
    text = "If the engine pump shears she flies on, for hand pumps can do its work, and the engine runs."
    assert _named_first(claimed, text, names) == "engine pump", "and not the engine, whose name is in it"
    assert _named_first(claimed, "Hand pumps help the engine.", names) == "hand pump"
    assert _named_first(claimed, "She flies on with the carburettor fed.", names) == "engine"


def test_marks_go_before_what_would_be_proposed(series) -> None:
    marks = "`show: 'the wing'` `call-out: fuel cock, \"the rivet\"`"
    text = f"The cock is there. {marks}\n\n```claim\nfuel cock is fitted\n```\n"
    looked, problems = series(text)
    (shot,) = looked.scripts[0].shots
    assert codes(problems) == []
    assert shot.picture is not None and (shot.picture.words, shot.picture.by) == ("the wing", "marked")
    assert shot.callouts == ("fuel cock", "the rivet") and shot.by == "marked"


def test_the_same_picture_is_told_once(series) -> None:
    looked, _ = series("One. `show: Fuel`\n\nTwo.\n\nThree. `show: Fuel`\n\nFour. `show: 'the wing'`")
    assert [shot.picture is not None for shot in looked.scripts[0].shots] == [True, False, False, True]


def test_n921_pictures_and_parts_that_there_are_not(series) -> None:
    _, problems = series("One. `show: Feul` Two. `call-out: fuel cokc` Three. `show: parked`")
    assert codes(problems) == ["N921", "N921", "N921"]
    assert "Did you mean Fuel?" in problems[0].hint and "Did you mean fuel cock?" in problems[1].hint
    assert "does not say of which system" in problems[2].message


def test_the_table_can_be_read_back(series) -> None:
    looked, _ = series("She said, \"shut it\". `show: 'the wing'`\n\n=1+1 is two.\n\nThird, ünd last.")
    script = looked.scripts[0]
    content = shot_list_csv(script)
    rows = list(csv.reader(io.StringIO(content.decode("utf-8-sig"), newline="")))
    assert tuple(rows[0]) == COLUMNS and len(rows) == 4
    assert rows[1][4] == 'She said, "shut it".' and rows[3][4] == "Third, ünd last."
    assert rows[2][4] == "'=1+1 is two.", "a spreadsheet must not reckon"
    assert [row[5] for row in rows[1:]] == ["the wing", "as before", "as before"]
    starts = [float(row[1]) for row in rows[1:]]
    stops = [float(row[2]) for row in rows[1:]]
    assert all(a < b for a, b in zip(starts, stops, strict=True)) and starts == sorted(starts)


def test_nothing_is_before_the_first_picture(series) -> None:
    looked, _ = series("One. Two. `show: 'the wing'` Three.")
    rows = list(csv.reader(io.StringIO(shot_list_csv(looked.scripts[0]).decode("utf-8-sig"))))
    assert [row[5] for row in rows[1:]] == ["", "the wing", "as before"]


def test_the_page_leads_to_the_sheets_that_there_are(series) -> None:
    looked, _ = series("<One> & two. `show: Fuel`")
    (shot,) = looked.scripts[0].shots
    assert shot.picture is not None
    key = (shot.picture.system, shot.picture.standard, shot.picture.situation)
    page = shot_list_page(looked.scripts[0], {key: "../sheets/fuel.svg"}, "Not for flight.")
    assert 'href="../sheets/fuel.svg"' in page and "&lt;One&gt; &amp; two." in page and "Not for flight." in page
    assert "href" not in shot_list_page(looked.scripts[0], {}, "")


def test_the_part_of_which_something_is_said_comes_before_those_that_are_only_set(sample, series) -> None:
    (sample / "systems" / "more.yaml").write_text(
        "system: Current\nsource: hb\nparts:\n  battery: {kind: battery, capacity: 20 Ah, voltage: 12 V}\n"
        "  master: {kind: switch}\nlines: [battery.positive > master]\n",
        encoding="utf-8",
    )
    looked, _ = series("The tank stays full.\n\n```claim\nin parked, with master at on: fuel tank reads 20 gal\n```\n")
    (shot,) = looked.scripts[0].shots
    assert shot.picture is not None and shot.picture.system == "Fuel"
    assert shot.callouts == ("fuel tank", "master")


def test_the_page_has_the_chapters_too(series) -> None:
    looked, _ = series("## Under the tank\n\nOne. `aside` Two. `aside`\n\n## In the air\n\nThree. `aside`")
    page = shot_list_page(looked.scripts[0], {}, "")
    assert page.index(">Under the tank<") < page.index(">One.<") < page.index(">In the air<") < page.index(">Three.<")
    assert page.count('scope="rowgroup"') == 2
