"""Processes that help to make a pack end with the one that began them, however that ends."""

import subprocess
import sys
import time
from pathlib import Path

import pytest

BEGIN = """
import gc, os, time, loky
from cutaway.publish.ahead import end_with
pool = loky.ProcessPoolExecutor(1, initializer=end_with, initargs=(os.getpid(), gc.get_threshold()))
print(pool.submit(os.getpid).result(), flush=True)
time.sleep(600)
"""


@pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="asks the system of Linux")
def test_a_helper_does_not_outlive_a_maker_that_is_killed() -> None:
    maker = subprocess.Popen(
        [sys.executable, "-c", BEGIN], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True
    )
    assert maker.stdout is not None
    helper = int(maker.stdout.readline())
    assert _is_there(helper)
    maker.kill()
    maker.wait()
    until = time.monotonic() + 60.0
    while _is_there(helper) and time.monotonic() < until:
        time.sleep(0.2)
    assert not _is_there(helper)


def _is_there(process: int) -> bool:
    """Whether a process runs; one that has ended and that nobody has asked about does not."""
    try:
        state = Path(f"/proc/{process}/stat").read_text(encoding="utf-8").rpartition(")")[2].split()[0]
    except (FileNotFoundError, ProcessLookupError):
        return False
    return state != "Z"
