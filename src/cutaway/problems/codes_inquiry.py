"""The codes of the inquiry: what only a run can tell."""

from cutaway.problems.entry import Entry

ENTRIES: dict[str, Entry] = {
    "I101": Entry(
        "warning",
        "a situation cannot be reached",
        "The model found no balance on the way to a situation, so nothing can be said of it on that standard. As a "
        "rule a figure is far from what its kind is for.",
        "A relief valve set at 2,000,000 lb/sq in.",
        "A relief valve set at 300 lb/sq in.",
        tested_by="tests/inquiry/test_snapshot.py",
    ),
}
