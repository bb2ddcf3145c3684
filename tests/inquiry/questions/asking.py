"""How the tests of the questions ask: the demo Whinchat, open once, and a base from words."""

from functools import lru_cache
from pathlib import Path

from cutaway.api.asking import Asked, Opened, base_for, opened
from cutaway.inquiry.search.base import Base
from cutaway.problems.diagnostic import has_error

WHINCHAT = Path(__file__).parents[3] / "demo" / "whinchat"


@lru_cache(maxsize=1)
def whinchat() -> Opened:
    """The demo, open; all tests of a session share its runs."""
    here, problems = opened(WHINCHAT)
    assert here is not None and not has_error(problems), problems
    return here


def base(statement: str, situation: str = "", on: str = "", given: tuple[str, ...] = (), do: str = "") -> Base:
    """The base of a question on the Whinchat, which must have one."""
    here = whinchat()
    found, _, problems = base_for(here.loaded, here.workshop, Asked(statement, situation, on, given, do))
    assert found is not None, problems
    return found
