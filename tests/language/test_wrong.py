"""What is told of wrong claims: the code, the place, what to write instead."""

from pathlib import Path

import pytest

from cutaway.handbook.load import load_folder
from cutaway.language.keywords import KEYWORDS, SPELLED
from cutaway.language.parse import parse_actions, parse_claim, parse_given, parse_mark, parse_scope, parse_statement
from cutaway.language.words import words_of
from cutaway.parts.library import KINDS
from cutaway.problems.span import TextFile, whole

WRONG = [
    # what is not understood
    ("fuel lamp is lit when throttle is closed", "L101", "when", "Write if."),
    ("fuel gauge is more than 2 lb/sq in", "L101", "more than", "Write above."),
    ("fuel lamp is lit; horn is silent", "L101", ";", "Write and."),
    ("fuel lamp lit", "L101", "lit", "Write fuel lamp is lit."),
    ("after flap lever up: horn is silent", "L101", "up", "Write flap lever to up."),
    ("with tank selector to off: horn is silent", "L101", "to", "Write tank selector at off."),
    ("fuel lamp is lit in cruising", "L101", "in", "Write in cruising: fuel lamp is lit"),
    ("in parked: horn is silent within 40 s", "L101", "within", "Write in parked, within 40 s: horn is silent"),
    ("fuel lamp is lit) and horn is silent", "L101", ")", "Take the bracket out"),
    ("and has positions off", "L101", "and", "the name of a part or service"),
    ("fuel lamp is to off", "L101", "to", "After 'is' comes a state or position (lit, out)"),
    ("in parked: fuel lamp is above lit", "L101", "lit", "After 'above' comes a figure with its unit."),
    ("on Mk 1 in cruising: horn is silent", "L101", "in", "After 'Mk 1' comes ',', ':'"),
    (":", "L102", ":", "Write a claim, such as"),
    ("within 40 s, at 10 s: horn is silent", "L103", "at 10 s", "one claim for each"),
    ("in parked, in cruising: horn is silent", "L103", "in cruising", "one claim for each"),
    ("on Mk 1, on Mk 2: horn is silent", "L103", "on Mk 2", "one claim for each"),
    ("always, sometimes: horn is silent", "L103", "sometimes", "one claim for each"),
    ("after wait 1 s, in parked, after wait 2 s: horn is silent", "L103", "after wait 2 s", "one claim for each"),
    ("in cruising fuel lamp is lit", "L104", "fuel lamp", "Write in cruising: fuel lamp is lit"),
    ("in cruising, fuel lamp is lit", "L104", "fuel lamp is", "Write in cruising: fuel lamp is lit"),
    ("in cruising", "L104", "", "Write in cruising: and behind it"),
    ("in running down, after throttle to open: horn is silent", "L203", "running down", "Did you mean running up?"),
    ("in lit cruising, after wait 2 s: horn is silent", "L203", "lit cruising", "Did you mean cruising?"),
    ("fuel lamp is", "L105", "", "a state or position (lit, out)"),
    ("fuel lamp", "L105", "", "a verb ('is'"),
    ("in cruising:", "L105", "", "the name of a part or service"),
    ("in", "L105", "", "a situation (parked, running up, cruising, approach)"),
    ("after tank selector to", "L105", "", "a position (off, port tank, starboard tank)"),
    ("within", "L105", "", "a time such as 40 s"),
    ("takes", "L105", "", "two times such as 30 to 50 s"),
    ("on", "L105", "", "a mark or an airframe, such as Mk 1, Mk 2 or Mk 4"),
    ("(fuel lamp is lit", "L105", "", "After 'lit' comes ')'"),
    ("fuel gauge is lower than", "L105", "", "a scope such as 'in cruising'"),
    ("fuel lamp lights at 2 falling", "L106", "2", "such as 2 lb/sq in"),
    ("within 3 to 4 s: horn is silent", "L107", "3 to 4 s", "Write one time"),
    ("within -4 s: horn is silent", "L107", "-4 s", "0 s or more"),
    ("within 1e9 s: horn is silent", "L107", "1e9 s", "up to 48 hours"),
    ("with height 300000 ft: horn is silent", "L107", "300000 ft", "-3000 to 65000 ft"),
    ("with airspeed -5 kt: horn is silent", "L107", "-5 kt", "0 to 680 kt"),
    ("takes 40 s: horn is silent", "L107", "40 s", "the least and the most"),
    ("throttle is 120 %", "L107", "120 %", "from 0 % to 100 %"),
    ("after throttle to 20 to 30 %: horn is silent", "L107", "20 to 30 %", "from 0 % to 100 %"),
    ("fuel gauge is above 2 to 3 lb/sq in", "L107", "2 to 3 lb/sq in", "Write above 2.5 lb/sq in."),
    ("after wait 1 s repeated 0 times: horn is silent", "L108", "0", "a whole number"),
    ("after wait 1 s repeated 2000 times: horn is silent", "L108", "2000", "at most 1000"),
    ("there are 2.5 tanks", "L108", "2.5", "a whole number"),
    ("is lit", "L109", "i", "the name of a part"),
    ("fuel lamp lights at 2 lb/sq in", "L110", "2 lb/sq in", "Write at 2 lb/sq in falling, or at 2 lb/sq in rising."),
    (
        "boost gauge rises as height rises from 12000 ft to 8000 ft",
        "L111",
        "12000 ft to 8000 ft",
        "Write as height falls from 12000 ft to 8000 ft.",
    ),
    # names
    ("fuel lmp is lit", "L201", "fuel lmp", "Did you mean fuel lamp?"),
    ("in cruising: fuel  lampp is lit", "L201", "fuel  lampp", "Did you mean fuel lamp?"),
    ("petrol to the engin is served", "L201", "petrol to the engin", "Did you mean petrol to the engine?"),
    ("after tank selektor to off: horn is silent", "L201", "tank selektor", "Did you mean tank selector?"),
    ("with engine pmp seized: horn is silent", "L201", "engine pmp", "Did you mean engine pump?"),
    ("there are 4 mastr cocks", "L201", "mastr cocks", "Did you mean master cocks?"),
    ("engine pump is driven by enigne", "L201", "enigne", "Did you mean engine?"),
    ("widget is lit", "L201", "widget", "Write a name that the folder has"),
    ("blah blah blah", "L201", "blah blah blah", "Write a name that the folder has"),
    ("each of the voltmeters is dead", "L202", "voltmeters", "Name parts that it has."),
    ("in crusing: fuel lamp is lit", "L203", "crusing", "Did you mean cruising?"),
    ("odd valve is open", "L204", "open", "Write odd valve is at open for the position."),
    ("gear box is in", "L204", "in", "Write gear box clutch is in or gear box gear is in."),
    ("after tank selector to prot tank: horn is silent", "L205", "prot tank", "Did you mean port tank?"),
    ("after tank selector to up: horn is silent", "L205", "up", "off, port tank or starboard tank"),
    ("with throttle at opn: horn is silent", "L205", "opn", "Did you mean open?"),
    ("after hand pump to 60 %: horn is silent", "L205", "60 %", "idle or pumping"),
    ("tank selector has positions off, prot tank", "L205", "prot tank", "Did you mean port tank?"),
    ("throttle can be moved to 60 %", "L205", "60 %", "closed or open"),
    ("with engine pump siezed: horn is silent", "L206", "siezed", "Did you mean seized?"),
    ("with engine pump short: horn is silent", "L206", "short", "It can be seized."),
    ("with horn failed: horn is silent", "L206", "horn", "a part that can fail"),
    ("after gear box to in: horn is silent", "L207", "gear box", "Write gear box clutch or gear box gear."),
    ("after port tank to on: horn is silent", "L208", "port tank", "What can be moved is"),
    ("horn depends on fuel lamp", "L208", "fuel lamp", "What can be moved is"),
    ("with fuel lamp at 5 gal: horn is silent", "L209", "fuel lamp", "port tank, starboard tank"),
    ("gear box reads 5 lb/sq in", "L210", "gear box", "Write gear box pressure or gear box heat."),
    ("fuel lamp reads 5 lb/sq in", "L211", "fuel lamp", "fuel lamp can be lit or out."),
    ("carburettor.inlet is fitted", "L212", "carburettor.inlet", "Write carburettor."),
    ("wheels down and locked is fitted", "L212", "wheels down and locked", ""),
    ("fuel lamp is litt", "L213", "litt", "Did you mean lit? It can be lit or out."),
    ("fuel lamp is pumping", "L213", "pumping", "It can be lit or out."),
    ("engine is on", "L213", "on", "running, stopped, out or pressed"),
    ("carburettor.inlet is fed", "L213", "fed", "is above"),
    ("wheels down and locked is down", "L213", "down", "is served"),
    ("horn lights at 2 lb/sq in falling", "L213", "lights", "Write horn becomes sounding or silent at"),
    ("horn is served", "L214", "horn", "petrol to the engine or wheels down and locked"),
    ("boost gauge rises as hieght rises from 1 ft to 2 ft", "L215", "hieght", "Did you mean height?"),
    ("port tank has volume of 5 gal", "L216", "volume", "It has capacity or head."),
    ("horn is set at 5 lb/sq in", "L216", "5 lb/sq in", ""),
    ("there are 2 fuel lamp", "L217", "fuel lamp", "Write fuel lamp is fitted."),
    ("there are tanks", "L217", "tanks", "there are 2 tanks"),
    # told by other rooms
    ("fuel gauge is above 22 galons", "Q104", "galons", ""),
    ("fuel gauge is above 22 gal", "Q105", "gal", ""),
    ("fuel gauge is above 22", "Q103", "22", "lb/sq in"),
    ("within 40: horn is silent", "Q103", "40", "40 s"),
    ("with height 8000: horn is silent", "Q103", "8000", "8000 ft"),
    ("on Mk 3: horn is silent", "Q120", "Mk 3", ""),
]


@pytest.mark.parametrize("text, code, marked, hint", WRONG, ids=[row[0] for row in WRONG])
def test_one_mistake_is_told_once_at_its_place(text, code, marked, hint, read) -> None:
    claim, problems = read(parse_claim, text)
    assert claim is None
    (problem,) = problems
    span = problem.span
    assert (problem.code, span.file.text[span.start : span.end]) == (code, marked)
    assert hint in problem.hint
    assert span.file.text.find(text) <= span.start <= span.end <= span.file.text.find(text) + len(text)


def test_every_code_of_the_room_is_brought_about_here_or_by_its_sample() -> None:
    from cutaway.problems.codes_language import ENTRIES

    assert {code for _, code, _, _ in WRONG if code.startswith("L")} == {
        code
        for code, entry in ENTRIES.items()
        if entry.where != "situations.yaml"  # said of a name, not of a claim
    }


@pytest.mark.parametrize(
    "text, marks",
    [
        ("fuel lmp is lit and horm is silent", ["fuel lmp", "horm"]),
        (
            "in crusing, with engin pump seized, after flap levr to up: horn is sillent",
            ["crusing", "engin pump", "flap levr", "sillent"],
        ),
        ("in crusing, within 40 ft: fuel lamp is lit", ["crusing", "ft"]),
        ("fuel lmp is is lit", ["fuel lmp"]),
    ],
)  # fmt: skip
def test_all_mistakes_of_a_claim_are_told(text, marks, read) -> None:
    _, problems = read(parse_claim, text)
    assert [p.span.file.text[p.span.start : p.span.end] for p in problems] == marks


def test_the_caret_stands_behind_the_last_word_where_something_is_missing(read) -> None:
    _, (problem,) = read(parse_claim, "fuel lamp is  ")
    text = problem.span.file.text
    assert text[: problem.span.start].endswith("fuel lamp is")


def test_what_was_left_out_elsewhere_is_not_told_again(words, read) -> None:
    from dataclasses import replace

    from cutaway.language.words import words_of
    from cutaway.parts.library import KINDS
    from cutaway.problems.span import TextFile, whole

    folder = replace(words.folder, parts=(), left_out=frozenset({"fuel lamp", "cruising", "port tank"}))
    poorer = words_of(
        replace(folder, parts=tuple(p for p in words.folder.parts if p.kind in KINDS and p.name != "fuel lamp")), KINDS
    )
    for text in ("fuel lamp is lit", "after tank selector to off: any of (fuel lamp, charging lamp) is lit"):
        claim, problems = parse_claim(whole(TextFile("s", text)), poorer)
        assert (claim, problems) == (None, ())
    claim, problems = parse_claim(whole(TextFile("s", "fuel lamp is lit and hand pmp is idle")), poorer)
    assert claim is None and [p.code for p in problems] == ["L201"]


@pytest.mark.parametrize("parse", [parse_statement, parse_actions, parse_scope, parse_given, parse_mark])
@pytest.mark.parametrize("text", ["", "   ", "fuel lamp", ":", "if", "60 %", "to to to"])
def test_every_reader_tells_what_is_wrong(parse, text, read) -> None:
    found, problems = read(parse, text)
    assert found is None and problems and all(p.code[0] in "LQ" for p in problems)


@pytest.mark.parametrize(
    "text", [row[0] for row in WRONG] + ["fuel lamp becomes", "there", "any of (", "throttle is between"]
)
def test_no_message_speaks_of_the_grammar(text, read) -> None:
    _, problems = read(parse_claim, text)
    for problem in problems:
        said = problem.message + problem.hint
        quoted = text.split()
        for terminal in (*SPELLED, *KEYWORDS.values(), "UNKNOWN", "QUANTITY", "$END"):
            assert terminal not in [w.strip("'.,:()") for w in said.split()] or terminal in quoted


def test_a_quantity_of_a_part_that_was_left_out_is_not_complained_of(tmp_path) -> None:
    """No part of the folder has a 'cut-in speed' once its generator could not be read."""
    files = {
        "type.yaml": "name: S\nmarks: [Mk 1]\n",
        "systems/a.yaml": "system: A\nparts:\n  generator: {kind: generator, driven by: nothing}\n",
    }
    for name, text in files.items():
        (tmp_path / name).parent.mkdir(exist_ok=True)
        (tmp_path / name).write_text(text, encoding="utf-8")
    folder, problems = load_folder(tmp_path)
    assert folder is not None and [problem.code for problem in problems] == ["H310"]
    text = "generator has cut-in speed of 1100 rpm"
    assert parse_claim(whole(TextFile("claim", text)), words_of(folder, KINDS)) == (None, ())


def test_a_folder_without_situations_says_so_and_how_one_is_written(sample: Path) -> None:
    """'running' is then a state of the engine only, and no colon is missing behind it."""
    (sample / "situations.yaml").unlink()
    text = "in running up, after fuel cock to on: fuel cock is on"
    words = words_of(load_folder(sample, KINDS)[0], KINDS)
    claim, (told,) = parse_claim(whole(TextFile("claim", text)), words)
    assert claim is None and told.code == "L203" and told.message == "There is no situation called 'running up'."
    assert "situations: {running up:" in told.hint


def test_a_situation_called_in_something_is_told_of(sample: Path) -> None:
    text = "in the hangar, after fuel cock to on: fuel cock is on"
    for name, right in (("in the hangar", False), ("the hangar", True)):
        (sample / "situations.yaml").write_text(f"situations:\n  {name}: {{says: Here.}}\n", encoding="utf-8")
        words = words_of(load_folder(sample, KINDS)[0], KINDS)
        claim, told = parse_claim(whole(TextFile("claim", text)), words)
        assert (claim is not None) is right
        assert [(one.code, "Call it 'the hangar'" in one.hint) for one in told] == ([] if right else [("L203", True)])
