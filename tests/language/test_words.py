"""The names of a folder and what they stand for."""

import pytest

from cutaway.language.name_index import key, name_index, words_in
from cutaway.language.syntax import ControlRef, ReadingRef


@pytest.mark.parametrize(
    "name, control, positions",
    [
        ("tank selector", ControlRef("tank selector", ""), ("off", "port tank", "starboard tank")),
        ("engine", ControlRef("engine", "starter"), ("out", "pressed")),
        ("engine starter", ControlRef("engine", "starter"), ("out", "pressed")),
        ("engine.starter", ControlRef("engine", "starter"), ("out", "pressed")),
        ("gear box gear", ControlRef("gear box", "gear"), ("in", "out", "half")),
    ],
)
def test_controls(name, control, positions, words) -> None:
    found = words.controls[name]
    assert (found.ref, found.positions) == (control, positions)


def test_a_part_with_two_controls_is_not_one(words) -> None:
    assert "gear box" not in words.controls


@pytest.mark.parametrize(
    "name, reading, dimensions",
    [
        ("engine speed", ReadingRef("engine", "speed", ""), ("angular speed",)),
        ("carburettor.inlet", ReadingRef("carburettor", "", "inlet"), ("pressure",)),
        ("tank selector.starboard tank", ReadingRef("tank selector", "", "starboard tank"), ("pressure",)),
        ("battery.positive", ReadingRef("battery", "", "positive"), ("voltage",)),
    ],
)
def test_readings(name, reading, dimensions, words) -> None:
    found = words.readings[name]
    assert (found.ref, found.dimensions) == (reading, dimensions)


@pytest.mark.parametrize(
    "name, members",
    [
        ("wing cocks", ("port cock", "starboard cock")),
        ("master cocks", ("port cock", "starboard cock")),
        ("tanks", ("port tank", "starboard tank")),
        ("lamps", ("fuel lamp", "charging lamp")),
        ("batteries", ("battery",)),
        ("voltmeters", ()),
    ],
)
def test_collections(name, members, words) -> None:
    assert words.collections[name].members == members


def test_a_part_is_not_hidden_by_a_plural(words) -> None:
    assert "throttle" in words.parts and "throttle" not in words.collections


def test_the_longest_name_is_found() -> None:
    index = name_index(["fuel", "fuel lamp", "fuel lamp switch off"])
    found = list(words_in("the Fuel LAMP  switch, off", 0, 26))
    assert [w.said for w in found] == ["the", "fuel", "lamp", "switch", "off"]
    assert index.longest(found, 0) == 0
    assert index.longest(found[:4], 1) == 2
    assert index.longest(found, 1) == 4


@pytest.mark.parametrize("one, other", [("No. 2  Cock", "no 2 cock"), ("pilot’s lamp", "Pilot's Lamp")])
def test_names_are_compared_without_case_blanks_and_stops(one, other) -> None:
    assert key(one) == key(other)
