"""The pack: what is in it, its page, and how it reaches the disk.

Here live the page's records (`view.py`), the page (`page.py` with `page.css`), the records for other programs
(`records_json.py`) and the one writer of files (`pack.py`). Nothing here decides a verdict.
Read `view.py` first.
"""
