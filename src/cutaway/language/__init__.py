"""Statements, claims, actions: one grammar for scripts, services, drills and the command line.

`statements.lark` is the grammar, `words.py` knows the names of a folder, `lexer.py` cuts text into words and names,
`parse.py` turns text into the records of `syntax.py`, `print_back.py` turns records into text again. Nothing is
evaluated here. Read `syntax.py` first.
"""
