"""`check` of the whole Turnstone without assumed values: from nothing, and again; runs, network-steps and memory.

Run: python benchmarks/whole_aircraft.py. Aims: again within 8 s; peak memory within 600 MB. Times are of the processor,
since machines are shared; the ratio is to a check of the Whinchat in the same run.
"""

import json
import os
import subprocess
import sys
import tempfile
from pathlib import Path

DEMOS = Path(__file__).parents[1] / "demo"
# The check of a folder in a process of its own, counting the steps of every run by the way.
CODE = """
import json, resource, sys
import cutaway.inquiry.workshop as workshop
from cutaway.api.checking import check
steps, run = 0, workshop.run_jobs
def counting(jobs, *more):
    global steps
    found = run(jobs, *more)
    steps += sum(one.certificate.steps for one in found)
    return found
workshop.run_jobs = counting
checked, problems = check(sys.argv[1], rests=False)
used = resource.getrusage(resource.RUSAGE_SELF)
print(json.dumps({"runs": checked.runs, "steps": steps, "verdicts": len(checked.verdicts()), "problems": len(problems),
                  "cpu": used.ru_utime + used.ru_stime, "memory": used.ru_maxrss / 1024}))
"""


def measured(folder: Path, env: dict[str, str]) -> dict[str, float]:
    """What one check used."""
    done = subprocess.run(
        [sys.executable, "-c", CODE, str(folder)], env=env, capture_output=True, check=True, text=True
    )
    found: dict[str, float] = json.loads(done.stdout)
    return found


def main() -> None:
    """Measure and print."""
    with tempfile.TemporaryDirectory() as home:
        env = {**os.environ, "XDG_CACHE_HOME": home}
        measured(DEMOS / "whinchat", env)  # compiles the solver
        small = measured(DEMOS / "whinchat", env)
        print(f"{'':28}{'CPU s':>8} {'runs':>7} {'steps':>11} {'MB':>6}")
        for words in ("from nothing", "again"):
            found = measured(DEMOS / "turnstone", env)
            print(
                f"Turnstone, {words:17}{found['cpu']:8.1f} {found['runs']:7.0f} {found['steps']:11,.0f} "
                f"{found['memory']:6.0f}   {found['verdicts']:.0f} verdicts, {found['problems']:.0f} problems"
            )
        print(f"again, to the Whinchat again: {found['cpu'] / small['cpu']:.1f} times (aim < 8 s and 600 MB)")


if __name__ == "__main__":
    main()
