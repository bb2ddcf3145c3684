"""The codes of the room(s): pack."""

from cutaway.problems.entry import Entry

ENTRIES: dict[str, Entry] = {}
