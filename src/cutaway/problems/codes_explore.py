"""The codes of pages to be explored: reading explore.yaml, working them out."""

from cutaway.problems.entry import Entry

ENTRIES: dict[str, Entry] = {
    "H931": Entry(
        "error",
        "a page to be explored that cannot be so",
        why="Things are let settle for a second to an hour after each movement, and a page has 2 to 5,000 states.",
        wrong="explore:\n  petrol: {system: Fuel, in: parked, states: some}\n",
        right="explore:\n  petrol: {system: Fuel, in: parked, states: 40}\n",
        where="explore.yaml",
    ),
    "L220": Entry(
        "error",
        "a page to be explored names what there is not",
        why="A page shows a system of `systems/` on one standard or airframe, and moves controls of its parts.",
        wrong="explore:\n  petrol: {system: Feul, in: parked}\n",
        right="explore:\n  petrol: {system: Fuel, in: parked}\n",
        where="explore.yaml",
    ),
    "K801": Entry(
        "error",
        "a page to explore something that there is not",
        why="An explorable page shows one system of `systems/` and begins in one situation of `situations.yaml`.",
        wrong="a page of the system Feul, or one that begins in 'parkt'",
        right="a page of the system Fuel that begins in 'parked'",
        tested_by="tests/publish/explore/test_working.py",
    ),
    "K802": Entry(
        "error",
        "a control that an explorable page cannot move",
        why="The page moves controls that its standard has and that do something to its sheet; where none does, there "
        "is nothing to explore.",
        wrong="a page of the fuel system that moves the landing lamp switch",
        right="the same that moves the tank selector",
        tested_by="tests/publish/explore/test_working.py",
    ),
}
