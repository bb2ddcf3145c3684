"""Captions as SRT text, for programs that take no WebVTT. No standard exists; what most readers agree on is kept to."""

import re

from cutaway.narrate.captions import Cue
from cutaway.narrate.webvtt import timestamp


def srt_file(cues: tuple[Cue, ...]) -> str:
    """The captions numbered from 1, with comma times and CR LF. The same times as in the WebVTT file, to the
    thousandth; comments, identifiers and references are not part of this form."""
    return "".join(_block(number, cue) for number, cue in enumerate(cues, 1))


def _block(number: int, cue: Cue) -> str:
    last = max(cue.end, cue.start + 0.001)
    times = f"{_time(cue.start)} --> {_time(last)}"
    # A blank line would end the caption, an arrow could be taken for the next one's times.
    lines = [
        line for text in cue.lines if (line := " ".join(re.sub(r"[\x00-\x1f\x7f\u2028\u2029]", " ", text).split()))
    ]
    return "\r\n".join((str(number), times, *(line.replace("-->", "→") for line in lines), "", ""))


def _time(seconds: float) -> str:
    """Hours, minutes, seconds and thousandths with a comma; rounded as in WebVTT, not cut.

    >>> _time(3602.0005)
    '01:00:02,000'
    >>> _time(1.4996)
    '00:00:01,500'
    """
    return timestamp(seconds).replace(".", ",")
