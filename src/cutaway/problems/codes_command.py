"""The codes of the command line: what was asked for cannot be done as it was said."""

from cutaway.problems.entry import Entry

_TESTS = "tests/cli/test_wrong_use.py"

ENTRIES: dict[str, Entry] = {
    "C101": Entry(
        "error",
        "a folder of that name is there already",
        "`cutaway new` writes into nothing that holds anything, so that nothing of yours is lost.",
        "cutaway new whinchat, where whinchat has files in it",
        "cutaway new sparrow",
        tested_by=_TESTS,
    ),
    "C102": Entry(
        "error",
        "no such script",
        "A script is named by its file without the ending.",
        "cutaway check --script fuel",
        "cutaway check --script 01-fuel",
        tested_by=_TESTS,
    ),
    "C103": Entry(
        "error",
        "not on this standard",
        "What is to be moved or to fail is not on the standard that was asked for.",
        "cutaway run cruising --on 'Mk 1' --do 'hand pump to pumping', where Mk 1 has no hand pump",
        "cutaway run cruising --on 'Mk 2' --do 'hand pump to pumping'",
        tested_by=_TESTS,
    ),
    "C104": Entry(
        "error",
        "nothing of that name to show",
        "Parts are named as the files of systems/ name them; readings, ports and controls as claims do.",
        "cutaway run cruising --show 'fule lamp'",
        "cutaway run cruising --show 'fuel lamp'",
        tested_by=_TESTS,
    ),
    "C105": Entry(
        "error",
        "the new folder cannot be written",
        "The place refuses it: it belongs to someone else, or the disk is full.",
        "cutaway new /proc/sparrow",
        "cutaway new sparrow",
        tested_by=_TESTS,
    ),
    "C106": Entry(
        "error",
        "a length of time that is not run",
        "A run goes on for some time, and ends while somebody still waits for it.",
        "cutaway run cruising --for '0 s'",
        "cutaway run cruising --for '90 s'",
        tested_by=_TESTS,
    ),
    "C121": Entry(
        "error",
        "no engine that can be charted",
        "A chart needs a supercharged engine, whose supercharger has the ratings.",
        "cutaway chart 'turnstone/port tank'",
        "cutaway chart 'turnstone/port engine'",
        tested_by="tests/cli/test_chart.py",
    ),
    "C122": Entry(
        "error",
        "no position of the throttle",
        "A lever is at one of its named positions, or at some per cent of its travel.",
        "cutaway chart 'turnstone/port engine' --lever halfway",
        "cutaway chart 'turnstone/port engine' --lever '50 %'",
        tested_by="tests/cli/test_chart.py",
    ),
}
