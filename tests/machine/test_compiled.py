"""The cache of compiled code, and the linear solve beneath it all."""

import shutil
import subprocess
import sys
from pathlib import Path

import numpy as np

import cutaway
from cutaway.machine.compiled import source_hash
from cutaway.machine.kernel_linear import pivoted
from cutaway.machine.symbolic import elimination

PACKAGE = Path(cutaway.__file__).parent
ASK = """
import numpy as np
from cutaway.machine.compiled import cached
from cutaway.machine.kernel_assembly import two_ended
print(cached(two_ended)(0, 3.0, 1.0, 1.0, 1.0, np.array([2.0])))
"""


def answer(copy: Path) -> str:
    """What the compiled law of a LIN says, in a process of its own that runs the copied package."""
    settings = {"PYTHONPATH": str(copy), "XDG_CACHE_HOME": str(copy / "cache"), "PATH": ""}
    done = subprocess.run([sys.executable, "-c", ASK], capture_output=True, text=True, env=settings, check=True)
    return done.stdout.strip()


def test_an_edited_law_changes_the_answer(tmp_path: Path) -> None:
    """The law stands in another file than the function that is cached, which numba alone would not notice."""
    shutil.copytree(PACKAGE, tmp_path / "cutaway", ignore=shutil.ignore_patterns("__pycache__"))
    assert answer(tmp_path) == "(4.0, 2.0, -2.0)"
    assert answer(tmp_path) == "(4.0, 2.0, -2.0)"
    folders = list((tmp_path / "cache" / "cutaway" / "kernel").iterdir())
    assert len(folders) == 1, "the second process loads what the first compiled"
    law = tmp_path / "cutaway" / "parts" / "laws" / "liquid.py"
    before = law.read_text(encoding="utf-8")
    edited = before.replace("slope = gate * conductance\n", "slope = 3.0 * gate * conductance\n", 1)
    assert edited != before
    law.write_text(edited, encoding="utf-8")
    assert answer(tmp_path) == "(12.0, 6.0, -6.0)"


def test_the_hash_covers_laws_and_kernel(tmp_path: Path) -> None:
    shutil.copytree(PACKAGE, tmp_path / "cutaway", ignore=shutil.ignore_patterns("__pycache__"))
    seen = {source_hash(tmp_path / "cutaway")}
    assert seen == {source_hash()}
    for name in ("parts/laws/jacks.py", "machine/kernel_modes.py", "machine/kernel.py", "machine/layout.py"):
        path = tmp_path / "cutaway" / name
        path.write_text(path.read_text(encoding="utf-8") + "\n# a word\n", encoding="utf-8")
        seen.add(source_hash(tmp_path / "cutaway"))
    assert len(seen) == 5


def test_elimination_covers_every_product() -> None:
    """The flat lists do the same as an elimination on the full matrix."""
    rng = np.random.default_rng(7)
    n = 30
    edges = frozenset((int(min(a, b)), int(max(a, b))) for a, b in rng.integers(0, n, (45, 2)) if a != b)
    plan = elimination(n, edges)
    full = np.zeros((n, n))
    for (a, b), _ in plan.place.items():
        if a == b or (min(a, b), max(a, b)) in edges:
            full[a, b] = 10.0 if a == b else rng.uniform(-1.0, 0.0)
    values = np.zeros(len(plan.place))
    for (a, b), at in plan.place.items():
        values[at] = full[a, b]
    target = 0
    for k in range(n):
        low, high = plan.fill_at[k], plan.fill_at[k + 1]
        for p in range(low, high):
            values[plan.fill[0, p]] /= values[k]
            for q in range(low, high):
                values[plan.target[target]] -= values[plan.fill[0, p]] * values[plan.fill[2, q]]
                target += 1
    lower, upper = np.eye(n), np.zeros((n, n))
    for at, (i, j) in enumerate(plan.places.T):
        (lower if i > j else upper)[i, j] = values[at]
    assert target == plan.target.size
    assert np.allclose(lower @ upper, full[np.ix_(plan.order, plan.order)])


def test_the_pivoted_solve_stands_in_where_a_pivot_is_nothing() -> None:
    matrix = np.array([[0.0, 1.0, 2.0], [1.0, 0.0, 1.0], [2.0, 1.0, 0.0]])
    right = np.array([8.0, 4.0, 4.0])
    expected = np.linalg.solve(matrix, right)
    assert pivoted(matrix.copy(), right)
    assert np.allclose(right, expected)
    assert not pivoted(np.zeros((2, 2)), np.ones(2))
