"""One symbol a kind, in the manner of the open drawing standards for fluid power and electrics, but our own.

No conformity to any standard is claimed. `symbol.py` says what a symbol is; `strokes.py` has the marks that several
share; the other files draw one trade each; `table.py` has all of them by kind. Symbols know states and positions, but
no colours and no places on a sheet. Read `symbol.py` first.
"""
