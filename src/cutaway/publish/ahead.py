"""Pieces of a pack made ahead by other processes, while this one checks the claims.

Each puts what it makes on the shelf, where whoever makes the pack finds it as if an earlier session had made it. So a
process that ends early, or none at all, changes only the time that it takes.
"""

import gc
import os
import threading
import time
import warnings
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from cutaway.handbook.records import Folder
from cutaway.inquiry.carried import Files, carried
from cutaway.machine.compiled import kernel
from cutaway.machine.subjects import parts_of, subjects
from cutaway.narrate.checked import Checked
from cutaway.parts.library import KINDS
from cutaway.publish.contents import PRODUCTS
from cutaway.publish.drawings import Desk, draw_sheets_of, sheets_depend
from cutaway.publish.product import Product, depends_on, piece_of_product
from cutaway.publish.shelf import Shelf
from cutaway.publish.states import in_all_situations, states
from cutaway.quantities.which import StandardName

MOST = 4
"""With how many processes at most: each takes some 300 MB, and there is hardly work for more."""


WORTH = 300
"""From how many sheets on processes are begun, each of which takes three seconds before it can do anything."""


LOOKING = 2.0
"""How often a process looks whether the one that began it is still there, s."""


@dataclass(frozen=True, slots=True)
class Task:
    """What all situations come to; the sheets of a standard or an airframe; a product. The last two by name."""

    sort: Literal["states", "sheets", "product"]
    name: str = ""


@dataclass(frozen=True, slots=True)
class Place:
    """What another process sets up its own desk from."""

    files: Files
    layouts: Path | None
    shelf: Path
    rests: bool


def tasks_of(desk: Desk, wanted: Sequence[Product]) -> tuple[Task, ...]:
    """What is to be made and needs nothing of what checking finds; what is long first, what is many and short last.
    What several will want comes before all. Nothing where the sheets are on the shelf or too few to be worth it."""
    folder = desk.workshop.folder
    if desk.shelf.has(*sheets_depend(desk)) or _sheets(folder) < WORTH:
        return ()
    missing = [
        one for one in wanted if one.whole and not one.checking and not desk.shelf.has(one.name, depends_on(one, desk))
    ]
    products = [Task("product", one.name) for one in reversed(missing)]
    return (Task("states"), *products, *(Task("sheets", str(one.name)) for one in subjects(folder)))


def _sheets(folder: Folder) -> int:
    """How many sheets there are at least: each system that a subject has, in each situation."""
    systems = sum(len({part.system for part in parts_of(folder, one)}) for one in subjects(folder))
    return systems * len(folder.situations)


def make_ahead(place: Place, task: Task) -> frozenset[str]:
    """Do one task; the digests of the pieces that are on the shelf now and were not before."""
    there = carried(place.files)
    desk = Desk(there.workshop, there.told, KINDS, place.layouts, Shelf(place.shelf), place.rests, parsed=there.parsed)
    folder = there.workshop.folder
    if task.sort == "states":
        states(desk.workshop, desk.told, desk.shelf, in_all_situations(folder, subjects(folder)))
    elif task.sort == "sheets":
        draw_sheets_of(desk, there.subject(StandardName(task.name)))
    else:
        nothing = Checked(folder, (), (), 0)
        piece_of_product(next(one for one in PRODUCTS if one.name == task.name), desk, nothing)
    return desk.shelf.keys


def end_with(parent: int, collecting: tuple[int, int, int]) -> None:
    """Let this process end once the one that began it is gone, ended from outside say; else it would wait for ever.
    collecting: how often rubbish is collected there, and then here."""
    gc.set_threshold(*collecting)

    def watch() -> None:
        while os.getppid() == parent:
            time.sleep(LOOKING)
        os._exit(0)

    threading.Thread(target=watch, daemon=True).start()


@contextmanager
def working_ahead(desk: Desk, wanted: Sequence[Product], stage: Callable[[str], None]) -> Iterator[Callable[[], None]]:
    """Let other processes begin on a pack; what is given waits until they are done. stage: told how far they are.

    None are begun where nothing is kept, where it is not worth it, or on one processor.
    """
    tasks = tasks_of(desk, wanted) if desk.shelf.folder is not None and desk.kinds is KINDS else ()
    if desk.shelf.folder is None or not tasks:
        yield lambda: None
        return
    import loky  # here, since most makes have nothing for other processes to do

    count = min(loky.cpu_count(), len(tasks), MOST)
    if count < 2:
        yield lambda: None
        return
    # A process that has grown large ends between two tasks and another takes its place; nobody need be told.
    warnings.filterwarnings("ignore", "A worker stopped while some jobs were given", UserWarning)
    kernel()  # before it is wanted in several processes, each of which would compile it
    place = Place(desk.workshop.folder.files, desk.layouts, desk.shelf.folder, desk.rests)
    pool = loky.ProcessPoolExecutor(count, initializer=end_with, initargs=(os.getpid(), gc.get_threshold()))
    try:
        futures = [pool.submit(make_ahead, place, task) for task in tasks]

        def wait() -> None:
            for done, future in enumerate(loky.as_completed(futures), 1):
                if future.exception() is None:  # else it is made here, and what was wrong shows here
                    desk.shelf.made_beside(future.result())
                stage(f"drawing, {done} of {len(tasks)} done")

        yield wait
    finally:
        pool.shutdown(wait=True, kill_workers=True)
