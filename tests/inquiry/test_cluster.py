"""Sweeps on a Dask cluster: two workers, the same answers to the last bit, one worker lost."""

import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

import pytest

from cutaway.api.checking import check
from cutaway.api.sweeping import all_failures
from cutaway.inquiry import cluster
from cutaway.inquiry.cluster import spread
from cutaway.inquiry.questions.sweep import Put, claim_chunks, judged
from cutaway.narrate.checked import Asking, Checked
from cutaway.narrate.checking import claims_asked
from tests.inquiry.folders import Folder, folder_at, system

ROOT = Path(__file__).parents[2]  # where a worker finds the tests' own work
SMALL = {
    "type.yaml": "name: Wren\nmarks: [Mk 1, Mk 2]\n",
    "systems/electrics.yaml": system(
        """
battery: {kind: battery, voltage: 12 V, capacity: 30 Ah}
switch: {kind: switch}
lamp: {kind: filament lamp}
""",
        "battery > switch > lamp",
    ),
    "situations.yaml": "situations:\n  dark: {set: {switch: off}}\n  lit: {from: dark, set: {switch: on}}\n",
    "services.yaml": "services:\n  light: lamp is lit\n",
    "scripts/light.md": "# Light\n\nA lamp.\n\n```claim\n"
    + "".join(f"in {where}: lamp is {state}\n" for where in ("dark", "lit") for state in ("lit", "out"))
    + "".join(f"in dark, after switch to on, within {t} s: lamp is lit\n" for t in range(2, 12))
    + "```\n",
}


@dataclass
class Cluster:
    """A scheduler and its workers, each a process that this test started and ends."""

    address: str
    workers: list["subprocess.Popen[bytes]"] = field(default_factory=list)


def _start(*arguments: str, where: Path) -> "subprocess.Popen[bytes]":
    command = [sys.executable, "-m", *arguments, "--no-dashboard", "--scheduler-file", str(where)]
    return subprocess.Popen(command, cwd=ROOT, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)


def _ended(process: "subprocess.Popen[bytes]") -> None:
    """Ask a process to end, and end it if it does not: a worker asked while it is still starting may not hear it."""
    process.terminate()
    try:
        process.wait(timeout=5)
    except subprocess.TimeoutExpired:
        process.kill()
        process.wait()


@pytest.fixture(scope="module")
def running(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Cluster]:
    where = tmp_path_factory.mktemp("cluster") / "scheduler.json"
    made = Cluster("")
    scheduler = _start("distributed.cli.dask_scheduler", "--host", "127.0.0.1", "--port", "0", where=where)
    try:
        until = time.monotonic() + 60.0
        while not (where.exists() and where.read_text()) and time.monotonic() < until:
            time.sleep(0.1)
        made.address = json.loads(where.read_text())["address"]
        for _ in range(2):
            made.workers.append(_start("distributed.cli.dask_worker", "--no-nanny", "--nthreads", "1", where=where))
        yield made
    finally:
        for process in (*made.workers, scheduler):
            _ended(process)


@pytest.fixture(scope="module")
def wren(tmp_path_factory: pytest.TempPathFactory) -> Folder:
    return folder_at(tmp_path_factory.mktemp("wren"), SMALL)


def _verdicts(checked: Checked | None) -> list[object]:
    assert checked is not None
    return [(j.subject.name, j.verdict) for claim in checked.claims() for j in claim.judged]


def test_a_check_on_a_cluster_is_the_check_here(
    running: Cluster, wren: Folder, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("cutaway.api.checking.memory_file", lambda: None)
    here, _ = check(wren.loaded.path)
    there, problems = check(wren.loaded.path, cluster=running.address)
    assert not [p for p in problems if p.code.startswith("I")]
    assert len(_verdicts(here)) == 2 * 14
    assert repr(_verdicts(there)) == repr(_verdicts(here))  # to the last bit of every figure


def test_failures_of_all_services_on_a_cluster_are_those_found_here(running: Cluster, wren: Folder) -> None:
    here, _ = all_failures(wren.loaded.path)
    there, _ = all_failures(wren.loaded.path, cluster=running.address)
    assert here is not None and there is not None
    assert len(here.told) == 2 and here.nothing == 2  # lit on both marks, and in the dark there is nothing to lose
    assert repr(there.answers) == repr(here.answers)


def slowly(chunk: tuple[int, str]) -> int:
    """A piece of work that leaves a mark where it was begun, and takes its time."""
    number, folder = chunk
    (Path(folder) / f"{number}-{os.getpid()}").touch()
    time.sleep(0.8)
    return number * number


def test_a_lost_worker_costs_only_its_chunk(running: Cluster, wren: Folder, tmp_path: Path) -> None:
    begun = tmp_path / "begun"
    begun.mkdir()
    chunks = [(number, str(begun)) for number in range(8)]
    lost = running.workers.pop()

    def after(_: int) -> None:
        if lost.poll() is None:
            time.sleep(0.4)  # it is by now in the midst of the next, and what it had done has been fetched
            lost.send_signal(signal.SIGKILL)
            lost.wait()

    answers, problems = spread(slowly, chunks, running.address, after)
    assert problems == () and answers == tuple(n * n for n in range(8))  # in the order of the chunks
    by_lost = [path.name for path in begun.iterdir() if path.name.endswith(f"-{lost.pid}")]
    assert by_lost, "the worker had taken something on before it was ended"
    assert len(list(begun.iterdir())) <= 8 + 1  # what it was at was done again, and nothing else
    claims = claims_asked(wren.loaded.folder, wren.loaded.parsed, Asking())
    put = [Put(claim, wren.subject().name) for claim in claims]
    several = claim_chunks(wren.loaded.folder.files, put, rests=True)
    there, problems = spread(judged, several, running.address)
    assert problems == () and repr(there) == repr(spread(judged, several)[0])


def test_no_scheduler_is_told(wren: Folder, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(cluster, "PATIENCE", "1s")
    checked, problems = check(wren.loaded.path, cluster="tcp://127.0.0.1:1")
    assert checked is None and [p.code for p in problems if p.code[0] == "I"] == ["I302"]
    answers, problems = spread(slowly, [], "nowhere at all")
    assert answers is None and [p.code for p in problems] == ["I302"]


def test_a_missing_library_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "distributed", None)
    answers, problems = spread(slowly, [], "tcp://127.0.0.1:1")
    assert answers is None and [p.code for p in problems] == ["I301"]


def test_another_version_is_told(running: Cluster, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(cluster, "source_hash", lambda: "another")
    answers, problems = spread(slowly, [(1, str(tmp_path))], running.address)
    assert answers is None and [p.code for p in problems] == ["I303"]


def fatal(_: int) -> int:
    """Work that ends whoever takes it on."""
    os.kill(os.getpid(), signal.SIGKILL)
    return 0


def test_work_that_ends_its_workers_is_given_up(running: Cluster) -> None:
    import distributed

    with distributed.Client(running.address) as client:
        client.run_on_scheduler(lambda dask_scheduler: setattr(dask_scheduler, "allowed_failures", 0))
    answers, problems = spread(fatal, [1], running.address)
    assert answers is None and [p.code for p in problems] == ["I304"]
