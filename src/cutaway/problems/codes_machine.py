"""The codes of the room(s): machine."""

from cutaway.problems.entry import Entry

ENTRIES: dict[str, Entry] = {}
