"""The pages of the part library, written from the declarations."""

import inspect
import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from types import MappingProxyType

from cutaway.parts.kind import Control, Coupling, Failure, Kind, Order, Port, Reading, State, TableWant, Want
from cutaway.parts.laws import current, gas, jacks, liquid, stores

_MEDIA_ORDER = ("petrol", "oil", "air", "current", "heat", "shaft")
_HEADINGS = {
    "petrol": "Petrol",
    "oil": "Oil",
    "air": "Air and suction",
    "current": "Current",
    "heat": "Heat",
    "shaft": "Shafts",
    "any": "Of any medium",
    "": "Engines, levers, instruments: nothing is joined to them by a line",
}


NOTE = "Written by `make docs` from the declarations in `src/cutaway/parts/kinds/`. Do not edit it here."

# The law of each family, whose docstring holds its formula.
LAW_OF: Mapping[str, Callable[..., object]] = MappingProxyType(
    {
        "LIN": liquid.linear,
        "ROOT": liquid.orifice,
        "GASROOT": gas.gas_orifice,
        "ONEWAY": liquid.one_way,
        "GASWAY": gas.gas_one_way,
        "RELIEF": liquid.relief,
        "REDUCE": liquid.reduce,
        "MAINTAIN": liquid.maintain,
        "SOURCE": current.source,
        "PDPUMP": liquid.pump,
        "DRAW": liquid.draw,
        "STORE": stores.store,
        "ACCUM": stores.accumulator,
        "TANK": stores.tank,
        "JACK": jacks.jack,
        "RAM": jacks.ram,
        "RATIO": current.motor,
        "DRAG": current.drag,
        "ADVECT": current.advect,
    }
)


def parts_page(kinds: Mapping[str, Kind]) -> str:
    """The front page of the library, as Markdown: all kinds by what they join, each with its page."""
    lines = ["# The part library", "", NOTE, "", f"{len(kinds)} kinds. A part needs no more than its kind."]
    lines += [
        "A quantity that must be given is marked so on the kind's page; every other has a default, and where a range",
        "stands beside it the default counts as an assumption and is tried over that range. Example files are put to",
        "the model by the tests.",
    ]
    for medium in (*_MEDIA_ORDER, "any", ""):
        here = [kind for kind in _in_order(kinds.values()) if _medium(kind) == medium]
        if here:
            lines += ["", f"## {_HEADINGS[medium]}", "", "| kind | |", "|---|---|"]
            lines += [f"| [{kind.name}]({page_name(kind)}) | {_first_sentence(kind.says)} |" for kind in here]
    return "\n".join(lines) + "\n"


def kind_page(kind: Kind) -> str:
    """The page of one kind, as Markdown: ports, quantities, laws, what can go wrong, and an example that runs."""
    return "\n".join([*_kind(kind), "", f"[All kinds](README.md) · {NOTE}"]) + "\n"


def page_name(kind: Kind) -> str:
    """The file name of a kind's page: letters, figures and hyphens only."""
    return re.sub(r"[^a-z0-9]+", "-", kind.name.lower()) + ".md"


def _medium(kind: Kind) -> str:
    """The medium under which a kind is listed: that of its first port, '' where it has none."""
    return (kind.ports[0].medium or "any") if kind.ports else ""


def _in_order(kinds: Iterable[Kind]) -> list[Kind]:
    return sorted(kinds, key=lambda kind: kind.name)


def _first_sentence(text: str) -> str:
    return text.split(". ")[0].rstrip(".") + "."


def _kind(kind: Kind) -> Iterator[str]:
    yield f"# {kind.name}"
    yield ""
    yield kind.says
    if kind.caution:
        yield from ("", f"> Caution: {kind.caution}")
    yield from _list("Ports", map(_port, kind.ports))
    yield from _list("Lists", (f"`{name}`: must be given; one port and one position each" for name in kind.lists))
    yield from _list("Controls", map(_control, kind.controls))
    yield from _wants(kind.wants)
    yield from _list("In order", map(_order, kind.orders))
    yield from _list("One or the other", (f"`{e.one}` or `{e.other}`. {e.says}" for e in kind.either))
    yield from _list("Tables", map(_table, kind.tables))
    yield from _list("Coupled by", map(_coupling, kind.couplings))
    yield from _list("Is", map(_state, kind.states))
    yield from _list("Reads", map(_reading, kind.readings))
    yield from _list("Can be set in `start:`", (f"{c.dimension} of the {c.element}" for c in kind.contents))
    yield from _list("Can go wrong", map(_failure, kind.failures))
    yield from _list("Laws", map(_law, kind.families))
    yield from _example(kind)


def _law(family: str) -> str:
    """A family with its formula, read from the docstring of its law."""
    text = inspect.getdoc(LAW_OF[family]) or ""
    says, formula = text.split("\n\n")[0].split(" (")[0].rstrip("."), text.split("\n\n")[1].strip()
    return f"**{family}**, {says[0].lower()}{says[1:]}: `{' '.join(formula.split())}`"


def _example(kind: Kind) -> Iterator[str]:
    """A small network and what is true of it."""
    if kind.example is None:
        return
    yield from ("", "Example, a file of `systems/`:", "", "```yaml", "system: Example", "parts:")
    yield from (f"  {line}" for line in kind.example.parts.strip().splitlines())
    if kind.example.lines:
        yield "lines:"
        yield from (f"  - {line}" for line in kind.example.lines.strip().splitlines())
    yield from ("```", "", "Of it these are true:", "", "```claim", *kind.example.claims, "```")


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


def _order(order: Order) -> str:
    how = {0.8: "at most four fifths of"}.get(order.share, "not above" if order.alike else "below")
    return f"`{order.lower}` {how} `{order.upper}`. {order.says}"


def _table(table: TableWant) -> str:
    columns = ", ".join(f"{column.name} ({column.dimension})" for column in table.columns)
    return f"`{table.name}:` {table.says} Columns: {columns}."


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
