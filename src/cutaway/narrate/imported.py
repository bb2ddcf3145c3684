"""Words that were written elsewhere, as the text of a script: captions, Markdown, plain text, or a manuscript."""

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace

from cutaway.narrate.caption_reading import ReadCue
from cutaway.narrate.not_spoken import LeftOut, Piece, spoken
from cutaway.narrate.unpunctuated import with_ends

# A silence of so long between two captions is a new paragraph. A choice of ours.
_NEW_PARAGRAPH = 3.0
# And so is the end of a sentence after so many words, where nobody ever falls silent.
_LONG_PARAGRAPH = 60
_SENTENCE_END = re.compile(r"[.!?…][\"'”’)\]]*$")
# What Markdown or the marks of a script would make of plain words.
_SPECIAL = re.compile(r"([\\`*_\[\]<>])")
_LINE_START = re.compile(r"^(\s*)(#{1,6}(?=\s)|[-+](?=\s)|>|={3,}|-{3,}|~{3,})")
_NUMBERED = re.compile(r"^(\s*\d{1,9})([.)])(?=\s)")


@dataclass(frozen=True, slots=True)
class Block:
    """A heading or a paragraph of a manuscript. level: 0 a paragraph, 1 the title, 2 and more a chapter."""

    level: int
    text: str


def script_text(title: str, blocks: Iterable[Block], source: str) -> str:
    """The text of a script file: a heading with the title, chapters, paragraphs; and what it was made from."""
    found = [block for block in blocks if block.text.strip()]
    first = next((block.text for block in found if block.level == 1), "")
    lines = [f"# {_plain(first or title)}", f"<!-- Taken from {_comment(source)}. -->"]
    skipped = not first
    for block in found:
        if block.level == 1 and not skipped:
            skipped = True
        elif block.level:
            lines.append(f"## {_plain(block.text)}")
        else:
            lines.append(_plain(block.text))
    return "\n\n".join(lines) + "\n"


def _plain(text: str) -> str:
    """Words that Markdown leaves as they are."""
    line = _SPECIAL.sub(r"\\\1", " ".join(text.split()))
    line = _LINE_START.sub(lambda m: f"{m[1]}\\{m[2]}", line)
    return _NUMBERED.sub(r"\1\\\2", line)


def _comment(text: str) -> str:
    return re.sub(r"--+>?", "-", " ".join(text.split()))


def from_captions(cues: tuple[ReadCue, ...]) -> tuple[tuple[Block, ...], LeftOut, int]:
    """The spoken words of captions as paragraphs; what was left out of them; how many ends of sentences were guessed.

    What rolls over from one caption to the next is taken once.
    """
    pieces, left_out = spoken(cues)
    ended, guessed = with_ends(_said_once(pieces))
    paragraphs: list[list[str]] = []
    for at, piece in enumerate(ended):
        if at == 0 or piece.speaker or piece.pause >= _NEW_PARAGRAPH or _full(paragraphs[-1]):
            paragraphs.append([])
        paragraphs[-1].append(piece.text)
    return tuple(Block(0, " ".join(parts)) for parts in paragraphs), left_out, guessed


def _said_once(pieces: tuple[Piece, ...]) -> list[Piece]:
    """The pieces without the words that the one before had at its end."""
    done: list[Piece] = []
    for at, piece in enumerate(pieces):
        near = at > 0 and piece.pause < _NEW_PARAGRAPH
        text = _not_said_yet(pieces[at - 1].text, piece.text) if near else piece.text
        if text:
            done.append(replace(piece, text=text))
    return done


def _full(parts: list[str]) -> bool:
    """Whether a paragraph is long enough and ends with a sentence."""
    return bool(_SENTENCE_END.search(parts[-1])) and sum(len(part.split()) for part in parts) >= _LONG_PARAGRAPH


def _not_said_yet(before: str, now: str) -> str:
    """What a caption adds to the one before it: machine-made captions often repeat their last line."""
    old, new = before.split(), now.split()
    for count in range(min(len(old), len(new)), 2, -1):
        if old[-count:] == new[:count]:
            return " ".join(new[count:])
    return now


def from_plain_text(text: str) -> tuple[Block, ...]:
    """Paragraphs divided by blank lines. A short line alone, without a full stop at its end, is a chapter."""
    blocks: list[Block] = []
    for piece in re.split(r"\n[ \t\f\v]*\n", text.replace("\f", "\n\n")):
        words = " ".join(piece.split())
        if not words:
            continue
        alone = "\n" not in piece.strip() and len(words) <= 60 and not re.search(r"[.,;:!?…][\"'”’)\]]*$", words)
        blocks.append(Block(2 if alone and re.search(r"\w", words) else 0, words))
    # Chapters with nothing under them are no chapters: a list of short lines, say.
    return tuple(
        Block(0, block.text) if block.level and (at + 1 == len(blocks) or blocks[at + 1].level) else block
        for at, block in enumerate(blocks)
    )
