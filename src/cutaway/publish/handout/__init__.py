"""Handouts on paper: a visitor sheet, a large-print sheet, a booklet; PDF with tags, from one template.

`records.py` says what stands on them, `filling.py` takes it from what checking found, `plates.py` brings drawings to
paper so that no word is too small, `pdf.py` has them set. Nothing here decides a verdict. Read `records.py` first.
"""
