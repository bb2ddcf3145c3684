"""What is wrong with the user's input, told so that it can be put right.

Here live the place of a mistake (`span.py`), the one diagnostic record (`diagnostic.py`), the catalogue of codes
(`catalogue.py`) and the printers (`printing.py`). Nothing here knows about aircraft, and nothing here raises.
Read `diagnostic.py` first.
"""
