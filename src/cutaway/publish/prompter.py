"""The prompter page of a script: large text that runs past a line at the speed at which it is timed.

One file that needs no network. Figures, marks and names that are said otherwise than written carry how they are said.
"""

import re
from difflib import SequenceMatcher
from itertools import groupby

from cutaway.narrate.clock import clock
from cutaway.narrate.desk import Line, ScriptDesk
from cutaway.publish.document import document, own
from cutaway.publish.html import Html, el, join


def prompter_page(script: ScriptDesk, language: str = "en-GB") -> str:
    """The prompter of one script as the text of an HTML file. Same script, same bytes."""
    body = (_bar(), el("main", *_lines(script)))
    return document(
        f"{script.title}, prompter",
        own("prompter.css"),
        body,
        language,
        script=own("prompter.js"),
        screens="dark",
        data_length=f"{script.length:.3f}",
    )


def _bar() -> Html:
    return el(
        "div",
        *(el("button", f"{does} ({key})", id=ident, type="button") for ident, does, key in _BUTTONS),
        el("span", "", id="clock"),
        el("span", "", id="state", role="status"),
        id="bar",
        role="region",
        aria_label="Running the prompter",
        hidden=True,
    )


_BUTTONS = (
    ("run", "Run or stop", "space"),
    ("back", "Back", "↑"),
    ("on", "On", "↓"),
    ("slower", "Slower", "←"),
    ("faster", "Faster", "→"),
    ("mirror", "Mirror", "m"),
)
"""What can be done with the text, as buttons for who has no keys: id, what it does, its key."""


def _lines(script: ScriptDesk) -> list[Html]:
    found = [el("h1", script.title)]
    for chapter, lines in groupby(script.lines, key=lambda line: line.chapter):
        if chapter:
            found.append(el("h2", chapter))
        found.extend(_line(line) for line in lines)
    return found


def _line(line: Line) -> Html:
    time = el("span", clock(line.start), class_="time")
    text = said_beside(line.text, line.spoken)
    return el("p", time, text, class_="line", data_start=f"{line.start:.3f}")


def said_beside(written: str, spoken: str) -> Html:
    """The written sentence, with the spoken form under each stretch that is said otherwise.

    >>> said_beside("It holds 2 lb/sq in.", "It holds two pounds per square inch.")
    'It holds <ruby>2 lb/sq in.<rt>two pounds per square inch.</rt></ruby>'
    """
    one, other = written.split(), spoken.split()
    pieces: list[str] = []
    for tag, a, b, c, d in SequenceMatcher(None, one, other, autojunk=False).get_opcodes():
        here, there = " ".join(one[a:b]), " ".join(other[c:d])
        if tag == "equal" or re.sub(r"\W", "", here.lower()) == re.sub(r"\W", "", there.lower()):
            pieces.append(here)
        elif here:
            pieces.append(el("ruby", here, el("rt", there)))
        else:
            pieces.append(el("ruby", "‸", el("rt", there)))
    return join((piece for piece in pieces if piece), " ")
