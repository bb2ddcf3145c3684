"""How long the shortest ways take, warm, with how many sequences there would be without pruning.

The folder is opened and the kernel compiled beforehand; nothing of the question has been run. Sequences without
pruning: every position of every control of the standard, in every order, with both waits.

    python benchmarks/reach.py
"""

import time
from pathlib import Path

from cutaway.api.asking import Asked, base_for, opened
from cutaway.inquiry.questions.reach import Reached, reach
from cutaway.inquiry.search.base import Base
from cutaway.inquiry.search.minimal import Bound
from cutaway.inquiry.search.movements import HELD
from cutaway.machine.compiled import kernel

ROOT = Path(__file__).resolve().parents[1]
CASES = (
    ("tests/trade/01-flaps-and-accumulator", "flaps are down", "part down"),
    ("tests/trade/01-flaps-and-accumulator", "engine is stopped and flaps are down", "part down"),
    ("demo/whinchat", "engine is running", "parked"),
    ("demo/turnstone", "flaps are down", "cruising"),
    ("demo/turnstone", "port leg green lamp is lit", "parked"),
)


def all_sequences(base: Base, length: int) -> float:
    """How many sequences of a length there are, pruning nothing."""
    moves = 0
    for slot in base.question.bound.controls.values():
        positions = 3 if slot.ranged else len(slot.positions)
        moves += (positions - 1) * (len(HELD) if slot.springs_back else 1)
    return float(moves**length * 2 ** (length - 1))


def main() -> None:
    kernel()
    heads = ("question", "cone", "length", "tried", "runs", "without pruning", "s", "CPU s")
    print("{:58} {:>9} {:>6} {:>7} {:>7} {:>16} {:>7} {:>7}".format(*heads))
    for folder, statement, situation in CASES:
        here, _ = opened(ROOT / folder)
        assert here is not None
        base, _, problems = base_for(here.loaded, here.workshop, Asked(statement, situation))
        assert base is not None, problems
        begun, worked = time.perf_counter(), time.process_time()
        answer = reach(base, Bound(3, tries=100_000, batch=32))
        seconds, worked = time.perf_counter() - begun, time.process_time() - worked
        assert isinstance(answer, Reached)
        network, tries = base.made.network, answer.tries
        cone = f"{len(network.nodes)}/{len(network.elements)}"
        print(
            f"{Path(folder).name[:20] + ': ' + statement:58} {cone:>9} {tries.done:6} {tries.tried:7,} {tries.runs:7,} "
            f"{all_sequences(base, tries.done):16,.0f} {seconds:7.2f} {worked:7.2f}"
        )


if __name__ == "__main__":
    main()
