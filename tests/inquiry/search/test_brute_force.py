"""The search against going through every set of changes there is, on random systems: the same minimal sets each time.

The reference here tries every control's every other position and every failure of every part, reachable or not, up to
three at once, each by a run of its own. CUTAWAY_SEARCHES says how many systems (60 unless set; CI runs 300).
"""

import math
import os
from itertools import chain, combinations
from pathlib import Path

import pytest

from cutaway.inquiry.positions import elsewhere
from cutaway.inquiry.scenes import Question
from cutaway.inquiry.search.base import Base, base_of
from cutaway.inquiry.search.changes import Alteration, Break, Put
from cutaway.inquiry.search.courses import Courses
from cutaway.inquiry.search.hitting import hitting_sets
from cutaway.inquiry.search.minimal import Bound, Search, minimal_sets
from cutaway.inquiry.search.narrow import Narrow
from cutaway.inquiry.search.trying import Trying, holds
from cutaway.inquiry.search.universe import universe
from cutaway.inquiry.verdicts import Undecided
from cutaway.machine.names import failure_name
from tests.inquiry.folders import Folder, folder_at
from tests.inquiry.search.random_folders import random_folder

HOW_MANY = int(os.environ.get("CUTAWAY_SEARCHES", "60"))
LARGEST = 3
SORTS = (frozenset({"control", "failure"}), frozenset({"failure"}), frozenset({"control"}))


def base_for(folder: Folder, claim: str) -> Base:
    """The base of a claim, which must have one."""
    read = folder.claim(claim)
    bound, _ = folder.workshop.bound(folder.subject())
    base = base_of(Question(read.statement, read.scope, bound, folder.loaded.told, folder.workshop))
    assert isinstance(base, Base), base
    return base


def everything(base: Base, sorts: frozenset[str]) -> list[Alteration]:
    """Every alteration of control or failure that the folder has, whether or not it can matter."""
    bound = base.question.bound
    found: list[Alteration] = []
    for slot in bound.controls.values():
        for value in elsewhere(slot, base.stands):
            found.append(Put(str(slot.part), slot.control, slot.input, value, slot.positions[round(value)]))
    for name, part in bound.parts.items():
        for failure in bound.kinds[part.kind].failures:
            found.append(Break(str(name), failure.name, failure_name(name, failure.name)))
    return [one for one in found if one.thing[0] in sorts]


def brute(base: Base, wanted: bool, sorts: frozenset[str]) -> set[frozenset[Alteration]]:
    """The minimal sets by exhaustion."""
    every = everything(base, sorts)
    sets = [
        frozenset(one)
        for one in chain.from_iterable(combinations(every, size) for size in range(1, LARGEST + 1))
        if len({a.thing for a in one}) == len(one)
    ]
    done = [one for one, does in zip(sets, Trying(base, wanted)(sets), strict=True) if does]
    return {one for one in done if not any(other < one for other in done)}


def test_the_same_minimal_sets_as_by_exhaustion(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    sizes: dict[int, int] = {}
    pruned = narrowed = 0
    passed_over: list[int] = []
    adds_nothing = Courses.adds_nothing

    def counting(self: Courses, sets: list[frozenset[Alteration]]) -> set[frozenset[Alteration]]:
        found = adds_nothing(self, sets)
        passed_over.extend(len(one) for one in found)
        return found

    # However small the universe, and whether or not the machine can be made narrower: the courses are watched.
    monkeypatch.setattr(Courses, "adds_nothing", counting)
    monkeypatch.setattr("cutaway.inquiry.search.trying.WORTH_WATCHING", 0)
    monkeypatch.setattr("cutaway.inquiry.search.narrow.WORTH", math.inf)
    for number in range(HOW_MANY):
        files, claim = random_folder(number)
        base = base_for(folder_at(tmp_path / str(number), files), claim)
        looked = holds(base).looked
        assert not isinstance(looked, Undecided)
        wanted = not looked.decision.holds
        sorts = SORTS[number % len(SORTS)]
        within = universe(base, sorts)
        pruned += len(everything(base, sorts)) - len(within)
        narrowed += Narrow.of(base, within) is not None
        search: Search[Alteration] = Search()
        trying = Trying(base, wanted, within, several=True)
        found = list(minimal_sets(within, trying, Bound(LARGEST), search, can_matter=trying.can_matter))
        assert set(found) == brute(base, wanted, sorts), (number, files, claim)
        for one in found:
            sizes[len(one)] = sizes.get(len(one), 0) + 1
        if found:
            for reason in hitting_sets(found):
                assert all(reason & one for one in found)
                assert all(any(not (reason - {a}) & one for one in found) for a in reason)
    left_out = f"{pruned} alterations pruned, {narrowed} narrowed, {len(passed_over)} passed over"
    print(f"{HOW_MANY} systems, minimal sets by size {sizes}, {left_out}")
    assert all(sizes.get(size, 0) > 0 for size in (1, 2))
    assert pruned > 0 and narrowed > 0
    assert {1, 2, 3} <= set(passed_over)
