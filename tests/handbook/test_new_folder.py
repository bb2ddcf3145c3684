"""The template of a new folder loads as it stands, whatever the aircraft is called."""

import pytest

from cutaway.handbook.load import load_folder
from cutaway.handbook.new_folder import template_files
from tests.handbook.folders import write


@pytest.mark.parametrize("name", ["Robin", "Robin Mk. 2", "it's: a #1 {bird}", "12", "", "null", "yes - no", "Émile"])
def test_the_template_loads_without_a_complaint(name, tmp_path):
    folder, problems = load_folder(write(tmp_path / "new", dict(template_files(name))))
    assert problems == ()
    assert folder is not None
    assert folder.type.name == (" ".join(name.split()) or "Unnamed")
    assert folder.parts and folder.lines and folder.situations and folder.services
    assert folder.drills and folder.scripts and folder.glossary and folder.sources
    assert any(sentence.claims for sentence in folder.scripts[0].sentences)


def test_the_files_are_those_of_a_type_folder():
    assert [path for path, _ in template_files("Robin")] == [
        "drills/starting.md", "glossary.yaml", "scripts/01-first.md", "services.yaml", "situations.yaml",
        "sources/hb.md", "systems/fuel.yaml", "type.yaml",
    ]  # fmt: skip
