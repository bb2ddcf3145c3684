"""How each role looks, in a light and a dark theme. Colours stand here and nowhere else.

No meaning hangs on colour alone: what is live is a double or a beaded line, each medium has a dash of its own inside
the double line, flow has arrows, a lit lamp has rays, and words say it again. Contrast is tested by the published
formula: 4.5 for text, 3 for lines, against everything that they can lie on.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

Manner = Literal["light", "dark", "both", "print"]
"""For which screen a drawing is coloured: 'both' follows the reader's. 'print': for white paper."""

FONT_FAMILY = '"DejaVu Sans", Verdana, sans-serif'


@dataclass(frozen=True, slots=True)
class Theme:
    """A name and the colour of each ink, by the ink's name."""

    name: str
    inks: tuple[tuple[str, str], ...]

    def ink(self, name: str) -> str:
        """The colour of one ink, '#rrggbb'."""
        return dict(self.inks)[name]


LIGHT = Theme(
    "light",
    (
        ("paper", "#fcfbf7"),
        ("face", "#ffffff"),
        ("band", "#f0ede4"),
        ("ink", "#1b2126"),
        ("quiet", "#555d64"),
        ("petrol", "#a63c06"),
        ("oil", "#6d3a94"),
        ("air", "#08664c"),
        ("current", "#0a559c"),
        ("heat", "#8a2c4d"),
        ("shaft", "#4d4a12"),
        ("glow", "#ffc61a"),
        ("onglow", "#1b2126"),
        ("first", "#7a4a00"),
        ("second", "#005f73"),
    ),
)
DARK = Theme(
    "dark",
    (
        ("paper", "#12171b"),
        ("face", "#1a2127"),
        ("band", "#222b32"),
        ("ink", "#edf1f3"),
        ("quiet", "#a3aeb6"),
        ("petrol", "#ff9a66"),
        ("oil", "#cda6f2"),
        ("air", "#5cd6ad"),
        ("current", "#78bbff"),
        ("heat", "#f39bb8"),
        ("shaft", "#d6d08a"),
        ("glow", "#ffd34d"),
        ("onglow", "#1b2126"),
        ("first", "#f2c879"),
        ("second", "#7fd6e8"),
    ),
)
THEMES = {theme.name: theme for theme in (LIGHT, DARK)}
PRINT = Theme("print", tuple((name, "#ffffff" if name == "paper" else ink) for name, ink in LIGHT.inks))
GROUNDS = ("paper", "face", "band")
MEDIA = ("petrol", "oil", "air", "current", "heat", "shaft")


@dataclass(frozen=True, slots=True)
class Rule:
    """How one role looks. role: its words. fill, stroke: an ink's name, 'none' or ''. rest: other properties."""

    role: str
    fill: str = ""
    stroke: str = ""
    rest: tuple[tuple[str, str], ...] = ()


def _line(role: str, stroke: str, width: float, dashes: str = "", cap: str = "butt") -> Rule:
    """A stroke without fill."""
    rest = [("stroke-width", f"{width:g}"), ("stroke-linejoin", "round"), ("stroke-linecap", cap)]
    if dashes:
        rest.append(("stroke-dasharray", dashes))
    return Rule(role, "none", stroke, tuple(rest))


def _area(role: str, fill: str, stroke: str = "none", width: float = 0.0) -> Rule:
    """A filled area, with an edge where `width` is given."""
    return Rule(role, fill, stroke, (("stroke-width", f"{width:g}"), ("stroke-linejoin", "round")) if width else ())


TEXT_RULES = (
    Rule("name", "ink", rest=(("font-weight", "bold"),)),
    Rule("note", "ink"),
    Rule("quiet", "quiet"),
    Rule("station", "quiet", rest=(("font-style", "italic"),)),
    Rule("title", "ink", rest=(("font-weight", "bold"),)),
    Rule("mark", "ink"),
    Rule("strong", "ink", rest=(("font-weight", "bold"),)),
)
"""The roles of words; each must be readable on every ground."""

GLOW_RULES = (Rule("mark on", "onglow"),)
"""The roles of words that stand on what glows."""

INKED_RULES = (
    _line("stroke", "ink", 2.4, cap="round"),
    _line("thin", "ink", 1.5, cap="round"),
    _line("heavy", "ink", 5.0, cap="round"),
    _line("dashed", "ink", 2.0, "6 5"),
    _line("link", "quiet", 1.6, "5 5"),
    _line("rule", "quiet", 1.2),
    _area("edge", "face", "ink", 2.4),
    _area("ring", "none", "ink", 2.4),
    _area("solid", "ink"),
    _area("joint", "ink"),
    _area("flag", "band", "quiet", 1.4),
    _area("box", "face", "ink", 2.4),
    _area("linkhead", "quiet"),
    _line("only first", "first", 3.2),
    _line("only second", "second", 2.4, "9 5"),
    _area("only first mark", "first"),
    _area("only second mark", "face", "second", 3.0),
)
"""The roles of lines and marks that must be seen on every ground."""

SOFT_RULES = (
    Rule("paper", "paper"),
    _area("shade", "band"),
    _line("only first under", "first", 22.0),
    _line("only second under", "second", 22.0, "5 7"),
    Rule("area", "band", "quiet", (("stroke-width", "1.2"), ("stroke-dasharray", "1.5 4"))),
    _area("blank", "face"),
    _area("strip", "band"),
    _line("halo", "paper", 15.0),
    _line("wire lit", "onglow", 2.4, cap="round"),
    _area("glass out", "face", "ink", 2.4),
    _area("glass lit", "glow", "ink", 2.4),
)
"""Grounds, and fills that an inked edge surrounds."""


def _medium_rules(medium: str) -> tuple[Rule, ...]:
    """Pipes, wires and contents of one medium. Live: a double line with the medium's own dash within, wires thick."""
    cores = {"petrol": "", "oil": "0.1 9", "air": "9 7", "current": "", "heat": "3 3", "shaft": "14 4"}
    wire = medium == "current"  # dead, it is told from a pipe at rest even in grey
    rules = [
        _line(f"pipe {medium} dead", "current" if wire else "quiet", 1.8 if wire else 2.0, "15 4" if wire else ""),
        _line(f"pipe {medium} flowing", medium, 4.0),
        _line(f"pipe {medium} unknown", medium, 2.6),
        _area(f"arrow {medium}", medium),
        _area(f"fluid {medium}", medium),
    ]
    if medium == "current":  # beads of paper along it tell it in grey from a pipe that merely flows
        return (*rules, _line(f"casing {medium}", medium, 5.5), _line(f"grain {medium}", "paper", 1.7, "1.7 9"))
    rules += [_line(f"casing {medium}", medium, 9.0), _line(f"core {medium}", "paper", 4.6)]
    if cores[medium]:
        rules.append(_line(f"grain {medium}", medium, 3.0, cores[medium], "round" if medium == "oil" else "butt"))
    return tuple(rules)


MEDIUM_RULES = tuple(rule for medium in MEDIA for rule in _medium_rules(medium))
RULES = SOFT_RULES + INKED_RULES + MEDIUM_RULES
DASHED = frozenset(rule.role for rule in MEDIUM_RULES if any(key == "stroke-dasharray" for key, _ in rule.rest))
GRAINED = frozenset(rule.role.split()[1] for rule in MEDIUM_RULES if rule.role.startswith("grain "))


def stylesheet(manner: Manner) -> str:
    """A theme as CSS, one rule a line. 'both': light, and dark where the reader's screen is dark.

    Programs that know nothing of dark screens pass over that block, and show the light theme.
    """
    light = _block(_theme(manner), _css)
    if manner != "both":
        return light
    return f"{light}@media screen and (prefers-color-scheme:dark){{\n{_block(DARK, _recoloured)}}}\n"


def _theme(manner: Manner) -> Theme:
    return PRINT if manner == "print" else THEMES["light" if manner == "both" else manner]


def ground_rules(manner: Manner, ground: str) -> str:
    """What a ground other than plain paper asks for: words edged with paper, so that they can be read on any film."""
    if ground == "panel":
        return ".sheet .paper{fill-opacity:0.86}\n"
    if ground != "clear":
        return ""
    paper = _theme(manner).ink("paper")
    words = f".sheet text{{paint-order:stroke;stroke:{paper};stroke-width:5;stroke-linejoin:round}}\n"
    return words + ".sheet .coupling .halo{stroke-width:7}\n"


def _block(theme: Theme, css: Callable[[Theme, str, Rule], str]) -> str:
    lines = [f".sheet text{{font-family:{FONT_FAMILY}}}"] if css is _css else []
    lines += [css(theme, "text", rule) for rule in (*TEXT_RULES, *GLOW_RULES)]
    lines += [css(theme, "", rule) for rule in RULES]
    return "\n".join(line for line in lines if line) + "\n"


def _css(theme: Theme, element: str, rule: Rule) -> str:
    return _rule(element, rule, (*_colours(theme, rule), *rule.rest))


def _recoloured(theme: Theme, element: str, rule: Rule) -> str:
    """What of a rule differs from theme to theme; '' where nothing does."""
    colours = tuple((key, value) for key, value in _colours(theme, rule) if value != "none")
    return _rule(element, rule, colours) if colours else ""


def _colours(theme: Theme, rule: Rule) -> tuple[tuple[str, str], ...]:
    return tuple(
        (key, ink if ink == "none" else theme.ink(ink))
        for key, ink in (("fill", rule.fill), ("stroke", rule.stroke))
        if ink
    )


def _rule(element: str, rule: Rule, properties: tuple[tuple[str, str], ...]) -> str:
    classes = "".join(f".{word}" for word in rule.role.split())
    return f".sheet {element}{classes}{{{';'.join(f'{key}:{value}' for key, value in properties)}}}"


def luminance(colour: str) -> float:
    """Relative luminance of '#rrggbb' in sRGB, 0 to 1, by the formula of the web accessibility guidelines 2.2.

    >>> luminance("#ffffff")
    1.0
    """
    red, green, blue = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in (red, green, blue)]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours, 1 to 21.

    >>> round(contrast("#777777", "#ffffff"), 2)
    4.48
    """
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)
