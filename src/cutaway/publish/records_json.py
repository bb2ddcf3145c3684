"""The verdicts and problems of a pack as JSON for other programs: the same records that the page shows."""

import json
from dataclasses import asdict

from cutaway.problems.diagnostic import Problems
from cutaway.problems.printing import as_records
from cutaway.publish.view import PackView

_FORMAT = 1


def verdicts_json(view: PackView) -> bytes:
    """Every script and drill, sentence, claim and verdict of the view, in the order of the page."""
    return _written(
        {
            "format": _FORMAT,
            "type": view.title,
            "standards": list(view.standards),
            "airframes": list(view.airframes),
            "notice": view.notice,
            "scripts": [asdict(script) for script in view.scripts],
            "drills": [asdict(drill) for drill in view.drills],
        }
    )


def problems_json(problems: Problems) -> bytes:
    """The problems with code, message, hint and place, in the order in which every printer shows them."""
    return _written({"format": _FORMAT, "problems": as_records(problems)})


def _written(record: dict[str, object]) -> bytes:
    return (json.dumps(record, ensure_ascii=False, indent=1) + "\n").encode()
