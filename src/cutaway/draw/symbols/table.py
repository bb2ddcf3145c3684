"""Every symbol by its kind."""

from collections.abc import Mapping
from dataclasses import replace

from cutaway.draw.symbols import (
    air,
    compressed_air,
    contacts,
    dials,
    electrics,
    engines,
    lamps,
    machines,
    oil,
    oil_supply,
    oil_valves,
    petrol,
    petrol_supply,
    powerplant,
    rams,
    undercarriage,
)
from cutaway.draw.symbols.dials import PSI
from cutaway.draw.symbols.symbol import LINK_IN, LINK_OUT, Draw, Look, Symbol
from cutaway.draw.symbols.unknown import box, completed
from cutaway.parts.kind import Kind, Port

PETROL: Mapping[str, Draw] = {
    "tank": petrol.tank,
    "selector cock": petrol.selector_cock,
    "cock": petrol.cock,
    "cross-feed cock": petrol_supply.cross_feed_cock,
    "fuel filter": petrol.fuel_filter,
    "engine-driven fuel pump": petrol.engine_pump,
    "hand fuel pump": petrol.hand_pump,
    "immersed pump": petrol_supply.immersed_pump,
    "fuel non-return valve": petrol.non_return_valve,
    "fuel relief valve": petrol.relief_valve,
    "vent": petrol_supply.vent,
    "jettison valve": petrol_supply.jettison_valve,
    "collector box": petrol_supply.collector_box,
    "priming pump": petrol_supply.priming_pump,
    "carburettor": petrol.carburettor,
    "pressure-injection carburettor": petrol_supply.injection_carburettor,
    "slow-running cut-out": petrol_supply.slow_running_cut_out,
    "junction": petrol.junction,
    "fuel pressure gauge": dials.dial("P", "pressure", dials.fixed(10 * PSI)),
    "low-pressure lamp": dials.lamp,
    "contents gauge": dials.contents_gauge,
    "fuel flowmeter": petrol_supply.fuel_flowmeter,
}
ENGINES: Mapping[str, Draw] = {
    "engine": engines.engine,
    "supercharged engine": powerplant.supercharged_engine,
    "throttle": engines.throttle,
    "gated throttle": engines.gated_throttle,
    "magneto switch": engines.magneto_switch,
    "automatic boost control": powerplant.boost_control,
    "one-speed supercharger": powerplant.supercharger(gears=False),
    "two-speed supercharger": powerplant.supercharger(gears=True),
    "constant-speed airscrew": powerplant.airscrew,
    "automatic mixture": powerplant.automatic_mixture,
    "hot air intake": powerplant.hot_air_intake,
    "coolant circuit": powerplant.coolant_circuit,
    "radiator shutter": powerplant.radiator_shutter,
    "boost gauge": dials.boost_gauge,
    "rev counter": dials.dial("rpm", "speed", dials.fixed(400.0)),
    "thermometer": dials.dial("°C", "temperature", dials.wanted("full scale"), dials.FED, powerplant.FREEZING),
}
CURRENT: Mapping[str, Draw] = {
    "battery": electrics.battery,
    "generator": electrics.generator,
    "dynamo": machines.dynamo,
    "voltage regulator": machines.voltage_regulator,
    "generator cut-out": contacts.generator_cut_out,
    "external supply socket": machines.external_supply_socket,
    "bus": electrics.bus,
    "switch": electrics.switch,
    "push-button": contacts.push_button,
    "interlocked switch": contacts.interlocked_switch,
    "ground/flight switch": contacts.ground_flight_switch,
    "fuse": electrics.fuse,
    "circuit breaker": contacts.circuit_breaker,
    "relay": contacts.relay,
    "solenoid": contacts.solenoid,
    "dimmer": contacts.dimmer,
    "thermostat": contacts.thermostat,
    "microswitch": contacts.microswitch,
    "down-lock switch": contacts.lock_switch(up=False),
    "up-lock switch": contacts.lock_switch(up=True),
    "electrical load": electrics.load,
    "electric motor": machines.electric_motor,
    "electric starter": machines.electric_starter,
    "inverter": machines.inverter,
    "horn": machines.horn,
    "transmitter": machines.transmitter,
    "fire extinguisher bottle": machines.fire_bottle,
    "filament lamp": lamps.filament_lamp,
    "twin-filament lamp": lamps.twin_filament_lamp,
    "charging lamp": dials.lamp,
    "voltmeter": dials.dial("V", "voltage", dials.fixed(40.0)),
    "ammeter": dials.ammeter,
    "remote indicator": dials.dial("%", "position", dials.fixed(1.0), dials.FED),
}
AIR: Mapping[str, Draw] = {
    "vacuum pump": air.vacuum_pump,
    "suction relief valve": air.suction_relief_valve,
    "suction gauge": dials.dial("S", "suction", dials.fixed(5 * PSI)),
    "gyro instrument": air.gyro_instrument,
    "vacuum changeover cock": rams.changeover_cock,
    "air compressor": compressed_air.compressor,
    "charging regulator": compressed_air.unloader("compressor", air=True),
    "oil and water trap": compressed_air.water_trap,
    "air bottle": compressed_air.air_bottle,
    "air charging connection": compressed_air.charging_connection,
    "air non-return valve": petrol.non_return_valve,
    "air cock": petrol.cock,
    "pressure-maintaining valve": compressed_air.maintaining_valve,
    "pressure-reducing valve": compressed_air.reducing_valve,
    "air selector": compressed_air.air_selector,
    "air service": compressed_air.air_service,
    "solenoid valve": compressed_air.solenoid_valve,
    "brake relay valve": rams.brake_relay_valve,
    "brake": rams.brake,
    "ram": rams.ram,
    "air pressure gauge": dials.dial("P", "pressure", dials.fixed(600 * PSI)),
    "triple gauge": dials.triple_gauge,
}
OIL: Mapping[str, Draw] = {
    "reservoir": oil.reservoir,
    "hydraulic hand pump": petrol.hand_pump,
    "engine-driven hydraulic pump": petrol.engine_pump,
    "automatic cut-out": compressed_air.unloader("pump", air=False),
    "accumulator": oil_supply.accumulator,
    "emergency air bottle": oil_supply.emergency_bottle,
    "oil filter": petrol.fuel_filter,
    "oil relief valve": petrol.relief_valve,
    "oil non-return valve": petrol.non_return_valve,
    "selector valve": oil.selector_valve,
    "two-position selector": oil_valves.two_position_selector,
    "sequence valve": oil_valves.sequence_valve,
    "restrictor": oil_valves.restrictor,
    "one-way restrictor": oil_valves.one_way_restrictor,
    "hydraulic lock": oil_valves.hydraulic_lock,
    "shuttle valve": oil_valves.shuttle_valve,
    "jack": oil.jack,
    "flaps": engines.flaps,
    "leg": undercarriage.leg,
    "doors": undercarriage.doors,
    "safety bolt": undercarriage.safety_bolt,
    "mechanical indicator": undercarriage.mechanical_indicator,
    "position indicator": dials.position_indicator,
    "oil pressure gauge": dials.dial("P", "pressure", dials.fixed(2000 * PSI)),
}
SYMBOLS: Mapping[str, Draw] = {**PETROL, **ENGINES, **CURRENT, **AIR, **OIL}


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
