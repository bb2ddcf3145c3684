"""Every sample of this room's codes: the wrong one gives its code and the right one gives nothing."""

import pytest

from cutaway.problems.codes_handbook import ENTRIES
from tests.handbook.folders import codes, load_sample

WITH_SAMPLES = sorted(code for code, entry in ENTRIES.items() if entry.where)


@pytest.mark.parametrize("code", WITH_SAMPLES)
def test_the_wrong_sample_gives_its_code_once(code, tmp_path):
    entry = ENTRIES[code]
    _, problems = load_sample(tmp_path, {entry.where: entry.wrong})
    assert codes(problems).count(code) == 1
    (found,) = [problem for problem in problems if problem.code == code]
    assert found.severity == entry.severity
    assert found.span is None or found.span.file.path == entry.where


@pytest.mark.parametrize("code", WITH_SAMPLES)
def test_the_right_sample_gives_nothing(code, tmp_path):
    entry = ENTRIES[code]
    _, problems = load_sample(tmp_path, {entry.where: entry.right})
    assert codes(problems) == []


@pytest.mark.parametrize("code", WITH_SAMPLES)
def test_the_wrong_sample_gives_little_else(code, tmp_path):
    """One mistake, one complaint: what follows from it is not told again."""
    entry = ENTRIES[code]
    _, problems = load_sample(tmp_path, {entry.where: entry.wrong})
    assert codes(problems) == [code]


def test_every_other_code_names_its_test():
    for code in set(ENTRIES) - set(WITH_SAMPLES):
        assert ENTRIES[code].tested_by
