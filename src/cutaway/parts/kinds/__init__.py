"""The declarations: one kind, one declaration and one `build`, grouped by the medium that a fitter would name.

Nothing here solves or loops over parts. Read `electrics.py` first: its parts are the smallest.
"""
