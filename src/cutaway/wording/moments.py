"""When a sheet of a sequence is drawn, in the few words that stand on it."""

from cutaway.inquiry.moments import AFTER, Instant
from cutaway.wording.figures import duration


def moment_words(one: Instant, settled: bool = False) -> str:
    """The moment of a run. settled: whether it was waited for until nothing moves any more.

    >>> moment_words(Instant(-1.0, {})), moment_words(Instant(0.0, {})), moment_words(Instant(5.0, {}))
    ('before', 'at once', 'at 5 s')
    >>> moment_words(Instant(130.0, {}), True), moment_words(Instant(3600.0, {}, calm=False), True)
    ('settled', 'at 60 min, not settled')
    """
    if one.time < 0.0:
        return "before"
    if settled and one.calm:
        return "settled"
    words = "at once" if one.time <= AFTER else f"at {duration(one.time)}"
    return f"{words}, not settled" if settled else words
