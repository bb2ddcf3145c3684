"""The one search: which smallest sets of changes make a statement come true, or false."""
