"""Every symbol by its kind, and the labelled box of a kind that has none."""

from collections.abc import Mapping

from cutaway.draw.shapes import Rect
from cutaway.draw.symbols import air, dials, electrics, engines, oil, petrol
from cutaway.draw.symbols.symbol import LINK_IN, LINK_OUT, Anchor, Draw, Look, Symbol
from cutaway.parts.kind import Kind, Port, Side

PSI = 6894.76
"""About one lb/sq in, Pa: ends of dial scales, where exactness means nothing."""

SYMBOLS: Mapping[str, Draw] = {
    "tank": petrol.tank,
    "selector cock": petrol.selector_cock,
    "cock": petrol.cock,
    "fuel filter": petrol.fuel_filter,
    "engine-driven fuel pump": petrol.engine_pump,
    "hand fuel pump": petrol.hand_pump,
    "fuel non-return valve": petrol.non_return_valve,
    "fuel relief valve": petrol.relief_valve,
    "carburettor": petrol.carburettor,
    "junction": petrol.junction,
    "fuel pressure gauge": dials.dial("P", "pressure", dials.fixed(10 * PSI)),
    "low-pressure lamp": dials.lamp,
    "contents gauge": dials.contents_gauge,
    "engine": engines.engine,
    "throttle": engines.throttle,
    "magneto switch": engines.magneto_switch,
    "battery": electrics.battery,
    "generator": electrics.generator,
    "bus": electrics.bus,
    "switch": electrics.switch,
    "fuse": electrics.fuse,
    "electrical load": electrics.load,
    "charging lamp": dials.lamp,
    "voltmeter": dials.dial("V", "voltage", dials.fixed(20.0)),
    "vacuum pump": air.vacuum_pump,
    "suction relief valve": air.suction_relief_valve,
    "suction gauge": dials.dial("S", "suction", dials.fixed(5 * PSI)),
    "gyro instrument": air.gyro_instrument,
    "reservoir": oil.reservoir,
    "hydraulic hand pump": petrol.hand_pump,
    "oil relief valve": petrol.relief_valve,
    "oil non-return valve": petrol.non_return_valve,
    "selector valve": oil.selector_valve,
    "jack": oil.jack,
    "flaps": engines.flaps,
    "position indicator": dials.position_indicator,
    "oil pressure gauge": dials.dial("P", "pressure", dials.fixed(600 * PSI)),
}


def symbol_of(kind: Kind, look: Look) -> Symbol:
    """The symbol of a part: its kind's own, or a box; every port of the kind has an anchor on the port's side."""
    draw = SYMBOLS.get(kind.name)
    ports = ports_of(kind, look)
    return completed(draw(look) if draw else box(ports), ports)


def ports_of(kind: Kind, look: Look) -> tuple[Port, ...]:
    """The ports of the part: those given `each` for an item of a list are repeated under the items' names."""
    found: list[Port] = []
    for port in kind.ports:
        names = look.lists.get(port.each, ()) if port.each else (port.name,)
        found += [Port(name, port.medium, port.side, port.default) for name in names]
    return tuple(found)


def box(ports: tuple[Port, ...]) -> Symbol:
    """A plain box, large enough for its ports."""
    most = max((sum(1 for p in ports if p.side == side) for side in ("west", "east", "north", "south")), default=1)
    side = max(1.0, 0.4 * most)
    return Symbol((side, side), (), (Rect((0.0, 0.0), (side, side), "box", 0.06),))


def completed(symbol: Symbol, ports: tuple[Port, ...]) -> Symbol:
    """The symbol with an anchor, evenly placed along the side, for each port that it says nothing of."""
    told = {(a.port, a.side) for a in symbol.anchors}
    anchors = [a for a in symbol.anchors if a.port in (LINK_IN, LINK_OUT, *(p.name for p in ports))]
    for side in ("west", "east", "north", "south"):
        missing = [p for p in ports if p.side == side and (p.name, side) not in told]
        anchors += [
            Anchor(p.name, _along(symbol, p.side, (i + 1) / (len(missing) + 1)), p.side) for i, p in enumerate(missing)
        ]
    return Symbol(symbol.size, tuple(anchors), symbol.shapes, symbol.spread, symbol.top)


def _along(symbol: Symbol, side: Side, part: float) -> tuple[float, float]:
    width, height = symbol.size
    at = {
        "west": (0.0, height * part),
        "east": (width, height * part),
        "north": (width * part, 0.0),
        "south": (width * part, height),
    }
    return at[side]
