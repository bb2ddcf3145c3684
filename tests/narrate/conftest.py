"""Scripts made from a few lines, each line one sentence."""

from collections.abc import Callable

import pytest

from cutaway.handbook.records import Script, Sentence
from cutaway.problems.span import Span, TextFile, whole

ScriptOf = Callable[..., Script]


@pytest.fixture
def script_of() -> ScriptOf:
    """Makes a script; a line that begins with `## ` opens a chapter."""

    def made(*lines: str, name: str = "01-fuel", title: str = "Petrol") -> Script:
        file = TextFile(f"scripts/{name}.md", "\n".join(lines))
        sentences: list[Sentence] = []
        chapter, at = "", 0
        for line in lines:
            if line.startswith("## "):
                chapter = line[3:]
            else:
                span = Span(file, at, at + len(line))
                sentences.append(Sentence(line, chapter, 1, (), (), False, span))
            at += len(line) + 1
        return Script(name, title, tuple(sentences), whole(file))

    return made
