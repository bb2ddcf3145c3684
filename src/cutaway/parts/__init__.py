"""The part library: what every cock, pump, lamp and jack is, apart from any aircraft.

`laws/` holds the physics as pure SI functions, `recipe.py` the vocabulary in which a kind says what it is made of,
`kind.py` the shape of a declaration, `kinds/` the declarations themselves, one kind one declaration, and `library.py`
all of them by name. Nothing here knows a type folder, a solver or a loop over parts. Read `kind.py` first.
"""
