"""The shape of one entry of the catalogue of codes."""

from dataclasses import dataclass
from typing import Literal

Severity = Literal["error", "warning"]


@dataclass(frozen=True, slots=True)
class Entry:
    """What a code means.

    title: a few words. why: the reason, a sentence or two. wrong, right: samples that the tests run, the first giving
    this code and nothing else, the second nothing at all. where: which file of the small sample folder
    (`tests/problems/sample/`) the samples stand in, for instance `systems/fuel.yaml`; a sample is always the text of
    that whole file, so that it can be read by itself. Where only a whole situation can bring the code about (a full
    disk, say) the samples are prose, `where` is empty and a test of its own, named in `tested_by`, brings it about.
    """

    severity: Severity
    title: str
    why: str
    wrong: str
    right: str
    where: str = ""
    tested_by: str = ""
