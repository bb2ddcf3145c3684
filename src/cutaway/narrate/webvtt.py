"""Captions and chapters as WebVTT text. The W3C's rules for writers are obeyed."""

import re
from collections.abc import Mapping

from cutaway.handbook.records import Script
from cutaway.narrate.captions import Cue
from cutaway.narrate.timing import Slot

_UNPRINTABLE = re.compile(r"[\x00-\x08\x0b-\x1f\x7f\u2028\u2029]")


def caption_file(
    cues: tuple[Cue, ...], title: str, language: str = "en-GB", notes: Mapping[str, str] | None = None
) -> str:
    """The caption file: a comment that names the paragraphs behind each caption, then the caption. notes: more to say
    of a caption, by its identifier."""
    blocks = [_signature(title), f"NOTE Language: {language}"]
    for cue in cues:
        if cue.cites:
            blocks.append("NOTE " + _comment("From " + ", ".join(cue.cites)))
        if notes and cue.identifier in notes:
            blocks.append("NOTE " + _comment(notes[cue.identifier]))
        blocks.append(_block(cue.identifier, cue.start, cue.end, cue.lines))
    return _file(blocks)


def chapter_file(script: Script, slots: tuple[Slot, ...]) -> str:
    """The chapters of a script as a file of its own: one cue a chapter, from its first sentence to the next chapter."""
    blocks = [_signature(f"{script.title or script.name}, chapters")]
    starts = [
        at
        for at, sentence in enumerate(script.sentences)
        if at == 0 or sentence.chapter != script.sentences[at - 1].chapter
    ]
    for number, at in enumerate(starts, 1):
        end = slots[starts[number]].start if number < len(starts) else slots[-1].next
        name = script.sentences[at].chapter or script.title or script.name
        blocks.append(_block(f"chapter-{number}", slots[at].start, end, (name,)))
    return _file(blocks)


def timestamp(seconds: float) -> str:
    """Hours, minutes, seconds and thousandths, the hours of two digits or more.

    >>> timestamp(41.2), timestamp(3661.0005), timestamp(360000.0)
    ('00:00:41.200', '01:01:01.000', '100:00:00.000')
    """
    thousandths = round(seconds * 1000.0)
    minutes, thousandths = divmod(thousandths, 60_000)
    hours, minutes = divmod(minutes, 60)
    return f"{hours:02d}:{minutes:02d}:{thousandths // 1000:02d}.{thousandths % 1000:03d}"


def _signature(title: str) -> str:
    return "WEBVTT " + _comment(title)


def _block(identifier: str, start: float, end: float, lines: tuple[str, ...]) -> str:
    """One cue. The end is a thousandth past the start at least, for the rules allow no cue of no length."""
    last = max(end, start + 0.001)
    text = [escaped for line in lines if (escaped := _escaped(line))]
    return "\n".join((_comment(identifier), f"{timestamp(start)} --> {timestamp(last)}", *text))


def _escaped(line: str) -> str:
    """A line of cue text: `&`, `<` and `>` as references, on one line."""
    return _one_line(line).replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def _comment(text: str) -> str:
    """Text where references are not read, so that an arrow has to be written in another way."""
    return _one_line(text).replace("-->", "→")


def _one_line(text: str) -> str:
    return " ".join(_UNPRINTABLE.sub(" ", text).split())


def _file(blocks: list[str]) -> str:
    return "\n\n".join(blocks) + "\n"
