"""Cutaway: the handbook of a historic aircraft as an executable, cited model.

Python users start at `cutaway.api`; the rooms and their order stand in ARCHITECTURE.md.
"""
