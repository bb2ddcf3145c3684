"""A book taken again: what a person changed since stays, what nobody touched is renewed.

Three texts meet: the file as it is now, the digests of what was written last time, and the new reading. A paragraph
whose digest is that of last time was touched by nobody.
"""

import hashlib
import re
from collections.abc import Mapping
from dataclasses import dataclass

from cutaway.taking.source_text import Piece, SourceText

HEAD = "head"


@dataclass(frozen=True, slots=True)
class Merged:
    """The new file, and what became of its paragraphs, by number. yours: changed or added by a person, and kept.
    differs: of those, the ones whose new reading is another than last time's. stayed_out: taken out by a person."""

    text: SourceText
    renewed: tuple[str, ...]
    added: tuple[str, ...]
    yours: tuple[str, ...]
    differs: tuple[str, ...]
    stayed_out: tuple[str, ...]
    dropped: tuple[str, ...]


def digest(text: str) -> str:
    """A short digest of a paragraph, without regard to white at its end."""
    return hashlib.sha256(text.strip().encode()).hexdigest()[:16]


def digests(text: SourceText) -> dict[str, str]:
    """The digests of a file as written."""
    return {HEAD: digest(text.head), **{piece.number: digest(piece.text) for piece in text.pieces}}


def merged(now: SourceText, last: Mapping[str, str], new: SourceText, whole: bool) -> Merged:
    """The file after taking a book again. whole: all its pages were taken; else what the reading lacks stays."""
    fresh = {piece.number: piece for piece in new.pieces}
    there = {piece.number for piece in now.pieces}
    pieces: list[Piece] = []
    renewed, yours, differs, dropped = [], [], [], []
    for piece in now.pieces:
        number = piece.number
        other = fresh.get(number)
        # What equals the new reading is no correction; a run that was cut off between two files leaves such.
        as_read = (last.get(number), digest(other.text) if other is not None else None)
        if digest(piece.text) not in as_read:
            pieces.append(piece)
            yours.append(number)
            if other is not None and number in last and digest(other.text) != last[number]:
                differs.append(number)
        elif other is not None:
            pieces.append(other)
            if digest(other.text) != digest(piece.text):
                renewed.append(number)
        elif whole:
            dropped.append(number)
        else:
            pieces.append(piece)
    stayed_out = [number for number in fresh if number not in there and number in last]
    added = [piece for piece in new.pieces if piece.number not in there and piece.number not in last]
    for piece in added:
        pieces.insert(_place(pieces, piece), piece)
    touched = digest(now.head) not in (last.get(HEAD), digest(new.head))
    return Merged(
        SourceText(now.head if touched else new.head, tuple(map(_ended, pieces))),
        tuple(renewed),
        tuple(piece.number for piece in added),
        tuple(yours),
        tuple(differs),
        tuple(stayed_out),
        tuple(dropped),
    )


def _place(pieces: list[Piece], new: Piece) -> int:
    """Before the first paragraph with a higher number."""
    return next((at for at, piece in enumerate(pieces) if piece.number and _rank(piece) > _rank(new)), len(pieces))


def _rank(piece: Piece) -> tuple[int, str]:
    match = re.match(r"(\d+)([a-z]?)", piece.number)
    assert match is not None
    return int(match[1]), match[2]


def _ended(piece: Piece) -> Piece:
    """With a blank line at its end, so that a heading never joins the text before it."""
    return piece if piece.text.endswith("\n\n") else Piece(piece.number, piece.text.rstrip("\n") + "\n\n")
