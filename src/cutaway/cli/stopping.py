"""Ctrl-C during a search: the first asks it to end with what is known, the second ends the program."""

import signal
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from types import FrameType


@contextmanager
def stopping() -> Iterator[Callable[[], bool]]:
    """While this lasts, whether Ctrl-C has been pressed."""
    asked = threading.Event()
    if threading.current_thread() is not threading.main_thread():
        yield asked.is_set
        return

    def first(number: int, frame: FrameType | None) -> None:
        asked.set()
        signal.signal(signal.SIGINT, before)

    before = signal.signal(signal.SIGINT, first)
    try:
        yield asked.is_set
    finally:
        signal.signal(signal.SIGINT, before)
