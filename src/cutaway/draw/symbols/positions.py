"""How the positions of a control lie beside one another, from left to right or from the foot up.

The plate on the panel says it where it names every position (`PORT / OFF / STBD`): the book tells what is painted.
Else a position of rest that is named first lies between the two others, port and left lie to the left, and up is above.
"""

import re
from dataclasses import replace

from cutaway.draw.symbols.symbol import Setting
from cutaway.handbook.names import fold

RESTS = ("neutral", "off", "central", "normal")
"""Positions between two others, though they are named first, since a control is left there."""

LEFT, RIGHT = frozenset({"port", "left"}), frozenset({"starboard", "right"})
UP, DOWN = frozenset({"up", "raised"}), frozenset({"down", "lowered"})


def as_they_lie(setting: Setting, marked: str = "") -> Setting:
    """The control with its positions in the order in which a hand passes them. marked: the words of its plate.

    >>> as_they_lie(Setting(("neutral", "down", "up"), 0.0)).positions
    ('down', 'neutral', 'up')
    >>> as_they_lie(Setting(("off", "port tank", "hull tank"), 0.0), "OFF / WING / HULL").positions
    ('off', 'port tank', 'hull tank')
    >>> as_they_lie(Setting(("central", "starboard", "port"), 0.0)).positions
    ('port', 'central', 'starboard')
    """
    if setting.ranged:
        return setting
    words = _painted(setting.positions, marked) or _usual(setting.positions)
    if _begins_with(words, UP):
        words = words[::-1]
    return _in_order(setting, words)


def stands_upright(setting: Setting) -> bool:
    """Whether one of the ends is called up or down, so that the handle moves so on a drawing too."""
    ends = {fold(word) for word in (setting.positions[0], setting.positions[-1])} if setting.positions else set()
    return not setting.ranged and bool(ends & (UP | DOWN))


def _usual(words: tuple[str, ...]) -> tuple[str, ...]:
    if len(words) == 3 and fold(words[0]) in RESTS:
        words = (words[1], words[0], words[2])
    return words[::-1] if _begins_with(words, RIGHT) and _begins_with(words[::-1], LEFT) else words


def _begins_with(words: tuple[str, ...], some: frozenset[str]) -> bool:
    return bool(words) and bool(set(fold(words[0]).split()) & some)


def _in_order(setting: Setting, words: tuple[str, ...]) -> Setting:
    index = None if setting.place is None else round(setting.place)
    if index is None or not 0 <= index < len(words):
        return replace(setting, positions=words, place=None)
    return replace(setting, positions=words, place=float(words.index(setting.positions[index])))


def _painted(positions: tuple[str, ...], marked: str) -> tuple[str, ...]:
    """The positions in the order of the plate; () where it does not name them all, or not for certain.

    One word may be another than the position's: with all others known it can mean no other.
    """
    painted = [fold(word) for word in re.split(r"\s*/\s*", marked.strip())]
    if len(painted) != len(positions) or len(set(painted)) < len(painted):
        return ()
    found: list[str] = []
    for word in painted:
        fits = [name for name in positions if word == fold(name)]
        fits = fits or [name for name in positions if any(_short_for(word, one) for one in fold(name).split())]
        if len(fits) > 1:
            return ()
        found.append(fits[0] if fits else "")
    left = [name for name in positions if name not in found]
    if len(left) > 1 or len(set(found)) < len(found):
        return ()
    return tuple(name or left[0] for name in found)


def _short_for(word: str, whole: str) -> bool:
    """Whether a word is another cut short: its letters in their order, from the same first one.

    >>> _short_for("stbd", "starboard"), _short_for("l", "left"), _short_for("off", "on")
    (True, True, False)
    """
    rest = iter(whole)
    return word[:1] == whole[:1] and all(letter in rest for letter in word)
