"""A type folder carried to another process as the texts of its files, and loaded once there."""

import tempfile
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from cutaway.handbook.load import load_folder
from cutaway.inquiry.cluster import threads_here
from cutaway.inquiry.told import Told, told_from
from cutaway.inquiry.workshop import Workshop
from cutaway.language.claims import ParsedClaims, read_claims
from cutaway.language.words import words_of
from cutaway.machine.subjects import Subject, subjects
from cutaway.parts.library import KINDS
from cutaway.problems.span import TextFile
from cutaway.quantities.which import StandardName

Files = tuple[TextFile, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Carried:
    """A folder where it arrived, with what its language comes to."""

    workshop: Workshop
    told: Told
    parsed: ParsedClaims

    def subject(self, name: StandardName) -> Subject:
        """The standard or airframe of that name."""
        return next(one for one in subjects(self.workshop.folder) if one.name == name)


@lru_cache(maxsize=2)
def carried(files: Files) -> Carried:
    """The folder of some files. What is no text, a photograph say, is not there."""
    with tempfile.TemporaryDirectory() as place:
        for file in files:
            path = Path(place) / file.path
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(file.text, encoding="utf-8")
        folder, _ = load_folder(place)
    assert folder is not None, "a folder that was loaded before is loaded again"
    parsed, _ = read_claims(folder, words_of(folder, KINDS))
    return Carried(Workshop(folder, KINDS, threads_here()), told_from(parsed), parsed)
