"""Processes that help to make a pack end with the one that began them, however that ends."""

import os
import subprocess
import sys
import time

import pytest

BEGIN = """
import os, time, loky
from cutaway.publish.ahead import end_with
pool = loky.ProcessPoolExecutor(1, initializer=end_with, initargs=(os.getpid(),))
print(pool.submit(os.getpid).result(), flush=True)
time.sleep(600)
"""


@pytest.mark.skipif(os.name != "posix", reason="by the numbers of processes")
def test_a_helper_does_not_outlive_a_maker_that_is_killed() -> None:
    maker = subprocess.Popen(
        [sys.executable, "-c", BEGIN], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True
    )
    assert maker.stdout is not None
    helper = int(maker.stdout.readline())
    os.kill(helper, 0)  # it is there
    maker.kill()
    maker.wait()
    until = time.monotonic() + 60.0
    while _is_there(helper) and time.monotonic() < until:
        time.sleep(0.2)
    assert not _is_there(helper)


def _is_there(process: int) -> bool:
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    return True
