"""The reference page of the part library, written from the declarations."""

from collections.abc import Iterable, Iterator, Mapping

from cutaway.parts.kind import Control, Coupling, Failure, Kind, Port, Reading, State, Want

_MEDIA_ORDER = ("petrol", "oil", "air", "current", "heat", "shaft")


def parts_page(kinds: Mapping[str, Kind]) -> str:
    """The page on all kinds, as Markdown: what each joins to, what is set, known, read and can go wrong."""
    lines = [
        "# The part library",
        "",
        "Written by `make docs` from the declarations in `src/cutaway/parts/kinds/`. Do not edit it here.",
        "",
        "A part needs no more than its kind. A quantity that must be given is marked so; every other has a default,",
        "and where a range stands beside it the default counts as an assumption and is tried over that range.",
        "",
        *_contents(kinds.values()),
    ]
    for kind in _in_order(kinds.values()):
        lines += ["", *_kind(kind)]
    return "\n".join(lines) + "\n"


def _in_order(kinds: Iterable[Kind]) -> list[Kind]:
    return sorted(kinds, key=lambda kind: kind.name)


def _contents(kinds: Iterable[Kind]) -> Iterator[str]:
    yield "| kind | joins | |"
    yield "|---|---|---|"
    for kind in _in_order(kinds):
        media = {port.medium or "any" for port in kind.ports}
        joins = ", ".join(sorted(media, key=lambda m: (*_MEDIA_ORDER, "any").index(m))) or "–"
        yield f"| [{kind.name}](#{kind.name.replace(' ', '-')}) | {joins} | {_first_sentence(kind.says)} |"


def _first_sentence(text: str) -> str:
    return text.split(". ")[0].rstrip(".") + "."


def _kind(kind: Kind) -> Iterator[str]:
    yield f"## {kind.name}"
    yield ""
    yield kind.says
    if kind.caution:
        yield from ("", f"> Caution: {kind.caution}")
    yield from _list("Ports", map(_port, kind.ports))
    yield from _list("Lists", (f"`{name}`: must be given; one port and one position each" for name in kind.lists))
    yield from _list("Controls", map(_control, kind.controls))
    yield from _wants(kind.wants)
    yield from _list("Coupled by", map(_coupling, kind.couplings))
    yield from _list("Is", map(_state, kind.states))
    yield from _list("Reads", map(_reading, kind.readings))
    yield from _list("Can be set in `start:`", (f"{c.dimension} of the {c.element}" for c in kind.contents))
    yield from _list("Can go wrong", map(_failure, kind.failures))
    if kind.families:
        yield from ("", f"Made of: {', '.join(kind.families)}.")


def _list(title: str, items: Iterable[str]) -> Iterator[str]:
    found = tuple(items)
    if found:
        yield from ("", f"{title}:", "")
        yield from (f"- {item}" for item in found)


def _port(port: Port) -> str:
    name = f"one for each of `{port.each}`" if port.each else f"`{port.name}`"
    meant = {"in": "; lines into the part", "out": "; lines out of it", "both": "; all lines", "": ""}[port.default]
    return f"{name}: {port.medium or 'what it is joined to'}{meant}"


def _control(control: Control) -> str:
    name = f"`{control.name}`: " if control.name else ""
    positions = ", ".join(control.positions) + (f", and one for each of `{control.each}`" if control.each else "")
    ranged = ", or any per cent of the way" if control.ranged else ""
    back = "; springs back when let go" if control.springs_back else ""
    return f"{name}{positions}{ranged}{back}"


def _wants(wants: tuple[Want, ...]) -> Iterator[str]:
    if not wants:
        return
    yield from ("", "| quantity | | default | range | why |", "|---|---|---|---|---|")
    for want in wants:
        default = want.default or "must be given"
        yield f"| {want.name} ({want.dimension}) | {want.says} | {default} | {_range(want)} | {want.because} |"


def _range(want: Want) -> str:
    if want.between:
        return want.between
    return f"usually {want.usual}" if want.usual else "–"


def _coupling(coupling: Coupling) -> str:
    what = {"signals": "a part", "node": "a port", "port": "a port"}[coupling.to]
    return f"`{coupling.name}:` {what}{', must be given' if coupling.required else ''}. {coupling.says}"


def _state(state: State) -> str:
    return f"{state.words}" + (f" / {state.opposite}" if state.opposite else f" / not {state.words}")


def _reading(reading: Reading) -> str:
    main = "; meant when the part alone is named" if reading.main else ""
    alive = "; nothing while it is dead" if reading.alive else ""
    return f"{reading.name}, {reading.unit}{main}{alive}"


def _failure(failure: Failure) -> str:
    return f"**{failure.name}**: {failure.says}"
