"""Taking in sources: books, scans, photographs, texts and tables become `sources/<key>.md` of a type folder.

Here: opening each sort of file, reading pictures of pages, lines made into numbered paragraphs, what a person is asked
to confirm, and the one writer of `sources/` and `taken/`. Never: what a sentence means, or a figure that is not on the
page.
Begin with `records.py`, then `take.py`.
"""
