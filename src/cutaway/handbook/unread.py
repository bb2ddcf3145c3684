"""Where a file of systems/ cannot be read: what it may say is not called unknown elsewhere."""

import re
from dataclasses import replace

from cutaway.problems.counting import counted
from cutaway.problems.diagnostic import Problems

_UNKNOWN = re.compile(r"there is no such (part|system)|^There is no ([\w, ]* or )?(part|control|reading|system)\b")


def without_unknown(problems: Problems, unread: tuple[str, ...]) -> Problems:
    """The problems without those that say of a name that there is nothing of it, since it may stand in a file that
    could not be read; how many those are is told where that file is."""
    if not unread:
        return problems
    kept = tuple(one for one in problems if not _UNKNOWN.search(one.message))
    count = len(problems) - len(kept)
    at = next((n for n, one in enumerate(kept) if one.span is not None and one.span.file.path in unread), None)
    if at is None or not count:
        return problems
    names, are = counted(count, "name"), "is" if count == 1 else "are"
    more = f"{names} elsewhere {are} not looked up until then, as they may stand in this file."
    told = replace(kept[at], hint=f"{kept[at].hint} {more}".strip())
    return (*kept[:at], told, *kept[at + 1 :])
