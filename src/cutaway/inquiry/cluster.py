"""Work cut in chunks: done here, or on a Dask cluster, its answers always in the order of the chunks.

A chunk is all that a machine elsewhere needs; a worker that is lost costs only the chunk that it was at.
"""

from collections.abc import Callable, Sequence
from typing import TypeVar

from cutaway.machine.compiled import source_hash
from cutaway.problems.diagnostic import Diagnostic, Problems

C = TypeVar("C")
A = TypeVar("A")

# How long a scheduler is waited for. A choice of ours.
PATIENCE = "10s"


def spread(
    work: Callable[[C], A],
    chunks: Sequence[C],
    address: str = "",
    progress: Callable[[int], None] | None = None,
) -> tuple[tuple[A, ...] | None, Problems]:
    """What `work` makes of each chunk, in their order; None where the cluster could not do it.

    work: a function of the package, known by its name elsewhere. address: of the scheduler, '' to work here. progress:
    told of each chunk that is done.
    """
    if not address:
        return tuple(_told(work(chunk), progress) for chunk in chunks), ()
    try:
        from distributed import Client
    except ImportError:
        hint = "Install it with: pip install -c constraints.txt -e '.[cluster]'"
        return None, (Diagnostic("I301", None, "Working on a cluster wants dask.distributed.", hint),)
    try:
        client = Client(address, timeout=PATIENCE, set_as_default=False)
    except (OSError, ValueError) as fault:
        hint = "Start one with: dask scheduler  and give its address, for instance --cluster tcp://localhost:8786"
        why = str(fault).splitlines()[0].rstrip(". ") if str(fault) else type(fault).__name__
        return None, (Diagnostic("I302", None, f"There is no Dask scheduler at '{address}': {why}.", hint),)
    with client:
        return _gathered(client, work, chunks, progress)


def _told(answer: A, progress: Callable[[int], None] | None) -> A:
    if progress is not None:
        progress(1)
    return answer


def _gathered(
    client: object, work: Callable[[C], A], chunks: Sequence[C], progress: Callable[[int], None] | None
) -> tuple[tuple[A, ...] | None, Problems]:
    """The answers from a cluster, each taken as it comes so that no worker holds any that could be lost with it."""
    from distributed import Client, KilledWorker, as_completed

    assert isinstance(client, Client)
    futures = [client.submit(_done, work, chunk, pure=False) for chunk in chunks]
    place = {future.key: i for i, future in enumerate(futures)}
    answers: dict[int, A] = {}
    try:
        for future, (sources, answer) in as_completed(futures, loop=client.loop, with_results=True):
            if sources != source_hash():
                client.cancel(futures)
                words = "A worker of the cluster has another version of Cutaway, so its answers would not be ours."
                return None, (Diagnostic("I303", None, words, "Install the same version on every machine."),)
            answers[place[future.key]] = _told(answer, progress)
            # Else the scheduler would do it again, were the worker that did it lost later.
            future.release()
    except KilledWorker as fault:
        client.cancel(futures)
        words = f"A part of the work ended every worker that took it on: {fault}"
        return None, (Diagnostic("I304", None, words, "Give the workers more memory, or ask less at once."),)
    return tuple(answers[i] for i in range(len(chunks))), ()


def _done(work: Callable[[C], A], chunk: C) -> tuple[str, A]:
    """What a worker does: the chunk, with what stands for the sources that answered it."""
    return source_hash(), work(chunk)


def threads_here() -> int | None:
    """How many threads a run may take: on a worker as many as it was given, else all there are."""
    try:
        from distributed import get_worker
    except ImportError:
        return None
    try:
        return int(get_worker().state.nthreads)
    except ValueError:
        return None
