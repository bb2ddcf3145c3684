"""The JSON Schema takes the demo as it is, and marks what an editor should mark."""

from pathlib import Path

import jsonschema
import pytest
from ruamel.yaml import YAML

from cutaway.handbook.new_folder import template_files
from cutaway.handbook.schema import json_schema
from cutaway.parts.library import KINDS
from tests.handbook.folders import SAMPLE, WHINCHAT

SCHEMAS = json_schema(KINDS)
CHECKS = {pattern: jsonschema.Draft202012Validator(schema) for pattern, schema in SCHEMAS.items()}


def wrong(pattern: str, text: str) -> list[str]:
    return [error.message for error in CHECKS[pattern].iter_errors(YAML(typ="safe", pure=True).load(text))]


@pytest.mark.parametrize("pattern", SCHEMAS)
def test_each_is_a_schema(pattern):
    jsonschema.Draft202012Validator.check_schema(SCHEMAS[pattern])


@pytest.mark.parametrize("folder", [WHINCHAT, SAMPLE], ids=["whinchat", "sample"])
def test_what_loads_is_taken(folder):
    files = [(pattern, file) for pattern in SCHEMAS for file in sorted(folder.glob(pattern))]
    assert len(files) > 3
    for pattern, file in files:
        assert wrong(pattern, file.read_text(encoding="utf-8")) == [], file


def test_the_template_is_taken():
    for path, text in template_files("Robin"):
        for pattern in (p for p in SCHEMAS if Path(path).match(p)):
            assert wrong(pattern, text) == []


@pytest.mark.parametrize(
    "part",
    [
        "{capacity: 20 gal}",
        "{kind: tnak, capacity: 20 gal}",
        "{kind: tank}",
        "{kind: tank, capcity: 20 gal}",
        "{kind: tank, capacity: 20 gal, capcity: 20 gal}",
        "{kind: tank, capacity: {is: 20 gal, in: Mk 1}}",
        "{kind: tank, capacity: {assume: 20 gal}}",
        "{kind: tank, capacity: 20 gal, driven by: engine}",
        "{kind: fuel pressure gauge}",
        "{kind: selector cock}",
        "[{kind: tank, capacity: 20 gal}, {kind: tank}]",
        "[]",
        "tank",
    ],
)
def test_a_wrong_part_is_marked(part):
    assert wrong("systems/*.yaml", f"system: Fuel\nparts: {{x: {part}}}\n")


@pytest.mark.parametrize(
    "pattern, text",
    [
        ("type.yaml", "maker: H\n"),
        ("type.yaml", "name: S\nmark: [Mk 1]\n"),
        ("type.yaml", "name: S\nairframes: {W: {missing: [x]}}\n"),
        ("situations.yaml", "situations: {parked: {sets: {a: b}}}\n"),
        ("situations.yaml", "parked: {}\n"),
        ("services.yaml", "services: {a: {cite: hb §1}}\n"),
        ("decided.yaml", "- {part: a, value: b}\n"),
        ("glossary.yaml", "terms: {a: {said as: b}}\n"),
        ("letters.yaml", "letters: {a: {says: b}}\n"),
        ("systems/*.yaml", "system: Fuel\nlines: [{on: Mk 1}]\n"),
        ("systems/*.yaml", "parts: {}\n"),
    ],
)
def test_a_wrong_file_is_marked(pattern, text):
    assert wrong(pattern, text)


def test_every_kind_offers_its_own_keys():
    for kind in KINDS.values():
        block = SCHEMAS["systems/*.yaml"]["$defs"][f"kind {kind.name.replace('/', ' or ')}"]
        assert {want.name for want in kind.wants} <= block["properties"].keys()
        assert {coupling.name for coupling in kind.couplings} <= block["properties"].keys()
        assert {table.name for table in kind.tables} <= block["properties"].keys()
