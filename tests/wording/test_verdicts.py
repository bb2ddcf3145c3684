# ruff: noqa: E501
"""Every kind of verdict as a sentence: what it says, and that it reads as one."""

import re
from dataclasses import replace
from pathlib import Path
from typing import get_args

import pytest

from cutaway.handbook.load import load_folder
from cutaway.handbook.records import Cite, Folder, SourceKey
from cutaway.inquiry.verdicts import (
    TOO_MANY,
    Empty,
    Fails,
    Holds,
    Influence,
    NotModelled,
    RestsOn,
    Seen,
    Setup,
    Stated,
    Undecided,
    Verdict,
)
from cutaway.language.parse import parse_claim
from cutaway.language.syntax import Claim
from cutaway.language.words import words_of
from cutaway.parts.library import KINDS
from cutaway.problems.span import Span, TextFile, whole
from cutaway.quantities.which import StandardName
from cutaway.wording.verdicts import grouped, heading, kind_of, verdict_sentence

FILES = {
    "type.yaml": """
name: Whinchat
maker: Hallam & Reeve
says: A small trainer.
marks: [Mk 1, Mk 2]
house units: {pressure: lb/sq in, volume: gal}
notice: For interpretation on the ground only.
""",
    "sources/hb.md": """---
title: Handbook of the Whinchat
date: 1938
---
## 21 Tanks
Two tanks of 22 gallons.
## 22 Fuel cock
A selector cock on the left wall.
## 25 Fuel lamp
The fuel lamp lights below 2 lb/sq in.
""",
    "systems/fuel.yaml": """
system: Fuel
source: hb
parts:
  port tank: {kind: tank, capacity: 22 gal, cite: §21}
  starboard tank: {kind: tank, capacity: 22 gal, cite: §21}
  tank selector: {kind: selector cock, ways: [port tank, starboard tank], cite: §22}
  filter: {kind: fuel filter, cite: §22}
  carburettor: {kind: carburettor, cite: §22}
  fuel gauge: {kind: fuel pressure gauge, senses: carburettor.inlet, on: Mk 1, cite: §22}
  hand pump: {kind: hand fuel pump, on: Mk 2, cite: §22}
lines:
  - port tank > tank selector.port tank
  - starboard tank > tank selector.starboard tank
  - tank selector > filter > carburettor
  - {run: filter > hand pump > carburettor, on: Mk 2, cite: §22}
""",
    "situations.yaml": """
situations:
  parked: {says: On the ground., set: {tank selector: off}}
  cruising: {from: parked, set: {tank selector: port tank}}
""",
}

MK_1, MK_2 = StandardName("Mk 1"), StandardName("Mk 2")


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Folder:
    home: Path = tmp_path_factory.mktemp("whinchat")
    for name, text in FILES.items():
        path = home / name
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8")
    loaded, problems = load_folder(home)
    assert loaded is not None
    assert [problem for problem in problems if problem.severity == "error"] == []
    return loaded


def claim_of(folder: Folder, text: str) -> Claim:
    claim, problems = parse_claim(whole(TextFile("claim", text)), words_of(folder, KINDS))
    assert claim is not None, problems
    return claim


def cites(*numbers: str) -> tuple[Cite, ...]:
    return tuple(Cite(SourceKey("hb"), number, Span(TextFile("", ""), 0, 0)) for number in numbers)


OUT = Seen("fuel lamp", 40.0, None, "", "out")
LATE = "in cruising, after tank selector to off, within 40 s: carburettor is starved"
PRESSURE = "in cruising: carburettor.inlet is above 2 lb/sq in"
DROP = Influence(
    "filter", "drop", "0.2 lb/sq in", "0.05 to 0.6 lb/sq in", "at either end of its range", "The book is silent."
)
HEAD = Influence("port tank", "head", "10 in", "6 to 14 in", "at the low end of its range", "No sketch.")


@pytest.mark.parametrize(
    "text, verdict, expected",
    [
        (
            LATE,
            Holds(31.4321, (), cites("§22", "§25", "§22")),
            "Holds: when cruising, the carburettor is starved 31 s after the tank selector is put to off "
            "(handbook §22, §25).",
        ),
        (
            LATE,
            Holds(4.449, (), (), assumed=3),
            "Holds: when cruising, the carburettor is starved 4.4 s after the tank selector is put to off; 3 assumed "
            "values were taken to both ends of their ranges without changing that.",
        ),
        (
            LATE,
            Holds(4.449, (), (), assumed=TOO_MANY),
            "Holds: when cruising, the carburettor is starved 4.4 s after the tank selector is put to off; the assumed "
            "values were not tried, since that would take too many runs.",
        ),
        (
            "in cruising, after tank selector to off then tank selector to port tank, takes 2 to 9 min: carburettor is fed",
            Holds(380.0, (), ()),
            "Holds: when cruising, it takes 6 min 20 s until the carburettor is fed, once the tank selector is put to "
            "off, then the tank selector is put to port tank.",
        ),
        (
            "in cruising, throughout 10 min: starboard tank reads 22 gal ± 0.5",
            Holds(0.0, (), ()),
            "Holds: when cruising, the starboard tank reads 22 gal ± 0.5, throughout the 10 min.",
        ),
        (
            "in cruising, after tank selector to starboard tank, never: carburettor is starved",
            Holds(0.0, (), ()),
            "Holds: when cruising, it is never so that the carburettor is starved once the tank selector is put to "
            "starboard tank.",
        ),
        (
            "always: carburettor is starved if tank selector is off",
            Holds(0.0, (), (), tried=12),
            "Holds: the carburettor is starved if the tank selector is off, in each of the 12 cases tried.",
        ),
        (
            "in cruising, sometimes: carburettor is starved",
            Holds(0.0, (), (), tried=3, witness=Setup((("tank selector", "off"),))),
            "Holds: when cruising, the carburettor is starved, for instance with the tank selector at off.",
        ),
        (
            LATE,
            Fails(
                40.0, "never came", (Seen("carburettor.inlet", 40.0, 16547.4, "pressure", "", "gauge"),), cites("§22")
            ),
            "Fails: when cruising, it does not come about that the carburettor is starved within 40 s after the tank "
            "selector is put to off; at 40 s the carburettor inlet is at 2.4 lb/sq in (handbook §22).",
        ),
        (
            PRESSURE,
            Fails(0.0, "not so", (Seen("carburettor.inlet", 0.0, 13789.0, "pressure", "", "gauge"),), ()),
            "Fails: when cruising, it is not so that the carburettor inlet is above 2 lb/sq in; the carburettor inlet is "
            "at 1.9999 lb/sq in.",
        ),
        (
            "always: carburettor is fed",
            Fails(0.0, "not so", (), (), Setup((("tank selector", "off"), ("hand pump", "idle"))), tried=4),
            "Fails: with the tank selector at off and the hand pump at idle, it is not so that the carburettor is fed.",
        ),
        (
            "there are 3 tanks",
            Fails(0.0, "built otherwise", (), cites("§21"), found="Mk 1 has 2."),
            "Fails: the claim says that there are 3 tanks, and the records say otherwise; Mk 1 has 2 (handbook §21).",
        ),
        (
            PRESSURE,
            RestsOn(
                Holds(0.0, (), cites("§22")),
                (
                    Influence(
                        "filter", "drop", "0.2 lb/sq in", "0.05 to 0.6 lb/sq in", "above 0.41 lb/sq in", "no book"
                    ),
                ),
            ),
            "Rests on the drop of the filter (assumed 0.2 lb/sq in, between 0.05 and 0.6 lb/sq in): above 0.41 lb/sq in "
            "the answer is the other. With the assumed value it holds: when cruising, the carburettor inlet is above "
            "2 lb/sq in (handbook §22).",
        ),
        (
            PRESSURE,
            RestsOn(Fails(0.0, "not so", (), cites("§22"), assumed=5), (DROP, HEAD)),
            "Rests on each of 2 assumed values: the answer is the other with the drop of the filter (assumed "
            "0.2 lb/sq in, between 0.05 and 0.6 lb/sq in) at either end of its range, or with the head of the port tank "
            "(assumed 10 in, between 6 and 14 in) at the low end of its range. With the assumed values it fails: when "
            "cruising, it is not so that the carburettor inlet is above 2 lb/sq in (handbook §22).",
        ),
        (
            PRESSURE,
            RestsOn(Holds(0.0, (), cites("§22"), assumed=5), (DROP, HEAD), together=True),
            "Rests on 2 assumed values together: the answer is the other with the drop of the filter (assumed "
            "0.2 lb/sq in, between 0.05 and 0.6 lb/sq in) at either end of its range and the head of the port tank "
            "(assumed 10 in, between 6 and 14 in) at the low end of its range, all at once. With the assumed values it "
            "holds: when cruising, the carburettor inlet is above 2 lb/sq in (handbook §22).",
        ),
        (
            "tank selector has positions off, port tank, starboard tank",
            Stated(cites("§22"), "off, port tank, starboard tank"),
            "Stated: the tank selector has positions off, port tank, starboard tank (handbook §22).",
        ),
        (PRESSURE, NotModelled(("hand pump",)), "Not modelled: this standard has no hand pump."),
        (
            PRESSURE,
            NotModelled(("what is marked on it (filter)",)),
            "Not modelled: there is no record of what is marked on it (filter).",
        ),
        (
            PRESSURE,
            Empty("tank selector is off", 4),
            "Empty: 'tank selector is off' never comes about in the 4 cases tried, so nothing was tested.",
        ),
        (PRESSURE, Undecided("after 2,000 cases there are more."), "Undecided: after 2,000 cases there are more."),
    ],
)
def test_each_verdict_says_what_it_is(folder: Folder, text: str, verdict: Verdict, expected: str) -> None:
    assert verdict_sentence(claim_of(folder, text), verdict, folder) == expected


CLAIMS = (
    LATE,
    PRESSURE,
    "tank selector is off",
    "in parked, with any of tank selector or filter failed, at 5 s: carburettor is fed",
    "in cruising, with filter choked, with hand pump at idle, after hand pump to pumping for 20 s then wait 5 s, never: "
    "carburettor is starved or carburettor.inlet is below 2 lb/sq in",
    "carburettor is starved before hand pump is pumping",
    "in cruising, always: carburettor is fed only if tank selector is not off",
)


def some_claims(folder: Folder) -> list[Claim]:
    words = words_of(folder, KINDS)
    parsed = [parse_claim(whole(TextFile("claim", text)), words)[0] for text in CLAIMS]
    found = [claim for claim in parsed if claim is not None]
    assert len(found) >= 5
    return found


def every_verdict() -> list[Verdict]:
    reasons = get_args(Fails.__dataclass_fields__["why"].type)
    assert len(reasons) >= 16
    seen = (
        OUT,
        Seen("carburettor.inlet", 40.0, 12345.678912, "pressure", "", "gauge"),
        Seen("flaps", 0.0, 0.3, "angle", ""),
    )
    fails = [Fails(41.23456789, why, seen, cites("§22", "§25"), found="Mk 1 has none.", tried=3) for why in reasons]
    one = Influence("filter", "drop", "0.2 lb/sq in", "0.05 to 0.6 lb/sq in", "below 0.1 lb/sq in", "none.")
    world = Influence("", "height", "0 ft", "", "with both at their ends.", "")
    return [
        *fails,
        Holds(0.0123456789, seen, (), tried=1),
        Holds(9999.87654321, (), cites("§22"), tried=7, witness=Setup(()), assumed=1),
        RestsOn(fails[0], (one, world)),
        RestsOn(Holds(1.0, (), (), assumed=4), (one, world, one), together=True),
        RestsOn(Holds(1.0, (), ()), (one,)),
        Stated((), "says so."),
        NotModelled(("hand pump", "filter", "a control of filter")),
        NotModelled(()),
        Empty("tank selector is off", 1),
        Undecided("the run gave up at 3 s."),
    ]


def test_every_sentence_is_one(folder: Folder) -> None:
    for claim in some_claims(folder):
        for verdict in every_verdict():
            for standards in ("", "Mk 2", "Mk 1 and Mk 2", "every standard"):
                sentence = verdict_sentence(claim, verdict, folder, standards)
                assert sentence.endswith("."), sentence
                assert not re.search(r"  |\s[.,;:]|[.,;:][.,;]|\.\.|\n|None|\( ?\)|: ?[.;]", sentence), sentence
                assert not re.search(r"\d\.\d{4,}|\de-?\d", sentence), f"a raw number: {sentence}"
                assert heading(verdict).lower() in sentence.lower()
                assert not standards or standards in sentence


def test_kinds_and_headings_are_seven() -> None:
    assert len({kind_of(verdict) for verdict in every_verdict()}) == 7
    assert len({heading(verdict) for verdict in every_verdict()}) == 7


def test_verdicts_that_agree_are_told_once(folder: Folder) -> None:
    claim = claim_of(folder, LATE)
    same = Holds(31.0, (), cites("§22"))
    (one,) = grouped(claim, ((MK_1, same), (MK_2, same)), folder)
    assert one.standards == (MK_1, MK_2)
    assert one.sentence.startswith("Holds on every standard: when cruising")
    apart = grouped(claim, ((MK_1, same), (MK_2, Holds(28.0, (), cites("§22")))), folder)
    assert [group.sentence.split(":")[0] for group in apart] == ["Holds on Mk 1", "Holds on Mk 2"]
    (alone,) = grouped(claim, ((MK_1, same),), folder)
    assert alone.sentence.startswith("Holds on Mk 1:")


def test_what_is_missing_is_said_of_its_standard(folder: Folder) -> None:
    claim = claim_of(folder, LATE)
    found = grouped(claim, ((MK_1, NotModelled(("hand pump",))), (MK_2, Holds(3.0, (), ()))), folder)
    assert found[0].sentence == "Not modelled on Mk 1: Mk 1 has no hand pump."
    assert [group.kind for group in found] == ["not-modelled", "holds"]


def test_house_units_are_kept(folder: Folder) -> None:
    claim = claim_of(folder, PRESSURE)
    fails = Fails(0.0, "not so", (Seen("carburettor.inlet", 0.0, 10000.0, "pressure", "", "gauge"),), ())
    metric = replace(folder, type=replace(folder.type, house_units=(("pressure", "kPa"),)))
    assert "at 10 kPa" in verdict_sentence(claim, fails, metric)
    assert "at 1.45 lb/sq in" in verdict_sentence(claim, fails, folder)
