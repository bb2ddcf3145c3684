"""The codes of sheets/*.yaml, reading and drawing: sheets of the author's own."""

from cutaway.problems.entry import Entry, Severity

_HEAD = "sheet: Petrol to the engine\n"


def _sheet(severity: Severity, title: str, why: str, wrong: str, right: str) -> Entry:
    return Entry(severity, title, why, wrong, right, where="sheets/fuel.yaml")


ENTRIES: dict[str, Entry] = {
    "H940": _sheet(
        "error",
        "a sheet that names a part that is not there",
        "A sheet shows parts of the systems by their names, or by the names of their groups.",
        f"{_HEAD}parts: [fuel tank, fuel cok]\n",
        f"{_HEAD}parts: [fuel tank, fuel cock]\n",
    ),
    "H941": _sheet(
        "error",
        "a sheet without anything on it",
        "A sheet shows one system or several, or parts that it names.",
        f"{_HEAD}says: What feeds the engine.\n",
        f"{_HEAD}says: What feeds the engine.\nsystem: Fuel\n",
    ),
    "H942": _sheet(
        "error",
        "a sheet that names a system that is not there",
        "A system is named as at the head of its file in `systems/`.",
        f"{_HEAD}system: [Fuel, Feul]\n",
        f"{_HEAD}system: Fuel\n",
    ),
    "H943": _sheet(
        "error",
        "a sheet in a situation that is not there",
        "A sheet is drawn in situations of `situations.yaml`.",
        f"{_HEAD}system: Fuel\nin: parkd\n",
        f"{_HEAD}system: Fuel\nin: parked\n",
    ),
    "H944": Entry(
        "error",
        "two sheets of one name",
        "A sheet's file in the pack is named after it, so that the second would be written over the first.",
        "two files in `sheets/` that both begin: sheet: Petrol",
        "two files of which one begins: sheet: Petrol on the ground",
        tested_by="tests/handbook/test_sheets.py",
    ),
    "H945": _sheet(
        "warning",
        "the name of a sheet is too long for its place",
        "The name stands above the sheet in one line or two; a third takes from the room of the drawing.",
        "sheet: The way of the petrol from the tank in the wing by the cock and the filter to the port engine"
        "\nsystem: Fuel\n",
        "sheet: Petrol\nsays: The way of the petrol from the tank in the wing by the cock and the filter to the engine"
        "\nsystem: Fuel\n",
    ),
    "H946": _sheet(
        "error",
        "a part in two columns",
        "A part stands in one place of a sheet.",
        f"{_HEAD}system: Fuel\ncolumns: [[fuel tank], [fuel cock, fuel tank]]\n",
        f"{_HEAD}system: Fuel\ncolumns: [[fuel tank], [fuel cock]]\n",
    ),
    "D106": Entry(
        "warning",
        "a sheet with nothing on it for a standard",
        "None of the parts that the sheet shows is on that standard.",
        "a sheet of parts that are all on Mk 2, drawn for Mk 1 too",
        "the same with: on: Mk 2",
        tested_by="tests/draw/test_steered.py",
    ),
    "D107": Entry(
        "warning",
        "a sheet that is too large to be read on A4",
        "A sheet whose columns are given is not divided; words under 7 points are too small to read.",
        "a sheet of two whole systems in nine columns",
        "a sheet of what matters in them",
        tested_by="tests/draw/test_steered.py",
    ),
    "H960": _sheet(
        "error",
        "a moment that is none",
        "A sheet is drawn before a run, at times of it, after a step of a drill, or once all is settled.",
        f"{_HEAD}system: Fuel\nin: parked\ndo: fuel cock to on\nat: [before, later]\n",
        f"{_HEAD}system: Fuel\nin: parked\ndo: fuel cock to on\nat: [before, 5 s, settled]\n",
    ),
    "H961": _sheet(
        "error",
        "a sheet at moments of no one run",
        "A run begins in one situation, or is that of a drill, which says itself where it begins and what is done.",
        f"{_HEAD}system: Fuel\nin: [parked, running]\ndo: fuel cock to on\n",
        f"{_HEAD}system: Fuel\nin: parked\ndo: fuel cock to on\n",
    ),
    "H962": _sheet(
        "error",
        "a sheet that goes through a drill that is not there",
        "A drill is named by its file in `drills/` or by its title.",
        f"{_HEAD}system: Fuel\ndrill: startin\n",
        f"{_HEAD}system: Fuel\ndrill: starting\n",
    ),
    "K620": Entry(
        "warning",
        "a sequence of what a standard has not",
        "What is done or fails on a sheet at moments must be on the standard that it is drawn for.",
        "a sheet with: do: booster pump to on, drawn for Mk 1 which has none",
        "the same with: on: Mk 2",
        tested_by="tests/publish/test_sequences.py",
    ),
}
