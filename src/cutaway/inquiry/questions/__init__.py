"""The questions: thin readings of the one search."""
