"""A pack has the same bytes whoever makes it: another process, folder, order of sets, number of threads."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

from tests.conftest import SAMPLE
from tests.publish.demo import content

MAKE = """
import os
import sys
from pathlib import Path
from cutaway.api import making
from cutaway.inquiry import workshop
from cutaway.publish import ahead
folder, out, kept, threads, others = sys.argv[1:]
if others:
    ahead.WORTH = 0
if others == "lost":
    ahead.make_ahead = lambda place, task: os._exit(1)
run_jobs = workshop.run_jobs
workshop.run_jobs = lambda jobs, _=None: run_jobs(jobs, int(threads))
making.memory_file = lambda: Path(kept) / "verdicts.sqlite"
making.layouts_folder = lambda: Path(kept) / "layout"
made, problems = making.make(folder, Path(out), rests=False)
assert made is not None, problems
print(made.again, made.as_before)
"""


CLAIMS = """
It runs.

```claim
in running: fuel cock.outlet is above 0 lb/sq in
in running, after fuel cock to off: fuel cock is off
```
"""


def pack(folder: Path, out: Path, kept: Path, seed: str, threads: str, others: str = "") -> tuple[int, int]:
    """Make a pack in a process of its own; how many pieces were made, and how many were as before.

    others: whether further processes help, 'helped', or would but end at once, 'lost'.
    """
    said = [sys.executable, "-c", MAKE, str(folder), str(out), str(kept), threads, others]
    env = {**os.environ, "PYTHONHASHSEED": seed}
    done = subprocess.run(said, env=env, cwd=out.parent, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    made, before = done.stdout.split()
    return int(made), int(before)


def test_the_same_folder_gives_the_same_bytes(tmp_path: Path) -> None:
    one, other = tmp_path / "one", tmp_path / "a longer name" / "other"
    for folder in (one, other):
        shutil.copytree(SAMPLE, folder)
    for folder in (one, other):
        script = folder / "scripts" / "01-fuel.md"
        script.write_text(script.read_text(encoding="utf-8") + CLAIMS, encoding="utf-8")
    first = pack(one, tmp_path / "p1", tmp_path / "k1", "1", "1")
    second = pack(other, tmp_path / "p2", tmp_path / "k2", "2", "2")
    assert first == second and first[0] > 5
    assert content(tmp_path / "p1") == content(tmp_path / "p2")
    for others in ("helped", "lost"):
        assert pack(one, tmp_path / others, tmp_path / f"k {others}", "3", "1", others) == first
        assert content(tmp_path / others) == content(tmp_path / "p1")
