"""Every declaration against what its `build` makes: what is named is there, what is there is named."""

import math
from collections.abc import Iterator
from dataclasses import replace

import pytest

from cutaway.machine.expressions import parts_of_expression
from cutaway.parts.kind import Control, Kind, Reading, Want
from cutaway.parts.laws.elements import family
from cutaway.parts.library import KINDS, declared, kind
from cutaway.parts.recipe import Across, Content, Expr, Input, ModeIs, Recipe, Signal, Through
from cutaway.quantities.si import low_high_si, to_si
from tests.parts.fits import WAYS, fit_of, quantity, recipe_of, spelled_for

CONDITIONS = {"height", "airspeed", "temperature", "load factor"}
EVERY = pytest.mark.parametrize("kind", KINDS.values(), ids=lambda k: k.name)


def expressions(recipe: Recipe) -> Iterator[Expr]:
    roots: list[Expr] = [node.boundary for node in recipe.nodes if node.boundary is not None]
    roots += [e for element in recipe.elements for e in (element.gate, element.drive)]
    roots += [e for mode in recipe.modes for e in (mode.sets, mode.clears)]
    roots += [e for _, e in recipe.signals]
    for root in roots:
        yield from parts_of_expression(root)


def ports_of(kind: Kind) -> set[str]:
    return {name for port in kind.ports for name in (WAYS if port.each else (port.name,))}


def test_the_kinds_of_the_demo_are_all_here() -> None:
    assert len(KINDS) >= 37
    assert all(name == one.name for name, one in KINDS.items())
    assert len(list(declared())) == len(KINDS), "two kinds of one name"
    with pytest.raises(KeyError):
        kind("flux capacitor")


@EVERY
def test_every_port_is_a_node_of_its_medium(kind: Kind) -> None:
    media = {node.name: node.medium for node in recipe_of(kind).nodes}
    for port in kind.ports:
        for name in WAYS if port.each else (port.name,):
            assert media[name] == (port.medium or "petrol")


@EVERY
def test_names_are_given_once(kind: Kind) -> None:
    recipe = recipe_of(kind)
    for names in (
        [node.name for node in recipe.nodes],
        [element.name for element in recipe.elements],
        [mode.name for mode in recipe.modes],
        [name for name, _ in recipe.signals],
        [control.name for control in kind.controls],
        [want.name for want in kind.wants],
        [failure.name for failure in kind.failures],
        [coupling.name for coupling in kind.couplings],
    ):
        assert len(names) == len(set(names))


@EVERY
def test_elements_obey_their_family(kind: Kind) -> None:
    recipe = recipe_of(kind)
    nodes = {node.name for node in recipe.nodes}
    for element in recipe.elements:
        rules = family(element.family)
        assert len(element.at) == rules.terminals
        assert len(element.parameters) == len(rules.parameters)
        assert set(element.at) <= nodes
        values = dict(zip(rules.parameters, element.parameters, strict=True))
        assert all(values[name] > 0.0 for name in rules.above), (element.name, values)


@EVERY
def test_the_families_declared_are_the_families_used(kind: Kind) -> None:
    assert set(kind.families) == {element.family for element in recipe_of(kind).elements}


@EVERY
def test_every_name_in_an_expression_is_there(kind: Kind) -> None:
    recipe = recipe_of(kind)
    nodes = {node.name for node in recipe.nodes} | {c.name for c in kind.couplings if c.to == "node"}
    elements = {element.name: element for element in recipe.elements}
    couplings = {c.name: c for c in kind.couplings}
    for one in expressions(recipe):
        match one:
            case Across(node=name):
                assert name in nodes
            case Through(element=name, terminal=terminal):
                assert terminal < len(elements[name].at)
            case Content(element=name):
                assert elements[name].family in ("TANK", "STORE", "ACCUM", "JACK", "RAM")
            case ModeIs(mode=name):
                assert name in {mode.name for mode in recipe.modes}
            case Input(sort="control", name=name):
                assert name in {control.name for control in kind.controls}
            case Input(sort="failure", name=name):
                assert name in {failure.name for failure in kind.failures}
            case Input(sort="condition", name=name):
                assert name in CONDITIONS
            case Signal(name=name, of=""):
                assert name in dict(recipe.signals)
            case Signal(name=name, of=coupling):
                assert (coupling in couplings and name in couplings[coupling].needs) or coupling in backs_to(kind)


def backs_to(kind: Kind) -> set[str]:
    """The names under which other kinds make themselves known to this one."""
    signals = set(dict(recipe_of(kind).signals))
    return {c.back for other in KINDS.values() for c in other.couplings if c.back and set(c.needs) <= signals}


@EVERY
def test_what_can_be_asked_is_a_signal(kind: Kind) -> None:
    recipe = recipe_of(kind)
    signals = dict(recipe.signals)
    assert {state.signal for state in kind.states} <= set(signals)
    assert {reading.signal for reading in kind.readings} <= set(signals)
    assert {reading.alive for reading in kind.readings if reading.alive} <= set(signals)
    assert sum(reading.main for reading in kind.readings) == (1 if kind.readings else 0)
    for content in kind.contents:
        assert content.element in {element.name for element in recipe.elements}
        assert content.full in {"", *(want.name for want in kind.wants)}


@EVERY
def test_quantities_are_of_their_dimension_and_defaults_lie_in_their_ranges(kind: Kind) -> None:
    for want in kind.wants:
        spelled = spelled_for(kind, want)
        value = quantity(spelled)
        assert value.dimension == want.dimension
        assert want.says.endswith(".")
        if want.default:
            assert want.because.endswith("."), f"{want.name}: a default says why it is what it is"
        if want.between:
            ends = quantity(want.between)
            assert ends.is_range and ends.unit == value.unit
            assert ends.low <= value.value <= ends.high
    for reading in kind.readings:
        assert quantity(f"1 {reading.unit}").dimension == reading.dimension


@EVERY
def test_every_failure_and_control_has_a_part_in_it(kind: Kind) -> None:
    for coupled in ({c.name for c in kind.couplings}, {c.name for c in kind.couplings if c.required}):
        inputs = {
            (e.sort, e.name) for e in expressions(recipe_of(kind, coupled=frozenset(coupled))) if isinstance(e, Input)
        }
        for failure in kind.failures:
            assert ("failure", failure.name) in inputs
            assert failure.says.endswith(".")
        for control in kind.controls:
            assert ("control", control.name) in inputs


@EVERY
def test_every_quantity_has_a_part_in_it(kind: Kind) -> None:
    before = recipe_of(kind)
    for want in kind.wants:
        spelled = quantity(spelled_for(kind, want))
        other = f"{1.1 * spelled.value + 0.01} {spelled.unit.name}"
        assert recipe_of(kind, {want.name: other}) != before, f"{want.name} changes nothing"


@EVERY
def test_recipes_are_values(kind: Kind) -> None:
    assert hash(recipe_of(kind)) == hash(recipe_of(kind))
    assert kind.says.endswith(".")


@EVERY
def test_couplings_can_be_met(kind: Kind) -> None:
    for coupling in kind.couplings:
        if coupling.to == "port":
            assert coupling.port in ports_of(kind)
        if coupling.to == "signals":
            able = [k.name for k in KINDS.values() if set(coupling.needs) <= set(dict(recipe_of(k).signals))]
            assert coupling.needs and able, f"no kind has {coupling.needs}"


@EVERY
def test_ways_through_are_plain(kind: Kind) -> None:
    """`a > part > b` must mean one port in and one out, or the part's only port."""
    for way in ("in", "out"):
        assert sum(port.default in (way, "both") for port in kind.ports) <= 1
    if len(ports_of(kind)) == 1:
        assert kind.ports[0].default


def test_these_tests_can_fail() -> None:
    tank = KINDS["tank"]
    wrong = replace(
        tank,
        name="tank",
        families=("TANK",),
        readings=(Reading("level", "volume", "level", "gal"),),
        controls=(Control("", ("off", "on")),),
    )
    for test in (
        test_the_families_declared_are_the_families_used,
        test_what_can_be_asked_is_a_signal,
        test_every_failure_and_control_has_a_part_in_it,
    ):
        with pytest.raises(AssertionError):
            test(wrong)


def figures_that_can_be(want: Want, nominal: float) -> list[float]:
    """Figures far to both sides of the usual, and those on the edge of what can be at all."""
    found = [abs(nominal or 1.0) * factor for factor in (1e-12, 1e-3, 1e3, 1e12)]
    found += [0.0] if want.least != "above nought" else []
    found += [-abs(nominal or 1.0)] if want.least == "any" else []
    return [min(figure, 0.999 * to_si(quantity(want.below))) if want.below else figure for figure in found]


@EVERY
def test_every_figure_that_can_be_can_be_built(kind: Kind) -> None:
    usual = fit_of(kind)
    for want in kind.wants:
        for figure in figures_that_can_be(want, usual.si[want.name]):
            recipe = kind.build(replace(usual, si={**usual.si, want.name: figure}))
            for element in recipe.elements:
                rules = family(element.family)
                values = dict(zip(rules.parameters, element.parameters, strict=True))
                assert all(math.isfinite(value) for value in values.values()), (want.name, figure, element)
                assert all(values[name] > 0.0 for name in rules.above), (want.name, figure, element)


@EVERY
def test_what_is_usual_can_be(kind: Kind) -> None:
    for want in kind.wants:
        for words in (want.default, want.between, want.usual):
            low, high = low_high_si(quantity(words)) if words else (1.0, 1.0)
            assert low > 0.0 or want.least != "above nought" or words == "", (want.name, words)
            assert low >= 0.0 or want.least == "any", (want.name, words)
            assert not (want.below and words) or high < to_si(quantity(want.below)), (want.name, words)
        if want.between and want.usual:
            (low, high), (least, most) = low_high_si(quantity(want.between)), low_high_si(quantity(want.usual))
            assert least <= low and high <= most, want.name
