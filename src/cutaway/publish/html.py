"""HTML built from pieces that are safe by construction: plain text is always escaped, only made pieces are not."""

import html
from collections.abc import Iterable

_VOID = frozenset({"meta", "img", "input", "br", "hr", "link", "source"})


class Html(str):
    """Text that is HTML already. Only `el`, `join`, `raw_style`, `raw_script` and `drawing` make it."""

    __slots__ = ()


def el(name: str, /, *children: str, **attributes: str | bool) -> Html:
    """An element. Children that are not `Html` are escaped; `class_` stands for class, `for_` for for, `a_b` for a-b.

    An attribute that is False or '' is left out, except `alt`, which means something when it is empty.

    >>> el("p", "Hallam & Reeve, ", el("em", "<1938>"), class_="maker")
    '<p class="maker">Hallam &amp; Reeve, <em>&lt;1938&gt;</em></p>'
    """
    start = f"<{name}{''.join(_attribute(key, value) for key, value in attributes.items())}>"
    if name in _VOID:
        assert not children
        return Html(start)
    return Html(f"{start}{join(children)}</{name}>")


def join(children: Iterable[str], between: str = "") -> Html:
    """Pieces one after the other, each escaped unless it is HTML already."""
    return Html(
        html.escape(between).join(child if isinstance(child, Html) else html.escape(child) for child in children)
    )


def raw_style(text: str) -> Html:
    """Our own style sheet, which holds no text of a user."""
    assert "</" not in text
    return Html(f"<style>\n{text}</style>")


def drawing(svg: str, told: str = "") -> Html:
    """A drawing by our own writer of SVG, which escapes every word in it. told: the ids of what tells it in words."""
    assert svg.startswith("<svg ") and "<script" not in svg
    head, end, rest = svg.partition(">")
    return Html(f"{head}{_attribute('aria_describedby', told)}{end}{rest}")


def anchor(*words: str) -> str:
    """An id made from names, different for names that differ.

    >>> anchor("p", "hb §25a"), anchor("p", "hb §25A")
    ('p.hb-_a7_25a', 'p.hb-_a7_25_41_')
    """
    return ".".join("".join(_in_anchor(letter) for letter in word) for word in words)


def _in_anchor(letter: str) -> str:
    if letter == " ":
        return "-"
    return letter if letter in "abcdefghijklmnopqrstuvwxyz0123456789" else f"_{ord(letter):x}_"


def _attribute(key: str, value: str | bool) -> str:
    name = key.rstrip("_").replace("_", "-")
    if value is False or (value == "" and name != "alt"):
        return ""
    return f" {name}" if value is True else f' {name}="{html.escape(str(value))}"'


def raw_script(text: str) -> Html:
    """Our own script, which holds no text of a user."""
    assert "</" not in text and "<!--" not in text
    return Html(f"<script>{text}</script>")
