"""The codes of the room(s): language."""

from cutaway.problems.entry import Entry

ENTRIES: dict[str, Entry] = {}
