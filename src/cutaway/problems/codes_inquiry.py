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
    "I204": Entry(
        "error",
        "a quiz of what there is not",
        "Questions are asked of a system of the folder, and are of one of six sorts; there is at least one of them.",
        "cutaway quiz --system Feul",
        "cutaway quiz --system Fuel",
        tested_by="tests/inquiry/quiz/test_quiz.py",
    ),
    "I301": Entry(
        "error",
        "the library for clusters is missing",
        "Sweeps run on this machine without it; sharing them out among several machines is the work of a library.",
        "--cluster given where dask.distributed is not installed.",
        "pip install -c constraints.txt -e '.[cluster]' first.",
        tested_by="tests/inquiry/test_cluster.py",
    ),
    "I302": Entry(
        "error",
        "no scheduler at this address",
        "The workers of a cluster are found through its scheduler, which is started first.",
        "--cluster tcp://127.0.0.1:1",
        "dask scheduler started, and its address given.",
        tested_by="tests/inquiry/test_cluster.py",
    ),
    "I303": Entry(
        "error",
        "a worker has another version",
        "Answers of several machines are merged as if one had given them, which is true only of one version.",
        "A worker with last year's Cutaway.",
        "The same version on every machine.",
        tested_by="tests/inquiry/test_cluster.py",
    ),
    "I304": Entry(
        "error",
        "a part of the work ended its workers",
        "A worker that is lost costs only what it was at, which another takes on; work that ends every worker is not "
        "tried for ever.",
        "Workers with too little memory.",
        "Workers with more memory.",
        tested_by="tests/inquiry/test_cluster.py",
    ),
}
