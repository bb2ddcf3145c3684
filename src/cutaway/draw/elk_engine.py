"""The layout library (elkjs) at work inside this process: loaded once, then asked for one layout after another.

To load it takes as long as ten layouts, and it grows quicker as it goes. What it answers does not hang on what it was
asked before, which a test holds.
"""

import atexit
import json
from collections.abc import Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from py_mini_racer import JSEvalException, JSTimeoutException, MiniRacer

TURNS = 1000
"""How often waiting callbacks are run before the library is held to have given up; two or three are usual."""

_BEFORE = """
var self = globalThis, waiting = [], answer = "", fault = "";
function setTimeout(call) { waiting.push(call); return waiting.length; }
function clearTimeout() {}
function turn() { var now = waiting; waiting = []; now.forEach(function (call) { call(); }); return now.length; }
"""
_FRESH = 'waiting = []; answer = ""; fault = "";\n'
_CALL = (
    "new ELK().layout(%s).then(function (r) { answer = JSON.stringify(r); }, function (e) { fault = String(e); }); 0"
)


@dataclass(frozen=True, slots=True)
class NoLayout:
    """The library is not there, took too long or gave no answer. missing: it is not there. lost: the engine stopped,
    so that it is not asked again for this."""

    words: str
    missing: bool = False
    lost: bool = False


class Engine:
    """A library that was loaded, and the thread that it runs in: where an event loop runs in the caller's own (a
    notebook), the engine allows no time limit."""

    def __init__(self, library: str) -> None:
        self._library = library
        self._thread = ThreadPoolExecutor(1)
        self._machine: MiniRacer | None = None

    def laid(self, graph: Mapping[str, Any], seconds: float) -> dict[str, Any] | NoLayout:
        """One layout in the library's own form, or why there is none."""
        return self._thread.submit(self._laid, graph, seconds).result()

    def close(self) -> None:
        """Let go of what was loaded. Not before all is done that was asked."""
        machine, self._machine = self._machine, None
        if machine is not None:
            machine.close()

    def _laid(self, graph: Mapping[str, Any], seconds: float) -> dict[str, Any] | NoLayout:
        try:
            return _asked(self._loaded(seconds), graph, seconds)
        except JSEvalException as fault:
            self.close()  # it may be midway in anything
            late = isinstance(fault, JSTimeoutException)
            return NoLayout("it took too long" if late else f"it stopped: {str(fault)[:200]}", lost=True)

    def _loaded(self, seconds: float) -> MiniRacer:
        if self._machine is None:
            self._machine = MiniRacer()
            self._machine.eval(_BEFORE + self._library, timeout_sec=seconds)
        return self._machine


@lru_cache(maxsize=1)
def engine(library: str) -> Engine:
    """The engine of this process. It is closed before the interpreter takes itself to pieces."""
    made = Engine(library)
    atexit.register(made.close)
    return made


def _asked(machine: MiniRacer, graph: Mapping[str, Any], seconds: float) -> dict[str, Any] | NoLayout:
    machine.eval(_FRESH + _CALL % json.dumps(graph), timeout_sec=seconds)
    for _ in range(TURNS):
        machine.eval("turn()", timeout_sec=seconds)
        answer, fault = str(machine.eval("answer")), str(machine.eval("fault"))
        if fault:
            return NoLayout(f"it says: {fault[:200]}")
        if answer:
            laid: dict[str, Any] = json.loads(answer)
            return laid
    return NoLayout("it gave no answer")
