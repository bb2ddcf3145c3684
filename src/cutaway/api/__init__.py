"""The façade for Python users: load a type folder, check it, find in its books, run it, make its pack.

    from cutaway.api.loading import load
    from cutaway.api.checking import check
    loaded, problems = load("demo/whinchat")
    checked, problems = check("demo/whinchat", on="Mk 2")

`loading.py`, `checking.py`, `running.py`, `making.py`, `finding.py` hold one call each; `telling.py` says what they
found, as text and as records. No logic of its own lives here. What is wrong comes back as problems and is never raised.
"""
