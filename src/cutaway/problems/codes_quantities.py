"""The codes of the room(s): quantities."""

from cutaway.problems.entry import Entry

ENTRIES: dict[str, Entry] = {}
