"""The records of a type folder, and how they are read from the user's files.

`records.py` holds what a loaded folder is; `reading.py` opens files (the only place that does) and `load.py` puts the
whole folder together against the part library. Markdown is read in `sources.py`, `drills.py` and `scripts.py`, YAML
in the other readers, all with the place of everything kept. No result of a run lives here, and no missing value is
guessed here. Read `records.py` first.
"""
