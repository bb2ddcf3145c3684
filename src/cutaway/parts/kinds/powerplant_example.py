"""The powerplant that the worked examples of the engine's kinds share: an invented engine of 1,180 hp."""

from cutaway.parts.kind import Example

_PARTS = """\
tank: {kind: tank, capacity: 100 gal, head: 1.5 m}
master cock: {kind: cock}
carburettor: {kind: carburettor, full flow: 140 gal/h, lowest pressure: 0.5 lb/sq in}
ignition: {kind: magneto switch}
battery: {kind: battery, capacity: 40 Ah, voltage: 24 V}
starter button: {kind: push-button}
starter: {kind: electric starter}
throttle: {kind: gated throttle}
airscrew: {kind: constant-speed airscrew, lowest speed: 1800 rpm, highest speed: 2850 rpm}
blower:
  kind: two-speed supercharger
  M boost: 9 lb/sq in
  M speed: 2850 rpm
  M full-throttle height: 5000 ft
  M power: 1180 hp
  S boost: 9 lb/sq in
  S speed: 2850 rpm
  S full-throttle height: 14000 ft
  S power: 1070 hp
boost control:
  kind: automatic boost control
  throttle: throttle
  boost at gate: 7 lb/sq in
  take-off boost: 9 lb/sq in
mixture: {kind: automatic mixture, weak below boost: 4 lb/sq in}
intake: {kind: hot air intake}
engine:
  kind: supercharged engine
  throttle: throttle
  fuel from: carburettor
  ignition: ignition
  supercharger: blower
  airscrew: airscrew
  boost control: boost control
  mixture: mixture
  hot air: intake
  starter: starter
"""
_LINES = "tank > master cock > carburettor\nbattery > starter button > starter"
_ONE_SPEED = """\
  kind: one-speed supercharger
  rated boost: 9 lb/sq in
  rated speed: 2850 rpm
  full-throttle height: 5000 ft
  rated power: 1180 hp
"""
_GIVEN = "with master cock on, with ignition both, with airscrew highest"


def powerplant(*claims: str, more: tuple[str, ...] = (), lines: str = "", one_speed: bool = False) -> Example:
    """The example of a kind. more: further parts, one each.

    claims: 'given | statement' is put as said of an engine that was started a minute ago, 'given | 10 min | statement'
    as said after that time; others as they are.
    """
    parts = _PARTS
    if one_speed:
        begins, ends = parts.index("  kind: two-speed"), parts.index("boost control:")
        parts = parts[:begins] + _ONE_SPEED + parts[ends:]
    parts += "".join(f"{one}\n" for one in more)
    return Example(parts, tuple(map(_claim, claims)), "\n".join(one for one in (_LINES, lines) if one))


def _claim(text: str) -> str:
    if " | " not in text:
        return text
    given, *wait, statement = text.split(" | ")
    each = "".join(f", with {one}" for one in given.split(", "))
    started = f"after starter button to pressed for 4 s then wait {wait[0] if wait else '60 s'}"
    return f"{_GIVEN}{each}, {started}, within 2 s: {statement}"
