"""The codes of the room(s): pack."""

from cutaway.problems.entry import Entry

NARRATE: dict[str, Entry] = {
    "N101": Entry(
        "warning",
        "a sentence that nothing checks",
        why="A sentence with no claim, no citation and no mark as an aside is believed and never checked.",
        wrong="The lamp lights below 2 lb/sq in.",
        right="The lamp lights below 2 lb/sq in. `cite: hb §25`",
        tested_by="tests/narrate/test_coverage.py",
    ),
    "N201": Entry(
        "error",
        "a figure that the cited paragraph does not have",
        why="A sentence that reports a paragraph must print its figures and units as the paragraph does.",
        wrong="The lamp lights below 3 lb/sq in. `cite: hb §25`, where §25 says 2 lb/sq in",
        right="The lamp lights below 2 lb/sq in. `cite: hb §25`",
        tested_by="tests/narrate/test_citing.py",
    ),
    "N301": Entry(
        "warning",
        "a caption faster than can be read",
        why="A caption that has more characters than can be read while it stands is no help to those who need it.",
        wrong="many long words that are quickly said",
        right="fewer or shorter words, or more time",
        tested_by="tests/narrate/test_captions.py",
    ),
    "N302": Entry(
        "warning",
        "a word too long for a caption line",
        why="What does not fit in a line is cut off or broken by the player, each in its own way.",
        wrong="a word of fifty letters",
        right="the same with a hyphen and a blank, or a shorter word",
        tested_by="tests/narrate/test_captions.py",
    ),
    "N303": Entry(
        "warning",
        "a caption too short to be seen",
        why="A caption that stands for less than the shortest time flashes by.",
        wrong="a sentence of one short word that is a chapter by itself",
        right="the sentence joined to its neighbour",
        tested_by="tests/narrate/test_captions.py",
    ),
}

PACK: dict[str, Entry] = {
    "K101": Entry(
        "error",
        "a file where the pack should go",
        why="A pack is a folder. A file of that name is somebody's work and is not replaced.",
        wrong="a pack to be written to `notes.txt`, which is a file",
        right="a pack to be written to a folder, or to a name that is not taken",
        tested_by="tests/publish/test_pack.py",
    ),
    "K102": Entry(
        "error",
        "a folder that is not a pack",
        why="Only a folder that Cutaway itself made is replaced; anything else in it would be lost.",
        wrong="a pack to be written to a folder with other files",
        right="a pack to be written to an empty folder, an earlier pack, or a new name",
        tested_by="tests/publish/test_pack.py",
    ),
    "K103": Entry(
        "error",
        "no permission to write the pack",
        why="The operating system refuses to write there. The last pack is left as it was.",
        wrong="a pack to be written to a folder of somebody else",
        right="a pack to be written to a folder of one's own",
        tested_by="tests/publish/test_pack.py",
    ),
    "K104": Entry(
        "error",
        "the disk is full",
        why="There is no room for the pack. The last pack is left as it was.",
        wrong="a pack to be written to a full disk",
        right="a pack to be written where there is room",
        tested_by="tests/publish/test_pack.py",
    ),
    "K105": Entry(
        "error",
        "the pack could not be written",
        why="The disk reports a fault. The last pack is left as it was.",
        wrong="a pack to be written to a disk that was unplugged",
        right="a pack to be written to a disk that works",
        tested_by="tests/publish/test_pack.py",
    ),
    "K106": Entry(
        "error",
        "the pack of another type",
        why="A pack named with --out may be somebody's work on another aircraft; it would be gone without a word.",
        wrong="`cutaway make demo/whinchat --out show` where `show` is the pack of the Turnstone",
        right="`cutaway make demo/whinchat --out show-whinchat`",
        tested_by="tests/publish/test_pack.py",
    ),
    "K201": Entry(
        "warning",
        "files of the last pack that were changed by hand",
        why="A new pack would overwrite them, so they are kept aside and named.",
        wrong="`index.html` of the last pack edited in an editor",
        right="changes made in the type folder, from which the pack is made",
        tested_by="tests/publish/test_pack.py",
    ),
}

DRAW: dict[str, Entry] = {
    "D101": Entry(
        "warning",
        "the layout library is not in this installation",
        why="It is fetched when the package is built. Without it sheets have a plain layout, with more crossings.",
        wrong="an installation that was built without a network",
        right="the same after `python hatch_build.py` in its source folder",
        tested_by="tests/draw/test_layout.py",
    ),
    "D102": Entry(
        "warning",
        "the layout library could not lay out a sheet",
        why="It took too long or gave no answer. The sheet is laid out by a plain rule, with more crossings.",
        wrong="a system of several hundred parts",
        right="the same in two files of `systems/`",
        tested_by="tests/draw/test_layout.py",
    ),
    "D103": Entry(
        "error",
        "a standard to draw that there is not",
        why="A sheet shows one standard or airframe of `type.yaml`.",
        wrong="the sheet of Mk 9 of a type with Mk 1 and Mk 2",
        right="the sheet of Mk 2",
        tested_by="tests/draw/test_sheet.py",
    ),
    "D104": Entry(
        "error",
        "a system to draw that there is not",
        why="A sheet shows one system, named as in its file.",
        wrong="the sheet of Feul",
        right="the sheet of Fuel",
        tested_by="tests/draw/test_sheet.py",
    ),
    "D105": Entry(
        "error",
        "nothing to draw on this standard",
        why="No part of the system belongs to the standard, so that its sheet would be empty.",
        wrong="the sheet of a system whose parts are all on Mk 2, for Mk 1",
        right="its sheet for Mk 2",
        tested_by="tests/draw/test_sheet.py",
    ),
}

ENTRIES: dict[str, Entry] = {
    **NARRATE,
    **PACK,
    **DRAW,
}
