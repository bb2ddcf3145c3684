"""Small type folders for the tests of this room, and claims put to them."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from cutaway.api.loading import Loaded, load, workshop_for
from cutaway.inquiry.check import verdict_for
from cutaway.inquiry.memory import Memory
from cutaway.inquiry.verdicts import Verdict
from cutaway.inquiry.workshop import Workshop
from cutaway.language.parse import parse_claim
from cutaway.language.syntax import Claim
from cutaway.machine.subjects import Subject, subjects
from cutaway.parts.kind import Kind
from cutaway.parts.library import KINDS
from cutaway.problems.diagnostic import Problems, has_error
from cutaway.problems.span import TextFile, whole

TYPE = "name: Wren\nmarks: [Mk 1]\n"


@dataclass
class Folder:
    """A loaded folder with its workshop. problems: of loading it and of making its networks."""

    loaded: Loaded
    workshop: Workshop
    problems: Problems

    def claim(self, text: str) -> Claim:
        """A claim, which must be understood."""
        claim, problems = parse_claim(whole(TextFile("claim", text)), self.loaded.words)
        assert claim is not None and not problems, (text, problems)
        return claim

    def subject(self, name: str = "") -> Subject:
        """A standard or airframe by name, the first if none is given."""
        return next(s for s in subjects(self.loaded.folder) if not name or s.name == name)

    def verdict(self, text: str, on: str = "", rests: bool = False, memory: Memory | None = None) -> Verdict:
        """The verdict on a claim for one subject."""
        return verdict_for(self.claim(text), self.subject(on), self.workshop, self.loaded.told, rests, memory)


def folder_at(path: Path, files: dict[str, str], kinds: Mapping[str, Kind] = KINDS) -> Folder:
    """A folder of these files, written and loaded; type.yaml has one mark where none is given."""
    for name, text in {"type.yaml": TYPE, **files}.items():
        (path / name).parent.mkdir(parents=True, exist_ok=True)
        (path / name).write_text(text, encoding="utf-8")
    loaded, problems = load(path, kinds)
    assert loaded is not None, problems
    assert not has_error(problems), [(p.code, p.message) for p in problems]
    workshop, more = workshop_for(loaded, threads=1)
    return Folder(loaded, workshop, (*problems, *more))


def system(parts: str, lines: str = "", name: str = "Small") -> str:
    """A file of systems/ from the lines of its parts and its runs."""
    body = "".join(f"  {line}\n" for line in parts.strip("\n").splitlines())
    runs = "".join(f"  - {line}\n" for line in lines.strip().splitlines())
    return f"system: {name}\nparts:\n{body}" + (f"lines:\n{runs}" if runs else "")


# A tank that a hand pump empties at so many strokes a minute into another; a valve keeps petrol from running over by
# itself.
PUMPED = system(
    """
upper tank: {kind: tank, capacity: 1 gal}
lower tank: {kind: tank, capacity: 4 gal}
pump: {kind: hand fuel pump, stroke: 2 cu in, rate: 60 strokes/min}
valve: {kind: fuel relief valve, set at: 2 lb/sq in}
cock: {kind: cock}
""",
    """
upper tank > cock > pump > valve
valve.outlet > lower tank.outlet
""",
)
SITUATIONS = """situations:
  standing:
    says: Nothing is moved.
    set: {cock: on}
    start: {lower tank: 1 gal}
    settle: 10 s
"""
