"""What an explorable page is asked for, what is told of it, and that its data says all that its record says."""

import json
import shutil
from pathlib import Path

import pytest

from cutaway.api.exploring import Explorable, Wanted, explore, explore_record
from cutaway.publish.explore.data import data_of

TRADE = Path(__file__).parents[2] / "trade"
FLAPS = TRADE / "01-flaps-and-accumulator"


@pytest.fixture(scope="module")
def made() -> Explorable:
    wanted = Wanted("Flaps", "", "flying", ("flap selector",), "60 s", 12, "What waits, and why.")
    found, problems = explore(FLAPS, wanted, walks=3)
    assert found is not None and problems == ()
    return found


@pytest.mark.parametrize(
    ("wanted", "code", "hint"),
    [
        (Wanted("Flap", situation="flying"), "K801", "Flaps"),
        (Wanted("Flaps", situation="flyng"), "K801", "flying"),
        (Wanted("Flaps", situation="flying", controls=("flap lever",)), "K802", "flap selector"),
        (Wanted("Engine", situation="flying", controls=("flap selector",)), "K802", "Leave it out"),
    ],
)
def test_what_is_not_there_is_told(wanted: Wanted, code: str, hint: str) -> None:
    found, problems = explore(FLAPS, wanted)
    assert found is None
    assert [problem.code for problem in problems] == [code]
    assert hint in problems[0].hint


def test_a_sheet_that_no_control_reaches(tmp_path: Path) -> None:
    folder = tmp_path / "still"
    shutil.copytree(FLAPS, folder)
    text = "system: Stores\nparts:\n  spare tank: {kind: tank, capacity: 4 gal}\n"
    (folder / "systems" / "stores.yaml").write_text(text, encoding="utf-8")
    found, problems = explore(folder, Wanted("Stores", situation="flying"))
    assert found is None
    assert "K802" in [problem.code for problem in problems]


def test_the_data_says_all_that_the_record_says(made: Explorable) -> None:
    view, text = made.view, data_of(made.view)
    assert "<" not in text
    data = json.loads(text)
    texts, lists, words = data["texts"], data["lists"], data["words"]
    first = dict(zip(data["stops"][0]["l"][::2], data["stops"][0]["l"][1::2], strict=True))
    assert len(data["stops"]) == len(view.stops) == 12
    for number, (stop, told) in enumerate(zip(view.stops, data["stops"], strict=True)):
        assert tuple(texts[i] for i in told["c"]) == stop.places
        for part, (shows, because) in zip(stop.parts, told["p"], strict=True):
            assert texts[shows] == part.words
            assert tuple(texts[i] for i in lists[because]) == part.because
        for arc, pair in zip(stop.arcs, told["a"], strict=True):
            assert (arc is None) == (pair is None)
            if arc is not None and arc.to >= 0:
                assert pair[0] == arc.to and tuple(texts[i] for i in lists[pair[1]]) == arc.happened
            elif arc is not None:
                assert pair[0] == -1 and texts[pair[1]] == arc.reason
        looks = {**first, **dict(zip(told["l"][::2], told["l"][1::2], strict=True))}
        assert tuple(looks[i] for i in range(len(looks))) == view.looks.states[number]
        lines = tuple("; ".join(texts[i] for i in words[w]) for w in told["w"])
        assert lines == view.looks.descriptions[number]


def test_what_is_said_of_it(made: Explorable) -> None:
    view = made.view
    assert [control.name for control in view.controls] == ["flap selector"]
    assert [move.told for move in view.moves][:2] == ["wait 60 s", "flap selector to neutral"]
    assert "flap selector to up for 1 s, then back" in [move.told for move in view.moves]
    assert view.fixed == ("throttle: 60 %", "ignition switch: both", "engine starter: out")
    assert "kept as it was" in view.begins[-1] and "the tank" in view.begins[-1]
    assert view.bound[0].startswith("12 settled states are here")
    assert "3 walks" in view.bound[-1] and "each came" in view.bound[-1]
    flaps = view.parts.index("flaps")
    down = view.stops[0].arcs[[move.told for move in view.moves].index("flap selector to down")]
    assert down is not None
    assert view.stops[down.to].parts[flaps].words.endswith(" deg")
    assert any("oil comes to the flap jack from the accumulator" in line.casefold()
               for line in view.stops[down.to].parts[flaps].because)  # fmt: skip
    assert any("not worked out" in arc.reason for stop in view.stops for arc in stop.arcs if arc and arc.to < 0)
    assert view.cautions and view.notice in made.page


def test_the_same_page_twice_is_the_same_to_the_byte(made: Explorable) -> None:
    wanted = Wanted("flaps", "mk 1", "Flying", ("Flap selector",), "60 s", 12, "What waits, and why.")
    again, _ = explore(FLAPS, wanted, walks=3)
    assert again is not None and again.page == made.page


def test_the_record_for_a_program(made: Explorable) -> None:
    record = json.loads(json.dumps(explore_record(made)))
    assert record["whole"] is False and len(record["stops"]) == 12
    first = record["stops"][0]
    assert first["controls"] == {"flap selector": "neutral"}
    assert first["parts"]["flaps"]["shows"].startswith("up")
    assert first["movements"]["flap selector to down"]["to"] > 0
