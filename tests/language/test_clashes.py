"""Names that claims cannot use are told where they are given; those that they can are not, odd as they may be."""

from pathlib import Path

import pytest

from cutaway.api.loading import load
from tests.inquiry.folders import TYPE

FUEL = "system: Fuel\nparts:\n  tank: {kind: tank, capacity: 5 gal}\n"


def told(path: Path, parts: str = "", situations: str = "", services: str = "") -> list[tuple[str, str]]:
    """The messages and hints of L221 in a small folder, in which nothing else may be wrong."""
    files = {"type.yaml": TYPE, "systems/fuel.yaml": FUEL + parts}
    files |= {"situations.yaml": f"situations:\n  {situations}\n"} if situations else {}
    files |= {"services.yaml": f"services:\n  {services}\n"} if services else {}
    for name, text in files.items():
        (path / name).parent.mkdir(parents=True, exist_ok=True)
        (path / name).write_text(text, encoding="utf-8")
    loaded, problems = load(path)
    assert loaded is not None and {p.code for p in problems} <= {"L221"}, problems
    for problem in problems:
        assert problem.severity == "warning" and problem.span is not None
        assert problem.span.words.strip("'\"") in problem.message
    return [(p.message, p.hint) for p in problems]


def test_a_situation_with_the_in_of_a_claim_in_its_name(tmp_path: Path) -> None:
    assert told(tmp_path, situations="in the hangar: {settle: 1 s}") == [
        (
            "The situation 'in the hangar' has the 'in' of a claim in its name.",
            "Call it the hangar; a claim then begins: in the hangar",
        )
    ]


@pytest.mark.parametrize("name", ["after landing", "with engines running", "at rest", "not running"])
def test_a_situation_that_begins_as_a_scope_does(tmp_path: Path, name: str) -> None:
    ((message, _),) = told(tmp_path, situations=f"{name}: {{settle: 1 s}}")
    assert f"'{name}' begins with '{name.split()[0]}'" in message


@pytest.mark.parametrize(
    "name, mark", [("'parked: cold'", "':'"), ("'climb, full power'", "','"), ("circling (left)", "'('")]
)
def test_a_situation_with_a_mark_in_its_name(tmp_path: Path, name: str, mark: str) -> None:
    ((message, _),) = told(tmp_path, situations=f"{name}: {{settle: 1 s}}")
    assert "Claims cannot speak of the situation" in message and mark in message


@pytest.mark.parametrize(
    "name, hint",
    [("cock (port)", "cock port"), ("reads", "otherwise"), ("then", "otherwise")],
)
def test_a_part_that_claims_cannot_name(tmp_path: Path, name: str, hint: str) -> None:
    ((message, said),) = told(tmp_path, parts=f"  {name}: {{kind: cock}}\n")
    assert f"Claims cannot speak of the part '{name}'" in message and said == f"Call it {hint}."


def test_a_service_and_a_position_that_claims_cannot_name(tmp_path: Path) -> None:
    ((message, _),) = told(tmp_path / "service", services="'petrol, and air': tank is not empty")
    assert "the service 'petrol, and air'" in message
    ((message, _),) = told(
        tmp_path / "position", parts="  cock: {kind: selector cock, ways: [port (left), starboard]}\n"
    )
    assert "the position 'port (left)' of cock" in message


def test_names_that_are_odd_and_can_be_used(tmp_path: Path) -> None:
    parts = (
        "No. 1 cock",
        "in-flight cock",
        "port and starboard cock",
        "not used cock",
        "2 lb valve",
        "one cock",
        "off",
    )
    situations = "on the water: {settle: 1 s}\n  no wind: {settle: 1 s}\n  parked and cold: {settle: 1 s}"
    cocks = "".join(f"  {name}: {{kind: cock}}\n" for name in parts)
    assert told(tmp_path, cocks, situations, "petrol to the engine: tank is not empty") == []
