"""The page about the desk: its examples are put into the sample folder and are right."""

import re
from pathlib import Path

from cutaway.api.letters import letters
from cutaway.api.loading import load
from cutaway.narrate.desk import desk

PAGE = (Path(__file__).parents[3] / "docs" / "desk.md").read_text(encoding="utf-8")


def test_the_examples_are_right(sample: Path) -> None:
    script, glossary, post = re.findall(r"^```(?:markdown|yaml)\n(.*?)^```$", PAGE, re.DOTALL | re.MULTILINE)
    (sample / "scripts" / "01-fuel.md").write_text(script, encoding="utf-8")
    (sample / "glossary.yaml").write_text(glossary, encoding="utf-8")
    (sample / "letters.yaml").write_text(post, encoding="utf-8")
    loaded, problems = load(sample)
    assert loaded is not None and problems == ()
    looked, problems = desk(loaded.folder, loaded.parsed, loaded.kinds)
    assert problems == () and looked.promises[0].settled is not None and looked.terms[0].marked
    assert looked.scripts[0].shots[0].callouts == ("fuel tank",)
    read, problems = letters(sample, rests=False)
    assert problems == () and read is not None and len(read.answers) == 1
