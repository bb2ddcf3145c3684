"""What a sheet says in grey of a part, and that what moves what can be told apart."""

from cutaway.draw.about import about
from cutaway.draw.blocks import pin_of
from cutaway.draw.filled import blocks_of
from cutaway.draw.plan import make_plan
from cutaway.draw.seen import look_of
from cutaway.machine.subjects import subjects
from cutaway.parts.library import KINDS
from tests.draw import by_hand

FOLDER = by_hand.folder(
    (
        by_hand.part("selector", "selector cock", ways=("port tank", "hull tank")),
        by_hand.part("carburettor", "carburettor"),
        by_hand.part("cut-out", "slow-running cut-out", cuts="carburettor", moved_by="selector"),
        by_hand.part("lamp", "low-pressure lamp", senses="carburettor.inlet", values={"lights below": "2 lb/sq in"}),
        by_hand.part("engine", "engine", fuel_from="carburettor", ignition="switch"),
        by_hand.part("switch", "magneto switch"),
        by_hand.part("maintaining valve", "pressure-maintaining valve", values={"set at": "130 lb/sq in"}),
        by_hand.part("relief valve", "oil relief valve", values={"set at": "900 lb/sq in"}),
        by_hand.part("pump cut-out", "automatic cut-out", values={"cut-out": "850 lb/sq in", "cut-in": "600 lb/sq in"}),
    ),
    (),
)
SUBJECT = subjects(FOLDER)[0]
PLAN = make_plan(FOLDER, SUBJECT, "Fuel", KINDS)


def said(name: str, values: dict[str, float] | None) -> str:
    part = next(item.part for item in PLAN.items if item.key == name)
    look = look_of(part, KINDS[part.kind], SUBJECT, values)
    found = about(part, KINDS[part.kind], look, PLAN.ties, SUBJECT.standard, values is not None)
    assert len(found.lines) <= found.most
    return " ".join(found.lines)


def test_a_cut_out_says_what_it_does_and_what_moves_it() -> None:
    assert said("cut-out", {"cut-out: cutting": 0.0}) == "petrol passes cuts carburettor moved by selector"
    assert said("cut-out", {"cut-out: cutting": 1.0}).startswith("petrol is shut off")
    assert said("cut-out", None) == "cuts carburettor moved by selector"


def test_a_selector_names_its_other_positions() -> None:
    assert said("selector", {"set selector": 1.0}) == "(other position: off)"  # its symbol names the ways
    assert said("selector", {"set selector": 0.0}) == ""
    assert said("selector", None) == "(further position: off)"
    assert said("switch", {"set switch": 3.0}) == "(other positions: off, left, right)"


def test_a_lamp_says_when_it_lights() -> None:
    assert said("lamp", {}) == "lights below 2 lb/sq in"


def test_what_a_valve_does_at_its_figure_is_said() -> None:
    assert said("maintaining valve", None) == "passes nothing below 130 lb/sq in"
    assert said("relief valve", None) == "opens at 900 lb/sq in"
    assert said("pump cut-out", None) == "cuts out at 850 lb/sq in cuts in again at 600 lb/sq in"


def test_what_acts_leads_to_what_it_acts_on() -> None:
    told = {tie.told: (tie.start.part, tie.end.part) for tie in PLAN.ties if tie.sort == "link"}
    assert told["cut-out cuts carburettor"] == ("cut-out", "carburettor")
    assert told["cut-out moved by selector"] == ("selector", "cut-out")


def test_couplings_from_several_parts_do_not_run_together() -> None:
    blocks = blocks_of(FOLDER, SUBJECT, PLAN, KINDS, {}, None)
    into = {tie.start.item: pin_of(blocks["engine"], tie) for tie in PLAN.ties if tie.end.item == "engine"}
    assert len(into) == 2 and len(set(into.values())) == 2
    assert len({blocks["engine"].targets[pin] for pin in into.values()}) == 2
    out = {
        pin_of(blocks["carburettor"], tie)
        for tie in PLAN.ties
        if tie.start.item == "carburettor" and not tie.start.port
    }
    assert len(out) == 1
