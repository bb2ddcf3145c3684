"""Sentences that read aloud, made from the records of inquiry.

Here live figures in house units (`figures.py`), citations (`citing.py`), what was asked, as a sentence
(`asking.py`), and verdicts (`verdicts.py`). Nothing here decides anything: a record comes in, words go out.
Read `verdicts.py` first.
"""
