"""How large the explorable page of six controls of the Turnstone is, how much of it is walked, and what it costs.

    python benchmarks/explore_page.py [states]

The aim is a page below 1.5 MB. Costs are told as a ratio to one sheet, drawn in the same session.
"""

import sys
import time
from pathlib import Path

from cutaway.api.asking import opened
from cutaway.api.exploring import Wanted, explore
from cutaway.inquiry.explore import Unfollowed
from cutaway.publish.explore.filling import picture_of

TURNSTONE = Path(__file__).parents[1] / "demo" / "turnstone"
CONTROLS = ("flap lever", "float lever", "flap indicator switch", "hand pump", "port throttle", "bow door lever")
AIM = 1.5e6
SHEETS = 20


def main(states: int) -> None:
    """Make the page once and print its measures."""
    here, _ = opened(TURNSTONE)
    assert here is not None
    wanted = Wanted("Flaps and floats", "Mk 1", "cruising", CONTROLS, "60 s", states)
    began = time.process_time()
    made, problems = explore(here, wanted)
    assert made is not None, problems
    seconds = time.process_time() - began
    found = made.worked.found
    began = time.process_time()
    for stop in found.stops[:SHEETS]:
        picture_of(made.worked, here.loaded.folder, stop.here.values, None)
    sheet = (time.process_time() - began) / min(SHEETS, len(found.stops))
    arcs = [arc for stop in found.stops for arc in stop.arcs.values()]
    size = len(made.page.encode())
    print(f"controls {len(made.view.controls)}, movements {len(found.movements)}, states {len(found.stops)}")
    print(f"movements followed: {1 - sum(isinstance(arc, Unfollowed) for arc in arcs) / len(arcs):.0%} of {len(arcs)}")
    print(f"size: {size / 1e6:.2f} MB, {size / AIM:.0%} of what it may be")
    print(f"a state costs {seconds / len(found.stops) / sheet:.1f} sheets of {sheet:.3f} s; {seconds:.0f} s of work")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 150)
