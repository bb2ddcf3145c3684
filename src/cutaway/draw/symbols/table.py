"""Every symbol by its kind."""

from collections.abc import Mapping
from dataclasses import replace

from cutaway.draw.symbols import air, dials, electrics, engines, oil, petrol
from cutaway.draw.symbols.symbol import LINK_IN, LINK_OUT, Draw, Look, Symbol
from cutaway.draw.symbols.unknown import box, completed
from cutaway.parts.kind import Kind, Port

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
    symbol = draw(look) if draw else box(kind, ports, look)
    here = {LINK_IN, LINK_OUT, *(p.name for p in ports)}
    return completed(replace(symbol, anchors=tuple(a for a in symbol.anchors if a.port in here)), ports)


def ports_of(kind: Kind, look: Look) -> tuple[Port, ...]:
    """The ports of the part: those given `each` for an item of a list are repeated under the items' names."""
    found: list[Port] = []
    for port in kind.ports:
        names = look.lists.get(port.each, ()) if port.each else (port.name,)
        found += [Port(name, port.medium, port.side, port.default) for name in names]
    return tuple(found)
