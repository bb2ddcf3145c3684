"""Whether every picture of a page is told in words, and whether those are the words of the drawing as it is."""

import html
import re
from collections.abc import Iterator
from pathlib import Path

_IMG = re.compile(r"<img ([^>]*)>")
_INLINE = re.compile(r'<svg ([^>]*role="(?:img|group)"[^>]*)>')
_PART = re.compile(r'<g [^>]*class="part[^"]*" data-part="([^"]*)"[^>]*>\s*<title>(.*?)</title>(.*?)</g>', re.DOTALL)


def untold(page: Path) -> list[str]:
    """What is wrong with the words of the pictures on a page: none there, or others than those of the drawing."""
    text = page.read_text(encoding="utf-8")
    told = {ident: html.unescape(words) for ident, words in re.findall(r'id="(w\d+)"[^>]*>([^<]*)<', text)}
    found: list[str] = []
    for shown, after in _pictures(text):
        alt, source = _of(shown, "alt"), _of(shown, "src") or _of(after, "href")
        words = " ".join(told.get(ident, "?") for ident in _of(shown, "aria-describedby").split())
        beside = re.search(r"<details><summary>[^<]*</summary>(.*?)</details>", after, re.DOTALL)
        known = {alt, words, " ".join(map(html.unescape, re.findall(r"<p>(.*?)</p>", beside[1] if beside else "")))}
        if _of(shown, "role") in ("img", "group") and not words:  # an explorable page, whose words change with it
            listed = text.partition('id="words"')[2].partition("</ul>")[0]
            words = " ".join(map(html.unescape, re.findall(r"<li>(.*?)</li>", listed)))
            known.add(words)
        if not (alt or _of(shown, "aria-labelledby")).strip():
            found.append(f"{page.name}: a picture without a name: {shown[:80]}")
        file = page.parent / source
        wanted = description(file.read_text(encoding="utf-8")) if source.endswith(".svg") and file.is_file() else words
        if not wanted.strip() or wanted not in known:
            found.append(f"{page.name}: {source or 'the drawing'} is told otherwise than it is: {sorted(known)}")
    return found


def _pictures(text: str) -> Iterator[tuple[str, str]]:
    """The attributes of each picture, and the page from there to the next."""
    places = sorted((*_IMG.finditer(text), *_INLINE.finditer(text)), key=lambda one: one.start())
    ends = [one.start() for one in places[1:]] + [len(text)] * bool(places)
    for one, end in zip(places, ends, strict=True):
        after = text[one.end() : end]
        yield one[1], after.partition("</svg>")[2] if one.re is _INLINE else after


def _of(attributes: str, name: str) -> str:
    found = re.search(rf'\b{name}="([^"]*)"', attributes)
    return html.unescape(found[1]) if found else ""


def description(svg: str) -> str:
    """What a drawing says of itself."""
    found = re.search(r"<desc[^>]*>(.*?)</desc>", svg, re.DOTALL)
    return html.unescape(found[1]) if found else ""


def unlike(svg: str) -> list[str]:
    """The parts of a sheet of which the words say otherwise than what is drawn beside them."""
    told = description(svg)
    found: list[str] = []
    for part, state, seen in _parts(svg):
        missing = [one for one in state.split(", ") if one not in seen]
        if missing or f"{part}: {state}" not in told:
            found.append(f"{part}: {state!r} is told, and {seen!r} is drawn")
    return found


def unsaid(svg: str) -> list[str]:
    """The parts of a panel of which the words do not say where they stand or what they show."""
    told = description(svg)
    found: list[str] = []
    for part, state, _ in _parts(svg):
        first = state.split(", ")[0].removeprefix("set to ").rpartition(": ")[2]
        if not re.search(rf"{re.escape(part)}[^;]*: {re.escape(first)}", told):
            found.append(f"{part}: {first!r} is not in the words")
    return found


def _parts(svg: str) -> Iterator[tuple[str, str, str]]:
    """Each part that is drawn with a state: its name, its state as it is told on pointing, the words drawn for it."""
    for name, title, drawn in _PART.findall(svg):
        part, words = html.unescape(name), html.unescape(title)
        if words.startswith(f"{part}: "):
            seen = " ".join(map(html.unescape, re.findall(r"<text[^>]*>(.*?)</text>", drawn)))
            yield part, words.removeprefix(f"{part}: ").partition(" (")[0], seen
