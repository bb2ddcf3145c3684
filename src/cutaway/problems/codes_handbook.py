"""The codes of the room(s): handbook."""

from cutaway.problems.entry import Entry

ENTRIES: dict[str, Entry] = {}
