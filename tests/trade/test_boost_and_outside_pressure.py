"""Trade 5: how boost falls above the full-throttle height, against the outside pressure alone."""

from pathlib import Path

import pytest

from cutaway.inquiry.engine_bench import Setting, bench_for, measure
from cutaway.machine.subjects import subjects
from tests.parts.charge_reference import air
from tests.trade.test_trade import opened


def test_boost_falls_a_little_less_than_the_outside_pressure() -> None:
    loaded, workshop = opened(Path(__file__).parent / "05-boost")
    bound, _ = workshop.bound(subjects(loaded.folder)[0])
    bench = bench_for(bound, "engine")
    assert bench is not None
    heights = [16_000.0, 20_000.0, 24_000.0]
    readings = measure(bench, [Setting(h * 0.3048, 1.0, 1, 277.5) for h in heights], 1)
    outside = [air(h * 0.3048)[0] for h in heights]
    pipes = [reading.boost + 101_325.0 for reading in readings]
    for i in (0, 1):
        left, left_outside = pipes[i + 1] / pipes[i], outside[i + 1] / outside[i]
        # Colder air is better compressed, so the pipe keeps a little more than the outside pressure alone would leave.
        assert left_outside < left == pytest.approx(left_outside, abs=0.035)
