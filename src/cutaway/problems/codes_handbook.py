"""The codes of the room: handbook.

H0 files, H1 YAML and shape, H2 books, H3 parts and lines, H4 situations, H5 drills, H6 scripts, H7 glossary,
H8 type.yaml. A sample replaces the whole file named in `where` of the sample folder.
"""

from cutaway.problems.entry import Entry, Severity

# --- pieces of samples -----------------------------------------------------------------------------------------

TYPE = """\
name: Sparrow
marks: [Mk 1, Mk 2]
"""

SOURCE = """\
---
title: Sparrow handbook
amendments:
  A.L. 1: {date: May 1939, says: Puts in §2a.}
---

## 1 Fuel tank

The fuel tank holds 20 gallons.

## 2 Fuel cock

The cock is on the left wall.

## 2a Fuel cock
{on: Mk 2, amendment: A.L. 1}

On Mk. 2 the cock is on the floor under the tank of 20 gallons.
"""


def _fuel(
    tank: str = "{kind: tank, capacity: 20 gal, cite: §1}",
    cock: str = "{kind: cock, cite: §2}",
    line: str = "fuel tank > fuel cock",
    more: str = "",
) -> str:
    """The fuel system of the sample folder, with one thing in it otherwise."""
    return f"""\
system: Fuel
source: hb
parts:
  fuel tank: {tank}
  fuel cock: {cock}
{more}lines:
  - {line}
"""


def _engine(heading: str, *rows: str) -> str:
    """The fuel system with an engine and its cruise table."""
    table = "".join(f"      - {row}\n" for row in (heading, *rows))
    return _fuel(
        line="fuel tank > fuel cock > carburettor",
        more="""\
  throttle: {kind: gated throttle}
  ignition: {kind: magneto switch}
  carburettor: {kind: carburettor, full flow: 120 gal/h}
  airscrew: {kind: constant-speed airscrew, lowest speed: 1800 rpm, highest speed: 2850 rpm}
  blower:
    kind: one-speed supercharger
    rated boost: 6 lb/sq in
    rated speed: 2600 rpm
    full-throttle height: 12000 ft
    rated power: 1000 hp
  engine:
    kind: supercharged engine
    throttle: throttle
    fuel from: carburettor
    ignition: ignition
    airscrew: airscrew
    supercharger: blower
    cruise table:
"""
        + table,
    )


_TWO_CUT_OUTS = """\
  carburettor: {{kind: carburettor, full flow: 120 gal/h}}
  other carburettor: {{kind: carburettor, full flow: 120 gal/h}}
  cut-out: {{kind: slow-running cut-out, cuts: carburettor, moved by: fuel cock}}
  other cut-out: {{kind: slow-running cut-out, cuts: {}, moved by: fuel cock}}
"""
_HEADING = "[speed rpm, boost lb/sq in, flow gal/h]"
_ROWS = ("[1800, 0, 34]", "[1800, 4, 42]", "[2400, 0, 45]", "[2400, 4, 58]")


def _entry(severity: Severity, title: str, why: str, wrong: str, right: str, where: str) -> Entry:
    return Entry(severity, title, why, wrong, right, where)


def _in_fuel(severity: Severity, title: str, why: str, wrong: str, right: str = "") -> Entry:
    return Entry(severity, title, why, wrong, right or _fuel(), "systems/fuel.yaml")


def _of_files(title: str, why: str, wrong: str, right: str, severity: Severity = "error") -> Entry:
    return Entry(severity, title, why, wrong, right, "", "tests/handbook/test_reading.py")


_FILES = {
    "H001": _of_files(
        "no such folder",
        "A type folder is a folder with a file type.yaml in it; nothing else can be loaded.",
        "The path names nothing, or a file.",
        "The path names a type folder.",
    ),
    "H002": _of_files(
        "not text",
        "Every file of a type folder is text in UTF-8. A word processor's file or another encoding cannot be read.",
        "sources/hb.md is a PDF, or text in another encoding.",
        "sources/hb.md is text saved as UTF-8.",
    ),
    "H003": _of_files(
        "file cannot be read",
        "The file is there, but the system does not give it out.",
        "systems/fuel.yaml may not be read by you, or is a folder.",
        "systems/fuel.yaml is a file that you may read.",
    ),
    "H004": _of_files(
        "file too large",
        "What a person types is small. A very large file is a scan or a film in the wrong place.",
        "sources/hb.md has three million characters.",
        "sources/hb.md has some ten thousand characters.",
    ),
    "H005": _of_files(
        "link out of the folder",
        "A type folder is handed on, and must not read other files of the one who opens it.",
        "sources/hb.md is a link to a file elsewhere.",
        "sources/hb.md is the file itself.",
    ),
    "H006": _of_files(
        "no type.yaml",
        "type.yaml names the aircraft and its marks, without which nothing else can be judged.",
        "The folder has systems/ but no type.yaml.",
        "The folder has a type.yaml with at least a name.",
    ),
    "H007": _of_files(
        "empty folder",
        "There is nothing of a type folder in it, so it is likely that another was meant.",
        "The folder is empty.",
        "The folder has a type.yaml.",
    ),
    "H008": _of_files(
        "file is not used",
        "Only files with the expected ending are read; the others would be missed without a word.",
        "systems/fuel.yml",
        "systems/fuel.yaml",
        "warning",
    ),
}

_YAML = {
    "H101": _in_fuel(
        "error",
        "not YAML",
        "The file cannot be taken apart into names and values, so none of it is used.",
        _fuel(tank="{kind: tank, capacity: 20 gal, cite: §1"),
    ),
    "H102": _in_fuel(
        "error",
        "a name twice",
        "Of two entries with one name only one could count, and it would not be plain which.",
        _fuel(cock="{kind: cock, cite: §2, kind: cock}"),
    ),
    "H103": _in_fuel(
        "error",
        "a tab",
        "Tabs are shown with different widths, so YAML counts by spaces only.",
        _fuel(tank="\n\tkind: tank\n\tcapacity: 20 gal"),
    ),
    "H104": _in_fuel(
        "error",
        "quotation not closed",
        "Everything after an open quotation mark counts as part of it.",
        _fuel(cock="{kind: cock, at: 'left wall}"),
    ),
    "H105": _in_fuel(
        "error",
        "colon and space",
        "A colon with a space after it divides a name from its value; one without, or a second one, does not.",
        _fuel(cock="{kind:cock}"),
    ),
    "H106": _in_fuel(
        "error",
        "comma inside braces",
        "Inside braces a comma divides entries, so '1,800 gal' is read as 1 and something else.",
        _fuel(tank="{kind: tank, capacity: 1,800 gal}"),
        _fuel(tank="{kind: tank, capacity: 1800 gal}"),
    ),
    "H107": _in_fuel(
        "error",
        "a sign of YAML's own",
        "A text that begins with *, &, !, @ or ` means something special in YAML, which is not used here.",
        _fuel(cock="{kind: cock, says: *see below}"),
        _fuel(cock='{kind: cock, says: "*see below"}'),
    ),
    "H108": _in_fuel(
        "error",
        "of the wrong form",
        "Where words are wanted a list says nothing, and the other way round.",
        _fuel(cock="{kind: cock, at: [left, wall]}"),
    ),
    "H109": _in_fuel(
        "error",
        "too deep",
        "No entry needs braces so deep in one another; one of them was not closed.",
        _fuel(cock="[" * 30 + "]" * 30),
    ),
    "H110": _entry(
        "error",
        "no such entry",
        "An entry that is not known would be passed over without a word; most often it is misspelt.",
        TYPE + "maks: [Mk 3]\n",
        TYPE,
        "type.yaml",
    ),
    "H111": _entry(
        "error",
        "an entry is missing",
        "Without it the whole would say nothing.",
        "terms:\n  magneto: {said as: mag-nee-toe}\n",
        "terms:\n  magneto: {means: A small generator., said as: mag-nee-toe}\n",
        "glossary.yaml",
    ),
}

_BOOKS = {
    "H201": _in_fuel(
        "error",
        "no such paragraph",
        "A citation is only worth something if it can be followed.",
        _fuel(cock="{kind: cock, cite: §99}"),
    ),
    "H202": _in_fuel(
        "error",
        "no such source",
        "A citation names one of the files of sources/.",
        _fuel(cock="{kind: cock, cite: manual §2}"),
    ),
    "H203": _in_fuel(
        "error",
        "not a citation",
        "A paragraph is named by its sign and number, so that it can be found.",
        _fuel(cock="{kind: cock, cite: page 2}"),
    ),
    "H204": Entry(
        "error",
        "which source",
        "With several books a number alone could be in any of them.",
        "Two files in sources/, and a service cites §21.",
        "Two files in sources/, and a service cites hb §21.",
        "",
        "tests/handbook/test_citations.py",
    ),
    "H205": _entry(
        "error",
        "paragraph number twice",
        "A citation of that number could mean either.",
        SOURCE + "\n## 2 Another\n\nMore of it.\n",
        SOURCE + "\n## 3 Another\n\nMore of it.\n",
        "sources/hb.md",
    ),
    "H206": _entry(
        "error",
        "heading without a number",
        "A paragraph is cited by its number.",
        SOURCE + "\n## Another\n\nMore of it.\n",
        SOURCE + "\n## 3 Another\n\nMore of it.\n",
        "sources/hb.md",
    ),
    "H207": _entry(
        "warning",
        "empty paragraph",
        "A paragraph without text can bear nothing out.",
        SOURCE + "\n## 3 Another\n",
        SOURCE + "\n## 3 Another\n\nMore of it.\n",
        "sources/hb.md",
    ),
    "H208": _entry(
        "warning",
        "amendment is not listed",
        "The list at the top of the book says when an amendment came and what it did.",
        SOURCE.replace("amendment: A.L. 1", "amendment: A.L. 7"),
        SOURCE,
        "sources/hb.md",
    ),
    "H209": _in_fuel(
        "warning",
        "figure does not stand in its paragraph",
        "A figure and the paragraph it cites should agree; else one of the two was mistyped.",
        _fuel(tank="{kind: tank, capacity: 21 gal, cite: §1}"),
    ),
    "H210": _in_fuel(
        "warning",
        "paragraph is about other standards",
        "A paragraph that was put in for one mark says nothing about another.",
        _fuel(tank="{kind: tank, capacity: 20 gal, cite: §2a}"),
    ),
}

_SEQUENCE = "  door valve: {{kind: sequence valve, moved by: fuel cock, {}}}\n"

_PARTS = {
    "H301": _in_fuel(
        "error",
        "no such kind",
        "The kind gives a part its ports, its figures and its behaviour.",
        _fuel(cock="{kind: cok, cite: §2}"),
    ),
    "H302": _in_fuel(
        "error",
        "no such entry of a part",
        "What the kind does not know would be passed over, and the usual value taken in its place.",
        _fuel(tank="{kind: tank, capacty: 20 gal, capacity: 20 gal}"),
    ),
    "H303": _in_fuel(
        "error",
        "a figure is missing",
        "Some figures make no sense to guess, so they must be given.",
        _fuel(tank="{kind: tank}"),
    ),
    "H304": _in_fuel(
        "warning",
        "outside the usual range",
        "A figure far from what such parts have is often a slip of the pen or of the unit.",
        _fuel(tank="{kind: tank, capacity: 20 gal, head: {assume: 900 ft, because: A guess., between: 1 in to 9 in}}"),
    ),
    "H305": _in_fuel(
        "error",
        "two values for one standard",
        "Only one can be right. decided.yaml says which book is followed, and why.",
        _fuel(tank="{kind: tank, capacity: [20 gal, 22 gal]}"),
    ),
    "H306": Entry(
        "error",
        "a part twice",
        "One name for two parts of one standard could mean either.",
        "system: Water\nparts:\n  fuel cock: {kind: cock}\n",
        "system: Water\nparts:\n  other cock: {kind: cock}\n",
        "systems/water.yaml",
    ),
    "H307": _in_fuel(
        "error",
        "not a name",
        "Names are spoken of in lines and claims, where signs such as < and > mean something else.",
        _fuel(more="  <side> cock: {kind: cock}\n"),
    ),
    "H309": _in_fuel(
        "error",
        "no kind",
        "A part needs no more than its kind, but that it needs.",
        _fuel(cock="{cite: §2}"),
    ),
    "H310": _in_fuel(
        "error",
        "no such part",
        "Lines, couplings, decisions and airframes speak of parts that stand in systems/.",
        _fuel(line="fuel tank > fuel cok"),
    ),
    "H311": _in_fuel(
        "error",
        "no such port",
        "A line ends at a port, and the kind says which ports there are.",
        _fuel(line="fuel tank > fuel cock.drain"),
    ),
    "H312": _in_fuel(
        "error",
        "which port",
        "Where a part has several ports that could be meant, or none, the line must say.",
        _fuel(
            line="fuel tank > fuel gauge", more="  fuel gauge: {kind: fuel pressure gauge, senses: fuel cock.outlet}\n"
        ),
    ),
    "H313": _in_fuel(
        "error",
        "a tie is missing",
        "Some parts do nothing by themselves: a pump is driven, a gauge senses something.",
        _fuel(more="  fuel gauge: {kind: fuel pressure gauge}\n"),
        _fuel(more="  fuel gauge: {kind: fuel pressure gauge, senses: fuel cock.outlet}\n"),
    ),
    "H314": _in_fuel(
        "error",
        "two media joined",
        "Petrol, oil, air and current each keep to their own lines.",
        _fuel(line="fuel tank > lamp switch", more="  lamp switch: {kind: switch}\n"),
    ),
    "H315": _in_fuel(
        "warning",
        "a part that is not on that standard",
        "What is said for a standard that lacks one of the parts can only hold for the others.",
        _fuel(cock="{kind: cock, on: Mk 2}", line="{run: fuel tank > fuel cock, on: Mk 1 or Mk 2}"),
        _fuel(cock="{kind: cock, on: Mk 2}"),
    ),
    "H316": _in_fuel(
        "error",
        "not a line",
        "A line goes from one part to another.",
        _fuel(line="fuel tank"),
    ),
    "H318": _in_fuel(
        "error",
        "rule does not fit",
        "A rule is about one control and one of its positions.",
        _fuel(cock="{kind: cock, rules: [{to: sideways, only when: fuel tank is empty}]}"),
        _fuel(cock="{kind: cock, rules: [{to: off, only when: fuel tank is empty}]}"),
    ),
    "H319": _in_fuel(
        "error",
        "for each is not understood",
        "A block is repeated for each of several items, whose word stands in its name.",
        _fuel(more="  cock: {kind: cock, for each: {side: [port, starboard]}}\n"),
        _fuel(more="  <side> cock: {kind: cock, for each: {side: [port, starboard]}}\n"),
    ),
    "H320": _in_fuel(
        "error",
        "list is missing",
        "The kind takes its ports or positions from this list.",
        _fuel(more="  tank selector: {kind: selector cock}\n"),
        _fuel(more="  tank selector: {kind: selector cock, ways: [main, reserve]}\n"),
    ),
    "H321": _in_fuel(
        "error",
        "not a range",
        "An assumption says between what values it may lie, so that its influence can be known.",
        _fuel(tank="{kind: tank, capacity: {assume: 20 gal, between: 20 gal, because: A guess.}}"),
        _fuel(tank="{kind: tank, capacity: {assume: 20 gal, between: 15 to 25 gal, because: A guess.}}"),
    ),
    "H322": _in_fuel(
        "warning",
        "value for a standard without the part",
        "It can never be used.",
        _fuel(tank="{kind: tank, on: Mk 2, capacity: [20 gal, {is: 22 gal, on: Mk 1}]}"),
    ),
    "H323": _in_fuel(
        "error",
        "a figure that cannot be",
        "No such part can be made: what holds, passes, carries or takes nothing, or less, is not there.",
        _fuel(tank="{kind: tank, capacity: 0 gal}"),
    ),
    "H325": Entry(
        "warning",
        "nothing to decide",
        "A decision picks one of two values; here there are not two.",
        "- {part: fuel tank, value: capacity, prefer: §1, because: It is the later.}\n",
        "[]\n",
        "decided.yaml",
    ),
    "H331": _in_fuel(
        "error",
        "group named as a part",
        "The name could mean the one part or all of the group.",
        _fuel(cock="{kind: cock, group: fuel tank}"),
        _fuel(cock="{kind: cock, group: fuel cocks}"),
    ),
    "H332": _in_fuel(
        "error",
        "tied to a part that cannot do it",
        "A part takes something of the one it is tied to: a position, a speed, what a tank holds. It must be there.",
        _fuel(more="  fuel gauge: {kind: contents gauge, reads: fuel cock}\n"),
        _fuel(more="  fuel gauge: {kind: contents gauge, reads: fuel tank}\n"),
    ),
    "H333": Entry(
        "error",
        "one part for two",
        "A carburettor takes what its engine asks, a regulator holds one dynamo, a blower is built into one engine.",
        _fuel(line="fuel tank > fuel cock > carburettor", more=_TWO_CUT_OUTS.format("carburettor")),
        _fuel(line="fuel tank > fuel cock > carburettor", more=_TWO_CUT_OUTS.format("other carburettor")),
        "systems/fuel.yaml",
    ),
    "H340": _in_fuel(
        "error",
        "a table without its heading",
        "The figures of a table mean nothing without the unit of each column.",
        _engine("[1600, 0, 30]", *_ROWS),
        _engine(_HEADING, *_ROWS),
    ),
    "H341": _in_fuel(
        "error",
        "a row that does not fit its table",
        "Each row has one figure a column; a figure left out or put in would move all that follow.",
        _engine(_HEADING, *_ROWS[:-1], "[2400, 58]"),
        _engine(_HEADING, *_ROWS),
    ),
    "H342": _in_fuel(
        "error",
        "a table that falls",
        "With more speed and more boost an engine cannot take less petrol. As a rule a figure was misread.",
        _engine(_HEADING, *_ROWS[:-1], "[2400, 4, 38]"),
        _engine(_HEADING, *_ROWS),
    ),
    "H343": Entry(
        "error",
        "a table twice",
        "Of two tables for one mark only one could count.",
        "The cruise table of an engine is given once for Mk 1 and once for every mark.",
        "It is given once, or says with `on` which is for which mark.",
        "",
        "tests/handbook/test_part_tables.py",
    ),
    "H344": _in_fuel(
        "error",
        "two figures the wrong way round",
        "Some figures of a part lie one below the other, or it cannot work: what lets a pump off at one pressure calls "
        "it back at a lower one.",
        _fuel(more="  cut-out: {kind: automatic cut-out, cut-in: 900 lb/sq in, cut-out: 800 lb/sq in}\n"),
        _fuel(more="  cut-out: {kind: automatic cut-out, cut-in: 800 lb/sq in, cut-out: 900 lb/sq in}\n"),
    ),
    "H345": _in_fuel(
        "error",
        "two figures of which one alone can hold",
        "What opens above one share of the travel does not open below another instead. Of two figures one would be "
        "passed over without a word.",
        _fuel(more=_SEQUENCE.format("opens above: 95 %, opens below: 5 %")),
        _fuel(more=_SEQUENCE.format("opens above: 95 %")),
    ),
}


def _situation(text: str) -> str:
    return f"situations:\n  parked: {{says: On the ground.}}\n{text}"


def _in_situations(title: str, why: str, wrong: str, right: str) -> Entry:
    return Entry("error", title, why, _situation(wrong), _situation(right), "situations.yaml")


_SITUATIONS = {
    "H401": _in_situations(
        "situations in a circle",
        "Each goes on from another, and none begins.",
        "  running: {from: cruising}\n  cruising: {from: running}\n",
        "  running: {from: parked}\n  cruising: {from: running}\n",
    ),
    "H402": _in_situations(
        "no such situation",
        "A situation that goes on from another, and a drill that begins in one, need it.",
        "  running: {from: packed}\n",
        "  running: {from: parked}\n",
    ),
    "H403": _in_situations(
        "no such control",
        "Only what the crew can move is set.",
        "  running: {set: {fuel cok: on}}\n",
        "  running: {set: {fuel cock: on}}\n",
    ),
    "H404": _in_situations(
        "no such position",
        "The kind says which positions a control has.",
        "  running: {set: {fuel cock: ajar}}\n",
        "  running: {set: {fuel cock: on}}\n",
    ),
    "H405": _in_situations(
        "no such condition",
        "Under given: stands what the world is like: height, airspeed, temperature, load factor.",
        "  running: {given: {hight: 3000 ft}}\n",
        "  running: {given: {height: 3000 ft}}\n",
    ),
    "H406": _in_situations(
        "holds nothing",
        "Under start: stands what tanks, batteries and jacks hold to begin with.",
        "  running: {start: {fuel cock: 5 gal}}\n",
        "  running: {start: {fuel tank: 5 gal}}\n",
    ),
    "H407": _in_situations(
        "settles too long",
        "A model is left alone for minutes, or a few hours at the most.",
        "  running: {settle: 900 hr}\n",
        "  running: {settle: 9 min}\n",
    ),
    "H408": _in_situations(
        "a condition that there is not",
        "The laws of the air reach from below the sea to 65000 ft, and nothing is known outside them.",
        "  running: {given: {height: 300000 ft}}\n",
        "  running: {given: {height: 3000 ft}}\n",
    ),
    "H409": Entry(
        "warning",
        "a start that is more than there can be",
        "A tank begins no fuller than full, and a jack no further out than its stroke: this figure or that of the part "
        "is a slip.",
        _situation("  flying: {start: {fuel tank: 200 gal}}\n"),
        _situation("  flying: {start: {fuel tank: 20 gal}}\n"),
        "situations.yaml",
    ),
}

_DRILL = "---\nfrom: parked\n---\n\n1. Petrol on: `fuel cock to on`.\n2. Wait.\n"
_SCRIPT = "# The cock\n\nThe cock is on the left wall.\n\n```claim\nfuel cock is fitted\n```\n"

_TEXTS = {
    "H501": _entry(
        "error",
        "drill without steps",
        "A drill is a numbered list.",
        "---\nfrom: parked\n---\n\nPetrol on.\n",
        _DRILL,
        "drills/starting.md",
    ),
    "H502": _entry(
        "warning",
        "steps out of order",
        "Crews speak of steps by number, so the numbers printed must be those meant.",
        _DRILL.replace("2. Wait", "4. Wait").replace("1. Petrol", "3. Petrol"),
        _DRILL,
        "drills/starting.md",
    ),
    "H503": _entry(
        "error",
        "drill without a beginning",
        "Steps can be run only from a situation.",
        "1. Petrol on: `fuel cock to on`.\n",
        _DRILL,
        "drills/starting.md",
    ),
    "H601": _entry(
        "error",
        "claim without a sentence",
        "A claim says what the sentence before it asserts.",
        "# The cock\n\n```claim\nfuel cock is fitted\n```\n\nThe cock is there.\n",
        _SCRIPT,
        "scripts/01-fuel.md",
    ),
    "H602": _entry(
        "error",
        "block not closed",
        "Everything after the opening line would be taken into the block, and none of it read aloud.",
        _SCRIPT.rstrip().removesuffix("```"),
        _SCRIPT,
        "scripts/01-fuel.md",
    ),
    "H603": _entry(
        "error",
        "not a claim block",
        "Only blocks marked 'claim' are checked; others would be passed over without a word.",
        _SCRIPT.replace("```claim", "```clam"),
        _SCRIPT,
        "scripts/01-fuel.md",
    ),
    "H604": _entry(
        "warning",
        "mark is not understood",
        "A word between backticks that is no mark is read aloud.",
        "The cock is on the left wall. `cites: hb §2`\n",
        "The cock is on the left wall. `cite: hb §2`\n",
        "scripts/01-fuel.md",
    ),
    "H605": _entry(
        "error",
        "head is not closed",
        "The entries at the top of a Markdown file stand between two lines of ---.",
        "---\ntitle: The cock\n\nThe cock is on the left wall.\n",
        "---\ntitle: The cock\n---\n\nThe cock is on the left wall.\n",
        "scripts/01-fuel.md",
    ),
    "H606": _entry(
        "warning",
        "script without sentences",
        "There is nothing to read aloud in it.",
        "# The cock\n",
        _SCRIPT,
        "scripts/01-fuel.md",
    ),
    "H608": _entry(
        "warning",
        "a figure that nobody can say",
        "A figure larger than a thousand million million is read aloud by nobody, and is surely a slip. It is "
        "said digit by digit.",
        "The tank holds 1e400 gallons.\n",
        "The tank holds 22 gallons.\n",
        "scripts/01-fuel.md",
    ),
    "H701": _entry(
        "error",
        "no such script",
        "A term is introduced in one of the scripts.",
        "terms:\n  cock: {means: A valve., introduced: 09-nothing}\n",
        "terms:\n  cock: {means: A valve.}\n",
        "glossary.yaml",
    ),
}


def _in_type(title: str, why: str, wrong: str, right: str = "") -> Entry:
    return Entry("error", title, why, TYPE + wrong, TYPE + right, "type.yaml")


_TYPE_FILE = {
    "H801": _in_type(
        "no such unit or dimension",
        "House units are those in which readings are shown.",
        "house units: {pressure: gal}\n",
        "house units: {pressure: lb/sq in}\n",
    ),
    "H802": _in_type(
        "no such mark, or one twice",
        "Each mark is listed once, and a mod is fitted to marks of the list.",
        "mods: {mod 12: {fitted to: Mk 9}}\n",
        "mods: {mod 12: {fitted to: Mk 2}}\n",
    ),
    "H803": Entry(
        "error",
        "airframe in place of a standard",
        "A handbook speaks of standards. What one airframe lacks is said of it in type.yaml; a drill can be for one.",
        TYPE + "airframes: {W-17: {standard: Mk 2}}\nstandards: [Mk 1, Mk 2]\n",
        TYPE,
        "",
        "tests/handbook/test_citations.py",
    ),
    "H804": _in_type(
        "airframe of no standard",
        "An airframe is judged by the standard it was built to.",
        "airframes: {W-17: {standard: Mk 9}}\n",
        "airframes: {W-17: {standard: Mk 2}}\n",
    ),
}

ENTRIES: dict[str, Entry] = {
    **_FILES,
    **_YAML,
    **_BOOKS,
    **_PARTS,
    **_SITUATIONS,
    **_TEXTS,
    **_TYPE_FILE,
}
