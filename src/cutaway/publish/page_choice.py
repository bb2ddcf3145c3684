"""Choosing what the page shows, without a script: radio buttons, on which the style sheet acts."""

from cutaway.publish.html import Html, el, join

_EVERY = "every"


def choice(legend: str, name: str, options: tuple[str, ...], chosen: int | None = None) -> Html:
    """One of several, or all: radio buttons, which the style sheet acts on without a script. chosen None: all."""
    if len(options) < 2:
        return Html("")
    rows = [_option(name, _EVERY, "all", checked=chosen is None)]
    rows += [_option(name, str(at), option, checked=at == chosen) for at, option in enumerate(options)]
    return el("fieldset", el("legend", legend), *rows, class_="choice")


def _option(name: str, value: str, label: str, checked: bool) -> Html:
    ident = f"{name}-{value}"
    radio = el("input", type="radio", name=name, id=ident, value=value, checked=checked)
    return join((radio, el("label", label, for_=ident)))


def choice_rules(name: str, classes: str, count: int) -> str:
    """Style rules: with option n chosen, what is for another option only is hidden."""
    return "\n".join(
        f"body:has(#{name}-{chosen}:checked) .{classes}-{other} {{ display: none; }}"
        for chosen in range(count)
        for other in range(count)
        if other != chosen
    )
