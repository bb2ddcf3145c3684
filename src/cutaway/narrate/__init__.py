"""Scripts as they are spoken, read and checked.

Here live spoken forms (`spoken.py`), spoken length (`timing.py`), what of a script is checked (`coverage.py`), figures
against the cited paragraph (`citing.py`), captions (`captions.py`, `breaking.py`) and their file (`webvtt.py`).
No physics lives here and no drawing. Read `captions.py` first.
"""
