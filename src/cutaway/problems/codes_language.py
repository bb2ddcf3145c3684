"""The codes of the room: language.

L1 what is not understood, L2 names and what they stand for. The samples are claims under the one sentence of the
sample folder's script.
"""

from cutaway.problems.entry import Entry

_SCRIPT = "scripts/01-fuel.md"


def _script(claim: str) -> str:
    """The sample script with this claim."""
    return f"""\
# The cock

The cock is on the left wall.

```claim
{claim}
```
"""


def _claim(title: str, why: str, wrong: str, right: str) -> Entry:
    return Entry("error", title, why, _script(wrong), _script(right), _SCRIPT)


def _told(title: str, why: str, wrong: str, right: str) -> Entry:
    """A code that needs a kind of part which the sample folder has no use for."""
    return Entry("error", title, why, wrong, right, tested_by="tests/language/test_wrong.py")


ENTRIES: dict[str, Entry] = {
    # --- what is not understood
    "L101": _claim(
        "word out of place",
        "A claim is checked word by word; one that is only half understood might be said to hold when it does not.",
        "fuel cock is on when fuel tank is empty",
        "fuel cock is on if fuel tank is empty",
    ),
    "L102": _claim("nothing said", "There is nothing here that could hold or fail.", ":", "fuel cock is on"),
    "L103": _claim(
        "said twice in one scope",
        "A claim holds in one situation, at one time; which of the two is meant cannot be guessed.",
        "in parked, in running: fuel cock is on",
        "in running: fuel cock is on",
    ),
    "L104": _claim(
        "no colon",
        "The colon parts where a claim holds from what it claims.",
        "in parked fuel cock is off",
        "in parked: fuel cock is off",
    ),
    "L105": _claim(
        "sentence stops early",
        "The rest of the claim is missing.",
        "in parked: fuel cock is",
        "in parked: fuel cock is off",
    ),
    "L106": _claim(
        "no unit",
        "A figure without a unit can be compared with nothing.",
        "fuel tank becomes empty at 2 falling",
        "fuel tank becomes empty at 2 gal falling",
    ),
    "L107": _claim(
        "figure of the wrong sort",
        "Some places take one figure and some a range; a time is never before the beginning.",
        "in parked, within 5 to 8 s: fuel cock is off",
        "in parked, within 8 s: fuel cock is off",
    ),
    "L108": _claim(
        "not a number of times",
        "Actions and parts are counted in whole numbers, and a run has an end.",
        "in parked, after wait 1 s repeated 0 times: fuel cock is off",
        "in parked, after wait 1 s repeated 2 times: fuel cock is off",
    ),
    "L109": _claim("no subject", "It is not said what the claim is about.", "is on", "fuel cock is on"),
    "L110": _claim(
        "falling or rising",
        "Lamps and valves come on at one figure as it falls and go out at another as it rises.",
        "fuel tank becomes empty at 2 gal",
        "fuel tank becomes empty at 2 gal falling",
    ),
    "L111": _claim(
        "trend the wrong way round",
        "What is said to rise must end above where it begins.",
        "fuel tank falls as height rises from 2000 ft to 1000 ft",
        "fuel tank falls as height rises from 1000 ft to 2000 ft",
    ),
    # --- names
    "L201": _claim(
        "no such name",
        "Names in claims are those of the folder's parts, groups, situations and services.",
        "fuel clock is on",
        "fuel cock is on",
    ),
    "L202": _claim(
        "none of that kind",
        "Nothing can be said of all parts of a kind where there is none.",
        "each of the throttles is closed",
        "each of the cocks is on",
    ),
    "L203": _claim(
        "no such situation",
        "A claim is tried in a situation of situations.yaml.",
        "in flying: fuel cock is on",
        "in running: fuel cock is on",
    ),
    "L204": _told(
        "two meanings",
        "The same word is a state and a position of one part, or a position of two of its controls.",
        "valve is open",
        "valve is at open",
    ),
    "L205": _claim(
        "no such position",
        "A control can be put only where it has a position.",
        "in parked, after fuel cock to shut: fuel cock is off",
        "in parked, after fuel cock to off: fuel cock is off",
    ),
    "L206": _claim(
        "no such failure",
        "What can go wrong with a part is given by its kind.",
        "in parked, with fuel cock leaking: fuel cock is off",
        "in parked, with fuel cock blocked: fuel cock is off",
    ),
    "L207": _told(
        "which control",
        "A part with several controls is moved by one of them.",
        "after gear box to in",
        "after gear box clutch to in",
    ),
    "L208": _claim(
        "nothing to move",
        "Only a part with a control can be put somewhere.",
        "in parked, after fuel tank to on: fuel cock is off",
        "in parked, after fuel cock to on: fuel cock is on",
    ),
    "L209": _claim(
        "takes no figure",
        "A figure can be given to what holds something, to a control that moves through a range, and to height, "
        "airspeed, temperature and load factor.",
        "in parked, with fuel cock at 5 gal: fuel cock is off",
        "in parked, with fuel tank at 5 gal: fuel cock is off",
    ),
    "L210": _told(
        "which reading",
        "A part gives several readings and none of them is the main one.",
        "gear box reads 5 lb/sq in",
        "gear box pressure is 5 lb/sq in",
    ),
    "L211": _claim(
        "no reading",
        "Only what gives a reading can be compared with a figure.",
        "fuel cock reads 5 gal",
        "fuel tank reads 20 gal",
    ),
    "L212": _claim(
        "said of less than a part",
        "Where a thing is fitted, marked or driven is known of whole parts.",
        "fuel cock.inlet is fitted",
        "fuel cock is fitted",
    ),
    "L213": _claim(
        "cannot be so",
        "The states and positions of a part are given by its kind and its entry.",
        "fuel tank is on",
        "fuel tank is empty",
    ),
    "L214": _claim(
        "not a service",
        "Served is said of the services in services.yaml.",
        "fuel cock is served",
        "petrol is served",
    ),
    "L215": _claim(
        "no such condition",
        "A trend follows a condition of the world: height, airspeed, temperature or load factor.",
        "fuel tank falls as fuel cock rises from 1000 ft to 2000 ft",
        "fuel tank falls as height rises from 1000 ft to 2000 ft",
    ),
    "L216": _claim(
        "no such figure",
        "A part is set at the figures that its kind has.",
        "fuel cock has capacity of 20 gal",
        "fuel tank has capacity of 20 gal",
    ),
    "L217": _claim(
        "wrong way to count",
        "One part is one; only groups and kinds are counted.",
        "there are 2 fuel cock",
        "there is one fuel cock",
    ),
    "L221": Entry(
        "warning",
        "a name that claims cannot use",
        "A name is read as one wherever it stands, unless its words mean something of their own there: 'in the hangar' "
        "would be spoken of as 'in in the hangar'. It is told where the name is given, before a claim stumbles.",
        "situations:\n  parked: {says: On the ground.}\n  in the hangar: {from: parked}\n",
        "situations:\n  parked: {says: On the ground.}\n  the hangar: {from: parked}\n",
        where="situations.yaml",
    ),
}
