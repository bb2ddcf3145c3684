"""Figures as printed, with their units, and the standards they are for.

Here live the table of units with sources (`units.py`), a quantity as a handbook prints it (`quantity.py`), how it is
read from text (`reading.py`), how it is turned into SI (`si.py`), and the expressions that say to which standards a
thing belongs (`which.py`). No physical law lives here, and no bare float for a user's value.
Read `quantity.py` first.
"""
