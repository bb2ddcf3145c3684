"""Questions put to runs: verdicts on claims, with their evidence as records.

`verdicts.py` holds the verdicts; `scenes.py` turns a scope into jobs; `truth.py` reads a statement off a run;
`built.py` answers from the records; `positions.py` goes through the positions in a cone; `check.py` puts a claim to all
of them, one verdict for each standard. No finished sentences live here. Read `verdicts.py` first, then `check.py`.
"""
