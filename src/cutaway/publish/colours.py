"""The colours of every page of the pack in one place: the inks of the drawings, and the few that only pages have.

Style sheets name colours as `var(--ink)` and have none of their own, so that a page and the drawings on it agree.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from cutaway.draw.theme import DARK, LIGHT, PRINT, Theme

Screens = Literal["both", "dark"]
"""For which screens a page is coloured: 'both' follows the reader's."""

DRAWN = ("paper", "face", "band", "ink", "quiet", "glow", "onglow")
"""The inks of the drawings that pages use as well, by the names that they have there."""


@dataclass(frozen=True, slots=True)
class Colour:
    """A colour that only pages have, for a light and a dark screen; on paper it is as on a light one."""

    name: str
    light: str
    dark: str


PAGE_ONLY = (
    Colour("rule", "#d8d1c1", "#3a3f40"),
    Colour("edge", "#857c68", "#868a80"),
    Colour("link", "#1d4f7c", "#94c3ec"),
    Colour("holds", "#0b6147", "#6fcfa9"),
    Colour("stated", "#2f5577", "#9cc0e4"),
    Colour("rests", "#7a4f00", "#e3b863"),
    Colour("fails", "#a3280c", "#ff9b80"),
    Colour("open", "#5b4a80", "#c6b3f0"),
    Colour("caution", "#fff1cf", "#33290f"),
    Colour("caution-edge", "#9a6a00", "#d0a040"),
)


def named(theme: Theme) -> dict[str, str]:
    """Every colour that a page may name, as it is with one theme of the drawings."""
    own = {one.name: one.dark if theme is DARK else one.light for one in PAGE_ONLY}
    return {ink: theme.ink(ink) for ink in DRAWN} | own


def colours(screens: Screens) -> str:
    """The colours as CSS, for a screen and for paper."""
    paper = f"@media print{{\n{_block(PRINT, 'light')}}}\n"
    if screens == "dark":
        return _block(DARK, "dark") + paper
    dark = f"@media screen and (prefers-color-scheme:dark){{\n{_block(DARK, '')}}}\n"
    return _block(LIGHT, "light dark") + dark + paper


def _block(theme: Theme, scheme: str) -> str:
    return f":root{{{';'.join(_properties(theme, scheme))}}}\n"


def _properties(theme: Theme, scheme: str) -> Iterable[str]:
    if scheme:
        yield f"color-scheme:{scheme}"
    for name, colour in named(theme).items():
        yield f"--{name}:{colour}"
