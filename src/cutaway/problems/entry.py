"""The shape of one entry of the catalogue of codes."""

from dataclasses import dataclass
from typing import Literal

Severity = Literal["error", "warning"]


@dataclass(frozen=True, slots=True)
class Entry:
    """What a code means.

    title: a few words. why: the reason, a sentence or two. wrong, right: samples that the tests run, the first giving
    this code and the second not. where: which file of the sample folder the samples stand in, as the tests know it
    (for instance `systems/fuel.yaml`); a sample that begins with `---` replaces the whole file. The samples of a code
    that only a whole situation can bring about (a full disk, say) are prose: `where` is then empty and a test of its
    own, named in `tested_by`, brings it about.
    """

    severity: Severity
    title: str
    why: str
    wrong: str
    right: str
    where: str = ""
    tested_by: str = ""
