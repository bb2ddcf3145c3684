"""What is wrong in a pack on the disk, by its own records: errors of its folder, and claims that fail.

These are what `check` ends with 1 for; a doubt, as of words that differ from a paragraph, is none.
"""

import json
from collections.abc import Iterator
from pathlib import Path

from cutaway.handbook.names import listed

VERDICTS = "verdicts.json"
PROBLEMS = "problems.json"


def faults_of(pack: Path) -> tuple[str, ...]:
    """Everything that must be mended, a sentence each: first the errors, then the sentences and steps that fail."""
    try:
        return (*_errors(pack), *_failing(pack))
    except (OSError, ValueError, KeyError, TypeError):  # no pack that `make` has written; others look after that
        return ()


def _errors(pack: Path) -> Iterator[str]:
    for one in json.loads((pack / PROBLEMS).read_bytes())["problems"]:
        if one["severity"] == "error":
            where = f"{one['place']['file']}: " if one["place"] else ""
            yield f"{where}{one['message']} ({one['code']})"


def _failing(pack: Path) -> Iterator[str]:
    record = json.loads((pack / VERDICTS).read_bytes())
    for script in (*record["scripts"], *record["drills"]):
        for sentence in script["sentences"]:
            those = [one for claim in sentence["claims"] for one in claim["verdicts"] if one["wrong"]]
            if those:
                on = listed(dict.fromkeys(one["standard"] for one in those))
                yield f"'{sentence['text']}' ({script['name']}) does not hold on {on}."
