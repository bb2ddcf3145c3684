"""The one writer of SVG: escaped, fixed decimals, classes and no colours, ids from names; same picture, same bytes."""

import re
import unicodedata
from collections.abc import Iterable, Iterator
from html import escape
from typing import Literal

from cutaway.draw.shapes import Circle, Group, Image, Line, Path, Picture, Point, Polyline, Rect, Shape, Text
from cutaway.draw.theme import Manner, ground_rules, stylesheet

Ground = Literal["paper", "panel", "clear"]
"""What a drawing lies on: its own paper, paper that lets a film shine through, or nothing."""

DECIMALS = 2
_CONTROL_CHARACTERS = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff\ud800-\udfff]")


def write_svg(picture: Picture, manner: Manner, ground: Ground = "paper", style: str = "", role: str = "img") -> str:
    """The picture as a complete SVG file with its colours and its words, ending with a line end.

    style: rules beyond the theme's. role: 'group' for a picture with links in it, which readers must be able to reach.
    """
    ident = slug(picture.name)
    words = f'<desc id="{ident}-desc">{_text(" ".join(picture.description))}</desc>'
    rules = f"{stylesheet(manner)}{ground_rules(manner, ground)}{style}"
    return _svg(picture, f"{ident}-title {ident}-desc", (words, f"<style>\n{rules}</style>"), ground != "clear", role)


def write_inner_svg(picture: Picture) -> str:
    """The picture as an element of a page that has the stylesheet and puts the description beside it."""
    return _svg(picture, f"{slug(picture.name)}-title", ())


def _svg(picture: Picture, labelled: str, before: Iterable[str], paper: bool = True, role: str = "img") -> str:
    width, height = picture.size
    ident = slug(picture.name)
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_number(width)} {_number(height)}" '
        f'width="{_number(width)}" height="{_number(height)}" class="sheet" id="{ident}" '
        f'role="{role}" aria-labelledby="{labelled}">',
        f'<title id="{ident}-title">{_text(picture.title)}</title>',
        *before,
    ]
    if paper:
        lines.append(f'<rect class="paper" x="0" y="0" width="{_number(width)}" height="{_number(height)}"/>')
    for shape in picture.shapes:
        lines.extend(_written(shape, ident))
    lines.append("</svg>")
    return "\n".join(lines) + "\n"


def shapes_text(shapes: Iterable[Shape], ident: str) -> str:
    """Shapes as they stand in a picture whose ids begin with `ident`, for a page that puts them there itself."""
    return "\n".join(line for shape in shapes for line in _written(shape, ident))


def slug(words: str) -> str:
    """A name as an id: lower case, hyphens, plain letters; empty names become 'x'.

    >>> slug("Mk 2 with mod 12")
    'mk-2-with-mod-12'
    """
    plain = unicodedata.normalize("NFKD", words).encode("ascii", "ignore").decode("ascii").lower()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-") or "x"


def _written(shape: Shape, ident: str) -> Iterator[str]:
    match shape:
        case Group():
            yield from _group(shape, ident)
        case Text():
            yield _text_element(shape)
        case Line(start, end, role):
            ends = f'x1="{_number(start[0])}" y1="{_number(start[1])}" x2="{_number(end[0])}" y2="{_number(end[1])}"'
            yield f'<line class="{_text(role)}" {ends}/>'
        case Polyline(points, role, closed):
            yield f'<{"polygon" if closed else "polyline"} class="{_text(role)}" points="{_points(points)}"/>'
        case Circle(centre, radius, role):
            at = f'cx="{_number(centre[0])}" cy="{_number(centre[1])}" r="{_number(radius)}"'
            yield f'<circle class="{_text(role)}" {at}/>'
        case Rect(corner, size, role, radius):
            at = f'x="{_number(corner[0])}" y="{_number(corner[1])}"'
            sides = f'width="{_number(size[0])}" height="{_number(size[1])}"'
            rounded = f' rx="{_number(radius)}"' if radius else ""
            yield f'<rect class="{_text(role)}" {at} {sides}{rounded}/>'
        case Image(corner, size, href):
            at = f'x="{_number(corner[0])}" y="{_number(corner[1])}"'
            sides = f'width="{_number(size[0])}" height="{_number(size[1])}"'
            yield f'<image {at} {sides} preserveAspectRatio="none" href="{_text(href)}"/>'
        case Path(commands, role):
            way = " ".join(f"{letter} {' '.join(_number(n) for n in numbers)}".strip() for letter, numbers in commands)
            yield f'<path class="{_text(role)}" d="{way}"/>'


def _group(group: Group, ident: str) -> Iterator[str]:
    given = (
        ("id", f"{ident}-{slug(group.name)}" if group.name else ""),
        ("class", group.role),
        ("data-part", group.part),
        ("data-reference", group.reference),
        ("data-line", group.line),
    )
    attributes = "".join(f' {key}="{_text(value)}"' for key, value in given if value)
    tag = "a" if group.link else "g"
    link = f' href="#{ident}-{slug(group.link)}"' if group.link else ""
    yield f"<{tag}{link}{attributes}>"
    if group.title:
        yield f"<title>{_text(group.title)}</title>"
    for shape in group.shapes:
        yield from _written(shape, ident)
    yield f"</{tag}>"


def _text_element(text: Text) -> str:
    place = f'x="{_number(text.at[0])}" y="{_number(text.at[1])}" font-size="{_number(text.size)}"'
    anchor = "" if text.align == "start" else f' text-anchor="{text.align}"'
    fitted = f' textLength="{_number(text.width)}" lengthAdjust="spacingAndGlyphs"' if text.width else ""
    return f'<text class="{_text(text.role)}" {place}{anchor}{fitted}>{_text(text.words)}</text>'


def _points(points: tuple[Point, ...]) -> str:
    return " ".join(f"{_number(x)},{_number(y)}" for x, y in points)


def _number(value: float) -> str:
    """Fixed decimals without idle zeros; never '-0'."""
    words = f"{value:.{DECIMALS}f}".rstrip("0").rstrip(".")
    return "0" if words in ("-0", "") else words


def _text(words: str) -> str:
    return escape(_CONTROL_CHARACTERS.sub("\ufffd", words), quote=True)
