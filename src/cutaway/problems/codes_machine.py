"""The codes of the room(s): machine."""

from cutaway.problems.entry import Entry

ENTRIES: dict[str, Entry] = {
    "M101": Entry(
        "warning",
        "two levels at one joint",
        why="Two tanks, bottles or batteries with nothing between them share one level from the first moment, so they "
        "cannot begin with different ones.",
        wrong="Two tanks are joined by a plain line, and a situation starts one full and the other empty.",
        right="A cock or a non-return valve stands between them, or both start alike.",
        tested_by="tests/machine/test_kernel.py",
    ),
}
