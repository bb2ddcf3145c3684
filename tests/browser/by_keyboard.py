"""A page gone through by the keyboard alone: what can be reached, and whether it is seen when it is."""

from typing import Any

# What a reader can work, one of each group of radio buttons.
_EVERY = """() => [...document.querySelectorAll('a[href], button, input, summary, [tabindex="0"]')]
    .filter(e => e.checkVisibility() && !e.disabled)
    .filter(e => e.type !== 'radio' || e === [...document.getElementsByName(e.name)]
        .reduce((one, other) => !one || other.checked ? other : one, null))
    .map((e, number) => e.dataset.key = String(number))"""

# The key of what has the focus, and what is wrong with how it is seen: a choice is marked on its label.
_HERE = """() => { const e = document.activeElement;
    if (!e || e === document.body) return null;
    const seen = e.matches('.choice input') ? e.nextElementSibling : e;
    const style = getComputedStyle(seen), box = seen.getClientRects()[0];
    const marked = style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2;
    const x = box.left + Math.min(box.width / 2, 30), y = Math.max(box.top, 0) + Math.min(box.height / 2, 10);
    const top = document.elementFromPoint(x, y);
    const shown = top !== null && (seen.contains(top) || top.contains(seen));
    return [e.dataset.key ?? '', marked ? (shown ? '' : 'covered') : 'not marked', e.outerHTML.slice(0, 90)]; }"""


def unreachable(page: Any, most: int = 40) -> list[str]:
    """What on a page the tabulator does not come to in the order of the page, or where nobody sees that it has."""
    every: list[str] = page.evaluate(_EVERY)
    found: list[str] = []
    reached: list[str] = []
    for _ in range(min(len(every), most)):
        page.keyboard.press("Tab")
        here = page.evaluate(_HERE)
        if here is None:
            break
        reached.append(here[0])
        if here[1]:
            found.append(f"{here[1]}: {here[2]}")
    if reached != every[:most]:
        lost = next(i for i in range(len(every)) if reached[i : i + 1] != every[i : i + 1])
        found.append(f"{len(reached)} of {len(every)} reached in order; not {page.evaluate(_NAMED, every[lost])}")
    return found


_NAMED = "key => document.querySelector(`[data-key='${key}']`).outerHTML.slice(0, 120)"
