"""How long the questions take, warm, with the size of what can reach them printed beside.

Each question is asked of a folder opened afresh, whose machine has been made and whose situation has been reached, but
of whose changes none has been tried. A question for the second time takes no time to speak of: its runs are kept.

Besides the time that passed, the processor time of all threads is told, and how much of it is of the thread that asks:
on a machine with something else to do only these say anything. Runs are spread over the cores: with two cores to
itself a question takes the time of the thread that asks and half of the rest; that is told last.

    python benchmarks/inquiry.py [type folder] [statement or service] [situation]
"""

import gc
import sys
import time
from collections.abc import Callable
from pathlib import Path

from cutaway.api.asking import Asked, Opened, base_for, opened
from cutaway.inquiry.questions.failures import Failures, failures
from cutaway.inquiry.questions.why import Cause, Why, cause, why
from cutaway.inquiry.search.base import Base
from cutaway.inquiry.search.minimal import Bound
from cutaway.inquiry.search.trying import holds
from cutaway.inquiry.search.universe import universe
from cutaway.machine.compiled import kernel

DEMO = Path(__file__).resolve().parents[1] / "demo"
CASES = (
    ("whinchat", "flying instruments", "cruising"),
    ("whinchat", "fuel lamp is out", "cruising"),
    ("turnstone", "current to the instruments", "cruising"),
    ("turnstone", "flying instruments", "cruising"),
    ("turnstone", "petrol to the port engine", "cruising"),
    ("turnstone", "wheels down and locked", "taxying"),
    ("turnstone", "air for the brakes", "taxying"),
)
# Doubles of so many failures are left to those who name the case: they take minutes.
MANY = 70


def base_in(here: Opened, statement: str, situation: str) -> Base:
    """The base of a question, which must have one."""
    base, _, problems = base_for(here.loaded, here.workshop, Asked(statement, situation))
    if base is None:
        raise SystemExit(f"{statement}: {'; '.join(p.message for p in problems)}")
    return base


def asked(
    folder: Path, statement: str, situation: str, question: Callable[[Base], object]
) -> tuple[tuple[float, float, float], object]:
    """The seconds of a question whose machine is made and whose situation is reached: passed, of the processor and of
    the thread that asks; and its answer."""
    here, _ = opened(folder)
    if here is None:
        raise SystemExit(f"{folder} cannot be loaded.")
    base = base_in(here, statement, situation)
    holds(base)  # makes the machine and reaches the situation
    start, busy, own = time.perf_counter(), time.process_time(), time.thread_time()
    answer = question(base)
    return (time.perf_counter() - start, time.process_time() - busy, time.thread_time() - own), answer


def why_of(base: Base, size: int) -> Why | None:
    """The chain, the changes of up to a size and their reasons."""
    found = cause(base)
    return why(base, found, Bound(size)) if isinstance(found, Cause) else None


def told(answer: object) -> str:
    """What an answer came to, in a few words."""
    match answer:
        case Failures(counts=counts, far=far):
            sizes = ", ".join(f"{count} of {size}" for size, count in counts) or "none"
            return f"sets: {sizes}; {far.tried} tried of {far.universe} failures, {far.undecided} undecided"
        case Why(cause=found, changes=changes, reasons=reasons, far=far):
            return f"{len(found.links)} links, {len(changes)} changes, {len(reasons)} reasons; {far.tried} tried"
        case Cause(links=links):
            return f"{len(links)} links"
        case _:
            return "no answer"


def main(cases: tuple[tuple[str, str, str], ...]) -> None:
    """Print a line for each question."""
    kernel()
    gc.set_threshold(100_000, 20, 20)  # as the command line has it
    questions: tuple[tuple[str, Callable[[Base], object]], ...] = (
        ("why: the chain alone", cause),
        ("why: with single changes", lambda base: why_of(base, 1)),
        ("why: with double changes", lambda base: why_of(base, 2)),
        ("failures: singles", lambda base: failures(base, Bound(1), most=0)),
        ("failures: singles, what the crew sees", lambda base: failures(base, Bound(1))),
        ("failures: doubles", lambda base: failures(base, Bound(2), most=0)),
    )
    for folder, statement, situation in cases:
        path = DEMO / folder if not Path(folder).exists() else Path(folder)
        here, _ = opened(path)
        if here is None:
            raise SystemExit(f"{path} cannot be loaded.")
        base = base_in(here, statement, situation)
        network, many = base.made.network, len(universe(base, frozenset({"failure"}))) > MANY and len(cases) > 1
        size = f"{len(network.nodes)} nodes, {len(network.elements)} elements, {len(network.modes)} modes"
        print(f"{path.name}: {statement}, in {situation}; what can reach it: {size}")
        for name, question in questions:
            if "double" in name and many:
                print(f"  {name:40} left out: name this case to have it")
                continue
            (passed, busy, own), answer = asked(path, statement, situation, question)
            alone = own + (busy - own) / 2
            times = f"{passed:7.2f} s, processor {busy:7.2f} s, own {own:6.2f} s, on two idle cores {alone:6.2f} s"
            print(f"  {name:40} {times}   {told(answer)}", flush=True)


if __name__ == "__main__":
    given = sys.argv[1:]
    main(((given[0], given[1], given[2] if len(given) > 2 else ""),) if len(given) > 1 else CASES)
