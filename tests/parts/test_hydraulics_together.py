"""A whole hydraulic undercarriage with doors before legs and an emergency bottle, and whatever is done to it.

Sequence valves, shuttle valve, hydraulic lock, restrictors, accumulator, cut-out and locks in one network.
"""

import random

import pytest

from tests.parts.stand import TURNER, Stand

INCH = 0.0254
POUND = 6894.757293168362
UP, DOWN = 0.0, 1.0
PUMPING = ((0.0, "engine", 0.8),)

CONTROLS = {"engine": (0.0, 0.3, 1.0), "lever": (UP, DOWN), "bottle": (0.0, 1.0), "hand pump": (0.0, 1.0)}
FAILURES = (
    "pump: sheared", "pump: worn", "cut-out: stuck idling", "cut-out: stuck charging", "accumulator: air lost",
    "filter: choked", "lever: internal leak", "door valve: stuck", "shuttle: stuck", "lock: stuck", "bottle: leaked",
    "restrictor: choked", "damper: choked", "door jack: iced", "door jack: jammed", "leg jack: iced",
    "leg jack: seal leaking", "leg: down lock stuck", "leg: up lock stuck", "relief: stuck open",
    "hand pump: leaking washer", "leg valve: stuck",
)  # fmt: skip


def stand() -> Stand:
    return Stand(
        {
            "engine": (TURNER, {}),
            "reservoir": ("reservoir", {"capacity": "2 gal"}),
            "filter": ("oil filter", {}),
            "pump": ("engine-driven hydraulic pump", {}),
            "hand pump": ("hydraulic hand pump", {"pressure": "1500 lb/sq in"}),
            "cut-out": ("automatic cut-out", {"cut-out": "1000 lb/sq in", "cut-in": "800 lb/sq in"}),
            "relief": ("oil relief valve", {"set at": "1200 lb/sq in"}),
            "accumulator": ("accumulator", {"volume": "40 cu in"}),
            "lever": ("two-position selector", {"flow": "40 gal/h"}),
            "restrictor": ("restrictor", {"flow": "12 gal/h"}),
            "door valve": ("sequence valve", {}),
            "leg valve": ("sequence valve", {"opens below": "2 %"}),
            "damper": ("one-way restrictor", {"flow": "10 gal/h", "free flow": "30 gal/h"}),
            "shuttle": ("shuttle valve", {"flow": "30 gal/h"}),
            "bottle": ("emergency air bottle", {"pressure": "1500 lb/sq in"}),
            "lock": ("hydraulic lock", {"flow": "20 gal/h"}),
            "door jack": ("jack", {"area": "1 sq in", "stroke": "6 in", "load": "60 lbf"}),
            "leg jack": ("jack", {"area": "2 sq in", "stroke": "10 in", "rod area": "0.5 sq in",
                                  "spring load": "-150 lbf"}),
            "doors": ("doors", {}),
            "leg": ("leg", {}),
        },
        ("reservoir.outlet > filter.inlet", "filter.outlet > pump.inlet", "pump.outlet > cut-out.pump",
         "cut-out.return > reservoir.return", "cut-out.system > accumulator.oil", "reservoir.outlet > hand pump.inlet",
         "hand pump.outlet > accumulator.oil", "accumulator.oil > lever.pressure", "accumulator.oil > relief.inlet",
         "relief.outlet > reservoir.return", "lever.return > reservoir.return",
         "lever.down > restrictor.inlet", "restrictor.outlet > door jack.extend", "lever.up > leg valve.inlet",
         "leg valve.outlet > door jack.retract",
         "lever.down > door valve.inlet", "door valve.outlet > shuttle.normal", "bottle.outlet > shuttle.emergency",
         "shuttle.outlet > lock.supply", "lock.jack > leg jack.extend", "lever.up > lock.pilot",
         "lever.up > damper.inlet", "damper.outlet > leg jack.retract"),
        ("pump: driven by > engine", "door valve: moved by > door jack", "leg valve: moved by > leg jack",
         "doors: moved by > door jack", "leg: moved by > leg jack", "leg jack: held by > leg"),
    )  # fmt: skip


def test_doors_go_before_the_leg_and_all_is_locked_in_the_end() -> None:
    s = stand().run(120.0, *PUMPING, (30.0, "lever", DOWN), (80.0, "lever", UP))
    assert s.at(29.0, "cut-out: idling") == 1.0 and s.at(29.0, "leg: locked up") == 1.0
    opened, drawn = s.when("door valve: open"), s.when("leg: up lock drawn")
    assert 30.0 < opened < drawn and s.at(drawn, "doors: open") == 1.0
    assert s.at(79.0, "leg: locked down") == 1.0 and s.at(79.0, "cut-out: idling") == 1.0
    assert s.end("leg: locked up") == 1.0 == s.end("doors: closed")
    up = max(e.time for e in s.ran.events if e.mode == "leg valve: open" and e.now) if s.ran else 0.0
    assert s.at(up, "doors: open") == 1.0 and s.at(up, "leg: position") == pytest.approx(0.02, abs=5e-3)


def test_with_the_pipe_gone_the_bottle_lowers_the_leg_and_the_lock_keeps_it() -> None:
    s = stand().run(200.0, *PUMPING, (0.0, "relief: stuck open", 1.0), (30.0, "lever", DOWN), (60.0, "bottle", 1.0),
                    (100.0, "bottle: leaked", 1.0))  # fmt: skip
    assert s.at(59.0, "leg: locked up") == 1.0 and s.at(59.0, "lever.pressure") < 150.0 * POUND
    assert s.at(99.0, "shuttle: over") == 1.0 == s.at(99.0, "leg: locked down") == s.end("leg: locked down")


@pytest.mark.parametrize("seed", range(40))
def test_whatever_is_done_to_it_it_has_an_answer_and_no_oil_is_lost(seed: int) -> None:
    chance = random.Random(seed)
    changes = [(0.0, "engine", chance.choice(CONTROLS["engine"]))]
    for name, positions in CONTROLS.items():
        changes += [(chance.uniform(0.0, 100.0), name, chance.choice(positions)) for _ in range(chance.randint(0, 4))]
    changes += [(chance.choice((0.0, chance.uniform(0.0, 100.0))), name, 1.0) for name in chance.sample(FAILURES, 3)]
    s = stand().run(120.0, *changes)  # which wants it done and nothing lost
    assert -0.01 < s.end("leg jack: extension") < 1.01 and -0.01 < s.end("door jack: extension") < 1.01
