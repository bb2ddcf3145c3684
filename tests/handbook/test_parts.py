"""Parts, couplings and lines against the library of kinds: what is understood, and every mistake with its hint."""

import pytest

from cutaway.handbook.records import Part, given_on
from cutaway.quantities.which import StandardName
from tests.handbook.folders import at_fault, codes, fuel, load_sample

TANK = "fuel tank: {kind: tank, capacity: 20 gal, cite: §1}\n"
COCK = "fuel cock: {kind: cock, cite: §2}\n"
BOTH = TANK + COCK


def only(tmp_path, parts, lines="", **more):
    """The one problem of a fuel system, and the folder."""
    folder, problems = load_sample(tmp_path, fuel(parts, lines) | more)
    assert len(problems) == 1, codes(problems)
    return folder, problems[0]


def part(folder, name) -> Part:
    (found,) = [one for one in folder.parts if one.name == name]
    return found


# --- what is understood --------------------------------------------------------------------------------------------


def test_a_part_needs_no_more_than_its_kind(tmp_path):
    folder, problems = load_sample(tmp_path, fuel("fuel cock: {kind: cock}"))
    assert problems == ()
    assert part(folder, "fuel cock").values == ()


def test_a_value_for_each_mark(tmp_path):
    text = "tank: {kind: tank, capacity: [{is: 20 gal, on: Mk 1, cite: §1}, {is: 22 gal, on: Mk 2, cite: §21}]}"
    folder, problems = load_sample(tmp_path, fuel(text))
    assert problems == ()
    tank = part(folder, "tank")
    said = [given_on(tank, "capacity", StandardName(mark)) for mark in ("Mk 1", "Mk 2")]
    assert [given and given.quantity.text for given in said] == ["20 gal", "22 gal"]
    assert [given and given.cites[0].number for given in said] == ["§1", "§21"]


def test_an_assumption_fills_what_no_book_gives(tmp_path):
    text = """\
tank:
  kind: tank
  capacity:
    - {is: 20 gal, on: Mk 1, cite: §1}
    - {assume: 25 gal, between: 20 to 30 gal, because: The Mk 2 is larger.}
"""
    folder, problems = load_sample(tmp_path, fuel(text))
    assert problems == ()
    first, second = part(folder, "tank").values[0].givens
    assert (first.assumed, first.on.names) == (False, {"Mk 1"})
    assert (second.assumed, second.on.names, second.cites) == (True, {"Mk 2"}, ())
    assert second.between is not None and (second.between.low, second.between.high) == (20.0, 30.0)


def test_a_part_of_another_kind_on_another_mark(tmp_path):
    text = "cock: [{kind: cock, on: Mk 1}, {kind: selector cock, ways: [main], on: Mk 2}]"
    folder, problems = load_sample(tmp_path, fuel(TANK + text, "- fuel tank > cock.main"))
    assert codes(problems) == ["H311"]
    folder, problems = load_sample(tmp_path / "b", fuel(TANK + text, "- {run: fuel tank > cock.main, on: Mk 2}"))
    assert problems == ()
    assert [(line.end.inner, line.on.names) for line in folder.lines] == [("main", {"Mk 2"})]


def test_a_line_without_a_port_takes_each_mark_s_own_port(tmp_path):
    text = "cock: [{kind: cock, on: Mk 1}, {kind: selector cock, ways: [main], on: Mk 2}]"
    folder, problems = load_sample(tmp_path, fuel(TANK + text, "- fuel tank > cock"))
    assert problems == ()
    assert [(line.end.inner, line.on.names) for line in folder.lines] == [("inlet", {"Mk 1"}), ("main", {"Mk 2"})]


def test_a_line_with_nothing_said_is_where_its_parts_are(tmp_path):
    folder, problems = load_sample(tmp_path, fuel(TANK + "cock: {kind: cock, on: Mk 2}", "- fuel tank > cock"))
    assert problems == ()
    assert [line.on.names for line in folder.lines] == [{"Mk 2"}]


def test_names_match_without_regard_to_case_and_keep_their_first_spelling(tmp_path):
    folder, problems = load_sample(
        tmp_path, fuel("Fuel Tank: {Kind: TANK, capacity: 20 gal}\n" + COCK, "- fuel  tank > FUEL COCK")
    )
    assert problems == ()
    assert [part.name for part in folder.parts] == ["Fuel Tank", "fuel cock"]
    assert [part.kind for part in folder.parts] == ["tank", "cock"]
    assert [(line.start.part, line.end.part) for line in folder.lines] == [("Fuel Tank", "fuel cock")]


def test_a_name_may_hold_a_full_stop(tmp_path):
    folder, problems = load_sample(
        tmp_path, fuel("No. 1 tank: {kind: tank, capacity: 20 gal}\n" + COCK, "- No. 1 tank.outlet > fuel cock")
    )
    assert problems == ()
    assert folder.lines[0].start.part == "No. 1 tank" and folder.lines[0].start.inner == "outlet"


def test_for_each_makes_a_part_and_a_line_for_every_item(tmp_path):
    parts = """\
<side> tank: {kind: tank, capacity: 20 gal, for each: {side: [port, starboard]}, at: <side> wing, group: tanks}
selector: {kind: selector cock, ways: [port, starboard]}
"""
    lines = "- {run: <side> tank > selector.<side>, for each: {side: [port, starboard]}}"
    folder, problems = load_sample(tmp_path, fuel(parts, lines))
    assert problems == ()
    assert [(one.name, one.station) for one in folder.parts[:2]] == [
        ("port tank", "port wing"),
        ("starboard tank", "starboard wing"),
    ]
    assert [(line.start.part, line.end.inner) for line in folder.lines] == [
        ("port tank", "port"),
        ("starboard tank", "starboard"),
    ]
    assert [(group.name, group.members) for group in folder.groups] == [("tanks", ("port tank", "starboard tank"))]


def test_two_words_repeat_for_every_pair(tmp_path):
    text = "<side> <place> cock: {kind: cock, for each: {side: [port, starboard], place: [inner, outer]}}"
    folder, problems = load_sample(tmp_path, fuel(text))
    assert problems == ()
    assert [one.name for one in folder.parts] == [
        "port inner cock", "port outer cock", "starboard inner cock", "starboard outer cock",
    ]  # fmt: skip


def test_a_mistake_in_a_repeated_block_is_told_once(tmp_path):
    _, problem = only(tmp_path, "<side> tank: {kind: tank, capacity: 20 galons, for each: {side: [port, starboard]}}")
    assert problem.code == "Q104"


def test_a_decision_settles_a_conflict(tmp_path):
    text = "tank: {kind: tank, capacity: [{is: 20 gal, cite: §1}, {is: 22 gal, cite: §21}]}"
    decided = "- {part: Tank, value: Capacity, prefer: hb §21, because: It was measured.}\n"
    folder, problems = load_sample(tmp_path, fuel(text) | {"decided.yaml": decided})
    assert problems == ()
    (given,) = part(folder, "tank").values[0].givens
    assert (given.quantity.text, given.decided) == ("22 gal", "It was measured.")
    assert (folder.decided[0].part, folder.decided[0].value) == ("tank", "capacity")


def test_the_same_value_from_two_paragraphs_is_no_conflict(tmp_path):
    text = "tank: {kind: tank, capacity: [{is: 20 gal, cite: §1}, {is: 160 pt, cite: §2a, on: Mk 2}]}"
    _, problems = load_sample(tmp_path, fuel(text))
    assert codes(problems) == ["H209"]


def test_the_short_name_of_the_gauge_s_port_is_the_only_one(tmp_path):
    folder, problems = load_sample(tmp_path, fuel(BOTH + "gauge: {kind: fuel pressure gauge, senses: fuel tank}"))
    assert problems == ()
    (link,) = part(folder, "gauge").links
    assert (link.target.part, link.target.inner) == ("fuel tank", "outlet")


# --- mistakes ------------------------------------------------------------------------------------------------------


def test_an_unknown_kind_names_those_like_it(tmp_path):
    _, problem = only(tmp_path, "pump: {kind: petrol pump}")
    assert problem.code == "H301"
    assert "fuel pump" in problem.hint


def test_a_unit_that_is_not_known(tmp_path):
    folder, problem = only(tmp_path, "tank: {kind: tank, capacity: 22 galons}")
    assert problem.code == "Q104"
    assert "tank" in folder.left_out


def test_a_figure_without_a_unit(tmp_path):
    assert only(tmp_path, "tank: {kind: tank, capacity: 22}")[1].code == "Q103"


def test_a_figure_of_another_dimension(tmp_path):
    _, problem = only(tmp_path, "tank: {kind: tank, capacity: 22 lb/sq in}")
    assert problem.code == "Q105"
    assert "volume" in problem.message


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("bottle: {kind: air bottle, volume: 450 lb/sq in}", "for instance 0.3 cu ft."),
        ("bottle: {kind: air bottle, volume: 2 lb/sq in}", "for instance 2 cu ft."),
        ("bottle: {kind: air bottle, volume: 2}", "Write 2 cu ft."),
        ("bottle: {kind: air bottle, volume: full}", "for instance 0.3 cu ft."),
        ("bottle: {kind: air bottle, volume: 2 pints to 3 ft}", "Write both in cu ft."),
    ],
)
def test_hints_propose_the_unit_in_which_such_a_thing_is_measured(tmp_path, text, hint):
    assert hint in only(tmp_path, text)[1].hint


def test_a_comma_in_a_figure_inside_braces_is_the_only_complaint(tmp_path):
    folder, problem = only(tmp_path, "tank: {kind: tank, capacity: 1,800 gal}\n" + COCK, "- tank > fuel cock")
    assert problem.code == "H106"
    assert "1800 gal" in problem.hint
    assert "tank" in folder.left_out and not folder.lines


def test_a_missing_figure_names_the_paragraphs_that_may_give_it(tmp_path):
    _, problem = only(tmp_path, "main tank: {kind: tank}")
    assert problem.code == "H303"
    assert "hb §21" in problem.hint


def test_a_figure_missing_on_one_mark_names_the_mark(tmp_path):
    _, problem = only(tmp_path, "tank: {kind: tank, capacity: {is: 20 gal, on: Mk 1, cite: §1}}")
    assert problem.code == "H303"
    assert "Mk 2" in problem.message and "Mk 1" not in problem.message


def test_two_values_show_both_places(tmp_path):
    text = "tank: {kind: tank, capacity: [{is: 20 gal, cite: §1}, {is: 22 gal, cite: §21}]}"
    folder, problem = only(tmp_path, text)
    assert problem.code == "H305"
    assert "§1" in problem.message and "§21" in problem.message
    ((other, _),) = problem.also
    assert other.file.text[other.start : other.end] == "20 gal"
    assert "decided.yaml" in problem.hint
    assert not folder.parts


def test_a_decision_that_cites_neither_does_not_settle(tmp_path):
    text = "tank: {kind: tank, capacity: [{is: 20 gal, cite: §1}, {is: 22 gal, cite: §21}]}"
    decided = "- {part: tank, value: capacity, prefer: hb §2, because: x}\n"
    _, problems = load_sample(tmp_path, fuel(text) | {"decided.yaml": decided})
    assert codes(problems) == ["H305"]


def test_a_figure_in_another_spelling_stands_in_its_paragraph(tmp_path):
    _, problems = load_sample(tmp_path, fuel("tank: {kind: tank, capacity: 20 gall., cite: §1}"))
    assert problems == ()


def test_a_figure_that_is_not_in_its_paragraph_shows_what_is(tmp_path):
    folder, problem = only(tmp_path, "tank: {kind: tank, capacity: 25 gal, cite: §1}")
    assert (problem.code, problem.severity) == ("H209", "warning")
    assert "20 gallons" in problem.hint
    assert part(folder, "tank")


def test_one_of_several_paragraphs_is_enough(tmp_path):
    _, problems = load_sample(tmp_path, fuel("tank: {kind: tank, capacity: 20 gal, cite: [§2, §1]}"))
    assert problems == ()


def test_an_assumption_must_say_why(tmp_path):
    _, problem = only(tmp_path, "tank: {kind: tank, capacity: {assume: 20 gal}}")
    assert problem.code == "H111"
    assert "because" in problem.message


def test_a_line_to_nowhere(tmp_path):
    folder, problem = only(tmp_path, BOTH, "- fuel tank > carburettor > fuel cock")
    assert problem.code == "H310"
    assert "carburettor" in problem.message
    assert not folder.lines


def test_a_misspelt_part_is_told_once_however_often_it_is_named(tmp_path):
    lines = "- fuel tank > fuel cok\n- fuel cok > fuel tank\n- fuel cok.outlet > fuel tank"
    _, problem = only(tmp_path, BOTH, lines)
    assert problem.code == "H310" and problem.hint == "Did you mean fuel cock?"
    assert len(problem.also) == 2


def test_a_left_out_part_makes_no_more_complaints(tmp_path):
    """One misspelt unit: no word of the gauge that reads the tank, the lines, the situation or the airframe."""
    parts = "tank: {kind: tank, capacity: 22 galons}\n" + COCK
    parts += "gauge: {kind: contents gauge, reads: tank}\nbus: {kind: bus}\n"
    parts += "lamp: {kind: low-pressure lamp, senses: tank.outlet, fed by: bus, lights below: 2 lb/sq in}\n"
    files = fuel(parts, "- tank > fuel cock\n- {run: tank.outlet > fuel cock, on: Mk 1}")
    files |= {
        "type.yaml": "name: S\nmarks: [Mk 1, Mk 2]\nairframes: {S-1: {standard: Mk 1, missing: [tank, gauge]}}\n",
        "situations.yaml": "situations:\n  parked: {start: {tank: 3 gal}}\n",
        "decided.yaml": "- {part: tank, value: capacity, prefer: §1, because: x}\n",
    }
    folder, problems = load_sample(tmp_path, files)
    assert codes(problems) == ["Q104"]
    assert {"tank", "gauge", "lamp"} <= folder.left_out
    assert [one.name for one in folder.parts] == ["fuel cock", "bus"]


def test_the_parts_of_a_broken_file_are_not_called_unknown(tmp_path):
    files = {"systems/fuel.yaml": "parts:\n  fuel tank: {kind: tank, capacity: 20 gal\n  fuel cock: {kind: cock}\n"}
    folder, problems = load_sample(tmp_path, files)
    assert codes(problems) == ["H101"]
    assert {"fuel tank", "fuel cock"} <= folder.left_out


def test_an_unknown_port_lists_the_ports(tmp_path):
    _, problem = only(tmp_path, BOTH, "- fuel tank.drain > fuel cock")
    assert problem.code == "H311"
    assert "outlet" in problem.hint


def test_a_way_that_is_nearly_right(tmp_path):
    parts = TANK + "selector: {kind: selector cock, ways: [port tank, starboard tank]}"
    _, problem = only(tmp_path, parts, "- fuel tank > selector.port tnk")
    assert problem.code == "H311"
    assert problem.hint.startswith("Did you mean port tank?")


def test_a_selector_without_a_way_wants_one(tmp_path):
    parts = TANK + "selector: {kind: selector cock, ways: [port, starboard]}"
    _, problem = only(tmp_path, parts, "- fuel tank > selector")
    assert problem.code == "H312"
    assert "selector.port" in problem.hint and "selector.starboard" in problem.hint


def test_an_unknown_part_in_a_coupling(tmp_path):
    folder, problem = only(tmp_path, BOTH + "gauge: {kind: fuel pressure gauge, senses: fuel tnk.outlet}")
    assert problem.code == "H310"
    assert "fuel tank" in problem.hint
    assert "gauge" in folder.left_out


def test_a_required_coupling_that_is_missing(tmp_path):
    _, problem = only(tmp_path, "pump: {kind: engine-driven fuel pump}")
    assert problem.code == "H313"
    assert "driven by" in problem.message


def test_a_required_coupling_that_is_missing_on_one_mark(tmp_path):
    parts = TANK + "gauge: {kind: fuel pressure gauge, senses: {is: fuel tank.outlet, on: Mk 1}}"
    _, problem = only(tmp_path, parts)
    assert problem.code == "H313"
    assert "Mk 2" in problem.message


def test_two_media_in_one_line(tmp_path):
    _, problem = only(tmp_path, TANK + "bus: {kind: bus}", "- fuel tank > bus")
    assert problem.code == "H314"
    assert "petrol" in problem.message and "current" in problem.message


def test_two_media_through_a_junction(tmp_path):
    parts = TANK + "bus: {kind: bus}\njoint: {kind: junction}\nother: {kind: junction}"
    folder, problem = only(tmp_path, parts, "- fuel tank > joint\n- joint > other\n- other > bus")
    assert problem.code == "H314"
    assert [(line.start.part, line.end.part) for line in folder.lines] == [("fuel tank", "joint"), ("joint", "other")]
    assert {words for _, words in problem.also} == {"petrol comes from here:", "current comes from here:"}


def test_fed_by_petrol(tmp_path):
    _, problem = only(tmp_path, TANK + "load: {kind: electrical load, current: 1 A, fed by: fuel tank}")
    assert problem.code == "H314"


def test_a_part_in_two_files_for_one_standard(tmp_path):
    _, problems = load_sample(tmp_path, {"systems/more.yaml": "system: More\nparts: {Fuel Cock: {kind: cock}}\n"})
    assert codes(problems) == ["H306"]
    assert len(problems[0].also) == 1


def test_a_part_in_two_files_for_different_standards(tmp_path):
    files = fuel("cock: {kind: cock, on: Mk 1}") | {
        "systems/more.yaml": "system: More\nparts: {Cock: {kind: cock, on: Mk 2}}\n"
    }
    folder, problems = load_sample(tmp_path, files)
    assert problems == ()
    assert [(one.system, set(one.on.names)) for one in folder.parts] == [("Fuel", {"Mk 1"}), ("More", {"Mk 2"})]


def test_a_part_may_be_named_from_another_system(tmp_path):
    more = "system: More\nparts: {gauge: {kind: fuel pressure gauge, senses: fuel cock.inlet}}\n"
    folder, problems = load_sample(tmp_path, {"systems/a.yaml": more})
    assert problems == ()
    assert part(folder, "gauge").links[0].target.inner == "inlet"


def test_an_unknown_standard(tmp_path):
    folder, problem = only(tmp_path, TANK + "cock: {kind: cock, on: Mk 3}", "- fuel tank > cock")
    assert problem.code == "Q120"
    assert "cock" in folder.left_out


def test_a_missing_paragraph_is_told_once_and_the_part_is_kept(tmp_path):
    folder, problem = only(tmp_path, "a: {kind: cock, cite: §99}\nb: {kind: cock, cite: [§2, §99]}")
    assert problem.code == "H201"
    assert len(problem.also) == 1
    assert [(one.name, [c.number for c in one.cites]) for one in folder.parts] == [("a", []), ("b", ["§2"])]


@pytest.mark.parametrize("name", ["a > b", "a, b", "'a: b'", "<a>", "'#a'", "'*'"])
def test_a_name_that_cannot_be_spoken_of(name, tmp_path):
    _, problems = load_sample(tmp_path, fuel(f"? {name}\n: {{kind: cock}}"))
    assert codes(problems) in (["H307"], ["H319"])


def test_all_mistakes_of_a_part_come_at_once(tmp_path):
    text = "tank: {kind: tank, capacity: 22 galons, heat: 3 in, cite: §99, at: [x]}"
    _, problems = load_sample(tmp_path, fuel(text))
    assert sorted(codes(problems)) == ["H108", "H201", "H302", "Q104"]


def test_the_caution_of_the_kind_is_the_part_s_unless_it_has_its_own(tmp_path):
    folder, _ = load_sample(tmp_path, fuel("tank: {kind: tank, capacity: 20 gal, caution: Mind.}"))
    assert part(folder, "tank").caution == "Mind."


def test_the_marked_text_is_the_one_at_fault(tmp_path):
    _, problems = load_sample(tmp_path, fuel(BOTH, "- fuel tank > fuel cock > fuel cock.drn"))
    assert at_fault(problems, "H311") == "drn"


# --- what a figure can be ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "tank, told",
    [
        ("capacity: 0 gal", "'capacity' of tank is 0 gal, and must be above nought."),
        ("capacity: -20 gal", "'capacity' of tank is -20 gal, and must be above nought."),
        (
            "capacity: {assume: 20 gal, between: 0 to 30 gal, because: No book says.}",
            "'capacity' of tank is 0 to 30 gal, and must be above nought.",
        ),
        (
            "capacity: {assume: 0 gal, between: 0 to 30 gal, because: No book says.}",
            "'capacity' of tank is 0 gal, and must be above nought.",
        ),
        ("capacity: [{is: 0 gal, on: Mk 1}, {is: 2 gal, on: Mk 2}]", "0 gal, and must be above nought."),
    ],
)
def test_a_figure_that_cannot_be(tmp_path, tank, told):
    _, problem = only(tmp_path, f"tank: {{kind: tank, {tank}}}")
    assert problem.code == "H323" and problem.severity == "error"
    assert told in problem.message


@pytest.mark.parametrize(
    "parts, told",
    [
        ("valve: {kind: suction relief valve, set at: 45 in Hg}", "is 45 in Hg, and must be below 29 in Hg."),
        ("jack: {kind: jack, area: 2 sq in, stroke: 6 in, friction: -1 lbf}", "is -1 lbf, and cannot be below nought."),
    ],
)
def test_a_figure_past_the_end_of_what_can_be(tmp_path, parts, told):
    _, problems = load_sample(tmp_path, fuel(parts))
    (problem,) = [one for one in problems if one.severity == "error"]
    assert problem.code == "H323" and told in problem.message


@pytest.mark.parametrize("load", ["spring load: -20 lbf", "load: 0 lbf", "friction: 0 lbf"])
def test_nought_and_less_where_that_can_be(tmp_path, load):
    _, problems = load_sample(tmp_path, fuel(f"jack: {{kind: jack, area: 2 sq in, stroke: 6 in, {load}}}"))
    assert [one for one in problems if one.severity == "error"] == []


def test_a_figure_far_from_what_is_usual_is_doubted(tmp_path):
    _, problem = only(tmp_path, "tank: {kind: tank, capacity: 1e300 gal}")
    assert (problem.code, problem.severity) == ("H304", "warning")
    assert "outside what is usual for a tank, 0.5 to 3000 gal" in problem.message


# --- what a part takes of the one it is tied to ---------------------------------------------------------------------

SWITCHES = """\
fuel tank: {kind: tank, capacity: 20 gal}
flap selector: {kind: two-position selector}
bomb switch: {kind: interlocked switch, made with: fuel tank}
"""


def test_a_tie_to_a_part_that_lacks_what_is_taken_of_it(tmp_path):
    folder, problem = only(tmp_path, SWITCHES)
    assert problem.code == "H332"
    assert at_fault((problem,), "H332") == "fuel tank"
    assert problem.message == (
        "'fuel tank' cannot be 'made with' of bomb switch (the switch that puts it on): a tank has no position."
    )
    assert problem.hint == "Write made with: flap selector, if that is meant."
    assert {one.name for one in folder.parts} == {"fuel tank", "flap selector"}


def test_what_could_be_tied_where_the_folder_has_nothing(tmp_path):
    _, problem = only(tmp_path, COCK + "gauge: {kind: contents gauge, reads: fuel cock}\n")
    assert problem.hint == "It can be a tank or a reservoir; none stands in systems/ yet."


def test_a_part_of_two_kinds_must_do_on_the_mark_that_takes_it(tmp_path):
    text = """\
flap lever:
  - {kind: two-position selector, on: Mk 1}
  - {kind: tank, capacity: 20 gal, on: Mk 2}
horn switch: {kind: interlocked switch, made with: flap lever, on: MARK}
"""
    _, problem = only(tmp_path / "two", text.replace("MARK", "Mk 2"))
    assert problem.code == "H332" and "a tank (as it is on Mk 2) has no position" in problem.message
    _, problems = load_sample(tmp_path / "one", fuel(text.replace("MARK", "Mk 1")))
    assert problems == ()


def test_a_kind_goes_by_its_right_article(tmp_path):
    text = "vessel: {kind: accumulator, volume: 40 cu in, air pressure: 500 lb/sq in, bore: 1 in}\n"
    _, problem = only(tmp_path, text)
    assert problem.message == "'bore' is not an entry of vessel, which is an accumulator."


TWO_CARBURETTORS = """\
cock: {kind: cock}
<side> carburettor: {for each: {side: [port, starboard]}, kind: carburettor, full flow: 60 gal/h}
<side> cut-out: {for each: {side: [port, starboard]}, kind: slow-running cut-out, cuts: CUT, moved by: cock}
"""


def test_one_part_cannot_serve_two_that_it_must_see(tmp_path):
    folder, problem = only(tmp_path, TWO_CARBURETTORS.replace("CUT", "port carburettor"))
    assert problem.code == "H333"
    both = "both port cut-out and starboard cut-out"
    assert problem.message == f"port carburettor is 'cuts' of {both}; it can serve only one."
    assert "starboard cut-out" not in {one.name for one in folder.parts}


def test_each_its_own_is_well(tmp_path):
    _, problems = load_sample(tmp_path, fuel(TWO_CARBURETTORS.replace("CUT", "<side> carburettor")))
    assert problems == ()


def test_one_tank_may_have_two_vents(tmp_path):
    text = TANK + "<side> vent: {for each: {side: [port, starboard]}, kind: vent, vents: fuel tank}\n"
    _, problems = load_sample(tmp_path, fuel(text))
    assert problems == ()


TWO_ENGINES = """\
<side> throttle: {for each: {side: [port, starboard]}, kind: gated throttle}
<side> switch: {for each: {side: [port, starboard]}, kind: magneto switch}
<side> carburettor: {for each: {side: [port, starboard]}, kind: carburettor, full flow: 120 gal/h}
<side> airscrew: {for each: {side: [port, starboard]}, kind: constant-speed airscrew, lowest speed: 1800 rpm, highest speed: 3000 rpm}
blower: {kind: one-speed supercharger, rated boost: 7 lb/sq in, rated speed: 2600 rpm, full-throttle height: 5000 ft, rated power: 1180 hp}
<side> engine:
  {for each: {side: [port, starboard]}, kind: supercharged engine, throttle: <side> throttle, ignition: <side> switch,
  fuel from: <side> carburettor, airscrew: <side> airscrew, supercharger: blower}
"""  # noqa: E501


def test_one_blower_is_not_built_into_two_engines(tmp_path):
    """It sees neither of them, but it can be in one only."""
    _, problem = only(tmp_path, TWO_ENGINES)
    assert problem.code == "H333"
    assert problem.message == (
        "blower is 'supercharger' of both port engine and starboard engine; it can serve only one."
    )
    assert problem.hint.startswith("Give starboard engine a one-speed supercharger of its own")


def test_what_only_shows_a_speed_or_a_position_moves_nothing(tmp_path):
    engine = "motor: {kind: electric motor}\nrev counter: {kind: rev counter, reads: motor}\n"
    _, problem = only(tmp_path / "shaft", engine + "vacuum pump: {kind: vacuum pump, driven by: rev counter}\n")
    assert problem.code == "H332" and "a rev counter has no speed or rate of turn" in problem.message
    assert problem.hint.startswith("Write driven by: motor")
    pin = "throttle: {kind: throttle}\npin: {kind: mechanical indicator, shows: throttle}\n"
    _, problem = only(tmp_path / "travel", pin + "horn switch: {kind: microswitch, moved by: pin, makes below: 30 %}\n")
    assert problem.code == "H332" and "a mechanical indicator has no position" in problem.message


@pytest.mark.parametrize("volts, usual", [("24 V", True), ("115 V", True), ("2400 V", False), ("1.2 V", False)])
def test_a_voltage_that_no_aircraft_had_is_told(tmp_path, volts, usual):
    _, problems = load_sample(tmp_path, fuel(f"bus: {{kind: bus, voltage: {volts}}}"))
    assert codes(problems) == ([] if usual else ["H304"])


def test_a_mistake_in_a_block_for_each_is_told_once(tmp_path):
    _, problem = only(tmp_path, TWO_CARBURETTORS.replace("CUT", "cock"))
    assert problem.code == "H332" and "port cut-out" in problem.message


@pytest.mark.parametrize(
    "gauge, takes, target, carries",
    [
        ("fuel pressure gauge", "petrol or oil", "bus.any", "current"),
        ("oil pressure gauge", "petrol or oil", "bottle.any", "air"),
        ("suction gauge", "air", "fuel cock.outlet", "petrol"),
        ("voltmeter", "current", "fuel cock.outlet", "petrol"),
    ],
)
def test_a_gauge_on_what_it_cannot_show(tmp_path, gauge, takes, target, carries):
    more = "bus: {kind: bus}\nbottle: {kind: air bottle, volume: 0.5 cu ft}\n"
    _, problem = only(tmp_path, COCK + more + f"gauge: {{kind: {gauge}, senses: {target}}}\n")
    assert problem.code == "H314"
    assert problem.message == f"gauge is for {takes}, but {target} carries {carries}."
