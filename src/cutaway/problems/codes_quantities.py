"""The codes of the room: quantities. Q101 on: a figure and its unit. Q120 on: which standards."""

from cutaway.problems.entry import Entry

ENTRIES: dict[str, Entry] = {}
