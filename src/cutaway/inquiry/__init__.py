"""Questions put to runs: verdicts on claims, with their evidence as records.

`verdicts.py` holds the verdicts. `course.py` is what happens before a statement is looked at, `scenes.py` what the
scope of a claim asks to be looked at, `rules.py` what of it is refused; `truth.py` reads a statement off a run,
`deciding.py` says whether that is so when the claim says it should be, `judging.py` puts them together. `special.py`
and `bench.py` answer what takes several runs, `built.py` and `mixed.py` what the records say, `resting.py` finds
assumed values that could turn an answer over, `memory.py` keeps answers. `asking.py` and `check.py` put a claim to
all of them, one verdict for each standard. No finished sentences live here. Read `verdicts.py` first, then
`check.py`.
"""
