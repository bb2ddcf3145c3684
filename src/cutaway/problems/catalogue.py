"""Every code that Cutaway can report, with its reason and a wrong and a right sample.

The first letter of a code names the room that reports it: Q quantities, H handbook, T taking in sources, L language,
P parts, M machine, I inquiry, N narrate, D draw, K the pack, C the command line. A code keeps its one meaning for
good. The entries stand in `codes_*.py`, one file a group of rooms; this file puts them together.
"""

from cutaway.problems import (
    codes_command,
    codes_desk,
    codes_explore,
    codes_finding,
    codes_handbook,
    codes_inquiry,
    codes_language,
    codes_machine,
    codes_pack,
    codes_paper,
    codes_pictures,
    codes_quantities,
    codes_recording,
    codes_sheets,
    codes_taking,
)
from cutaway.problems.entry import Entry, Severity

__all__ = ["CATALOGUE", "Entry", "Severity"]

CATALOGUE: dict[str, Entry] = {
    **codes_quantities.ENTRIES,
    **codes_handbook.ENTRIES,
    **codes_language.ENTRIES,
    **codes_machine.ENTRIES,
    **codes_inquiry.ENTRIES,
    **codes_pack.ENTRIES,
    **codes_paper.ENTRIES,
    **codes_pictures.ENTRIES,
    **codes_command.ENTRIES,
    **codes_desk.ENTRIES,
    **codes_explore.ENTRIES,
    **codes_finding.ENTRIES,
    **codes_recording.ENTRIES,
    **codes_sheets.ENTRIES,
    **codes_taking.ENTRIES,
}
