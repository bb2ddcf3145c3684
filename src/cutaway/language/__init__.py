"""Statements, claims, actions: one grammar for scripts, services, drills and the command line.

`words.py` knows the names of a folder; `statements.lark` is the grammar and `lexer.py` cuts text for it; `parse.py` is
the way in: text to the records of `syntax.py`, by way of the `read_*.py`; `expected.py` says what is wrong where the
parser stops; `print_back.py` turns records into text again; `claims.py` reads a whole folder. Nothing is evaluated
here. Read `syntax.py` first, then `parse.py`.
"""
