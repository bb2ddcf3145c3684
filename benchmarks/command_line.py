"""How long the command line keeps one waiting: `--help` against an empty Python, `check` of the Whinchat, its memory.

Run: python benchmarks/command_line.py. Aims: --help within 10 times `python -c pass`; a second `check` within 2 s;
peak memory of `check` within 450 MB. The first `check` is made with empty caches, and so compiles the solver as well.
"""

import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

DEMO = Path(__file__).parents[1] / "demo" / "whinchat"
COMMAND = [sys.executable, "-m", "cutaway"]


def seconds(command: list[str], env: dict[str, str], times: int = 1) -> float:
    """The best wall time of some runs of a command."""
    best = float("inf")
    for _ in range(times):
        start = time.perf_counter()
        subprocess.run(command, env=env, capture_output=True, check=True)
        best = min(best, time.perf_counter() - start)
    return best


def main() -> None:
    """Measure and print."""
    with tempfile.TemporaryDirectory() as home:
        env = {**os.environ, "XDG_CACHE_HOME": home}
        empty = seconds([sys.executable, "-c", "pass"], env, 7)
        helped = seconds([*COMMAND, "--help"], env, 7)
        check = [*COMMAND, "check", str(DEMO)]
        print(f"python -c pass                    {empty:8.3f} s")
        print(f"cutaway --help                    {helped:8.3f} s   {helped / empty:.1f} times (aim < 10)")
        quick = seconds([*check, "--no-rests"], env)
        print(f"check, empty caches, --no-rests   {quick:8.2f} s   (compiles the solver)")
        print(f"check, first, with assumed values {seconds(check, env):8.2f} s")
        warm = seconds(check, env, 3)
        print(f"check, again                      {warm:8.2f} s   (aim < 2)")
        # The children's peak so far is that of the largest: the first check, which compiled.
        peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
        print(f"largest peak memory of a check    {peak:8.0f} MB  (aim < 450)")


if __name__ == "__main__":
    main()
