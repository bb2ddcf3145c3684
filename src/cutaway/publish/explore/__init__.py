"""The explorable page: controls that move, a sheet that answers, and why.

Begin with `records.py`, which says what the page shows; `working.py` works it out, `page.py` writes it.
"""
