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
    "I201": Entry(
        "error",
        "a question that has no one course of things",
        "A question is asked of one course of things on one standard, of a statement that is so or not so at a moment. "
        "What is built, what changes with what, and a choice of several cannot be asked in this way; nor what the "
        "standard does not have.",
        '`cutaway why "hand pump is at pumping" --on "Mk 1"`, where Mk 1 has no hand pump.',
        '`cutaway why "hand pump is at pumping" --on "Mk 2"`',
        tested_by="tests/inquiry/questions/test_asking.py",
    ),
    "I202": Entry(
        "error",
        "no such drill",
        "Drills are named as their files in drills/ are, or by their titles; the beginning is enough.",
        "cutaway drill startin-up",
        "cutaway drill starting",
        tested_by="tests/inquiry/questions/test_drill.py",
    ),
    "I203": Entry(
        "error",
        "a drill that is for other standards",
        "A drill is gone through only on the standards that its `on:` names.",
        "cutaway drill starting-mk-1 --on 'Mk 4'",
        "cutaway drill starting-mk-4 --on 'Mk 4'",
        tested_by="tests/inquiry/questions/test_drill.py",
    ),
}
